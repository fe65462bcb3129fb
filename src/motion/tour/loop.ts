/** A closed round of nodes, who stands at which place, and every exchange since the log was emptied. */
export interface Loop {
  readonly nodes: Int32Array;
  readonly places: Int32Array;
  /** Four nodes an exchange. */
  readonly log: number[];
}

/** A round in the given order. */
export function loopOf(order: readonly number[]): Loop {
  const places = new Int32Array(order.length);
  order.forEach((node, place) => {
    places[node] = place;
  });
  return { nodes: Int32Array.from(order), places, log: [] };
}

/** The node after a node. */
export function after(loop: Loop, node: number): number {
  const place = (loop.places[node] as number) + 1;
  return loop.nodes[place === loop.nodes.length ? 0 : place] as number;
}

/** The node before a node. */
export function before(loop: Loop, node: number): number {
  const place = loop.places[node] as number;
  return loop.nodes[place === 0 ? loop.nodes.length - 1 : place - 1] as number;
}

/** Whether b is met on the way from a forward to c. */
export function isBetween(loop: Loop, a: number, b: number, c: number): boolean {
  const pa = loop.places[a] as number;
  const pb = loop.places[b] as number;
  const pc = loop.places[c] as number;
  return pa <= pc ? pa <= pb && pb <= pc : pb >= pa || pb <= pc;
}

/**
 * Takes the steps a-b and c-d out and puts a-c and b-d in, by turning one stretch round. b must follow a as d
 * follows c, both forward or both backward.
 */
export function exchange(loop: Loop, a: number, b: number, c: number, d: number): void {
  loop.log.push(a, b, c, d);
  turnFor(loop, a, b, c, d);
}

/** Undoes exchanges, latest first, until the log is as long as it was. */
export function undoTo(loop: Loop, length: number): void {
  const { log } = loop;
  while (log.length > length) {
    const [a, b, c, d] = log.splice(log.length - 4, 4) as [number, number, number, number];
    turnFor(loop, a, c, b, d);
  }
}

function turnFor(loop: Loop, a: number, b: number, c: number, d: number): void {
  if (after(loop, a) === b) turn(loop, b, c);
  else turn(loop, a, d);
}

/**
 * Turns the stretch from one node forward to another round, or all the rest, whichever is shorter: the round
 * is the same.
 */
function turn(loop: Loop, from: number, to: number): void {
  const { nodes, places } = loop;
  const count = nodes.length;
  let i = places[from] as number;
  let j = places[to] as number;
  let length = j - i + 1;
  if (length <= 0) length += count;
  if (2 * length > count) {
    length = count - length;
    const first = j + 1 === count ? 0 : j + 1;
    j = i === 0 ? count - 1 : i - 1;
    i = first;
  }
  for (let swaps = length >> 1; swaps > 0; swaps -= 1) {
    const first = nodes[i] as number;
    const last = nodes[j] as number;
    nodes[i] = last;
    places[last] = i;
    nodes[j] = first;
    places[first] = j;
    i = i + 1 === count ? 0 : i + 1;
    j = j === 0 ? count - 1 : j - 1;
  }
}
