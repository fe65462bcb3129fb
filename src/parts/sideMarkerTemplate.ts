import { circle, rectangle } from '../geometry/ring.ts';
import type { Box, Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument, SideMarkerTemplate } from '../profile/types.ts';
import { type Inscription, type Lettered, withLettering } from './lettering.ts';
import type { PartSettings } from './settings.ts';
import type { OutlineFeature, Part } from './types.ts';

/** The strip goes on this far above the blank's top. Millimetres. */
const ABOVE = 3;

/**
 * A strip with a pilot hole over each side marker, as it is seen when it lies on the edge: the nut end at x = 0, the board's
 * underside a line at y = 0, below which a batten glued to the strip hooks under the board. Of a left-handed instrument x runs back.
 */
export function makeSideMarkerTemplate(
  instrument: Instrument,
  layout: Layout,
  template: SideMarkerTemplate,
  settings: PartSettings,
): Part {
  const box = stripOf(instrument, layout, template);
  const between = settings.allowances.between;
  return {
    id: 'side-marker-template',
    title: 'Side marker template',
    material: template.materialClass,
    materialClass: template.materialClass,
    blank: {
      box: { x: [box.x[0] - between, box.x[1] + between], y: [box.y[0] - between, box.y[1] + between] },
      thickness: template.thickness,
      top: { kind: 'plane', z: 0 },
    },
    features: [
      {
        id: 'side-marker-template-underside',
        work: 'sideMarkerTemplate',
        kind: 'line',
        points: [
          [box.x[0], 0],
          [box.x[1], 0],
        ],
        meaning: 'underside',
      },
      ...placesOf(layout).map(
        ({ id, at }): OutlineFeature => ({
          id: `side-marker-template-${id.replace('side-marker-', '')}`,
          work: 'sideMarkerTemplate',
          kind: 'outline',
          ring: circle(at, template.pilot / 2),
          keep: 'outside',
        }),
      ),
      {
        id: 'side-marker-template-outline',
        work: 'sideMarkerTemplate',
        kind: 'outline',
        ring: rectangle(box),
        keep: 'inside',
      },
    ],
    datum: datumOf(layout),
  };
}

/** The template with the number of each fret below its hole, its own name and that of the instrument, where they are asked for. */
export function inscribeSideMarkerTemplate(part: Part, layout: Layout, instrument: Instrument): Lettered {
  const { lettering } = instrument.jigs;
  if (lettering === null) return { part, findings: [] };
  const outline = part.features.find((f) => f.id === 'side-marker-template-outline');
  if (outline?.kind !== 'outline') throw new Error(`${part.id} has no outline`);
  const within: Box = boxOf(outline.ring.map((v) => [v.x, v.y]));
  const below = within.y[0] / 2;
  const first = new Map(placesOf(layout).map(({ fret, at }) => [fret, at] as const));
  const numbers = [...first].map(([fret, at]): Inscription => {
    const label = layout.slots.find((slot) => slot.fret === fret)?.label ?? String(fret);
    return {
      id: `side-marker-template-number-${String(fret).padStart(2, '0')}`,
      text: label,
      what: `the number of fret ${label}`,
      within,
      near: [at[0], below],
    };
  });
  const middle: Vec = [(within.x[0] + within.x[1]) / 2, below];
  const names = [
    { id: `${part.id}-name`, text: part.title, what: 'its name', within, near: middle },
    {
      id: `${part.id}-instrument`,
      text: instrument.name,
      what: "the instrument's name",
      within,
      near: middle,
    },
  ];
  return withLettering(part, 'sideMarkerTemplate', [...numbers, ...names], lettering.height);
}

/** Holes in the template's frame. */
function placesOf({ sideMarkers, board }: Layout): { id: string; fret: number; at: Vec }[] {
  const sense = senseOf(board.bassEdge.from);
  return sideMarkers.map(({ id, fret, along, up }) => ({ id, fret, at: [sense * along, up] }));
}

/** The bass edge of a right-handed instrument is seen with the nut end to the left. */
const senseOf = (corner: Vec): 1 | -1 => (corner[1] < 0 ? 1 : -1);

function stripOf({ fingerboard }: Instrument, { board }: Layout, { width }: SideMarkerTemplate): Box {
  const { reach, from } = board.bassEdge;
  const top = fingerboard.blankThickness + ABOVE;
  const x: [number, number] = senseOf(from) > 0 ? [0, reach[1]] : [-reach[1], 0];
  return { x, y: [top - width, top] };
}

function boxOf(points: readonly Vec[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}

function datumOf({ board }: Layout): string {
  const hand = senseOf(board.bassEdge.from) > 0 ? 'left' : 'right';
  return `its ${hand} end at the board's corner of bass edge and nut end, its marked line along the board's underside; glue a batten to it below that line, so that it hooks under the board`;
}
