/**
 * The back of a neck as an intent file describes it (see `ShaftBack`): its height, how steep it is, and how deep a tool goes below it.
 *
 * A solid below the highest of several surfaces is the union of the solids below each, so a tool is as deep in it as in the one that it
 * is deepest in.
 */
import type { Run, ShaftBack } from '../../intent/types.ts';
import { at } from './at.ts';

/** A section at x, the sizes grown, with their slopes along x. */
interface Section {
  readonly w: number;
  readonly d: number;
  readonly s: number;
  readonly b: number;
  readonly dw: number;
  readonly dd: number;
  readonly ds: number;
  readonly db: number;
}

type Name = 'depth' | 'shoulder' | 'back';

function sectionAt({ stations, halfWidth, grown }: ShaftBack, x: number): Section {
  const next = stations.findIndex((station) => x <= station.x);
  const right = next < 0 ? stations.length - 1 : next;
  const left = next < 0 ? right : Math.max(0, right - 1);
  const [a, b] = [at(stations, left), at(stations, right)];
  const run = (name: Name): Run => runBetween(a.x, a[name], b.x, b[name], x);
  const [depth, shoulder, back] = [run('depth'), run('shoulder'), run('back')];
  return {
    w: halfWidth[0] + halfWidth[1] * x + grown,
    d: depth[0] + grown,
    s: shoulder[0],
    b: back[0],
    dw: halfWidth[1],
    dd: depth[1],
    ds: shoulder[1],
    db: back[1],
  };
}

/** The cubic through two values with two slopes, and its own slope; straight on outside. */
function runBetween(xa: number, [ya, ma]: Run, xb: number, [yb, mb]: Run, x: number): Run {
  if (xa === xb || x <= xa) return [ya + ma * (x - xa), ma];
  if (x >= xb) return [yb + mb * (x - xb), mb];
  const h = xb - xa;
  const t = (x - xa) / h;
  const rise = (yb - ya) / h;
  // Newton's form: ya + ma t h + (rise - ma) t^2 h + (ma + mb - 2 rise) t^2 (t - 1) h.
  const bend = ma + mb - 2 * rise;
  const y = ya + h * t * (ma + t * (rise - ma + bend * (t - 1)));
  return [y, ma + 2 * t * (rise - ma) + bend * t * (3 * t - 2)];
}

/** Shares of half width and depth at `t`, and their slopes along t. */
const acrossShare = (b: number, t: number): number => (1 - t) * ((1 - t) * (1 + 2 * t) + 3 * t * t * b);
const acrossSlope = (b: number, t: number): number => 3 * t * (2 * (1 - t) * (b - 1) - t * b);
const upShare = (s: number, t: number): number => t * (3 * (1 - t) * ((1 - t) * s + t) + t * t);
const upSlope = (s: number, t: number): number => 3 * (1 - t) * ((1 - t) * s + 2 * t * (1 - s));

/** Where the edge of a section is so far out: t of |y| = w `share`, by Newton's rule kept between two bounds. */
function placeAcross(b: number, share: number): number {
  let [low, high] = [0, 1];
  // Near the side share = 1 - 3 (1 - b) t^2, near the middle 3 b (1 - t).
  let t = Math.min(1, Math.sqrt(Math.max(0, 1 - share) / (3 * (1 - b))));
  for (let i = 0; i < 60; i += 1) {
    const off = acrossShare(b, t) - share;
    if (off > 0) low = t;
    else high = t;
    const step = off / acrossSlope(b, t);
    const newton = t - step;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) < 1e-14) return next;
    t = next;
  }
  return t;
}

/** The sections alone; the foot of their sides past either edge. */
export function sectionHeight(surface: ShaftBack, x: number, y: number): number {
  const section = sectionAt(surface, x);
  const share = Math.abs(y) / section.w;
  const foot = surface.base + surface.raised;
  if (!(share < 1)) return foot;
  return foot + section.d * upShare(section.s, placeAcross(section.b, share));
}

/** A ramp's height at x, whether or not it is the highest there. */
function rampHeight({ ramps: { x: ends, rise }, top, raised }: ShaftBack, x: number, end: 0 | 1): number {
  return top + raised - rise * (end === 0 ? x - ends[0] : ends[1] - x);
}

/** Functions of x and y each of which curves downward across y; the surface below its top is the highest of them. */
export function sheetsOf(surface: ShaftBack): readonly ((x: number, y: number) => number)[] {
  return [
    (x, y) => sectionHeight(surface, x, y),
    () => surface.least + surface.raised,
    (x) => rampHeight(surface, x, 0),
    (x) => rampHeight(surface, x, 1),
  ];
}

/** Height of the back at a point. */
export function shaftHeight(surface: ShaftBack, x: number, y: number): number {
  const other = Math.max(
    surface.least + surface.raised,
    rampHeight(surface, x, 0),
    rampHeight(surface, x, 1),
  );
  if (other >= surface.top) return surface.top;
  return Math.min(surface.top, Math.max(other, sectionHeight(surface, x, y)));
}

/** Share of an upright distance that lies square to the surface. */
export function shaftSquareShare(surface: ShaftBack, x: number, y: number): number {
  const height = shaftHeight(surface, x, y);
  if (height > sectionHeight(surface, x, y)) {
    const isLevel = height === surface.top || height === surface.least + surface.raised;
    return isLevel ? 1 : 1 / Math.hypot(1, surface.ramps.rise);
  }
  const [gx, gy] = gradient(surface, x, y);
  return 1 / Math.hypot(1, gx, gy);
}

/** How the height of the sections changes along x and y. */
function gradient(surface: ShaftBack, x: number, y: number): readonly [number, number] {
  const section = sectionAt(surface, x);
  const { w, d, s, b, dw, dd, ds, db } = section;
  const share = Math.abs(y) / w;
  if (!(share < 1)) return [0, 0];
  const t = placeAcross(b, share);
  const u = 1 - t;
  const across = w * acrossSlope(b, t);
  const alongT = d * upSlope(s, t);
  // At a fixed y the place t moves with x: w' Y + w Y_b b' + w Y_t t' = 0.
  const drift = -(dw * share + w * 3 * u * t * t * db) / across;
  const gx = dd * upShare(s, t) + d * 3 * u * u * t * ds + alongT * drift;
  return [gx, (alongT / across) * Math.sign(y)];
}

/** Highest point of the surface under a disc of radius `r`. */
export function highestOfShaft(surface: ShaftBack, x: number, y: number, r: number): number {
  const other = Math.max(
    surface.least + surface.raised,
    rampHeight(surface, x - r, 0),
    rampHeight(surface, x + r, 1),
  );
  if (other >= surface.top) return surface.top;
  return Math.min(surface.top, Math.max(other, highestSection(surface, x, y, r)));
}

/** Turns tried to either side of the steepest rise, radians: the slope hardly turns over a cutter's radius. */
const TURNS = [0, 0.02, -0.02, 0.08, -0.08];

/** Of the sections: at the disc's middle line where it reaches that, else on its rim, toward the middle and a little along x. */
function highestSection(surface: ShaftBack, x: number, y: number, r: number): number {
  if (Math.abs(y) <= r) {
    const half = Math.sqrt(r * r - y * y);
    return Math.max(...[-half, 0, half].map((along) => sectionHeight(surface, x + along, 0)));
  }
  let turn = Math.atan2(-Math.sign(y), 0);
  for (let look = 0; look < 4; look += 1) {
    const [gx, gy] = gradient(surface, x + r * Math.cos(turn), y + r * Math.sin(turn));
    if (gx === 0 && gy === 0) break;
    turn = Math.atan2(gy, gx);
  }
  return Math.max(
    ...TURNS.map((off) => sectionHeight(surface, x + r * Math.cos(turn + off), y + r * Math.sin(turn + off))),
  );
}

/** How deep a ball of radius `r` with its lowest point at (x, y, z) goes below the surface; its top's edge is not counted. */
export function ballInShaft(surface: ShaftBack, x: number, y: number, z: number, r: number): number {
  const { ramps, least, raised } = surface;
  const level = Math.hypot(1, ramps.rise);
  const inRamps = ([0, 1] as const).map((end) => r - (z + r - rampHeight(surface, x, end)) / level);
  return Math.max(least + raised - z, ...inRamps, r - toSections(surface, x, y, z + r));
}

/** Places that the nearest point is looked for from. */
const LOOKS = 9;

/** Distance of a point from the sections, negative below them. */
function toSections(surface: ShaftBack, x: number, y: number, z: number): number {
  const foot = surface.base + surface.raised;
  const [out, up] = [Math.abs(y), z - foot];
  let station = x;
  let distance = 0;
  // The nearest point lies a little along x: a section's side leans by a few hundredths.
  for (let look = 0; look < 4; look += 1) {
    const section = sectionAt(surface, station);
    const t = nearestOn(section, out, up);
    const { w, d, s, b, dw, dd, ds, db } = section;
    const u = 1 - t;
    const [py, pz] = [w * acrossShare(b, t), d * upShare(s, t)];
    const [ry, rz] = [out - py, up - pz];
    const [gy, gz] = [
      dw * acrossShare(b, t) + w * 3 * u * t * t * db,
      dd * upShare(s, t) + d * 3 * u * u * t * ds,
    ];
    const along = x - station;
    distance = Math.hypot(along, ry, rz);
    const step = (along + ry * gy + rz * gz) / (1 + gy * gy + gz * gz);
    if (Math.abs(step) < 1e-9) break;
    station += step;
  }
  return z < sectionHeight(surface, x, y) ? -distance : distance;
}

/** The place of a half section nearest to a point: a look at a few places, then Newton's rule about the best. */
function nearestOn({ w, d, s, b }: Section, out: number, up: number): number {
  let [best, least] = [0, Number.POSITIVE_INFINITY];
  for (let k = 0; k < LOOKS; k += 1) {
    const t = k / (LOOKS - 1);
    const [y, z] = [out - w * acrossShare(b, t), up - d * upShare(s, t)];
    const square = y * y + z * z;
    if (square < least) [best, least] = [t, square];
  }
  let [low, high] = [Math.max(0, best - 1 / (LOOKS - 1)), Math.min(1, best + 1 / (LOOKS - 1))];
  let t = best;
  for (let i = 0; i < 40; i += 1) {
    const pull =
      (out - w * acrossShare(b, t)) * w * acrossSlope(b, t) + (up - d * upShare(s, t)) * d * upSlope(s, t);
    if (pull > 0) low = t;
    else high = t;
    const [gy, gz] = [w * acrossSlope(b, t), d * upSlope(s, t)];
    const newton = t + pull / (gy * gy + gz * gz);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) < 1e-12) return next;
    t = next;
  }
  return t;
}

/** Least radius that a section is curved with, looked for at each station and between. */
export function leastRadiusOf(surface: ShaftBack): number {
  const known = RADII.get(surface);
  if (known !== undefined) return known;
  const xs = surface.stations.map(({ x }) => x);
  const places = xs.flatMap((x, i) => [x, (x + (xs[i + 1] ?? x)) / 2]);
  const radii = places.flatMap((x) => {
    const section = sectionAt(surface, x);
    return Array.from({ length: 65 }, (_, k) => radiusAt(section, k / 64));
  });
  const least = Math.min(...radii);
  RADII.set(surface, least);
  return least;
}

/** What was reckoned once for a surface, which never changes. */
const RADII = new WeakMap<ShaftBack, number>();

function radiusAt({ w, d, s, b }: Section, t: number): number {
  const u = 1 - t;
  const [y1, z1] = [w * acrossSlope(b, t), d * upSlope(s, t)];
  const y2 = 6 * w * ((u - t) * (b - 1) - t * b);
  const z2 = 6 * d * (-u * s + (u - t) * (1 - s));
  const bend = Math.abs(y1 * z2 - z1 * y2);
  return bend === 0 ? Number.POSITIVE_INFINITY : Math.hypot(y1, z1) ** 3 / bend;
}
