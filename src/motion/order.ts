import type { Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';

/** Things in an order of short travel: nearest next, then crossings undone (2-opt) until none shortens the way. */
export function shortTravel<T>(things: readonly T[], placeOf: (thing: T) => Vec, start: Vec): T[] {
  const tour = nearestNext(things, placeOf, start);
  const point = (i: number): Vec => {
    const thing = tour[i];
    return thing === undefined ? start : placeOf(thing);
  };
  let better = true;
  while (better) {
    better = false;
    for (let i = 0; i < tour.length - 1; i += 1) {
      for (let j = i + 1; j < tour.length; j += 1) {
        if (gainOfTurning(point, i, j, tour.length) > 1e-9) {
          tour.splice(i, j - i + 1, ...tour.slice(i, j + 1).reverse());
          better = true;
        }
      }
    }
  }
  return tour;
}

/** How much shorter the open way becomes when its stretch from i to j is run backward; it starts before 0. */
function gainOfTurning(point: (i: number) => Vec, i: number, j: number, count: number): number {
  const before = distance(point(i - 1), point(i)) - distance(point(i - 1), point(j));
  if (j === count - 1) return before;
  return before + distance(point(j), point(j + 1)) - distance(point(i), point(j + 1));
}

function nearestNext<T>(things: readonly T[], placeOf: (thing: T) => Vec, start: Vec): T[] {
  const left = [...things];
  const tour: T[] = [];
  let here = start;
  while (left.length > 0) {
    const distances = left.map((thing) => distance(here, placeOf(thing)));
    const [next] = left.splice(distances.indexOf(Math.min(...distances)), 1);
    if (next === undefined) throw new Error('a tour lost a stop');
    tour.push(next);
    here = placeOf(next);
  }
  return tour;
}
