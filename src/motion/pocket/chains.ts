import type { Lap } from '../../geometry/kernel/laps.ts';

/** Numbers of laps run one after the other without a break, inmost first. */
export type Chain = readonly number[];

/**
 * Laps in chains: each lap of a chain but the first has just the one before it inside it, and is the only one around that
 * one. Where ways split or join, chains end.
 */
export function chainsOf(laps: readonly Lap[]): Chain[] {
  const around = laps.map((_, n) => laps.flatMap((lap, m) => (lap.inside.includes(n) ? [m] : [])));
  const goesOn = (n: number): number | null => {
    const [next, ...others] = around[n] ?? [];
    return next !== undefined && others.length === 0 && laps[next]?.inside.length === 1 ? next : null;
  };
  const later = new Set(laps.flatMap((_, n) => goesOn(n) ?? []));
  return laps.flatMap((_, n) => (later.has(n) ? [] : [from(n, goesOn)]));
}

function from(n: number, goesOn: (n: number) => number | null): number[] {
  const chain = [n];
  for (let next = goesOn(n); next !== null; next = goesOn(next)) chain.push(next);
  return chain;
}
