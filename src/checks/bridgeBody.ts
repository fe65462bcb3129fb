import { isInArea, type Polygon, pointOf } from '../geometry/area.ts';
import { type Clearance, clearanceBetween, clearanceOfBoundaries } from '../geometry/clearance.ts';
import { circle, flatten } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import { add, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { PlacedBridge } from '../layout/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board } from './types.ts';
import { mm, placeIn } from './words.ts';

/** Least wood about what is cut into a bridge, mm (common practice, no source). */
const WALL = { slotToEdge: 3, pinToEdge: 2, pinToSlot: 1.5 };
const HAIR = 1e-6;
/** Curves are looked at by chords that leave them by at most this. Millimetres. */
const SAGITTA = 0.002;

/** Something cut into the bridge. */
interface Opening {
  readonly name: string;
  readonly path: string;
  readonly outline: Polygon;
}

/** Wood about pin holes and saddle slot, once the holes are reamed. */
export function checkBridgeBody(board: Board): Finding[] {
  const { bridge } = board.layout;
  if (bridge === null) return [];
  const slot = slotOf(board, bridge);
  const pins = pinsOf(board);
  return [
    ...nearEdge(board, bridge, slot, WALL.slotToEdge),
    ...pins.flatMap((pin) => [
      ...nearEdge(board, bridge, pin, WALL.pinToEdge),
      ...thin(board, pin, slot, clearanceBetween(pin.outline, slot.outline), WALL.pinToSlot),
    ]),
    ...inWings(board, bridge, slot),
  ];
}

function slotOf({ instrument }: Board, { slot: [from, to] }: PlacedBridge): Opening {
  const side = scale(leftNormal(unit(subtract(to, from))), instrument.bridge.saddle.width / 2);
  const outline = [subtract(from, side), subtract(to, side), add(to, side), add(from, side)];
  return { name: 'the slot of the saddle', path: 'bridge.body.front', outline };
}

function pinsOf({ layout, instrument }: Board): Opening[] {
  const { anchor } = instrument.bridge;
  if (anchor.kind === 'tied' || anchor.kind === 'tailpiece') return [];
  const [name, wide] = anchor.kind === 'pins' ? ['pin', anchor.seat] : ['string', anchor.drill];
  const seats = anchor.kind === 'pins' ? anchor.seats : [];
  return layout.strings.map((string, i) => ({
    name: `the hole of ${name} ${string.position}`,
    path: 'bridge.body.width',
    outline: flatten(circle(string.pin, (seats[i] ?? wide) / 2), SAGITTA),
  }));
}

function nearEdge(board: Board, { outline }: PlacedBridge, opening: Opening, wall: number): Finding[] {
  const edge = flatten(outline, SAGITTA);
  const isInside = opening.outline.every((p) => isInArea([edge], p));
  const gap = clearanceOfBoundaries(opening.outline, edge);
  const least = isInside ? gap : { ...gap, distance: 0 };
  return thin(board, opening, { name: 'the edge of the bridge' }, least, wall);
}

function thin(
  board: Board,
  opening: Opening,
  other: { readonly name: string },
  gap: Clearance,
  wall: number,
): Finding[] {
  if (gap.distance >= wall - HAIR) return [];
  const left = gap.distance === 0 ? 'runs into' : `leaves ${mm(gap.distance)} of wood to`;
  return [
    errorFinding(
      'bridge-wall-too-thin',
      `${opening.name.charAt(0).toUpperCase()}${opening.name.slice(1)} ${left} ${other.name}: ${placeIn(board.layout, board.instrument, gap.at)}.`,
      {
        where: { source: 'instrument', path: opening.path },
        found: mm(gap.distance),
        allowed: `at least ${mm(wall)} (common practice)`,
        remedy: 'Another width, length or front of the bridge, or pins farther behind the saddle.',
      },
    ),
  ];
}

/** Where the wings are thinned nothing would be left under the slot. */
function inWings({ instrument }: Board, { wings, outline }: PlacedBridge, opening: Opening): Finding[] {
  const middle = middleOf(outline);
  const worst = wings
    .flatMap((line) => opening.outline.map((p) => beyond(line, p, middle)))
    .reduce((a, b) => Math.max(a, b), 0);
  if (worst <= HAIR) return [];
  return [
    errorFinding('slot-in-wing', `The slot of the saddle reaches ${mm(worst)} into a wing of the bridge.`, {
      where: { source: 'instrument', path: 'bridge.body.wingLength' },
      found: mm(instrument.bridge.body?.wingLength ?? 0),
      remedy: 'Shorter wings, a longer bridge, or a saddle that ends nearer its outer strings.',
    }),
  ];
}

/** How far a point lies on the other side of a line than the middle. */
function beyond(line: readonly Vec[], point: Vec, middle: Vec): number {
  const [a, b] = [pointOf(line, 0), pointOf(line, 1)];
  const normal = leftNormal(unit(subtract(b, a)));
  const off = (p: Vec): number => (p[0] - a[0]) * normal[0] + (p[1] - a[1]) * normal[1];
  return off(middle) > 0 ? -off(point) : off(point);
}

function middleOf(ring: PlacedBridge['outline']): Vec {
  const sum = ring.reduce<Vec>((s, v) => [s[0] + v.x, s[1] + v.y], [0, 0]);
  return scale(sum, 1 / ring.length);
}
