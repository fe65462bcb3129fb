/**
 * Random numbers that are the same every time: G. Marsaglia, Xorshift RNGs, J. Stat. Softw. 8(14) (2003), 32 bits with the
 * shifts 13, 17, 5. Good enough to shake inputs; nothing hangs on secrecy.
 */

/** A source of numbers evenly spread over -1 to 1. The seed may be any whole number but 0. */
export function evenlySpread(seed: number): () => number {
  let state = seed | 0;
  if (state === 0) throw new Error('a seed of 0 gives only zeros');
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state / 0x80000000;
  };
  // A small seed begins with small numbers.
  for (let i = 0; i < 20; i += 1) next();
  return next;
}
