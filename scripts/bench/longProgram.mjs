// A long program for readers: a seeded wander in steps of a millimetre or so, lines and quarter arcs, all
// words that
// a job of ours would hold. Every interpreter of the language takes it.
import { closeSync, openSync, writeSync } from 'node:fs';

/** Writes a program of `count` lines to a file. */
export function writeLongProgram(path, count) {
  const file = openSync(path, 'w');
  const random = randomFrom(20_260_611);
  const state = { x: 0, y: 0, z: -1 };
  let chunk = [
    'G21 G17 G90 G94',
    'G40 G49 G54 G61',
    'G80',
    'G0 Z5',
    'M3 S18000',
    'G4 P0.001',
    'G0 X0 Y0',
    'G1 Z-1 F300',
  ];
  let lines = chunk.length;
  const end = ['G0 Z5', 'M5', 'G0 X0 Y0', 'M2'];
  while (lines < count - end.length) {
    chunk.push(nextLine(state, random));
    lines += 1;
    if (chunk.length >= 10_000) {
      writeSync(file, `${chunk.join('\n')}\n`);
      chunk = [];
    }
  }
  writeSync(file, `${[...chunk, ...end].join('\n')}\n`);
  closeSync(file);
}

function nextLine(state, random) {
  const kind = random(20);
  if (kind < 3) return quarterArc(state, random);
  move(state, 'x', random);
  move(state, 'y', random);
  if (kind === 3) state.z = -1 - random(20_000) / 10_000;
  const z = kind === 3 ? ` Z${text(state.z)}` : '';
  const feed = kind < 6 ? ` F${300 + random(600)}` : '';
  return `G1 X${text(state.x)} Y${text(state.y)}${z}${feed}`;
}

/** From the west of its centre to the north (clockwise) or south: both radii are the same digits. */
function quarterArc(state, random) {
  const radius = (1000 + random(20_000)) / 10_000;
  const clockwise = state.y < 0;
  const turned = state.x > 100;
  const dx = turned ? -radius : radius;
  state.x += dx;
  state.y += clockwise ? radius : -radius;
  const word = clockwise !== turned ? 'G2' : 'G3';
  return `${word} X${text(state.x)} Y${text(state.y)} I${text(dx)} J0`;
}

/** About a millimetre, back toward the middle from far out. */
function move(state, axis, random) {
  const step = (random(20_000) - 10_000) / 10_000;
  state[axis] += Math.abs(state[axis]) > 150 ? -Math.sign(state[axis]) * Math.abs(step) : step;
}

function text(value) {
  return value.toFixed(4);
}

/** Xorshift, G. Marsaglia, J. Stat. Softw. 8(14), 2003. */
function randomFrom(seed) {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}
