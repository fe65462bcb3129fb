/**
 * The `rs274` interpreter as an outside referee of motion: an independent program for the same language
 * (RS274/NGC, NISTIR 6556). It judges motion only: it says nothing of a spindle that is off or a rapid through wood.
 *
 * It prints canonical functions with four decimals, in the units that its last USE_LENGTH_UNITS names. ARC_FEED is
 * (end, end, centre, centre, turns, axis end) in the order of the plane: XY, ZX or YZ.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

type Plane = 'xy' | 'xz' | 'yz';
type Triple = readonly [number, number, number];

/** One motion as the referee prints it, in mm, with `step`: what one unit of its last printed digit is, in mm. */
export type CanonicalMotion =
  | {
      readonly kind: 'rapid' | 'feed';
      readonly plane: Plane;
      readonly end: Triple;
      readonly feed: number;
      readonly step: number;
    }
  | {
      readonly kind: 'arc';
      readonly plane: Plane;
      readonly end: Triple;
      /** The coordinate along the plane's axis is 0. */
      readonly centre: Triple;
      /** Positive counter-clockwise; 1 or -1 is up to one full turn. */
      readonly turns: number;
      readonly feed: number;
      readonly step: number;
    }
  | { readonly kind: 'dwell'; readonly seconds: number };

const PLANES: Readonly<Record<string, Plane>> = {
  CANON_PLANE_XY: 'xy',
  CANON_PLANE_XZ: 'xz',
  CANON_PLANE_YZ: 'yz',
};
const TOOLS = Array.from({ length: 20 }, (_, i) => `T${i + 1} P${i + 1} Z0 D0`).join('\n');

let available: boolean | null = null;

/** Whether the interpreter is installed. */
export function rs274Available(): boolean {
  available ??= spawnSync('rs274', ['-z'], { stdio: 'ignore' }).error === undefined;
  return available;
}

/** What the interpreter makes of a program; throws with its words when it refuses it. */
export function runRs274(text: string): CanonicalMotion[] {
  return parseCanonical(runRs274Raw(text));
}

/** The printed canonical functions. Leaves no files behind. */
export function runRs274Raw(text: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'nutline-rs274-'));
  try {
    writeFileSync(join(folder, 'tools.tbl'), `${TOOLS}\n`);
    writeFileSync(join(folder, 'program.ngc'), text);
    return execFileSync('rs274', ['-g', '-t', 'tools.tbl', 'program.ngc'], {
      cwd: folder,
      // It maps its tool table into a file of the home folder: two runs at once would truncate each other's.
      env: { ...process.env, HOME: folder },
      encoding: 'utf8',
      maxBuffer: 1 << 30,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  } catch (error) {
    const said = error instanceof Error && 'stderr' in error ? String(error.stderr) : '';
    const words = said.replace('executing', '').trim();
    throw new Error(`rs274 refuses the program: ${words === '' ? String(error) : words}`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface State {
  plane: Plane;
  scale: number;
  feed: number;
}

/** Reads the printed functions; a line it does not know as a motion or a mode is passed over. */
export function parseCanonical(output: string): CanonicalMotion[] {
  const state: State = { plane: 'xy', scale: 1, feed: 0 };
  const motions: CanonicalMotion[] = [];
  for (const line of output.split('\n')) {
    const match = /^\s*\d+\s+N\S*\s+(\w+)\((.*)\)\s*$/.exec(line);
    if (match === null) continue;
    const [, name = '', inside = ''] = match;
    const motion = motionOf(name, inside, state);
    if (motion !== null) motions.push(motion);
    else setState(name, inside, state);
  }
  return motions;
}

function motionOf(name: string, inside: string, state: State): CanonicalMotion | null {
  const numbers = inside.split(',').map(Number);
  const step = 1e-4 * state.scale;
  const common = { plane: state.plane, feed: state.feed, step };
  switch (name) {
    case 'STRAIGHT_TRAVERSE':
    case 'STRAIGHT_FEED':
      return {
        kind: name === 'STRAIGHT_FEED' ? 'feed' : 'rapid',
        end: scaled(numbers, [0, 1, 2], state),
        ...common,
      };
    case 'ARC_FEED':
      return arcOf(numbers, state, common);
    case 'DWELL':
      return { kind: 'dwell', seconds: finite(numbers[0], inside) };
    default:
      return null;
  }
}

/** Where the printed numbers of an arc go: end and centre of x, y, z, by plane; -1 is the axis square to it. */
const ARC_PLACES = {
  xy: { end: [0, 1, 5], centre: [2, 3, -1] },
  xz: { end: [1, 5, 0], centre: [3, -1, 2] },
  yz: { end: [5, 0, 1], centre: [-1, 2, 3] },
} as const;

function arcOf(
  numbers: readonly number[],
  state: State,
  common: { plane: Plane; feed: number; step: number },
): CanonicalMotion {
  const places = ARC_PLACES[state.plane];
  return {
    kind: 'arc',
    end: scaled(numbers, places.end, state),
    centre: scaled(numbers, places.centre, state),
    turns: finite(numbers[4], 'turns'),
    ...common,
  };
}

function scaled(numbers: readonly number[], places: Triple, state: State): Triple {
  const at = (i: number): number => (i < 0 ? 0 : finite(numbers[i], String(numbers)) * state.scale);
  return [at(places[0]), at(places[1]), at(places[2])];
}

function setState(name: string, inside: string, state: State): void {
  if (name === 'SELECT_PLANE') state.plane = PLANES[inside] ?? unknown(inside);
  if (name === 'USE_LENGTH_UNITS') state.scale = scaleOf(inside);
  if (name === 'SET_FEED_RATE') state.feed = finite(Number(inside), inside) * state.scale;
}

function scaleOf(units: string): number {
  if (units === 'CANON_UNITS_MM') return 1;
  return units === 'CANON_UNITS_INCHES' ? 25.4 : unknown(units);
}

function finite(value: number | undefined, where: string): number {
  if (value === undefined || !Number.isFinite(value)) throw new Error(`rs274 printed ${where}`);
  return value;
}

function unknown(word: string): never {
  throw new Error(`rs274 printed ${word}`);
}
