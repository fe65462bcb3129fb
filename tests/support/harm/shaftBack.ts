/** Height of a neck's back, written down again from what the intent file says of it and from nothing else. */
import type { ShaftBack } from '../../../src/intent/types.ts';

export function backAt(back: ShaftBack, x: number, y: number): number {
  const { stations, halfWidth, grown, raised, base, least, top, ramps } = back;
  const along = (name: 'depth' | 'shoulder' | 'back'): number => {
    const [first, last] = [stations[0], stations.at(-1)];
    if (first === undefined || last === undefined) throw new Error('a back without stations');
    if (x <= first.x) return first[name][0] + first[name][1] * (x - first.x);
    if (x >= last.x) return last[name][0] + last[name][1] * (x - last.x);
    const right = stations.findIndex((s) => s.x >= x);
    const [a, b] = [stations[right - 1] ?? first, stations[right] ?? last];
    const h = b.x - a.x;
    const t = (x - a.x) / h;
    const [t2, t3] = [t * t, t * t * t];
    return (
      (2 * t3 - 3 * t2 + 1) * a[name][0] +
      (t3 - 2 * t2 + t) * h * a[name][1] +
      (3 * t2 - 2 * t3) * b[name][0] +
      (t3 - t2) * h * b[name][1]
    );
  };
  const w = halfWidth[0] + halfWidth[1] * x + grown;
  const ramp = top - ramps.rise * Math.min(x - ramps.x[0], ramps.x[1] - x);
  const heights = [least, ramp, base];
  if (Math.abs(y) < w) {
    const [d, s, b] = [along('depth') + grown, along('shoulder'), along('back')];
    let [low, high] = [0, 1];
    for (let i = 0; i < 60; i += 1) {
      const t = (low + high) / 2;
      if (bezier(1, 1, b, 0, t) * w > Math.abs(y)) low = t;
      else high = t;
    }
    heights.push(base + d * bezier(0, s, 1, 1, low));
  }
  return Math.min(top, Math.max(...heights) + raised);
}

/** A cubic Bezier ordinate by de Casteljau's construction. */
function bezier(p0: number, p1: number, p2: number, p3: number, t: number): number {
  const mix = (a: number, b: number): number => a + (b - a) * t;
  const [a, b, c] = [mix(p0, p1), mix(p1, p2), mix(p2, p3)];
  return mix(mix(a, b), mix(b, c));
}
