import type { HandStep, Job } from '../../machining/types.ts';
import type { Feature, Part } from '../../parts/types.ts';

/** One thing to do on a part: run a program, or a step by hand. */
export type WorkItem =
  | {
      readonly kind: 'program';
      /** One, or one for each tool of a program that changes tools. */
      readonly jobs: readonly [Job, ...Job[]];
      readonly works: readonly Feature['work'][];
    }
  | { readonly kind: 'hand'; readonly step: HandStep; readonly works: readonly Feature['work'][] };

export interface PartWork {
  readonly part: Part;
  readonly items: readonly WorkItem[];
}

/** A fingerboard wants its located holes first and its edges last, its side markers in the finished edge. */
const ORDER: readonly Feature['work'][] = [
  'boardUnderside',
  'indexPins',
  'fretSlots',
  'nutSeat',
  'faceMarkers',
  'bindingChannel',
  'boardSurface',
  'neckBlank',
  'neckBack',
  'headstock',
  'headVeneer',
  'headTemplate',
  'neckGauges',
  'jointTemplates',
  'slotTemplate',
  'sideMarkerTemplate',
  'pinTemplate',
  'radiusBlock',
  'bridgeHoles',
  'saddleSlot',
  'bridgeOutline',
  'tieHoles',
  'bridgeShape',
  'saddleInPlace',
  'bridgePlate',
  'bridgeJigs',
  'pinCoupon',
  'nutBlank',
  'saddleBlank',
  'boardOutline',
  'sideMarkers',
];

/** Whether a job only looks: round the corners of the blank above the wood, spindle off. */
export function isWalkRound(job: Job): boolean {
  return job.operations.length === 0;
}

/** Programs and hand steps of each part in the order in which they are done; programs keep their own order. */
export function workOrder(
  parts: readonly Part[],
  jobs: readonly Job[],
  handSteps: readonly HandStep[],
): PartWork[] {
  refuseStrays(parts, [...jobs.map((job) => job.part.id), ...handSteps.map((step) => step.part)]);
  return parts.map((part) => {
    const programs = byProgram(jobs.filter((job) => job.part.id === part.id)).map(
      (program): WorkItem => ({
        kind: 'program',
        jobs: program,
        works: worksOf(
          part,
          program.flatMap((job) => job.operations.map((o) => o.feature)),
        ),
      }),
    );
    const hand = handSteps
      .filter((step) => step.part === part.id)
      .map((step): WorkItem => ({ kind: 'hand', step, works: worksOfStep(part, step) }));
    return { part, items: merge(programs, hand, orderOf(part)) };
  });
}

/** Jobs of one program together, programs in their order. */
function byProgram(jobs: readonly Job[]): [Job, ...Job[]][] {
  const programs: [Job, ...Job[]][] = [];
  for (const job of [...jobs].sort((a, b) => a.order - b.order)) {
    const known = programs.find(([first]) => first.program === job.program);
    if (known === undefined) programs.push([job]);
    else known.push(job);
  }
  return programs;
}

function refuseStrays(parts: readonly Part[], ids: readonly string[]): void {
  const stray = ids.find((id) => !parts.some((part) => part.id === id));
  if (stray !== undefined) throw new Error(`work on ${stray}, which is no part`);
}

/** Each hand step goes before the first item whose work comes later than its own. */
function merge(
  programs: readonly WorkItem[],
  hand: readonly WorkItem[],
  order: readonly Feature['work'][],
): WorkItem[] {
  return hand.reduce<WorkItem[]>(
    (items, step) => {
      const before = items.findIndex((item) => rank(item, order) > rank(step, order));
      const at = before < 0 ? items.length : before;
      return [...items.slice(0, at), step, ...items.slice(at)];
    },
    [...programs],
  );
}

/** A board whose slots are meant for a radiused top is worked to its radius before anything else. */
function orderOf(part: Part): readonly Feature['work'][] {
  const isFirst = part.features.some((f) => f.kind === 'surface' && f.when === 'before the slots');
  const [underside = 'boardUnderside', ...rest] = ORDER.filter((work) => work !== 'boardSurface');
  return isFirst ? [underside, 'boardSurface', ...rest] : ORDER;
}

/** A walk round makes nothing and comes before all that does. */
function rank(item: WorkItem, order: readonly Feature['work'][]): number {
  if (item.kind === 'program' && item.jobs.every(isWalkRound)) return -1;
  return Math.min(...item.works.map((w) => order.indexOf(w)), order.length);
}

function worksOfStep(part: Part, step: HandStep): Feature['work'][] {
  return step.follows === undefined ? worksOf(part, step.features) : [step.follows];
}

function worksOf(part: Part, ids: readonly string[]): Feature['work'][] {
  const works = ids.flatMap((id) =>
    // A slot that is only marked carries its slot's name behind `mark-`, a surface before its last passes behind `rough-`,
    // each corner that a cutter left of a pocket behind `rest-of-`, with a number.
    part.features
      .filter(
        (f) => [f.id, `mark-${f.id}`, `rough-${f.id}`].includes(id) || id.startsWith(`rest-of-${f.id}-`),
      )
      .map((f) => f.work),
  );
  return [...new Set(works)];
}
