// Cutting time of each router program against the least there can be: what is removed, at the most the tool may
// remove in a minute. That is its width times the step down times the feed; for a drill its depth at the feed
// down; for a scribed line one pass. Ramps, returns, finishing passes and narrow rings come on top.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { load } from './bundle.mjs';
import { everyProgram } from './jobs.mjs';
import { round } from './measure.mjs';
import { measurePockets } from './pockets.mjs';

/** Points along and across a region at which its depth is looked at. */
const SAMPLES = 200;

const MODULES = "export { surfaceAt } from './tests/support/harm/wood.ts';";

export async function measureCutting(folder) {
  const { surfaceAt } = await load(folder, 'surfaces.mjs', MODULES);
  const rows = everyProgram(folder).flatMap(({ job, folder: made, program }) =>
    rowsOf(made, program, job, surfaceAt),
  );
  return {
    title: 'cutting time against what is removed at the fullest rate',
    notes: [
      "Both in minutes; the time is the machine's by its acceleration. Programs that cut nothing and beams are left out.",
    ],
    rows,
    more: [await measurePockets(folder)],
  };
}

function rowsOf(folder, program, { instrument, shop }, surfaceAt) {
  const file = JSON.parse(readFileSync(join(folder, program.intent.path), 'utf8'));
  const intents = file.stages ?? [file];
  const cutters = intents.filter((intent) => intent.tool.kind !== 'beam' && intent.cuts.length > 0);
  if (cutters.length === 0) return [];
  const least = cutters.reduce((sum, intent) => sum + leastMinutes(intent, surfaceAt), 0);
  return [
    {
      instrument,
      shop,
      program: program.path.replace('programs/', ''),
      cuttingMinutes: round(program.time.cutting, 2),
      leastMinutes: round(least, 2),
      times: round(program.time.cutting / least, 2),
    },
  ];
}

function leastMinutes(intent, surfaceAt) {
  const { tool, limits } = intent;
  return intent.cuts.reduce((sum, cut) => {
    if (cut.kind === 'drill')
      return sum + depthAt(intent, cut, ...middleOf(cut.region[0]), surfaceAt) / limits.plungeFeed;
    if (cut.kind === 'line') return sum + wayOf(cut.line) / limits.feed[1];
    const rate = tool.diameter * limits.stepDown * limits.feed[1];
    return sum + volumeOf(intent, cut, surfaceAt) / rate;
  }, 0);
}

function volumeOf(intent, cut, surfaceAt) {
  if (cut.kind === 'separate') {
    const depth =
      intent.stock.top.kind === 'plane' ? intent.stock.top.z - intent.stock.bottom : -intent.stock.bottom;
    const tabs = cut.tabs.reduce((sum, tab) => sum + tab.length * tab.height, 0);
    return (lengthOf(cut.keep[0]) * depth - tabs) * intent.tool.diameter;
  }
  if (cut.region === null) return 0;
  const ring = flat(cut.region[0]);
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  const [dx, dy] = [(Math.max(...xs) - x0) / SAMPLES, (Math.max(...ys) - y0) / SAMPLES];
  let volume = 0;
  for (let i = 0; i < SAMPLES; i += 1)
    for (let j = 0; j < SAMPLES; j += 1) {
      const [x, y] = [x0 + (i + 0.5) * dx, y0 + (j + 0.5) * dy];
      if (holds(ring, x, y)) volume += depthAt(intent, cut, x, y, surfaceAt) * dx * dy;
    }
  return volume;
}

function depthAt({ stock }, cut, x, y, surfaceAt) {
  const bottom = cut.through ? stock.bottom : surfaceAt(cut.floor, x, y);
  return Math.max(0, surfaceAt(stock.top, x, y) - bottom);
}

/** Points of a ring, its arcs in chords. */
function flat(ring) {
  return ring.flatMap(([x, y, bulge = 0], i) => {
    const [u, v] = ring[(i + 1) % ring.length];
    const count = bulge === 0 ? 1 : 64;
    return Array.from({ length: count }, (_, k) => pointOn(x, y, u, v, bulge, k / count));
  });
}

/** bulge = tan(a quarter of the angle); the centre lies (1 - b^2) / 4b chords to the left of the middle. */
function pointOn(x, y, u, v, bulge, t) {
  if (bulge === 0) return [x + (u - x) * t, y + (v - y) * t];
  const off = (1 - bulge * bulge) / (4 * bulge);
  const [cx, cy] = [(x + u) / 2 - (v - y) * off, (y + v) / 2 + (u - x) * off];
  const angle = 4 * Math.atan(bulge) * t;
  const [dx, dy] = [x - cx, y - cy];
  return [cx + dx * Math.cos(angle) - dy * Math.sin(angle), cy + dx * Math.sin(angle) + dy * Math.cos(angle)];
}

function lengthOf(ring) {
  const points = flat(ring);
  return points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length];
    return sum + Math.hypot(p[0] - q[0], p[1] - q[1]);
  }, 0);
}

function wayOf(points) {
  return points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i][0], y - points[i][1]), 0);
}

function middleOf(ring) {
  const points = flat(ring);
  return [0, 1].map((axis) => points.reduce((sum, p) => sum + p[axis], 0) / points.length);
}

function holds(ring, x, y) {
  const crossings = ring.filter((p, i) => {
    const q = ring[(i + 1) % ring.length];
    return p[1] > y !== q[1] > y && p[0] + ((q[0] - p[0]) * (y - p[1])) / (q[1] - p[1]) > x;
  });
  return crossings.length % 2 === 1;
}
