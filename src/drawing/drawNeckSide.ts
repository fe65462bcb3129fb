import { bounds } from '../geometry/ring.ts';
import type { Box, Vec } from '../geometry/types.ts';
import type { HeadLayout, Layout, NeckLayout } from '../layout/types.ts';
import { formatShort } from '../units/format.ts';
import { levelDimension, uprightDimension } from './dimension.ts';
import type { NeckHeading } from './neckHeading.ts';
import { kerfWords, lettering, millimetres, notesLayer } from './notes.ts';
import { drawnOnce } from './once.ts';
import { boxOutline, line } from './shapes.ts';
import type { Drawing, Layer, Shape } from './types.ts';

interface Side {
  readonly layout: Layout;
  readonly neck: NeckLayout;
  readonly blank: NonNullable<NeckHeading['neckBlank']>;
  readonly heading: NeckHeading;
}

/**
 * The neck from its bass side, before it is carved, 1:1: x as in the layout, z upward from the neck's plane (the face that the board is
 * glued to) drawn as y. Null where the neck is made elsewhere.
 */
export function drawNeckSide(layout: Layout, heading: NeckHeading): Drawing | null {
  const { neck } = layout;
  const { neckBlank: blank } = heading;
  if (neck === null || blank === null) return null;
  const side: Side = { layout, neck, blank, heading };
  const layers: Layer[] = [
    { name: 'SHAFT', shapes: [ring(shaftSide(side))] },
    { name: 'HEAD', shapes: headShapes(side) },
    { name: 'HEEL_BLOCKS', shapes: heelBlocks(side) },
    { name: 'FINGERBOARD', shapes: [boxOutline(boardBox(side))] },
    { name: 'NUT', shapes: [boxOutline(nutBox(side))] },
    {
      name: 'TRUSS_ROD',
      shapes: layout.rodCuts.map((cut) => boxOutline({ x: bounds(cut.ring).x, y: [-cut.depth, 0] })),
    },
    { name: 'JOINT', shapes: jointLine(side) },
    { name: 'DIMENSIONS', shapes: dimensions(side) },
  ];
  return {
    id: 'neck-side',
    title: `${heading.name}, neck from the side`,
    part: 'neck',
    kerf: 'finished edges',
    layers: [...drawnOnce(layers), notes(side)],
  };
}

const ring = (points: readonly Vec[]): Shape => ({
  kind: 'ring',
  ring: points.map(([x, y]) => ({ x, y, bulge: 0 })),
});

/** The shaft as it leaves the saw, counter-clockwise: of a scarfed neck its head end is the bevel. */
function shaftSide({ neck, blank }: Side): Vec[] {
  const { breakX, end, scarf } = neck;
  const [top, back] = scarf === null ? [breakX, breakX] : [scarf.seamTop, scarf.seamBack];
  return [
    [back, -blank.thickness],
    [end, -blank.thickness],
    [end, 0],
    [top, 0],
  ];
}

/** A point of the head: so far along its face from the break, and so far below the face. */
export function headPoint(
  { angle }: Pick<HeadLayout, 'angle'>,
  breakX: number,
  along: number,
  below: number,
): Vec {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [breakX - along * cos + below * sin, -along * sin - below * cos];
}

/** The plate or, of a neck in one piece, the head down to where its back meets the shaft's; and the veneer on its face. */
function headShapes({ neck, heading, blank }: Side): Shape[] {
  const { head, breakX, scarf } = neck;
  const { headstock } = heading;
  if (head === null || headstock === null) return [];
  const { thickness, veneer } = headstock;
  const at = (along: number, below: number): Vec => headPoint(head, breakX, along, below);
  // Where the back of a head in one piece comes up to the end of the shaft, or as far as the break.
  const root =
    scarf === null ? backOnBreak(thickness, head.angle, blank.thickness) : at(-scarf.overlap, thickness);
  const foot: Vec = scarf === null ? [breakX, root[1]] : root;
  const plate = ring([at(head.length, thickness), foot, at(0, 0), at(head.length, 0)]);
  if (veneer === null) return [plate];
  const lean = veneer.thickness * Math.tan(head.angle);
  const leaf = ring([
    at(0, 0),
    at(-lean, -veneer.thickness),
    at(head.length, -veneer.thickness),
    at(head.length, 0),
  ]);
  return [plate, leaf];
}

/** Upright below the break a head of thickness h is h / cos a deep, but no deeper than the blank. */
function backOnBreak(thickness: number, angle: number, blank: number): Vec {
  return [0, -Math.min(thickness / Math.cos(angle), blank)];
}

function heelBlocks({ neck: { heel }, blank }: Side): Shape[] {
  if (heel === null) return [];
  return Array.from({ length: heel.blocks }, (_, i) =>
    boxOutline({ x: heel.x, y: [-(i + 2) * blank.thickness, -(i + 1) * blank.thickness] }),
  );
}

function boardBox({ layout, heading }: Side): Box {
  return { x: [layout.nutFace, layout.board.end], y: [0, heading.fingerboard.thickness] };
}

function nutBox({ layout, heading }: Side): Box {
  return {
    x: [layout.nutFace - heading.nut.thickness, layout.nutFace],
    y: [0, heading.fingerboard.thickness],
  };
}

function jointLine({ neck: { joint, heel }, heading }: Side): Shape[] {
  if (joint === null || heel === null) return [];
  return [
    line([joint, heading.fingerboard.thickness + 6], [joint, -heel.depth - 6]),
    line([heel.x[0], -heel.depth], [heel.x[1], -heel.depth]),
    lettering([joint + 1.5, -heel.depth - 5], 'joint', 2.5),
    lettering([heel.x[0] + 1.5, -heel.depth + 1.5], 'heel cap', 2.5),
  ];
}

function dimensions(side: Side): Shape[] {
  const { neck, blank, heading, layout } = side;
  const { breakX, end, joint, heel, scarf, head } = neck;
  const above = heading.fingerboard.thickness + 10;
  const over = (a: number, b: number, row: number, label = ''): Shape[] =>
    levelDimension([a, 0], [b, 0], above + 7 * row, label);
  const blocks = 1 + (heel?.blocks ?? 0);
  const lowest = -Math.max(heel?.depth ?? 0, blocks * blank.thickness) - 10;
  return [
    ...over(breakX, layout.nutFace, 0, 'nut'),
    ...(joint === null ? [] : over(layout.nutFace, joint, 0)),
    ...(joint === null || joint === end ? [] : over(joint, end, 0)),
    ...over(breakX, end, 1),
    ...(scarf === null ? [] : over(breakX, scarf.seamTop, 2, 'seam')),
    ...uprightDimension([end, 0], [end, -blank.thickness], end + 10),
    ...(heel === null
      ? []
      : [
          ...uprightDimension([heel.x[1], 0], [heel.x[1], -heel.depth], end + 20),
          ...levelDimension([heel.x[0], -heel.depth], [heel.x[1], -heel.depth], lowest),
        ]),
    ...rodDimensions(side),
    ...(head === null ? [] : headDimensions(side, head)),
  ];
}

function rodDimensions({ layout }: Side): Shape[] {
  return layout.rodCuts.flatMap(({ ring: cut, depth }) => {
    const [from, to] = bounds(cut).x;
    const at = from + Math.min(12, (to - from) / 2);
    return uprightDimension([at, 0], [at, -depth], at);
  });
}

function headDimensions({ neck, heading }: Side, head: HeadLayout): Shape[] {
  const { breakX } = neck;
  const tip = headPoint(head, breakX, head.length, 0);
  const back = headPoint(head, breakX, head.length, heading.headstock?.thickness ?? 0);
  return [
    ...uprightDimension([breakX, 0], tip, tip[0] - 12),
    ...uprightDimension([breakX, 0], back, tip[0] - 22),
    ...levelDimension(tip, [breakX, 0], 10, ''),
    lettering([breakX - 60, -6], `${formatShort((head.angle * 180) / Math.PI, 2)} deg`, 2.5),
  ];
}

function notes({ neck, blank, heading, layout }: Side): Layer {
  const { head, scarf, heel } = neck;
  const low = Math.min(
    -(heel?.depth ?? 0),
    -blank.thickness * (1 + (heel?.blocks ?? 0)),
    head === null ? 0 : headPoint(head, 0, head.length, 20)[1],
  );
  const lines = [
    `${heading.name}, neck from the side, before it is carved`,
    'Millimetres, scale 1:1.',
    "Datum: scale zero in the plane that the board is glued to; x toward the bridge, upward is away from the neck's back.",
    `Blank ${millimetres(blank.thickness)} thick, ${millimetres(blank.width)} wide, ${blank.wood}.`,
    ...(head === null
      ? []
      : [
          `Head ${millimetres(head.length)} along its face, ${millimetres(heading.headstock?.thickness ?? 0)} thick without its veneer.`,
        ]),
    ...(scarf === null || head === null
      ? []
      : [
          `Scarf: bevel of the shaft ${millimetres(scarf.bevel)} long; the back of the head's plate reaches ${millimetres(scarf.overlap)} past its face.`,
        ]),
    ...(heel === null
      ? []
      : [`Heel: ${heel.blocks} blocks under the shaft, cap ${millimetres(heel.depth)} below the board.`]),
    kerfWords('finished edges'),
  ];
  return notesLayer([Math.min(layout.nutFace, neck.breakX), low - 26], lines);
}
