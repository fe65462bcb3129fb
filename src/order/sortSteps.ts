import type { BuildStep, DeclaredStep } from './types.ts';

/**
 * The wanted steps, each after all that it names; where the graph leaves a choice, in the order declared. An unwanted step
 * hands on what it waits for, so that leaving one out loosens nothing. A circle, an unknown name or a name used twice throws: they
 * are faults of the list, not of a profile.
 */
export function sortSteps(declared: readonly DeclaredStep[]): BuildStep[] {
  const byId = new Map(declared.map((step) => [step.id, step]));
  if (byId.size !== declared.length) throw new Error('two steps of one name');
  const waits = new Map(declared.map((step) => [step.id, waitsFor(step, byId, [])]));
  const left = declared.filter((step) => step.wanted);
  const done = new Set<string>();
  const sorted: BuildStep[] = [];
  while (left.length > 0) {
    const at = left.findIndex((step) => [...(waits.get(step.id) ?? [])].every((id) => done.has(id)));
    const next = left[at];
    if (next === undefined) throw new Error(`steps in a circle: ${left.map((s) => s.id).join(', ')}`);
    left.splice(at, 1);
    done.add(next.id);
    const { wanted: _, ...step } = next;
    sorted.push({ ...step, after: nearest([...(waits.get(next.id) ?? [])], waits) });
  }
  return sorted;
}

/** The wanted steps that one waits for, through those that are not wanted. */
function waitsFor(
  step: DeclaredStep,
  byId: ReadonlyMap<string, DeclaredStep>,
  through: readonly string[],
): Set<string> {
  if (through.includes(step.id)) throw new Error(`steps in a circle: ${[...through, step.id].join(', ')}`);
  const ids = step.after.flatMap((id) => {
    const before = byId.get(id);
    if (before === undefined) throw new Error(`step ${step.id} waits for ${id}, which is no step`);
    return before.wanted ? [id] : [...waitsFor(before, byId, [...through, step.id])];
  });
  return new Set(ids);
}

/** Those that none of the others waits for already: what has to be named, no more. */
function nearest(ids: readonly string[], waits: ReadonlyMap<string, ReadonlySet<string>>): string[] {
  const implied = new Set(ids.flatMap((id) => [...allBefore(id, waits)]));
  return ids.filter((id) => !implied.has(id));
}

function allBefore(id: string, waits: ReadonlyMap<string, ReadonlySet<string>>): Set<string> {
  const direct = [...(waits.get(id) ?? [])];
  return new Set([...direct, ...direct.flatMap((before) => [...allBefore(before, waits)])]);
}
