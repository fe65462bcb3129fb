import { runs, type Tag } from './tags.ts';
import type { Corner, Fault, FoundShape, Pair } from './types.ts';

export interface Entities {
  readonly shapes: readonly FoundShape[];
  readonly faults: readonly Fault[];
  /** How many entities the section holds, readable or not. */
  readonly count: number;
}

/** An entity that this reader cannot take at its word. */
class EntityFault extends Error {}

const DEGREE = Math.PI / 180;

/** Group codes that lift, tilt, widen or hide an entity, and the only value each may have. */
const PLAIN_VALUES: ReadonlyMap<number, number> = new Map([
  [30, 0],
  [31, 0],
  [38, 0],
  [39, 0],
  [43, 0],
  [60, 0],
  [67, 0],
  [210, 0],
  [220, 0],
  [230, 1],
]);

/** The entities of a section as plain shapes; what cannot be read exactly is a fault, never skipped. */
export function readEntities(tags: readonly Tag[]): Entities {
  const shapes: FoundShape[] = [];
  const faults: Fault[] = [];
  const entities = runs(tags);
  for (const run of entities) {
    try {
      shapes.push(shapeOf(run));
    } catch (reason) {
      if (!(reason instanceof EntityFault)) throw reason;
      faults.push({ line: run[0]?.line ?? 0, text: `${run[0]?.value}: ${reason.message}` });
    }
  }
  return { count: entities.length, shapes, faults };
}

function shapeOf(run: readonly Tag[]): FoundShape {
  refuseUnusual(run);
  const layer = only(run, 8);
  const line = run[0]?.line ?? 0;
  switch (run[0]?.value) {
    case 'LINE':
      return { kind: 'line', layer, line, from: pair(run, 10), to: pair(run, 11) };
    case 'CIRCLE':
      return { kind: 'circle', layer, line, centre: pair(run, 10), radius: size(run, 40) };
    case 'POINT':
      return { kind: 'point', layer, line, at: pair(run, 10) };
    case 'LWPOLYLINE':
      return { kind: isClosed(run) ? 'ring' : 'chain', layer, line, vertices: corners(run) };
    case 'TEXT':
      return {
        kind: 'text',
        layer,
        line,
        at: pair(run, 10),
        height: size(run, 40),
        angle: number(run, 50) * DEGREE,
        text: decoded(only(run, 1)),
      };
    default:
      throw new EntityFault('not a kind that a drawing here is made of');
  }
}

function refuseUnusual(run: readonly Tag[]): void {
  for (const { code, value } of run) {
    const plain = PLAIN_VALUES.get(code);
    if (plain !== undefined && toNumber(value) !== plain)
      throw new EntityFault(`group ${code} is ${value}, so it does not lie plainly in the drawing's plane`);
    if ((code === 40 || code === 41) && run[0]?.value === 'LWPOLYLINE' && toNumber(value) !== 0)
      throw new EntityFault('its line has a width');
  }
}

function isClosed(run: readonly Tag[]): boolean {
  return (number(run, 70) & 1) === 1;
}

/** Corners are told by order: each 10 starts one, 20 and 42 belong to the last begun. */
function corners(run: readonly Tag[]): Corner[] {
  const list: [number, number, number][] = [];
  for (const { code, value } of run) {
    if (code === 10) list.push([toNumber(value), Number.NaN, 0]);
    const last = list[list.length - 1];
    if (code === 20 && last) last[1] = toNumber(value);
    if (code === 42 && last) last[2] = toNumber(value);
  }
  if (list.some(([, y]) => Number.isNaN(y))) throw new EntityFault('a corner has no y');
  if (number(run, 90) !== list.length)
    throw new EntityFault(`${list.length} corners, ${only(run, 90)} stated`);
  if (list.length < 2) throw new EntityFault(`${list.length} corners make no line`);
  return list;
}

function pair(run: readonly Tag[], code: number): Pair {
  return [number(run, code), number(run, code + 10)];
}

function size(run: readonly Tag[], code: number): number {
  const value = number(run, code);
  if (!(value > 0)) throw new EntityFault(`group ${code} is ${value}`);
  return value;
}

function number(run: readonly Tag[], code: number): number {
  return toNumber(only(run, code));
}

/** The value of a code that must be there exactly once. */
function only(run: readonly Tag[], code: number): string {
  const [first, ...more] = run.filter((tag) => tag.code === code);
  if (first === undefined) throw new EntityFault(`group ${code} is missing`);
  if (more.length > 0) throw new EntityFault(`group ${code} stands ${more.length + 1} times`);
  return first.value;
}

function toNumber(value: string): number {
  if (!/^ *[-+]?\d+(\.\d+)? *$/.test(value)) throw new EntityFault(`"${value.slice(0, 40)}" is not a number`);
  return Number(value);
}

function decoded(value: string): string {
  if (/[^\x20-\x7e]/.test(value)) throw new EntityFault('its text holds bytes that are not plain ASCII');
  return value.replace(/\\U\+([0-9A-F]{4})/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}
