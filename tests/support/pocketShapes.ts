import { circle, rectangle, reverse, ringFromPoints } from '../../src/geometry/ring.ts';
import type { Region, Ring, Vec } from '../../src/geometry/types.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import type { PocketOperation, RouterJob } from '../../src/machining/types.ts';
import type { Part } from '../../src/parts/types.ts';
import type { MaterialClass, Shop } from '../../src/profile/types.ts';
import type { Finding } from '../../src/report/finding.ts';
import { workshop } from './instrument.ts';

const whole = (outer: Ring): Region => ({ outer, holes: [] });

/** A star of five points about (30, 30): inner corners of 36 degrees where the tips are. */
function star(tip: number, notch: number): Ring {
  return ringFromPoints(
    Array.from({ length: 10 }, (_, i): Vec => {
      const angle = Math.PI / 2 + (i * Math.PI) / 5;
      const radius = i % 2 === 0 ? tip : notch;
      return [30 + radius * Math.cos(angle), 30 + radius * Math.sin(angle)];
    }),
  );
}

/** A smooth outline of one-degree chords without any symmetry. */
function blob(size: number): Ring {
  return ringFromPoints(
    Array.from({ length: 360 }, (_, i): Vec => {
      const a = (i * Math.PI) / 180;
      const radius = size * (1 + 0.27 * Math.cos(2 * a + 0.5) + 0.13 * Math.sin(3 * a));
      return [30 + radius * Math.cos(a), 30 + radius * Math.sin(a)];
    }),
  );
}

/** A square about (30, 30) with rounded corners. */
export function roundedSquare(side: number, corner: number): Ring {
  const [far, near] = [side / 2, side / 2 - corner];
  const bulge = Math.tan(Math.PI / 8);
  const corners: [Vec, Vec][] = [
    [
      [-near, -far],
      [near, -far],
    ],
    [
      [far, -near],
      [far, near],
    ],
    [
      [near, far],
      [-near, far],
    ],
    [
      [-far, near],
      [-far, -near],
    ],
  ];
  return corners.flatMap(([from, to]) => [
    { x: 30 + from[0], y: 30 + from[1], bulge: 0 },
    { x: 30 + to[0], y: 30 + to[1], bulge },
  ]);
}

/** Two rooms 15 by 12 mm joined by a passage 10 mm long and `width` wide. */
export function rooms(width: number): Ring {
  const [low, high] = [16 - width / 2, 16 + width / 2];
  return ringFromPoints([
    [10, 10],
    [25, 10],
    [25, low],
    [35, low],
    [35, 10],
    [50, 10],
    [50, 22],
    [35, 22],
    [35, high],
    [25, high],
    [25, 22],
    [10, 22],
  ]);
}

/** Pockets on a board of 70 by 60 mm. */
export const SHAPES = {
  round: whole(circle([30, 30], 20)),
  square: whole(rectangle({ x: [10, 50], y: [10, 50] })),
  'rounded square': whole(roundedSquare(40, 2)),
  'small rounded square': whole(roundedSquare(6, 1)),
  diamond: whole(
    ringFromPoints([
      [22, 30],
      [30, 25],
      [38, 30],
      [30, 35],
    ]),
  ),
  star: whole(star(12, 4.58)),
  'ring with an island': { outer: circle([30, 30], 20), holes: [reverse(circle([30, 30], 8))] },
  'free form': whole(blob(15)),
  'two rooms': whole(rooms(4)),
  'barely wider than the cutter': whole(roundedSquare(2.3, 1)),
} as const satisfies Record<string, Region>;

/** The same and two more, whose ways and air are measured. */
export const MEASURED = {
  ...SHAPES,
  'small square': whole(rectangle({ x: [26, 34], y: [26, 34] })),
  'large star': whole(star(20, 7.64)),
} as const satisfies Record<string, Region>;

export interface PocketPlan {
  readonly jobs: readonly RouterJob[];
  readonly findings: readonly Finding[];
}

export interface PocketSetting {
  readonly depth?: number;
  /** Diameters of the flat cutters that there are; all of the workshop's when left out. */
  readonly cutters?: readonly number[];
  readonly direction?: Shop['pockets']['direction'];
  readonly allowance?: number;
  readonly materialClass?: MaterialClass;
  readonly machines?: Shop['machines'];
}

const PLANS = new Map<string, PocketPlan>();

/** Programs that cut pockets into a part made by hand; the same plan for the same question. */
export function planPocketPart(regions: readonly Region[], setting: PocketSetting = {}): PocketPlan {
  const question = JSON.stringify([regions, setting]);
  const plan = PLANS.get(question) ?? makePlan(regions, setting);
  PLANS.set(question, plan);
  return plan;
}

function makePlan(regions: readonly Region[], setting: PocketSetting): PocketPlan {
  const depth = setting.depth ?? 2;
  const part: Part = {
    id: 'board',
    title: 'Board',
    material: 'maple',
    materialClass: setting.materialClass ?? 'hardwood',
    blank: { box: { x: [0, 70], y: [0, 60] }, thickness: 8, top: { kind: 'plane', z: 0 } },
    features: regions.map((region, i) => ({
      id: `pocket-${i + 1}`,
      work: 'faceMarkers',
      kind: 'pocket',
      region,
      floor: { kind: 'plane', z: -depth },
    })),
    datum: 'lower left corner',
  };
  const { cutters } = setting;
  const plan = planJobs([part], {
    ...workshop,
    machines: setting.machines ?? workshop.machines,
    tools: workshop.tools.filter((t) => cutters === undefined || cutters.includes(t.diameter)),
    pockets: { direction: setting.direction ?? 'climb', allowance: setting.allowance ?? null },
  });
  if (!plan.ok) return { jobs: [], findings: plan.findings };
  const jobs = plan.value.jobs.flatMap((job) => {
    const cuts = job.kind === 'router' && job.operations.length > 0;
    return cuts ? [job] : [];
  });
  return { jobs, findings: [] };
}

/** The only pocket operation of a job. */
export function pocketOf(job: RouterJob | undefined): PocketOperation {
  const [operation, ...more] = job?.operations ?? [];
  if (operation?.kind !== 'pocket' || more.length > 0) throw new Error('not a single pocket');
  return operation;
}

/** The first job, which must be there. */
export function firstJob(plan: PocketPlan): RouterJob {
  const [job] = plan.jobs;
  if (job === undefined) throw new Error(JSON.stringify(plan.findings));
  return job;
}
