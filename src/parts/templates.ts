import { bounds, circle, rectangle } from '../geometry/ring.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { FretSlot, Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { PartSettings } from './settings.ts';
import type { LineFeature, OutlineFeature, Part } from './types.ts';

/** A thin plate with a pilot hole over each string’s hole, the saddle line and the centreline drawn on it. */
export function makePinTemplate(
  layout: Layout,
  template: NonNullable<Instrument['jigs']['pinTemplate']>,
  settings: PartSettings,
  indexPin: number | null = null,
): Part {
  const { margin, pilot } = template;
  const index = indexPin === null ? [] : (layout.bridge?.indexPins ?? []);
  const points = [...layout.strings.map((s) => s.pin), ...layout.saddleLine, ...index];
  const box = around(points, margin);
  const middle: Vec[] = [
    [box.x[0], 0],
    [box.x[1], 0],
  ];
  return {
    id: 'pin-template',
    title: 'Bridge pin drilling template',
    material: template.materialClass,
    materialClass: template.materialClass,
    blank: blankAround(box, settings.allowances.between, template.thickness),
    features: [
      line('pin-template-centreline', 'pinTemplate', 'centreline', middle),
      ...saddleLines(layout),
      ...layout.strings.map(
        (s): OutlineFeature => ({
          id: `pin-template-hole-${s.position}`,
          work: 'pinTemplate',
          kind: 'outline',
          ring: circle(s.pin, pilot / 2),
          keep: 'outside',
        }),
      ),
      ...index.map(
        (at, i): OutlineFeature => ({
          id: `pin-template-index-${i === 0 ? 'bass' : 'treble'}`,
          work: 'pinTemplate',
          kind: 'outline',
          ring: circle(at, (indexPin ?? pilot) / 2),
          keep: 'outside',
        }),
      ),
      {
        id: 'pin-template-outline',
        work: 'pinTemplate',
        kind: 'outline',
        ring: rectangle(box),
        keep: 'inside',
      },
    ],
    datum: 'scale zero on the centreline; x is measured from scale zero',
  };
}

/** None where all strings cross the saddle in one point: nothing can be drawn or proven of a line without length. */
function saddleLines({ saddleLine: [bass, treble] }: Layout): LineFeature[] {
  if (distance(bass, treble) < 1e-6) return [];
  return [line('pin-template-saddle-line', 'pinTemplate', 'saddle line', [bass, treble])];
}

/** A strip as long as the board that carries the centreline and every slot line, to be laid along a board sawn by hand. */
export function makeSlotTemplate(
  layout: Layout,
  template: NonNullable<Instrument['jigs']['slotTemplate']>,
  settings: PartSettings,
): Part {
  const from = Math.min(...layout.nutLine.map(([x]) => x));
  const box: Box = {
    x: [from, bounds(layout.board.outline).x[1]],
    y: [-template.width / 2, template.width / 2],
  };
  return {
    id: 'slot-template',
    title: 'Fret slot template',
    material: template.materialClass,
    materialClass: template.materialClass,
    blank: blankAround(box, settings.allowances.between, template.thickness),
    features: [
      line('slot-template-centreline', 'slotTemplate', 'centreline', [
        [layout.nutFace, 0],
        [box.x[1], 0],
      ]),
      ...layout.slots.flatMap((slot) => slotLines(slot, template.width / 2)),
      {
        id: 'slot-template-outline',
        work: 'slotTemplate',
        kind: 'outline',
        ring: stripFrom(layout.nutLine, box),
        keep: 'inside',
      },
    ],
    datum: 'its nut end is the nut face; x is measured from scale zero',
  };
}

/** A slot's line as far as the strip reaches; of a piece that stops in the wood, as far as the piece does. */
function slotLines({ id, line: own, carrier, ends }: FretSlot, half: number): LineFeature[] {
  const [from, to] = own.map(([, y], i) => {
    const side = Math.sign(y - (own[1 - i]?.[1] ?? y));
    return ends[i] === 'edge' ? side * half : Math.max(-half, Math.min(half, y));
  });
  if (from === undefined || to === undefined || Math.abs(to - from) < 1e-6) return [];
  const points = [pointAt(carrier, from), pointAt(carrier, to)];
  const [low, high] = points[0] !== undefined && points[0][1] < 0 ? points : points.toReversed();
  return low === undefined || high === undefined
    ? []
    : [line(`slot-template-${id}`, 'slotTemplate', 'fret slot', [low, high])];
}

/** Point of a straight line across the board at y. */
function pointAt([a, b]: readonly [Vec, Vec], y: number): Vec {
  return [a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]), y];
}

/** A strip whose nut end lies along the nut face. */
function stripFrom(nut: readonly [Vec, Vec], { x: [, end], y: [low, high] }: Box): Ring {
  const [first, last] = [pointAt(nut, low), pointAt(nut, high)];
  return [first, [end, low] as const, [end, high] as const, last].map(([x, y]) => ({ x, y, bulge: 0 }));
}

function line(
  id: string,
  work: LineFeature['work'],
  meaning: LineFeature['meaning'],
  points: readonly Vec[],
): LineFeature {
  return { id, work, kind: 'line', points, meaning };
}

function around(points: readonly Vec[], margin: number): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return {
    x: [Math.min(...xs) - margin, Math.max(...xs) + margin],
    y: [Math.min(...ys) - margin, Math.max(...ys) + margin],
  };
}

function blankAround(box: Box, margin: number, thickness: number): Part['blank'] {
  return {
    box: {
      x: [box.x[0] - margin, box.x[1] + margin],
      y: [box.y[0] - margin, box.y[1] + margin],
    },
    thickness,
    top: { kind: 'plane', z: 0 },
  };
}
