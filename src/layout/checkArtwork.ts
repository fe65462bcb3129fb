import { pocketOf } from '../geometry/form.ts';
import { flatten } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { halfWidthAt } from './board.ts';
import type { Layout, PlacedMarker } from './types.ts';

/** Least wood between artwork and a slot, an edge or an end of the board. Millimetres (common practice, no source). */
const WALL = 0.5;
/** Outlines are looked at by chords that leave them by at most this. Millimetres. */
const SAGITTA = 0.002;

/** Whether each figure of artwork lies on the board and clear of its slots; each place is named. */
export function checkArtwork(layout: Layout, instrument: Instrument): Finding[] {
  return layout.faceMarkers
    .filter((marker) => marker.form.shape === 'artwork')
    .flatMap((marker) => {
      const { clearance, cornerRadius } = instrument.faceMarkers;
      const region = pocketOf(marker.form, marker.at, { gap: clearance / 2, corner: cornerRadius });
      const points = flatten(region.outer, SAGITTA);
      return [...offBoard(points, marker, layout), ...overSlots(points, marker, layout, instrument)];
    });
}

function offBoard(points: readonly Vec[], marker: PlacedMarker, layout: Layout): Finding[] {
  const { board, nutFace } = layout;
  const outside = points
    .map((p) => ({
      p,
      by:
        WALL +
        Math.max(Math.abs(p[1]) - halfWidthAt(board.halfWidth, p[0]), nutFace - p[0], p[0] - board.end),
    }))
    .sort((a, b) => b.by - a.by)[0];
  if (outside === undefined || outside.by <= 1e-6) return [];
  return [
    errorFinding(
      'artwork-off-board',
      `${marker.id} reaches over the board's edge, or nearer than ${WALL} mm to it: ${place(outside.p, layout)}.`,
      {
        where: { source: 'instrument', path: pathOf(marker) },
        found: `${outside.by.toFixed(2)} mm too far out`,
        remedy: 'Scale it down, turn it, or place it between other strings.',
      },
    ),
  ];
}

function overSlots(
  points: readonly Vec[],
  marker: PlacedMarker,
  layout: Layout,
  instrument: Instrument,
): Finding[] {
  const room = instrument.frets.slotWidth / 2 + WALL;
  return layout.slots.flatMap(({ fret, label, line: [a, b] }) => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    // Positive on the bridge side of the slot.
    const off = (p: Vec): number => ((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / length;
    const sense = Math.sign(b[1] - a[1]) * (fret < marker.fret ? 1 : -1);
    const worst = points.toSorted((p, q) => sense * (off(p) - off(q)))[0];
    if (worst === undefined || sense * off(worst) >= room - 1e-6) return [];
    return [
      errorFinding(
        'artwork-over-slot',
        `${marker.id} runs into the slot of fret ${label}, or nearer than ${WALL} mm to it: ${place(worst, layout)}.`,
        {
          where: { source: 'instrument', path: pathOf(marker) },
          found: `${(sense * off(worst) - instrument.frets.slotWidth / 2).toFixed(2)} mm of wood between`,
          allowed: `at least ${WALL} mm`,
          remedy: 'Scale it down, turn it, or divide it into one piece for each space.',
        },
      ),
    ];
  });
}

function pathOf(marker: PlacedMarker): string {
  return `faceMarkers.artwork[${Number(marker.id.split('-')[1]) - 1}]`;
}

function place([x, y]: Vec, layout: Layout): string {
  return `at ${(x - layout.nutFace).toFixed(2)} mm from the nut face, ${Math.abs(y).toFixed(2)} mm to the ${y < 0 ? 'lesser' : 'greater'} y of the centreline`;
}
