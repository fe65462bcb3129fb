import { bounds } from '../geometry/ring.ts';
import { type Tongue, tongueHalf, tongueRing } from '../geometry/tongue.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { JointLayout, Layout } from '../layout/types.ts';
import { levelDimension, uprightDimension } from './dimension.ts';
import type { NeckHeading } from './neckHeading.ts';
import { kerfWords, millimetres, notesLayer } from './notes.ts';
import { drawnOnce } from './once.ts';
import { boxOutline, circleOf, line, outlineOf } from './shapes.ts';
import type { Drawing, Layer, Shape } from './types.ts';

/**
 * Mortise and tenon from the end of the neck, 1:1: y of the layout drawn as x, what lies below the neck's face downward. Null where the
 * joint is not described.
 */
export function drawJoint(layout: Layout, heading: NeckHeading): Drawing | null {
  const fit = layout.neck?.fit ?? null;
  if (fit === null) return null;
  const { tenon, root, mortise, mouth, build } = fit;
  const leans = build === 'dovetail';
  const layers: Layer[] = [
    { name: 'HEEL_FACE', shapes: [shape(fit.heel, fit.topAt)] },
    { name: 'TENON', shapes: [shape(tenon, 0)] },
    { name: 'TENON_ROOT', shapes: leans ? [shape(root, 0)] : [] },
    { name: 'MORTISE', shapes: [shape(mortise, fit.topAt)] },
    { name: 'MORTISE_MOUTH', shapes: leans ? [shape(mouth, fit.topAt)] : [] },
    { name: 'RELIEF', shapes: fit.relief?.ring == null ? [] : [outlineOf(turned(fit.relief.ring))] },
    { name: 'BLOCK', shapes: [boxOutline(blockBox(fit))] },
    { name: 'BOLTS', shapes: fit.bolts.flatMap(({ down }) => boltCircles(down, heading)) },
    { name: 'TRUSS_ROD', shapes: rodSections(layout, fit) },
    { name: 'CENTRELINE', shapes: [line([0, 6], [0, -fit.block.height - 6])] },
    { name: 'DIMENSIONS', shapes: dimensions(fit) },
  ];
  return {
    id: 'neck-joint',
    title: `${heading.name}, joint of neck and body`,
    part: 'neck',
    kerf: 'finished edges',
    layers: [...drawnOnce(layers), notes(fit, heading)],
  };
}

/** From down and across to across and up: a quarter turn, so that arcs keep their sense. */
const turned = (ring: Ring): Ring => ring.map(({ x, y, bulge }) => ({ x: y, y: -x || 0, bulge }));

const shape = (tongue: Tongue, from: number): Shape => outlineOf(turned(tongueRing(tongue, from)));

function blockBox({ block, topAt }: JointLayout) {
  return {
    x: [-block.width / 2, block.width / 2],
    y: [-topAt - block.height, -topAt],
  } as const;
}

/** Through the block, and the insert's hole in the tenon. */
function boltCircles(down: number, { neckJoint }: NeckHeading): Shape[] {
  const bolts = neckJoint?.tenon?.bolts ?? null;
  if (bolts === null) return [];
  return [circleOf([0, -down], bolts.hole), circleOf([0, -down], bolts.insert)];
}

/** Cuts for the rod that go on past the joint, as they show in the tenon's end. */
function rodSections({ rodCuts }: Layout, { joint }: JointLayout): Shape[] {
  return rodCuts
    .filter(({ ring }) => bounds(ring).x[1] > joint)
    .map(({ ring, depth }) => boxOutline({ x: bounds(ring).y, y: [-depth, 0] }));
}

function dimensions(fit: JointLayout): Shape[] {
  const { tenon, mortise, heel, block, bolts, topAt } = fit;
  const wide = (of: Tongue, at: number, y: number): Shape[] => {
    const half = tongueHalf(of, at);
    return levelDimension([-half, -at], [half, -at], y);
  };
  const right = block.width / 2 + 10;
  const deep = (to: number, row: number, from = 0): Shape[] =>
    uprightDimension([0, -from], [0, -to], right + 9 * row);
  const low = -topAt - block.height - 8;
  const corner: Vec = [block.width / 2, -topAt];
  return [
    ...wide(tenon, 0, 10),
    ...wide(mortise, topAt, 17),
    ...wide(heel, topAt, 24),
    ...wide(heel, heel.foot, low),
    ...levelDimension([-block.width / 2, low], [block.width / 2, low], low - 7),
    ...bolts.flatMap(({ down }, i) => deep(down, i)),
    ...deep(tenon.foot, bolts.length),
    ...deep(heel.foot, bolts.length + 1),
    ...uprightDimension(corner, [corner[0], -topAt - block.height], right + 9 * (bolts.length + 2)),
  ];
}

function notes(fit: JointLayout, heading: NeckHeading): Layer {
  const bolts = heading.neckJoint?.tenon?.bolts ?? null;
  const lines = [
    `${heading.name}, joint of neck and body, seen from the end of the neck`,
    'Millimetres, scale 1:1.',
    'Datum: the face that the board is glued to on the centreline; downward is toward the heel’s cap.',
    `The plane of the top lies ${millimetres(fit.topAt)} below that face. Tenon ${millimetres(fit.length)} long, mortise ${millimetres(fit.mortiseDepth)} deep, ${millimetres(fit.gap)} between them at cheeks and foot.`,
    `Corners at the foot: tenon ${millimetres(fit.tenon.corner)}, mortise ${millimetres(fit.mortise.corner)} as the cutter leaves it. ${cornerWords(fit)}`,
    ...(bolts === null
      ? []
      : [
          `Bolts: ${millimetres(bolts.hole)} through the block; ${millimetres(bolts.insert)}, ${millimetres(bolts.insertDepth)} deep, into the tenon for the inserts.`,
        ]),
    ...(fit.relief === null
      ? []
      : [
          `Relief: within its outline the heel’s face is cut back ${millimetres(fit.relief.depth)}; only the rim meets the body.`,
        ]),
    ...(fit.templates === null
      ? []
      : [`Templates: the cut lies ${millimetres(fit.offset)} from the edge that guides the bush.`]),
    kerfWords('finished edges'),
  ];
  return notesLayer([-fit.block.width / 2, -fit.topAt - fit.block.height - 32], lines);
}

/** How the corners come to fit. */
function cornerWords({ squareByHand, templates }: Pick<JointLayout, 'squareByHand' | 'templates'>): string {
  if (squareByHand) return 'The mortise’s corners are cut square by hand until the tenon goes in.';
  return templates === null ? 'Both are cut by hand.' : 'Both are rounded alike: nothing is left to pare.';
}
