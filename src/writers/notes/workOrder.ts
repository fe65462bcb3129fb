import type { HandStep, Job } from '../../machining/types.ts';
import type { Feature, Part } from '../../parts/types.ts';

/** One thing to do on a part: run a program, or a step by hand. */
export type WorkItem =
  | { readonly kind: 'program'; readonly job: Job; readonly works: readonly Feature['work'][] }
  | { readonly kind: 'hand'; readonly step: HandStep; readonly works: readonly Feature['work'][] };

export interface PartWork {
  readonly part: Part;
  readonly items: readonly WorkItem[];
}

/** A fingerboard wants its located holes first and its edges last, its side markers in the finished edge. */
const ORDER: readonly Feature['work'][] = [
  'indexPins',
  'fretSlots',
  'faceMarkers',
  'slotTemplate',
  'pinTemplate',
  'radiusBlock',
  'boardOutline',
  'sideMarkers',
];

/** Programs and hand steps of each part in the order in which they are done; programs keep their own order. */
export function workOrder(
  parts: readonly Part[],
  jobs: readonly Job[],
  handSteps: readonly HandStep[],
): PartWork[] {
  refuseStrays(parts, [...jobs.map((job) => job.part.id), ...handSteps.map((step) => step.part)]);
  return parts.map((part) => {
    const programs = jobs
      .filter((job) => job.part.id === part.id)
      .sort((a, b) => a.order - b.order)
      .map(
        (job): WorkItem => ({
          kind: 'program',
          job,
          works: worksOf(
            part,
            job.operations.map((o) => o.feature),
          ),
        }),
      );
    const hand = handSteps
      .filter((step) => step.part === part.id)
      .map((step): WorkItem => ({ kind: 'hand', step, works: worksOf(part, step.features) }));
    return { part, items: merge(programs, hand) };
  });
}

function refuseStrays(parts: readonly Part[], ids: readonly string[]): void {
  const stray = ids.find((id) => !parts.some((part) => part.id === id));
  if (stray !== undefined) throw new Error(`work on ${stray}, which is no part`);
}

/** Each hand step goes before the first item whose work comes later than its own. */
function merge(programs: readonly WorkItem[], hand: readonly WorkItem[]): WorkItem[] {
  return hand.reduce<WorkItem[]>(
    (items, step) => {
      const before = items.findIndex((item) => rank(item) > rank(step));
      const at = before < 0 ? items.length : before;
      return [...items.slice(0, at), step, ...items.slice(at)];
    },
    [...programs],
  );
}

function rank(item: WorkItem): number {
  return Math.min(...item.works.map((w) => ORDER.indexOf(w)), ORDER.length);
}

function worksOf(part: Part, ids: readonly string[]): Feature['work'][] {
  const works = ids.flatMap((id) =>
    // A slot that is only marked carries its slot's name behind `mark-`.
    part.features.filter((f) => f.id === id || `mark-${f.id}` === id).map((f) => f.work),
  );
  return [...new Set(works)];
}
