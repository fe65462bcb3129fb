import { isInArea, pointOf } from '../geometry/area.ts';
import { clearanceBetween } from '../geometry/clearance.ts';
import { type Lettering, letter } from '../geometry/lettering/letter.ts';
import type { Box, Vec } from '../geometry/types.ts';

/** A text that is wanted on a part. */
export interface TextWish {
  /** Ids of its lines begin with it. */
  readonly id: string;
  /** In the letters that the face has. */
  readonly text: string;
  /** Where its middle may lie. */
  readonly within: Box;
  /** Where its middle lies best. */
  readonly near: Vec;
}

export interface PlacedText {
  readonly wish: TextWish;
  readonly strokes: readonly (readonly Vec[])[];
  /** Corners of the box about all its letters. */
  readonly box: readonly Vec[];
}

/** What letters keep clear of: closed outlines, and lines as outlines of two points. */
export interface Ground {
  /** Letters stay inside it. */
  readonly outline: readonly Vec[];
  readonly obstacles: readonly (readonly Vec[])[];
}

/** Between letters and anything else (common practice, no source). Millimetres. */
const CLEAR = 1;
/** From one line of letters to the next, as a share of their height. */
const LEADING = 1.6;
/** Places are tried this far apart. Millimetres. */
const STEP = 1;

/** Each text in turn at the free place nearest to where it is wanted; null where there is none. */
export function placeTexts(
  wishes: readonly TextWish[],
  height: number,
  ground: Ground,
): readonly { readonly wish: TextWish; readonly placed: PlacedText | null }[] {
  let obstacles = [...ground.obstacles];
  return wishes.map((wish) => {
    const placed = placeText(wish, height, { ...ground, obstacles });
    if (placed !== null) obstacles = [...obstacles, placed.box];
    return { wish, placed };
  });
}

function placeText(wish: TextWish, height: number, ground: Ground): PlacedText | null {
  const centres = centresOf(wish);
  const fences = fencesOf(ground);
  for (const block of blocksOf(wish.text, height)) {
    for (const upright of [true, false]) {
      const size: Vec = upright ? [block.width, block.height] : [block.height, block.width];
      const centre = centres.find((at) => isFree(boxAbout(at, size), ground.outline, fences));
      if (centre !== undefined) return { wish, ...settle(block, centre, upright, size) };
    }
  }
  return null;
}

/** Middles to try, the nearest first. */
function centresOf({ within: { x, y }, near }: TextWish): Vec[] {
  const along = stepsOf(x);
  return along
    .flatMap((cx) => stepsOf(y).map((cy): Vec => [cx, cy]))
    .map((at) => ({ at, off: Math.hypot(at[0] - near[0], at[1] - near[1]) }))
    .sort((a, b) => a.off - b.off || a.at[0] - b.at[0] || a.at[1] - b.at[1])
    .map(({ at }) => at);
}

function stepsOf([from, to]: readonly [number, number]): number[] {
  const count = Math.max(0, Math.floor((to - from) / STEP));
  const first = (from + to - count * STEP) / 2;
  return Array.from({ length: count + 1 }, (_, i) => first + i * STEP);
}

interface Block {
  readonly lines: readonly Lettering[];
  readonly width: number;
  readonly height: number;
  readonly cap: number;
}

/** The text in one line, then broken between words into ever more of them. */
function blocksOf(text: string, cap: number): Block[] {
  const words = text.split(' ');
  return words.map((_, i) => {
    const lines = broken(words, i + 1).map((line) => letter(line, cap));
    return {
      lines,
      width: Math.max(...lines.map((l) => l.width)),
      height: cap * (1 + LEADING * (lines.length - 1)) + DESCENT * cap,
      cap,
    };
  });
}

/** Room below the line for letters that hang under it, as a share of the height of a capital: seven of twenty-one units. */
const DESCENT = 1 / 3;

/** Words in at most `count` lines, the longest of them as short as can be. */
function broken(words: readonly string[], count: number): string[] {
  const [first = '', ...rest] = words;
  if (count === 1 || rest.length === 0) return [words.join(' ')];
  const ways = words
    .slice(0, -1)
    .map((_, i) => [words.slice(0, i + 1).join(' '), ...broken(words.slice(i + 1), count - 1)]);
  const longest = (way: readonly string[]): number => Math.max(...way.map((line) => line.length));
  return ways.reduce((best, way) => (longest(way) < longest(best) ? way : best), ways[0] ?? [first]);
}

function boxAbout([x, y]: Vec, [width, height]: Vec): Vec[] {
  return [
    [x - width / 2, y - height / 2],
    [x + width / 2, y - height / 2],
    [x + width / 2, y + height / 2],
    [x - width / 2, y + height / 2],
  ];
}

/** An obstacle and the upright box about it. */
interface Fence {
  readonly points: readonly Vec[];
  readonly low: Vec;
  readonly high: Vec;
}

function fencesOf({ outline, obstacles }: Ground): Fence[] {
  const sides = outline.map((from, i): readonly Vec[] => [from, pointOf(outline, i + 1)]);
  return [...sides, ...obstacles].map((points) => {
    const xs = points.map((p) => p[0]);
    const ys = points.map((p) => p[1]);
    return { points, low: [Math.min(...xs), Math.min(...ys)], high: [Math.max(...xs), Math.max(...ys)] };
  });
}

function isFree(box: readonly Vec[], outline: readonly Vec[], fences: readonly Fence[]): boolean {
  return fences.every((fence) => isClear(box, fence)) && isInArea([outline], pointOf(box, 0));
}

/** Clear of every side of the outline, a box lies wholly inside it or wholly outside. */
function isClear(box: readonly Vec[], { points, low, high }: Fence): boolean {
  const [left, bottom] = pointOf(box, 0);
  const [right, top] = pointOf(box, 2);
  if (low[0] - right >= CLEAR || left - high[0] >= CLEAR) return true;
  if (low[1] - top >= CLEAR || bottom - high[1] >= CLEAR) return true;
  return clearanceBetween(box, points).distance >= CLEAR;
}

function settle(
  { lines, width, cap, height }: Block,
  [cx, cy]: Vec,
  upright: boolean,
  size: Vec,
): Omit<PlacedText, 'wish'> {
  const strokes = lines.flatMap((line, i) => {
    const x = (width - line.width) / 2 - width / 2;
    const y = height / 2 - cap - LEADING * cap * i;
    return line.strokes.map((stroke) => stroke.map(([px, py]): Vec => [px + x, py + y]));
  });
  const turned = upright ? strokes : strokes.map((s) => s.map(([x, y]): Vec => [-y, x]));
  return {
    strokes: turned.map((s) => s.map(([x, y]): Vec => [x + cx, y + cy])),
    box: boxAbout([cx, cy], size),
  };
}
