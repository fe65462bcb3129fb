import type { Move } from '../../motion/types.ts';
import type { Controller } from '../../profile/types.ts';
import { MM_PER_INCH } from '../../units/convert.ts';
import { centreOffsets } from './arc.ts';
import { type Line, layOutText, wordLine } from './lines.ts';
import { coordinate, rounded, roundedDown, roundedUp } from './numbers.ts';

export interface ProgramHead {
  /** Lines for a person: what this is, tool, work zero, stock. */
  readonly remarks: readonly string[];
  readonly controller: Controller;
}

/** What is done with one tool of a program that changes tools. The first move lifts. */
export interface Stage {
  readonly tool: number;
  readonly remarks: readonly string[];
  readonly moves: readonly Move[];
}

type Axis = 'x' | 'y' | 'z';
type Arc = Move & { kind: 'arc' };

/** What the control already knows, in the program's unit; a word is written only when it changes. */
interface State {
  readonly position: { x: number | null; y: number | null; z: number | null };
  motion: string | null;
  feed: number | null;
  plane: string;
}

const PLANE_WORD = { xy: 'G17', xz: 'G18', yz: 'G19' } as const;

/** The back-off of a G83 above the last bottom, millimetres (NISTIR 6556 port: 0.010 inch). */
const PECK_BACK_OFF = 0.254;

/**
 * Plain program text for the moves: RS-274 words the control is known to understand, in its unit, absolute.
 * Arc centres are given from the rounded start, so that what is read is what was meant. Heights of rapids are rounded up.
 */
export function writeProgram(moves: readonly Move[], head: ProgramHead): string {
  const { controller } = head;
  const state = freshState();
  const body = moves.flatMap((move) => lines(move, state, controller));
  const all = [...remarks(head.remarks), ...modeLines(controller), ...body, ...ending(state, controller)];
  return layOutText(all, controller);
}

/**
 * One program for several tools: each is put in by T and M6 with the spindle off and the axis up, and every mode is set
 * again after it, as if the program began there.
 */
export function writeStages(stages: readonly Stage[], head: ProgramHead): string {
  const { controller } = head;
  const first = stages[0]?.moves[0];
  if (first?.kind !== 'rapid') throw new Error('a program that changes tools begins with a lift');
  let state = freshState();
  const before = [...wordLine('M5'), ...lines(first, state, controller)];
  const body = stages.flatMap((stage) => {
    state = freshState();
    const moves = stage.moves.flatMap((move) => lines(move, state, controller));
    return [...change(stage, controller), ...moves, ...wordLine(...toPlane('G17', state))];
  });
  const all = [...remarks(head.remarks), ...modeLines(controller), ...before, ...body];
  return layOutText([...all, ...ending(state, controller)], controller);
}

function freshState(): State {
  return { position: { x: null, y: null, z: null }, motion: null, feed: null, plane: 'G17' };
}

function change(stage: Stage, controller: Controller): Line[] {
  const length = controller.lengthOffset === 'G43' ? wordLine('G43', `H${stage.tool}`) : [];
  return [
    ...remarks(stage.remarks),
    ...wordLine(`T${stage.tool}`, 'M6'),
    ...modeLines(controller),
    ...length,
  ];
}

/** The full state: nothing is left to how the machine happens to stand. */
function modeLines(controller: Controller): Line[] {
  const length = controller.lengthOffset === 'none' ? [] : ['G49'];
  const path = controller.exactPath ? ['G61'] : [];
  return [
    ...wordLine(controller.units === 'mm' ? 'G21' : 'G20', 'G17', 'G90', 'G94'),
    ...wordLine('G40', ...length, controller.workOffset, ...path),
    ...wordLine('G80'),
  ];
}

function ending(state: State, controller: Controller): Line[] {
  return [...wordLine(...toPlane('G17', state)), ...wordLine(controller.programEnd)];
}

function remarks(texts: readonly string[]): Line[] {
  return texts.map((text) => ({ kind: 'remark', text }));
}

function lines(move: Move, state: State, controller: Controller): Line[] {
  switch (move.kind) {
    case 'rapid':
      return straight('G0', move, null, state, controller);
    case 'feed':
      return straight('G1', move, move.feed, state, controller);
    case 'arc':
      return arc(move, state, controller);
    case 'drill':
      return controller.drillCycles
        ? drillCycle(move, state, controller)
        : drillLong(move, state, controller);
    case 'spindle':
      return [...wordLine('M3', `S${Math.round(move.rpm)}`), ...dwell(move.dwell, controller)];
    case 'dwell':
      return dwell(move.seconds, controller);
    case 'spindle off':
      return wordLine('M5');
    case 'beam off':
      // Some controls keep the power when M5 is lost on them; with no power left a rapid cannot burn.
      return wordLine('M5', 'S0');
    case 'beam':
      return [
        ...wordLine(controller.beamWord, `S${coordinate(move.s, 3)}`),
        ...(move.pierce > 0 ? dwell(move.pierce, controller) : []),
      ];
    case 'comment':
      // A new feature starts with its motion word in full, so that a person can read the program from there.
      state.motion = null;
      return remarks([move.text]);
  }
}

function dwell(seconds: number, { dwellUnit }: Controller): Line[] {
  const p = dwellUnit === 'seconds' ? coordinate(seconds, 3) : String(Math.round(seconds * 1000));
  return wordLine('G4', `P${p}`);
}

/** Millimetres in the program's unit. */
function inUnit(mm: number, { units }: Controller): number {
  return units === 'mm' ? mm : mm / MM_PER_INCH;
}

/** A length as the machine will read it, in the program's unit. */
function written(mm: number, controller: Controller): number {
  return rounded(inUnit(mm, controller), controller.decimals);
}

/** A height of a rapid: never below what is meant. */
function lifted(mm: number, controller: Controller): number {
  return roundedUp(inUnit(mm, controller), controller.decimals);
}

function word(letter: string, value: number, { decimals }: Controller): string {
  return `${letter}${coordinate(value, decimals)}`;
}

/** Words of the axes whose written value changes; the state takes them over. */
function axisWords(target: Partial<Record<Axis, number>>, state: State, controller: Controller): string[] {
  const words: string[] = [];
  for (const axis of ['x', 'y', 'z'] as const) {
    const value = target[axis];
    if (value === undefined || value === state.position[axis]) continue;
    state.position[axis] = value;
    words.push(word(axis.toUpperCase(), value, controller));
  }
  return words;
}

function straight(
  motion: 'G0' | 'G1',
  target: Partial<Record<Axis, number>>,
  feed: number | null,
  state: State,
  controller: Controller,
): Line[] {
  const round = { x: written, y: written, z: motion === 'G0' ? lifted : written };
  const axes = axisWords(
    mapped(target, (mm, axis) => round[axis](mm, controller)),
    state,
    controller,
  );
  if (axes.length === 0) return [];
  return wordLine(...motionWord(motion, state), ...axes, ...feedWord(feed, state, controller));
}

function mapped(
  point: Partial<Record<Axis, number>>,
  map: (mm: number, axis: Axis) => number,
): Partial<Record<Axis, number>> {
  const out: Partial<Record<Axis, number>> = {};
  for (const axis of ['x', 'y', 'z'] as const) {
    const mm = point[axis];
    if (mm !== undefined) out[axis] = map(mm, axis);
  }
  return out;
}

function motionWord(motion: string, state: State): string[] {
  if (state.motion === motion) return [];
  state.motion = motion;
  return [motion];
}

/** Feeds are rounded down: to whole mm/min, or to hundredths of an inch a minute. */
function feedWord(feed: number | null, state: State, controller: Controller): string[] {
  if (feed === null) return [];
  const decimals = controller.units === 'mm' ? 0 : 2;
  const value = Math.max(10 ** -decimals, roundedDown(inUnit(feed, controller), decimals));
  if (value === state.feed) return [];
  state.feed = value;
  return [`F${coordinate(value, decimals)}`];
}

function toPlane(plane: string, state: State): string[] {
  if (state.plane === plane) return [];
  state.plane = plane;
  return [plane];
}

const CENTRE_WORDS = {
  xy: [
    ['x', 'I'],
    ['y', 'J'],
  ],
  xz: [
    ['x', 'I'],
    ['z', 'K'],
  ],
  yz: [
    ['y', 'J'],
    ['z', 'K'],
  ],
} as const;

/** An arc whose ends round to one point would be read as a full circle, so it becomes the straight move it is. */
function arc(move: Arc, state: State, controller: Controller): Line[] {
  const [[firstAxis, firstWord], [secondAxis, secondWord]] = CENTRE_WORDS[move.plane];
  const to = mapped(move.to, (mm) => written(mm, controller));
  const start = [knownPosition(state, firstAxis), knownPosition(state, secondAxis)] as const;
  const chord = [inPlane(to, firstAxis) - start[0], inPlane(to, secondAxis) - start[1]] as const;
  if (chord[0] === 0 && chord[1] === 0) return straight('G1', move.to, move.feed, state, controller);
  const wanted = [
    inUnit(inPlane(move.centre, firstAxis), controller) - start[0],
    inUnit(inPlane(move.centre, secondAxis), controller) - start[1],
  ] as const;
  const [a, b] = centreOffsets(wanted, chord, controller.decimals, controller.units);
  const planeLine = wordLine(...toPlane(PLANE_WORD[move.plane], state));
  const motion = motionWord(move.clockwise ? 'G2' : 'G3', state);
  const ends = arcEnds(move.plane, to, state, controller);
  const centre = [word(firstWord, a, controller), word(secondWord, b, controller)];
  return [
    ...planeLine,
    ...wordLine(...motion, ...ends, ...centre, ...feedWord(move.feed, state, controller)),
  ];
}

/** A reader wants at least one word of the plane's axes, even when only the third axis changed. */
function arcEnds(
  plane: Arc['plane'],
  to: Partial<Record<Axis, number>>,
  state: State,
  controller: Controller,
): string[] {
  const axes = CENTRE_WORDS[plane];
  const ends = axisWords(to, state, controller);
  if (ends.some((end) => axes.some(([axis]) => end.startsWith(axis.toUpperCase())))) return ends;
  const [[axis]] = axes;
  return [...ends, word(axis.toUpperCase(), inPlane(to, axis), controller)];
}

function inPlane(point: Partial<Record<Axis, number>>, axis: Axis): number {
  const value = point[axis];
  if (value === undefined) throw new Error(`an arc without ${axis}`);
  return value;
}

function knownPosition(state: State, axis: Axis): number {
  const value = state.position[axis];
  if (value === null) throw new Error(`an arc before ${axis} is known`);
  return value;
}

function drillCycle(move: Move & { kind: 'drill' }, state: State, controller: Controller): Line[] {
  const approach = [
    ...straight('G0', { x: move.x, y: move.y }, null, state, controller),
    ...straight('G0', { z: move.retract }, null, state, controller),
  ];
  const at = (letter: string, mm: number): string => word(letter, written(mm, controller), controller);
  const peck = move.peck === null ? [] : [word('Q', peckOf(move, move.peck, controller), controller)];
  const words = [
    'G98',
    move.peck === null ? 'G81' : 'G83',
    at('X', move.x),
    at('Y', move.y),
    at('Z', move.z),
    word('R', lifted(move.retract, controller), controller),
    ...peck,
    ...feedWord(move.feed, state, controller),
  ];
  state.motion = null;
  return [...approach, ...wordLine(...words), ...wordLine('G80')];
}

/** A peck rounded up may come out deeper than meant by this, mm. */
const PECK_SLACK = 0.0009;

/** The peck rounded down; where that would add a sliver of a last peck, the depth in even pecks. */
function peckOf(move: Move & { kind: 'drill' }, peck: number, controller: Controller): number {
  const { decimals, units } = controller;
  const down = roundedDown(inUnit(peck, controller), decimals);
  const depth = lifted(move.retract, controller) - written(move.z, controller);
  const meant = Math.ceil((move.retract - move.z) / peck - 1e-6);
  const even = roundedUp(depth / meant, decimals);
  const over = (even - inUnit(peck, controller)) * (units === 'mm' ? 1 : MM_PER_INCH);
  return down * meant < depth - 1e-9 && over <= PECK_SLACK ? even : down;
}

/** The same hole in plain moves: down a peck, out, back to just above the last bottom. */
function drillLong(move: Move & { kind: 'drill' }, state: State, controller: Controller): Line[] {
  const out: Line[] = [
    ...straight('G0', { x: move.x, y: move.y }, null, state, controller),
    ...straight('G0', { z: move.retract }, null, state, controller),
  ];
  const peck = move.peck ?? move.retract - move.z;
  for (let from = move.retract; from > move.z + 1e-9; from -= peck) {
    const to = Math.max(move.z, from - peck);
    if (from < move.retract) {
      out.push(
        ...straight('G0', { z: Math.min(from + PECK_BACK_OFF, move.retract) }, null, state, controller),
      );
    }
    out.push(...straight('G1', { z: to }, move.feed, state, controller));
    out.push(...straight('G0', { z: move.retract }, null, state, controller));
  }
  return out;
}
