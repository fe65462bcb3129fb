/** Do the face and side markers fit into the board? */
import type { Finding } from '../report/finding.ts';
import {
  type BoardSections,
  boardEnd,
  edgeThickness,
  fretName,
  fretRange,
  halfWidthAt,
  noSuchFret,
  type SurfaceSections,
  slotX,
  spaceX,
} from './boardShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';
import { largestCorner, markerSize, sizeKey } from './markerForm.ts';
import type { FaceMarker, Instrument } from './types.ts';

/** Least wood between a marker and a slot, between the two of a pair, and beside an edge. */
const WALL = 0.5;
/** Least marker left after the board has been radiused: thinner ones chip or show the glue. */
const LEAST_MARKER = 0.3;

type FaceSections = SurfaceSections & Pick<Instrument, 'faceMarkers'>;

const fretsExist = check(['faceMarkers', 'sideMarkers', 'frets'], ({ faceMarkers, sideMarkers, frets }) => [
  ...missingFrets('faceMarkers', faceMarkers.at, frets),
  ...missingFrets('sideMarkers', sideMarkers.at, frets),
]);

function missingFrets(
  section: string,
  at: readonly { readonly fret: number }[],
  frets: Instrument['frets'],
): Finding[] {
  const { count } = frets;
  return at.flatMap(({ fret }, i) => [
    ...when(fret > count, () =>
      wrong('no-such-fret', `${section}.at[${i}].fret`, noSuchFret(frets, fret), {
        allowed: fretRange(frets),
      }),
    ),
    ...when(at.findIndex((other) => other.fret === fret) < i, () =>
      wrong(
        'marker-twice',
        `${section}.at[${i}].fret`,
        `Fret ${fretName(frets, fret)} has a marker already.`,
        {
          remedy: 'For a double marker write count: 2.',
        },
      ),
    ),
  ]);
}

const faceMarkersFit = check(['faceMarkers', 'scale', 'frets', 'fingerboard', 'nut', 'bridge'], (sections) =>
  sections.faceMarkers.at.flatMap((marker, i) =>
    marker.fret > sections.frets.count ? [] : faceMarkerFits(sections, marker, `faceMarkers.at[${i}]`),
  ),
);

function faceMarkerFits(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  return [
    ...fitsBetweenSlots(sections, marker, path),
    ...fitsAcross(sections, marker, path),
    ...hasItsCorners(sections, marker, path),
    ...hasItsShape(sections, marker, path),
  ];
}

/** Least width of a ring's band, and of what two notches leave between them. */
const LEAST_BAND = 0.8;

function hasItsShape(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  if (marker.shape === 'ring') {
    const most = marker.diameter - 2 * LEAST_BAND;
    return when(marker.inner > most + HAIR, () =>
      wrong(
        'ring-too-thin',
        `${path}.inner`,
        `The ring at fret ${fretName(sections.frets, marker.fret)} has no band left to cut.`,
        {
          found: mm(marker.inner),
          allowed: `at most ${mm(most)}`,
        },
      ),
    );
  }
  if (marker.shape !== 'notched block') return [];
  const deepest = (marker.length - LEAST_BAND) / 2;
  return [
    ...when(marker.notchDepth > deepest + HAIR, () =>
      wrong(
        'notch-too-deep',
        `${path}.notchDepth`,
        `The notches of the block at fret ${fretName(sections.frets, marker.fret)} meet in its middle.`,
        { found: mm(marker.notchDepth), allowed: `at most ${mm(deepest)}` },
      ),
    ),
    ...when(marker.notchWidth > marker.width - LEAST_BAND + HAIR, () =>
      wrong(
        'notch-too-wide',
        `${path}.notchWidth`,
        `The notches of the block at fret ${fretName(sections.frets, marker.fret)} are as wide as the block.`,
        { found: mm(marker.notchWidth), allowed: `at most ${mm(marker.width - LEAST_BAND)}` },
      ),
    ),
  ];
}

function hasItsCorners(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  const { faceMarkers } = sections;
  const most = largestCorner(marker);
  if (most === null) return [];
  return when(faceMarkers.cornerRadius > most + HAIR, () =>
    wrong(
      'corners-too-round',
      'faceMarkers.cornerRadius',
      `Corners of ${mm(faceMarkers.cornerRadius)} do not fit the ${marker.shape} marker at fret ${fretName(sections.frets, marker.fret)} (${path}).`,
      {
        allowed: `at most ${mm(most)}`,
        remedy: 'A smaller corner radius, or a larger marker.',
      },
    ),
  );
}

function fitsBetweenSlots(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  const { frets, nut, faceMarkers } = sections;
  const { fret } = marker;
  const { along } = markerSize(marker);
  const middle = spaceX(sections, fret);
  // At the first fret the nut's face stands where a slot would be.
  const before = fret === 1 ? nut.setForward : slotX(sections, fret - 1) + frets.slotWidth / 2;
  const room = 2 * Math.min(middle - before, slotX(sections, fret) - frets.slotWidth / 2 - middle) - 2 * WALL;
  return when(along + faceMarkers.clearance > room + HAIR, () =>
    wrong(
      'marker-too-wide',
      `${path}.${sizeKey(marker, 'along')}`,
      `A marker of ${mm(along)} does not fit between the slots at fret ${fretName(sections.frets, fret)}.`,
      {
        allowed: `at most ${mm(room - faceMarkers.clearance)}, with ${WALL} mm of wood on each side`,
      },
    ),
  );
}

function fitsAcross(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  const { spread, clearance } = sections.faceMarkers;
  const { along, across } = markerSize(marker);
  const pocket = across + clearance;
  const reach = (marker.count === 2 ? spread : 0) / 2 + pocket / 2 + WALL;
  const half = halfWidthAt(sections, spaceX(sections, marker.fret) - (along + clearance) / 2);
  return [
    ...when(reach > half, () =>
      wrong(
        'marker-off-board',
        marker.count === 2 ? 'faceMarkers.spread' : `${path}.${sizeKey(marker, 'across')}`,
        `The marker at fret ${fretName(sections.frets, marker.fret)} reaches over the board's edge: ${mm(reach)} from the centreline, the edge is at ${mm(half)}.`,
        {
          remedy: 'A smaller spread or a smaller marker.',
        },
      ),
    ),
    ...when(marker.count === 2 && spread < pocket + WALL, () =>
      wrong(
        'markers-overlap',
        'faceMarkers.spread',
        `The two markers at fret ${fretName(sections.frets, marker.fret)} run into each other.`,
        {
          found: mm(spread),
          allowed: `at least ${mm(pocket + WALL)}`,
        },
      ),
    ),
  ];
}

const sideMarkersFit = check(
  ['sideMarkers', 'scale', 'frets', 'fingerboard', 'nut', 'bridge'],
  (sections) => {
    const { below, diameter, depth, at, spread } = sections.sideMarkers;
    if (at.length === 0) return [];
    const edge = edgeThickness(sections, boardEnd(sections));
    return [
      ...when(below - diameter / 2 < LEAST_MARKER, () =>
        wrong(
          'side-marker-too-high',
          'sideMarkers.below',
          'The side markers would break through the edge of the playing surface.',
          {
            allowed: `at least ${mm(diameter / 2 + LEAST_MARKER)}`,
          },
        ),
      ),
      ...when(below + diameter / 2 + LEAST_MARKER > edge, () =>
        wrong(
          'side-marker-too-low',
          'sideMarkers.below',
          `The edge is ${mm(edge)} thick at its thinnest; the side markers would break through its underside.`,
          {
            allowed: `at most ${mm(edge - diameter / 2 - LEAST_MARKER)}`,
          },
        ),
      ),
      ...when(depth > sections.fingerboard.widthAtNut / 4, () =>
        wrong(
          'side-marker-too-deep',
          'sideMarkers.depth',
          'The holes of the side markers reach a quarter of the way across the board.',
          {
            allowed: `at most ${mm(sections.fingerboard.widthAtNut / 4)}`,
          },
        ),
      ),
      ...at.flatMap(({ fret, count }, i) =>
        sideMarkerRoom(sections, fret, count === 2 ? spread + diameter : diameter, i),
      ),
      ...when(at.some((marker) => marker.count === 2) && spread < diameter + WALL, () =>
        wrong(
          'markers-overlap',
          'sideMarkers.spread',
          'The two of a double side marker run into each other.',
          {
            allowed: `at least ${mm(diameter + WALL)}`,
          },
        ),
      ),
    ];
  },
);

function sideMarkerRoom(
  sections: BoardSections,
  fret: number,
  length: number,
  i: number,
): readonly Finding[] {
  if (fret > sections.frets.count) return [];
  const room = slotX(sections, fret) - slotX(sections, fret - 1) - sections.frets.slotWidth - 2 * WALL;
  return when(length > room, () =>
    wrong(
      'marker-too-wide',
      `sideMarkers.at[${i}]`,
      `The side marker at fret ${fretName(sections.frets, fret)} runs into a slot.`,
      {
        allowed: `at most ${mm(room)} along the board`,
        remedy: 'A smaller spread or a thinner rod.',
      },
    ),
  );
}

export const markerChecks: readonly Check[] = [fretsExist, faceMarkersFit, sideMarkersFit];
