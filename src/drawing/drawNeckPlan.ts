import { bounds } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { HeadLayout, Layout, NeckLayout } from '../layout/types.ts';
import { levelDimension, uprightDimension } from './dimension.ts';
import type { NeckHeading } from './neckHeading.ts';
import { kerfWords, lettering, millimetres, notesLayer } from './notes.ts';
import { drawnOnce } from './once.ts';
import { circleOf, line, outlineOf, polyline } from './shapes.ts';
import type { Drawing, Layer, Shape } from './types.ts';

interface Plan {
  readonly layout: Layout;
  readonly neck: NeckLayout;
  readonly heading: NeckHeading;
}

/**
 * The neck seen from the face, 1:1, its head unfolded into the neck's plane: frame and millimetres of the layout. Null where the neck
 * is made elsewhere.
 */
export function drawNeckPlan(layout: Layout, heading: NeckHeading): Drawing | null {
  const { neck } = layout;
  if (neck === null) return null;
  const plan: Plan = { layout, neck, heading };
  const { head } = neck;
  const layers: Layer[] = [
    { name: 'NECK_EDGES', shapes: neckEdges(plan) },
    { name: 'HEAD_OUTLINE', shapes: head === null ? [] : [outlineOf(head.outline)] },
    { name: 'TUNER_HOLES', shapes: head === null ? [] : holes(head, heading) },
    { name: 'STRINGS', shapes: head === null ? [] : head.runs.map((run) => line(run.from, run.to)) },
    { name: 'TRUSS_ROD', shapes: layout.rodCuts.map((cut) => outlineOf(cut.ring)) },
    { name: 'INDEX_PINS', shapes: layout.indexPins.map((pin) => circleOf(pin.at, pin.diameter)) },
    { name: 'NUT', shapes: [across(plan, neck.breakX), line(...layout.nutLine)] },
    { name: 'SEAM', shapes: neck.scarf === null ? [] : [across(plan, neck.scarf.seamTop)] },
    { name: 'JOINT', shapes: jointShapes(plan) },
    { name: 'CENTRELINE', shapes: [line([farEnd(plan), 0], [neck.end + 6, 0])] },
    { name: 'DIMENSIONS', shapes: dimensions(plan) },
  ];
  return {
    id: 'neck-plan',
    title: `${heading.name}, neck from its face`,
    part: 'neck',
    kerf: 'finished edges',
    layers: [...drawnOnce(layers), notes(plan)],
  };
}

function halfAt({ layout }: Plan, x: number): number {
  const { at0, slope } = layout.board.halfWidth;
  return at0 + slope * x;
}

/** Both edges of the shaft, which are those of the board, from the break to the neck's end, and its end. */
function neckEdges(plan: Plan): Shape[] {
  const { breakX, end } = plan.neck;
  const edge = (x: number, side: number): Vec => [x, side * halfAt(plan, x)];
  return [polyline([edge(breakX, -1), edge(end, -1), edge(end, 1), edge(breakX, 1)])];
}

function holes(head: HeadLayout, { headstock }: NeckHeading): Shape[] {
  const { hole = 0, bushing = null } = headstock?.tuners ?? {};
  return head.posts.flatMap(({ at }) => [
    circleOf(at, hole),
    ...(bushing === null ? [] : [circleOf(at, bushing.diameter)]),
  ]);
}

function across(plan: Plan, x: number): Shape {
  const half = halfAt(plan, x);
  return line([x, -half], [x, half]);
}

function jointShapes(plan: Plan): Shape[] {
  const { joint } = plan.neck;
  const { neckJoint } = plan.heading;
  if (joint === null || neckJoint === null) return [];
  const top = neckJoint.heelWidthAtTop / 2;
  const cap = neckJoint.heelWidthAtCap / 2;
  return [
    line([joint, -top], [joint, top]),
    ...[-1, 1].map((side) => line([joint, side * top], [joint - 8, side * cap])),
    lettering([joint + 1.5, top + 1.5], 'joint; the heel narrows to its cap', 2.5),
  ];
}

function farEnd({ neck, layout }: Plan): number {
  const tip = neck.head === null ? layout.nutFace : bounds(neck.head.outline).x[0];
  return tip - 6;
}

function dimensions(plan: Plan): Shape[] {
  const { layout, neck } = plan;
  const { breakX, joint, end, head } = neck;
  const below = -(Math.max(halfAt(plan, end), head === null ? 0 : bounds(head.outline).y[1]) + 12);
  const widths = [breakX, layout.nutFace, ...(joint === null ? [] : [joint]), end];
  return [
    ...widths.flatMap((x, i) => {
      const half = halfAt(plan, x);
      return i === 1 ? [] : uprightDimension([x, -half], [x, half], x + 14);
    }),
    ...(joint === null ? [] : levelDimension([layout.nutFace, 0], [joint, 0], below)),
    ...(head === null ? [] : headDimensions(plan, head, below)),
  ];
}

/** From the back of the nut to each post of the bass side, and from the centreline to each post. */
function headDimensions({ neck: { breakX } }: Plan, head: HeadLayout, below: number): Shape[] {
  const { x, y } = bounds(head.outline);
  const rows = head.posts.filter((post) => post.at[1] < 0);
  return [
    ...rows
      .toSorted((a, b) => a.place - b.place)
      .flatMap(({ at }, i) => levelDimension(at, [breakX, at[1]], below - 7 * i)),
    ...levelDimension([x[0], 0], [breakX, 0], below - 7 * rows.length),
    ...uprightDimension([x[0], y[0]], [x[0], y[1]], x[0] - 12),
    ...head.posts
      .filter((post) => post.at[1] > 0)
      .flatMap(({ at }) => uprightDimension([at[0], 0], at, at[0] - 8)),
  ];
}

function notes({ layout, neck, heading }: Plan): Layer {
  const { head } = neck;
  const { headstock, hand } = heading;
  const low = -(
    Math.max(halfAt({ layout, neck, heading }, neck.end), head === null ? 0 : bounds(head.outline).y[1]) + 60
  );
  const bushing = headstock?.tuners.bushing ?? null;
  const lines = [
    `${heading.name}, neck from its face, ${hand}-handed`,
    'Millimetres, scale 1:1. The head is unfolded into the plane of the neck: lengths along it are true on its face.',
    `Datum: scale zero on the centreline; x toward the bridge, y toward the ${hand === 'right' ? 'treble' : 'bass'} side.`,
    `Back of the nut ${millimetres(layout.nutFace - neck.breakX)} behind the nut face.`,
    ...(headstock === null
      ? []
      : [
          `Tuner holes ${millimetres(headstock.tuners.hole)} right through${bushing === null ? '' : `, and ${millimetres(bushing.diameter)} to ${millimetres(bushing.depth)} below the face of the veneer, for the bushings`}. Strings run to posts ${millimetres(headstock.tuners.post)} thick.`,
        ]),
    kerfWords('finished edges'),
  ];
  return notesLayer([farEnd({ layout, neck, heading }), low], lines);
}
