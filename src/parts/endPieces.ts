import type { Ring, Vec } from '../geometry/types.ts';
import { formatMm, formatShort } from '../units/format.ts';
import type { LineFeature, Part } from './types.ts';

/** What nut and saddle must be, string by string, from the bass end. Millimetres. */
export interface EndShapes {
  readonly nut: {
    readonly length: number;
    readonly thickness: number;
    readonly slots: readonly {
      readonly position: number;
      readonly fromBassEdge: number;
      readonly width: number;
      /** Slot floor above the face that the nut stands on. */
      readonly aboveNeck: number;
      readonly depth: number;
    }[];
  };
  readonly saddle: {
    readonly length: number;
    readonly width: number;
    readonly slotDepth: number;
    readonly points: readonly {
      readonly position: number;
      readonly along: number;
      readonly aboveBridge: number;
      readonly lean: number;
    }[];
  };
}

/** What they are made of, and what the blank has to spare all round. */
export interface EndMaterial {
  readonly material: string;
  readonly over: number;
}

/** Nut and saddle as seen from the bridge and from the nut: bass end at the left for either hand. */
export function makeEndPieces({ nut, saddle }: EndShapes, wanted: EndMaterial): Part[] {
  return [makeNut(nut, wanted), makeSaddle(saddle, wanted)];
}

const mm = (length: number): string => `${formatShort(length, 2)} mm`;

function makeNut({ length, thickness, slots }: EndShapes['nut'], wanted: EndMaterial): Part {
  const top = slots.map((s): Vec => [s.fromBassEdge, s.aboveNeck + s.depth]);
  const words = slots.map(
    (s) =>
      `string ${s.position} at ${formatMm(s.fromBassEdge, 2)}, ${formatMm(s.width, 2)} wide, floor at ${formatMm(s.aboveNeck, 2)}`,
  );
  return elevation({
    id: 'nut',
    title: 'Nut',
    work: 'nutBlank',
    ring: under(top, length),
    thickness,
    wanted,
    lines: slots.map((s) => notch(s)),
    words: `${mm(length)} long, ${mm(thickness)} thick; millimetres from its bass end and above the neck’s face: ${words.join('; ')}. Leave the floors high and file them last, with the strings on`,
  });
}

function makeSaddle({ length, width, slotDepth, points }: EndShapes['saddle'], wanted: EndMaterial): Part {
  const top = points.map((p): Vec => [p.along, slotDepth + p.aboveBridge]);
  const words = points.map(
    (p) =>
      `string ${p.position} at ${formatMm(p.along, 2)}, ${formatMm(slotDepth + p.aboveBridge, 2)} high${crown(p.lean)}`,
  );
  return elevation({
    id: 'saddle',
    title: 'Saddle',
    work: 'saddleBlank',
    ring: under(top, length),
    thickness: width,
    wanted,
    lines: [
      mark('saddle-face', [
        [0, slotDepth],
        [length, slotDepth],
      ]),
      ...points.map((p) =>
        mark(`saddle-string-${p.position}`, [
          [p.along, slotDepth],
          [p.along, slotDepth + p.aboveBridge],
        ]),
      ),
    ],
    words: `${mm(length)} long with ends rounded to the slot’s, ${mm(width)} thick; millimetres from its bass end and from its underside, ${mm(slotDepth)} of it in the slot: ${words.join('; ')}. The drawn top runs straight from string to string; file a fair curve that touches it at each`,
  });
}

/** Where a string’s crown lies within the saddle's width. */
function crown(lean: number): string {
  const off = formatMm(Math.abs(lean), 2);
  if (off === '0.00') return '';
  return `, crown ${off} ${lean > 0 ? 'behind' : 'before'} the middle`;
}

/** A flat-bottomed shape below a row of points, level from the outer ones to its ends; counter-clockwise. */
function under(top: readonly Vec[], length: number): Ring {
  const [first, last] = [top[0], top.at(-1)];
  if (first === undefined || last === undefined) throw new Error('an end piece without strings');
  const corners: Vec[] = [[0, 0], [length, 0], [length, last[1]], ...top.toReversed(), [0, first[1]]];
  return corners
    .filter(([x, y], i) => {
      const [px, py] = corners[(i + corners.length - 1) % corners.length] ?? [0, 0];
      return Math.hypot(x - px, y - py) > 1e-6;
    })
    .map(([x, y]) => ({ x, y, bulge: 0 }));
}

function notch(s: EndShapes['nut']['slots'][number]): LineFeature {
  const [left, right] = [s.fromBassEdge - s.width / 2, s.fromBassEdge + s.width / 2];
  return {
    id: `nut-slot-${s.position}`,
    work: 'nutBlank',
    kind: 'line',
    points: [
      [left, s.aboveNeck + s.depth],
      [left, s.aboveNeck],
      [right, s.aboveNeck],
      [right, s.aboveNeck + s.depth],
    ],
    meaning: 'string slot',
  };
}

function mark(id: string, points: readonly Vec[]): LineFeature {
  return { id, work: 'saddleBlank', kind: 'line', points, meaning: 'check mark' };
}

interface Elevation {
  readonly id: 'nut' | 'saddle';
  readonly title: string;
  readonly work: 'nutBlank' | 'saddleBlank';
  readonly ring: Ring;
  readonly thickness: number;
  readonly wanted: EndMaterial;
  readonly lines: readonly LineFeature[];
  readonly words: string;
}

/** A piece seen from its side: x from its bass end, y up from its underside. */
function elevation({ id, title, work, ring, thickness, wanted, lines, words }: Elevation): Part {
  const xs = ring.map((v) => v.x);
  const ys = ring.map((v) => v.y);
  const { material, over } = wanted;
  return {
    id,
    title,
    material,
    // Bone chips and dusts as shell does.
    materialClass: 'shell',
    blank: {
      box: { x: [-over, Math.max(...xs) + over], y: [-over, Math.max(...ys) + over] },
      thickness,
      top: { kind: 'plane', z: 0 },
    },
    features: [...lines, { id: `${id}-outline`, work, kind: 'outline', ring, keep: 'inside' }],
    datum: 'its bass end and its underside, seen from the side',
    bought: true,
    byHand: { [work]: words },
  };
}
