import type { Feature, HandWork, Part, SlotFeature, SurfaceFeature, Top } from '../parts/types.ts';
import type { Laser, Router, Shop } from '../profile/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { planBack } from './backs.ts';
import { planBeam } from './beam.ts';
import { beamRoom } from './beamRoom.ts';
import { settingFor } from './beamSetting.ts';
import { planChannels } from './channels.ts';
import { edgeTooHigh, holesInEdge, makeEdgeSetup } from './edgeSetup.ts';
import { type Place, type Planned, planHoles, planSlots } from './features.ts';
import { benchStepsOf, freeingSteps, handStepFor } from './handSteps.ts';
import { planLines } from './lines.ts';
import { planOutlines } from './outlines.ts';
import { planPockets } from './pockets.ts';
import { putInOrder, type Unordered } from './programOrder.ts';
import { riskyFeeds } from './riskyFeeds.ts';
import { routerJob } from './routerJob.ts';
import { fits, makeSetup } from './setup.ts';
import { tooHighForNut } from './spindleRoom.ts';
import { planSurfaces, topAfter } from './surfaces.ts';
import { tightBores } from './tightBores.ts';
import type { BeamJob, HandStep, Job, Setup } from './types.ts';
import { planUnderside } from './underside.ts';
import { unknownCorners } from './unknownCorners.ts';

export interface Plan {
  readonly jobs: readonly Job[];
  readonly handSteps: readonly HandStep[];
}

/** One kind of work on a part. */
interface Entry {
  readonly work: Feature['work'];
  readonly operation: string;
  readonly file: string;
}

/** Kinds of work in the order a part wants them: located holes first, the cut that frees it last. */
const SEQUENCE: readonly Entry[] = [
  { work: 'indexPins', operation: 'index pins', file: 'pins' },
  { work: 'fretSlots', operation: 'fret slots', file: 'slots' },
  { work: 'nutSeat', operation: 'nut seat', file: 'nut-seat' },
  { work: 'faceMarkers', operation: 'face markers', file: 'markers' },
  { work: 'bindingChannel', operation: 'binding channel', file: 'binding-channel' },
  { work: 'boardOutline', operation: 'outline', file: 'outline' },
  { work: 'sideMarkers', operation: 'side markers', file: 'side-markers' },
  { work: 'inlays', operation: 'inlays', file: '' },
  { work: 'neckBlank', operation: 'index pins and truss rod channel', file: 'channel' },
  { work: 'neckBack', operation: 'back', file: 'back' },
  { work: 'headstock', operation: 'tuner holes and outline', file: '' },
  { work: 'headVeneer', operation: 'tuner holes and outline', file: '' },
  { work: 'headTemplate', operation: 'lines, holes and outline', file: '' },
  { work: 'neckGauges', operation: 'outlines', file: '' },
  { work: 'jointTemplates', operation: 'lines, holes and outline', file: '' },
  { work: 'slotTemplate', operation: 'lines and outline', file: '' },
  { work: 'sideMarkerTemplate', operation: 'lines, holes and outline', file: '' },
  { work: 'pinTemplate', operation: 'lines, holes and outline', file: '' },
  { work: 'bridgeHoles', operation: 'string holes', file: 'holes' },
  { work: 'saddleSlot', operation: 'saddle slot', file: 'slot' },
  { work: 'bridgeOutline', operation: 'outline', file: 'outline' },
  { work: 'tieHoles', operation: 'tie block', file: 'tie-block' },
  { work: 'bridgeShape', operation: 'shaping', file: 'shape' },
  { work: 'saddleInPlace', operation: 'saddle slot in place', file: 'slot' },
  { work: 'bridgePlate', operation: 'holes and outline', file: '' },
  { work: 'bridgeJigs', operation: 'lines, holes and outline', file: '' },
  { work: 'pinCoupon', operation: 'trial holes', file: '' },
  { work: 'nutBlank', operation: 'nut', file: '' },
  { work: 'saddleBlank', operation: 'saddle', file: '' },
  { work: 'radiusBlock', operation: 'dowel holes and outlines', file: '' },
];

/** Nobody's machine does these. */
const BY_HAND: readonly HandWork[] = [
  'tieHoles',
  'bridgeShape',
  'saddleInPlace',
  'pinCoupon',
  'nutBlank',
  'saddleBlank',
];

const isByHand = (work: Feature['work']): work is HandWork => BY_HAND.some((hand) => hand === work);

/** Before everything else, while the blank's top is flat and can lie on a table. */
const UNDERSIDE: Entry = { work: 'boardUnderside', operation: 'underside', file: 'underside' };

const SURFACE: Entry = { work: 'boardSurface', operation: 'radius', file: 'surface' };

type Step =
  | { readonly kind: 'jobs'; readonly jobs: readonly Unordered[]; readonly handSteps: readonly HandStep[] }
  | { readonly kind: 'findings'; readonly findings: readonly Finding[] };

/** One job for each part, kind of work and tool; what the shop leaves to the hand becomes a named step. */
export function planJobs(parts: readonly Part[], shop: Shop): Outcome<Plan> {
  const steps = parts.flatMap((part) => planPart(part, shop));
  const findings = steps.flatMap((s) => (s.kind === 'findings' ? s.findings : []));
  if (findings.length > 0) return { ok: false, findings };
  const unordered = steps.flatMap((s) => (s.kind === 'jobs' ? s.jobs : []));
  const handSteps = steps.flatMap((s) => (s.kind === 'jobs' ? s.handSteps : []));
  const jobs = putInOrder(unordered);
  const warnings = [
    ...tooHighForNut(jobs),
    ...riskyFeeds(jobs),
    ...tightBores(jobs),
    ...unknownCorners(jobs),
  ];
  return { ok: true, value: { jobs, handSteps }, findings: warnings };
}

/** Each step finds the blank as the steps before have left its top. */
function planPart(part: Part, shop: Shop): Step[] {
  const surface = part.features.find((f) => f.kind === 'surface');
  let current = part;
  return [UNDERSIDE, ...sequenceFor(surface)].map((entry) => {
    const step = withBench(planStep(current, entry, shop), current, entry);
    const worked = entry === SURFACE && surface !== undefined && step.kind === 'jobs' && step.jobs.length > 0;
    if (worked) current = withTop(part, topAfter(surface, shop.surfacing.cusp));
    return step;
  });
}

/**
 * A board whose slots are meant for a radiused top is worked first, so that each slot has its depth everywhere. One meant to be
 * slotted flat is worked once slots and pockets are in, just before it is freed: all that depends on a height is cut from the flat.
 */
function sequenceFor(surface: SurfaceFeature | undefined): readonly Entry[] {
  if (surface === undefined) return SEQUENCE;
  if (surface.when === 'before the slots') return [SURFACE, ...SEQUENCE];
  return SEQUENCE.flatMap((entry) => (entry.work === 'boardOutline' ? [SURFACE, entry] : [entry]));
}

/** A step with what is done by hand after it, where there is any work of its kind. */
function withBench(step: Step, part: Part, { work }: Entry): Step {
  if (step.kind === 'findings' || !part.features.some((f) => f.work === work)) return step;
  return { ...step, handSteps: [...step.handSteps, ...benchStepsOf(part, work)] };
}

function withTop(part: Part, top: Top): Part {
  return { ...part, blank: { ...part.blank, top } };
}

function planStep(part: Part, entry: Entry, shop: Shop): Step {
  const features = part.features.filter((f) => f.work === entry.work);
  if (features.length === 0) return { kind: 'jobs', jobs: [], handSteps: [] };
  const who = isByHand(entry.work) ? 'hand' : shop.work[entry.work];
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
  entry: Entry,
  router: Router,
  shop: Shop,
): Step {
  if (entry === UNDERSIDE) {
    const planned = planUnderside(features, part, router, shop);
    return 'findings' in planned
      ? { kind: 'findings', findings: planned.findings }
      : { kind: 'jobs', jobs: planned.jobs, handSteps: [] };
  }
  const backs = features.filter((f) => f.kind === 'neck back');
  if (backs.length > 0) {
    const planned = planBack(backs, part, router, shop);
    return 'findings' in planned
      ? { kind: 'findings', findings: planned.findings }
      : { kind: 'jobs', jobs: planned.jobs, handSteps: [] };
  }
  const isOnEdge = features.some((f) => f.kind === 'edge hole');
  const setup = (isOnEdge ? makeEdgeSetup : makeSetup)(part, router, shop.keepOuts);
  const place: Place = { part, setup, router, shop };
  if (!fits(setup, router))
    return {
      kind: 'findings',
      findings: [isOnEdge ? edgeTooHigh(part, setup, router) : tooLarge(part, router, entry.work)],
    };
  const planned = planRouterFeatures(features, place);
  if ('findings' in planned) return { kind: 'findings', findings: planned.findings };
  const lines = features.filter((f) => f.kind === 'line');
  const scribed = planLines(lines, place);
  const work = [...(scribed === null ? [] : [scribed]), ...planned.work];
  const jobs = work.map((one, i) =>
    routerJob(one, {
      program: programName(part, entry.file, one.stage?.file ?? numberOf(i - (scribed === null ? 0 : 1))),
      part,
      operation: one.stage?.operation ?? entry.operation.replace(/^lines(,| and) /, ''),
      setup: one.stage?.setup ?? setup,
      router,
      below: router.intoSpoilboard,
    }),
  );
  const marked = scribed === null ? lines : [];
  const handSteps = [
    ...(marked.length === 0 ? [] : [handStepFor('lines', part, marked)]),
    ...freeingSteps(
      part,
      entry.work,
      jobs.flatMap((job) => job.operations),
    ),
  ];
  return { kind: 'jobs', jobs, handSteps };
}

/** The first program of its kind has no number. */
function numberOf(index: number): string {
  return index === 0 ? '' : String(index + 1);
}

function planRouterFeatures(features: readonly Feature[], place: Place): Planned {
  const kinds = [
    planIf(
      features.filter((f) => f.kind === 'surface'),
      place,
      planSurfaces,
    ),
    planIf(
      features.filter((f) => f.kind === 'hole'),
      place,
      planHoles,
    ),
    planIf(
      features.filter((f) => f.kind === 'edge hole'),
      place,
      (holes) => planHoles(holesInEdge(place.part, holes), place),
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
      features.filter((f) => f.kind === 'channel'),
      place,
      planChannels,
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

function planOnLaser(part: Part, features: readonly Feature[], entry: Entry, laser: Laser, shop: Shop): Step {
  const usable = features.filter((f) => f.kind === 'line' || f.kind === 'outline' || isSawn(f));
  if (usable.length < features.length)
    return { kind: 'findings', findings: [notForALaser(entry.work, laser)] };
  const chosen = settingFor(part, laser);
  if ('code' in chosen) return { kind: 'findings', findings: [chosen] };
  const { setting, source } = chosen;
  const tight = beamRoom(part, usable, setting.kerf, laser);
  if (tight.length > 0) return { kind: 'findings', findings: tight };
  const setup = makeBeamSetup(part, laser, shop);
  if (!isOnBed(setup, laser)) return { kind: 'findings', findings: [tooLarge(part, laser, entry.work)] };
  const job: Unordered = {
    kind: 'laser',
    program: programName(part, entry.file, ''),
    part,
    operation: entry.work === 'fretSlots' ? 'fret slot marks' : entry.operation,
    setup,
    machine: laser,
    kerf: setting.kerf,
    cut: {
      ...beamFeed(setting.cut, laser),
      passes: setting.cut.passes,
      pierce: setting.cut.pierce,
      overCut: setting.cut.overCut,
    },
    mark: beamFeed(setting.mark, laser),
    air: setting.air,
    source,
    operations: planBeam(usable, setup, setting),
  };
  const slots = features.filter((f) => f.kind === 'slot');
  const handSteps = slots.length === 0 ? [] : [handStepFor('fretSlots', part, slots)];
  return { kind: 'jobs', jobs: [job], handSteps };
}

/** A beam marks where a slot is to be sawn; the seat of a nut has a floor, which it cannot make. */
function isSawn(feature: Feature): feature is SlotFeature {
  return feature.kind === 'slot' && feature.work === 'fretSlots';
}

/** A laser is set to the panel's corner whatever the part. */
function makeBeamSetup(part: Part, laser: Laser, shop: Shop): Setup {
  const flat = part.features.filter((f) => f.kind !== 'slot' && f.kind !== 'surface');
  return makeSetup({ ...part, features: flat }, laser, shop.keepOuts);
}

/** Below this full power a whole S word is too coarse a step. */
const COARSE = 100;

function beamFeed(
  setting: { readonly power: number; readonly speed: number },
  laser: Laser,
): BeamJob['mark'] {
  const s = setting.power * laser.fullPower;
  return {
    s: laser.fullPower < COARSE ? Math.round(s * 1000) / 1000 : Math.round(s),
    feed: Math.min(setting.speed, laser.maxFeed),
  };
}

function isOnBed(setup: Setup, laser: Laser): boolean {
  return setup.stock.region.outer.every((v) => v.x <= laser.bed.x && v.y <= laser.bed.y);
}

function tooLarge(part: Part, machine: Router | Laser, work: Feature['work']): Finding {
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

function notForALaser(work: Feature['work'], laser: Laser): Finding {
  return {
    code: 'not-for-a-laser',
    severity: 'error',
    where: { source: 'shop', path: `work.${work}` },
    text: `${laser.name} cannot make holes or pockets to a depth in a board.`,
    allowed: 'a router, or hand',
    remedy: `set work.${work} to a router or to hand`,
  };
}
