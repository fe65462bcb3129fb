import type { BridgeWork } from '../bridge/types.ts';
import type { NeckSet } from '../neck/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Sheet } from '../sheet/types.ts';
import type { DeclaredStep, Doer } from './types.ts';

/** A program or a hand step, with the part it works on and the kinds of features it makes there. */
export interface Task {
  readonly part: string;
  readonly partTitle: string;
  readonly works: readonly string[];
  readonly doer: Doer;
}

/** All that the order of work is derived from. */
export interface OrderFacts {
  readonly instrument: Instrument;
  readonly sheet: Sheet;
  /** Null where the action is measured at a fret from which heights do not follow. */
  readonly bridge: BridgeWork | null;
  /** Null where the profile says nothing of the joint. */
  readonly neck: NeckSet | null;
  /** In the order in which they are done. */
  readonly tasks: readonly Task[];
}

type Given = Pick<DeclaredStep, 'id' | 'title' | 'after' | 'does'> & Partial<DeclaredStep>;

/** A step with nothing in what it does not say. */
export function declare(given: Given): DeclaredStep {
  return {
    numbers: [],
    doers: [],
    jigs: [],
    cautions: [],
    hold: null,
    wanted: true,
    ...given,
  };
}

/** Who makes one kind of feature; nobody where the instrument has none of it. */
export function doersOf({ tasks }: OrderFacts, work: string): Doer[] {
  return tasks.filter(({ works }) => works.includes(work)).map(({ doer }) => doer);
}

/** Whether a machine makes it. */
export function byMachine(facts: OrderFacts, work: string): boolean {
  const doers = doersOf(facts, work);
  return doers.length > 0 && doers.every(({ kind }) => kind === 'program');
}

/** Ids of the steps that make what a later one uses; none where this build makes none. */
export function makersOf({ tasks }: OrderFacts, work: string): string[] {
  const parts = tasks.filter(({ works }) => works.includes(work)).map(({ part }) => makingStep(part));
  return [...new Set(parts)];
}

/** Id of the step that makes a part as a whole. */
export const makingStep = (part: string): string => `make-${part}`;

/** Whether one program makes both. */
export function inOneRun(facts: OrderFacts, one: string, other: string): boolean {
  const files = doersOf(facts, one).map((doer) => (doer.kind === 'program' ? doer.file : null));
  return doersOf(facts, other).some((doer) => doer.kind === 'program' && files.includes(doer.file));
}
