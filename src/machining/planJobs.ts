import type { Feature, Part } from '../parts/types.ts';
import type { Laser, Router, Shop, Work } from '../profile/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { planBeam, settingFor } from './beam.ts';
import { type Place, type Planned, planHoles, planPockets, planSlots } from './features.ts';
import { chooseFeeds } from './feeds.ts';
import { handStepFor } from './handSteps.ts';
import { planOutlines } from './outlines.ts';
import { fits, makeSetup } from './setup.ts';
import type { BeamJob, HandStep, Job, RouterJob, Setup } from './types.ts';

export interface Plan {
  readonly jobs: readonly Job[];
  readonly handSteps: readonly HandStep[];
}

/** Kinds of work in the order a part wants them: located holes first, the cut that frees it last. */
const SEQUENCE: readonly {
  readonly work: Feature['work'];
  readonly operation: string;
  readonly file: string;
}[] = [
  { work: 'indexPins', operation: 'index pins', file: 'pins' },
  { work: 'fretSlots', operation: 'fret slots', file: 'slots' },
  { work: 'faceMarkers', operation: 'face markers', file: 'markers' },
  { work: 'sideMarkers', operation: 'side markers', file: 'side-markers' },
  { work: 'boardOutline', operation: 'outline', file: 'outline' },
  { work: 'slotTemplate', operation: 'lines and outline', file: '' },
  { work: 'pinTemplate', operation: 'lines, holes and outline', file: '' },
  { work: 'radiusBlock', operation: 'dowel holes and outlines', file: '' },
];

type Step =
  | { readonly kind: 'jobs'; readonly jobs: readonly Unordered[]; readonly handSteps: readonly HandStep[] }
  | { readonly kind: 'findings'; readonly findings: readonly Finding[] };

type Unordered = Omit<RouterJob, 'order' | 'after'> | Omit<BeamJob, 'order' | 'after'>;

/** One job for each part, kind of work and tool; what the shop leaves to the hand becomes a named step. */
export function planJobs(parts: readonly Part[], shop: Shop): Outcome<Plan> {
  const steps = parts.flatMap((part) => SEQUENCE.map((entry) => planStep(part, entry, shop)));
  const findings = steps.flatMap((s) => (s.kind === 'findings' ? s.findings : []));
  if (findings.length > 0) return { ok: false, findings };
  const unordered = steps.flatMap((s) => (s.kind === 'jobs' ? s.jobs : []));
  const handSteps = steps.flatMap((s) => (s.kind === 'jobs' ? s.handSteps : []));
  return { ok: true, value: { jobs: putInOrder(unordered), handSteps }, findings: [] };
}

function putInOrder(jobs: readonly Unordered[]): Job[] {
  return jobs.map((job, i) => ({
    ...job,
    order: i + 1,
    after: jobs
      .slice(0, i)
      .filter((earlier) => earlier.part.id === job.part.id)
      .map((earlier) => earlier.program),
  }));
}

function planStep(part: Part, entry: (typeof SEQUENCE)[number], shop: Shop): Step {
  const features = part.features.filter((f) => f.work === entry.work);
  if (features.length === 0) return { kind: 'jobs', jobs: [], handSteps: [] };
  const who = entry.work === 'sideMarkers' ? 'hand' : shop.work[entry.work];
  const machine = shop.machines.find((m) => m.id === who);
  if (machine === undefined)
    return { kind: 'jobs', jobs: [], handSteps: [handStepFor(entry.work, part, features)] };
  return machine.kind === 'laser'
    ? planOnLaser(part, features, entry, machine, shop)
    : planOnRouter(part, features, entry, machine, shop);
}

function programName(part: Part, file: string, suffix: string): string {
  return `${[part.id, file, suffix].filter((s) => s !== '').join('-')}.nc`;
}

function planOnRouter(
  part: Part,
  features: readonly Feature[],
  entry: (typeof SEQUENCE)[number],
  router: Router,
  shop: Shop,
): Step {
  const setup = makeSetup(part, shop.keepOuts);
  const place: Place = { part, setup, router, shop };
  if (!fits(setup, router)) return { kind: 'findings', findings: [tooLarge(part, router, entry.work)] };
  const planned = planRouterFeatures(features, place);
  if ('findings' in planned) return { kind: 'findings', findings: planned.findings };
  const jobs = planned.work.map(({ tool, operations }, i) => ({
    kind: 'router' as const,
    program: programName(part, entry.file, i === 0 ? '' : String(i + 1)),
    part,
    operation: entry.operation,
    setup,
    machine: router,
    tool,
    feeds: chooseFeeds(tool, part.materialClass, router),
    below: router.intoSpoilboard,
    operations,
  }));
  const lines = features.filter((f) => f.kind === 'line');
  const handSteps = lines.length === 0 ? [] : [handStepFor('lines', part, lines)];
  return { kind: 'jobs', jobs, handSteps };
}

function planRouterFeatures(features: readonly Feature[], place: Place): Planned {
  const kinds = [
    planIf(
      features.filter((f) => f.kind === 'hole'),
      place,
      planHoles,
    ),
    planIf(
      features.filter((f) => f.kind === 'slot'),
      place,
      planSlots,
    ),
    planIf(
      features.filter((f) => f.kind === 'pocket'),
      place,
      planPockets,
    ),
    planIf(
      features.filter((f) => f.kind === 'outline'),
      place,
      planOutlines,
    ),
  ];
  const findings = kinds.flatMap((k) => ('findings' in k ? k.findings : []));
  if (findings.length > 0) return { findings };
  return { work: kinds.flatMap((k) => ('work' in k ? k.work : [])) };
}

function planIf<T>(
  features: readonly T[],
  place: Place,
  plan: (features: readonly T[], place: Place) => Planned,
): Planned {
  return features.length === 0 ? { work: [] } : plan(features, place);
}

function planOnLaser(
  part: Part,
  features: readonly Feature[],
  entry: (typeof SEQUENCE)[number],
  laser: Laser,
  shop: Shop,
): Step {
  const usable = features.filter((f) => f.kind === 'line' || f.kind === 'outline' || f.kind === 'slot');
  if (usable.length < features.length)
    return { kind: 'findings', findings: [notForALaser(entry.work, laser)] };
  const setting = settingFor(part, laser);
  if ('code' in setting) return { kind: 'findings', findings: [setting] };
  const setup = makeBeamSetup(part, shop);
  if (!isOnBed(setup, laser)) return { kind: 'findings', findings: [tooLarge(part, laser, entry.work)] };
  const job: Unordered = {
    kind: 'laser',
    program: programName(part, entry.file, ''),
    part,
    operation: entry.work === 'fretSlots' ? 'fret slot marks' : entry.operation,
    setup,
    machine: laser,
    kerf: setting.kerf,
    cut: beamFeed(setting.cut, laser),
    mark: { ...beamFeed({ ...setting.mark, passes: 1 }, laser) },
    operations: planBeam(usable, setup),
  };
  const slots = features.filter((f) => f.kind === 'slot');
  const handSteps = slots.length === 0 ? [] : [handStepFor('fretSlots', part, slots)];
  return { kind: 'jobs', jobs: [job], handSteps };
}

/** A laser is set to the panel's corner whatever the part. */
function makeBeamSetup(part: Part, shop: Shop): Setup {
  return makeSetup({ ...part, features: part.features.filter((f) => f.kind !== 'slot') }, shop.keepOuts);
}

function beamFeed(
  setting: { readonly power: number; readonly speed: number; readonly passes: number },
  laser: Laser,
): BeamJob['cut'] {
  return {
    s: Math.round(setting.power * laser.fullPower),
    feed: Math.min(setting.speed, laser.maxFeed),
    passes: setting.passes,
  };
}

function isOnBed(setup: Setup, laser: Laser): boolean {
  return setup.stock.region.outer.every((v) => v.x <= laser.bed.x && v.y <= laser.bed.y);
}

function tooLarge(part: Part, machine: Router | Laser, work: keyof Work | 'sideMarkers'): Finding {
  const { x, y } = part.blank.box;
  const room = machine.kind === 'router' ? machine.travel : machine.bed;
  return {
    code: 'blank-too-large-for-machine',
    severity: 'error',
    where: { source: 'shop', path: `work.${work}` },
    text: `The blank of ${part.title.toLowerCase()}, ${(x[1] - x[0]).toFixed(1)} by ${(y[1] - y[0]).toFixed(1)} mm, does not fit ${machine.name}.`,
    allowed: `${room.x} by ${room.y} mm with room around it`,
    remedy: 'let another machine or the hand do this work (work: in the shop file)',
  };
}

function notForALaser(work: keyof Work | 'sideMarkers', laser: Laser): Finding {
  return {
    code: 'not-for-a-laser',
    severity: 'error',
    where: { source: 'shop', path: `work.${work}` },
    text: `${laser.name} cannot make holes or pockets to a depth in a board.`,
    allowed: 'a router, or hand',
    remedy: `set work.${work} to a router or to hand`,
  };
}
