/** Random numbers that come out the same everywhere for the same seed. */
export interface Random {
  /** From 0 to below 1. */
  readonly share: () => number;
  /** A whole number from 0 to below `count`. */
  readonly below: (count: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
  readonly sign: () => 1 | -1;
  /** Between two numbers above 0, small ones as often as large ones. */
  readonly size: (least: number, most: number) => number;
}

/** One 32-bit word of state, mixed by multiplication and shifts (T. Ettinger's mulberry32, public domain; from memory). */
export function randomFrom(seed: number): Random {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  const share = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const below = (count: number): number => Math.floor(share() * count);
  const pick = <T>(list: readonly T[]): T => {
    const item = list[below(list.length)];
    if (item === undefined) throw new Error('nothing to pick from');
    return item;
  };
  return {
    share,
    below,
    pick,
    sign: () => (share() < 0.5 ? 1 : -1),
    size: (least, most) => least * (most / least) ** share(),
  };
}
