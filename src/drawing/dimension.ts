/** Lengths written beside what they measure: extension lines, a line between them with a tick at each end, and the figure over it. */
import type { Vec } from '../geometry/types.ts';
import { formatShort } from '../units/format.ts';
import { line } from './shapes.ts';
import type { Shape } from './types.ts';

/** Height of the figures, millimetres (a preferred size of ISO 3098). */
const FIGURES = 2.5;
/** Between a dimension line and its figure; extension lines go on past the line by as much. */
const GAP = 1;
/** Half of an oblique tick, along x and y. */
const TICK = 1;

/** The distance in x between two points, on a level line at `y`. */
export function levelDimension(a: Vec, b: Vec, y: number, label = ''): Shape[] {
  const [from, to] = a[0] <= b[0] ? [a, b] : [b, a];
  const middle: Vec = [(from[0] + to[0]) / 2, y + GAP];
  return [
    line([from[0], y], [to[0], y]),
    ...[from, to].flatMap(([x, start]) => [...extension([x, start], [x, y]), tick([x, y])]),
    figure(middle, words(to[0] - from[0], label), 0),
  ];
}

/** The distance in y between two points, on an upright line at `x`; the figure reads from the right. */
export function uprightDimension(a: Vec, b: Vec, x: number, label = ''): Shape[] {
  const [from, to] = a[1] <= b[1] ? [a, b] : [b, a];
  const middle: Vec = [x - GAP, (from[1] + to[1]) / 2];
  return [
    line([x, from[1]], [x, to[1]]),
    ...[from, to].flatMap(([start, y]) => [...extension([start, y], [x, y]), tick([x, y])]),
    figure(middle, words(to[1] - from[1], label), Math.PI / 2),
  ];
}

function words(length: number, label: string): string {
  const figures = formatShort(length, 2);
  return label === '' ? figures : `${label} ${figures}`;
}

/** From what is measured, or a little beside it, to past the dimension line. */
function extension(from: Vec, to: Vec): Shape[] {
  const [dx, dy] = [Math.sign(to[0] - from[0]), Math.sign(to[1] - from[1])];
  const away = Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1]);
  if (away <= 2 * GAP) return [];
  return [line([from[0] + dx * GAP, from[1] + dy * GAP], [to[0] + dx * GAP, to[1] + dy * GAP])];
}

function tick([x, y]: Vec): Shape {
  return line([x - TICK, y - TICK], [x + TICK, y + TICK]);
}

/** Lettering whose middle is about at a place: a letter is taken as two thirds of its height wide. */
function figure([x, y]: Vec, text: string, angle: number): Shape {
  const half = (text.length * FIGURES) / 3;
  const at: Vec = [x - half * Math.cos(angle), y - half * Math.sin(angle)];
  return { kind: 'text', at, height: FIGURES, angle, text };
}
