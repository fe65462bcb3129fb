/** Do the markers and index pins fit into the board, and do the markers stand where players look for them? */
import type { Finding } from '../report/finding.ts';
import {
  type BoardSections,
  boardEnd,
  edgeThickness,
  fallAt,
  halfWidthAt,
  slotX,
  spaceX,
} from './boardShape.ts';
import { type Check, check, doubtful, HAIR, mm, when, wrong } from './check.ts';
import type { FaceMarker, Family, Instrument } from './types.ts';

/** Least wood between a marker and a slot, between the two of a pair, and beside an edge. */
const WALL = 0.5;
/** Least marker left after the board has been radiused: thinner ones chip or show the glue. */
const LEAST_MARKER = 0.3;

type FaceSections = BoardSections & Pick<Instrument, 'faceMarkers'>;

const fretsExist = check(['faceMarkers', 'sideMarkers', 'frets'], ({ faceMarkers, sideMarkers, frets }) => [
  ...missingFrets('faceMarkers', faceMarkers.at, frets.count),
  ...missingFrets('sideMarkers', sideMarkers.at, frets.count),
]);

function missingFrets(section: string, at: readonly { readonly fret: number }[], count: number): Finding[] {
  return at.flatMap(({ fret }, i) => [
    ...when(fret > count, () =>
      wrong('no-such-fret', `${section}.at[${i}].fret`, `There is no fret ${fret}: the board has ${count}.`, {
        allowed: `1 to ${count}`,
      }),
    ),
    ...when(at.findIndex((other) => other.fret === fret) < i, () =>
      wrong('marker-twice', `${section}.at[${i}].fret`, `Fret ${fret} has a marker already.`, {
        remedy: 'For a double marker write count: 2.',
      }),
    ),
  ]);
}

const faceMarkersFit = check(['faceMarkers', 'scale', 'frets', 'fingerboard', 'nut'], (sections) =>
  sections.faceMarkers.at.flatMap((marker, i) =>
    marker.fret > sections.frets.count ? [] : faceMarkerFits(sections, marker, `faceMarkers.at[${i}]`),
  ),
);

function faceMarkerFits(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  return [
    ...fitsBetweenSlots(sections, marker, path),
    ...fitsAcross(sections, marker, path),
    ...survivesRadiusing(sections, marker, path),
    ...leavesWood(sections, marker, path),
  ];
}

function fitsBetweenSlots(
  sections: FaceSections,
  { fret, diameter }: FaceMarker,
  path: string,
): readonly Finding[] {
  const { frets, nut, faceMarkers } = sections;
  const middle = spaceX(sections, fret);
  // At the first fret the nut's face stands where a slot would be.
  const before = fret === 1 ? nut.setForward : slotX(sections, fret - 1) + frets.slotWidth / 2;
  const room = 2 * Math.min(middle - before, slotX(sections, fret) - frets.slotWidth / 2 - middle) - 2 * WALL;
  return when(diameter + faceMarkers.clearance > room + HAIR, () =>
    wrong(
      'marker-too-wide',
      `${path}.diameter`,
      `A marker of ${mm(diameter)} does not fit between the slots at fret ${fret}.`,
      {
        allowed: `at most ${mm(room - faceMarkers.clearance)}, with ${WALL} mm of wood on each side`,
      },
    ),
  );
}

function fitsAcross(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  const { spread, clearance } = sections.faceMarkers;
  const pocket = marker.diameter + clearance;
  const reach = (marker.count === 2 ? spread : 0) / 2 + pocket / 2 + WALL;
  const half = halfWidthAt(sections, spaceX(sections, marker.fret) - pocket / 2);
  return [
    ...when(reach > half, () =>
      wrong(
        'marker-off-board',
        marker.count === 2 ? 'faceMarkers.spread' : `${path}.diameter`,
        `The marker at fret ${marker.fret} reaches over the board's edge: ${mm(reach)} from the centreline, the edge is at ${mm(half)}.`,
        {
          remedy: 'A smaller spread or a smaller marker.',
        },
      ),
    ),
    ...when(marker.count === 2 && spread < pocket + WALL, () =>
      wrong(
        'markers-overlap',
        'faceMarkers.spread',
        `The two markers at fret ${marker.fret} run into each other.`,
        {
          found: mm(spread),
          allowed: `at least ${mm(pocket + WALL)}`,
        },
      ),
    ),
  ];
}

/** Nearest and farthest y of a marker from the centreline. */
function reachOf({ faceMarkers }: FaceSections, marker: FaceMarker): readonly [near: number, far: number] {
  const centre = marker.count === 2 ? faceMarkers.spread / 2 : 0;
  return [Math.max(0, centre - marker.diameter / 2), centre + marker.diameter / 2];
}

/** The top stands proud at the marker's highest place; what is left at its lowest is the thickness less the fall between. */
function survivesRadiusing(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  const { thickness, proud } = sections.faceMarkers;
  const { radius } = sections.fingerboard;
  const [near, far] = reachOf(sections, marker);
  const lost = proud + fallAt(radius, far) - fallAt(radius, near);
  return when(thickness - lost < LEAST_MARKER && Number.isFinite(lost), () =>
    wrong(
      'marker-sanded-away',
      'faceMarkers.thickness',
      `Levelling takes ${mm(lost)} off the outer side of the marker at fret ${marker.fret} (${path}); it is ${mm(thickness)} thick.`,
      {
        allowed: `at least ${mm(lost + LEAST_MARKER)}`,
        remedy: 'Thicker markers, a smaller marker, or less of it standing proud.',
      },
    ),
  );
}

function leavesWood(sections: FaceSections, marker: FaceMarker, path: string): readonly Finding[] {
  const { fingerboard, frets, faceMarkers } = sections;
  const [near] = reachOf(sections, marker);
  const left =
    fingerboard.thickness - fallAt(fingerboard.radius, near) + faceMarkers.proud - faceMarkers.thickness;
  return when(left < frets.leastWoodBelow - HAIR && Number.isFinite(left), () =>
    wrong(
      'pocket-too-deep',
      'faceMarkers.thickness',
      `The pocket of the marker at fret ${marker.fret} (${path}) leaves ${mm(left)} of wood under it.`,
      {
        allowed: `at least ${mm(frets.leastWoodBelow)} (frets.leastWoodBelow)`,
        remedy: 'Thinner markers or a thicker board.',
      },
    ),
  );
}

const sideMarkersFit = check(['sideMarkers', 'scale', 'frets', 'fingerboard', 'nut'], (sections) => {
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
      wrong('markers-overlap', 'sideMarkers.spread', 'The two of a double side marker run into each other.', {
        allowed: `at least ${mm(diameter + WALL)}`,
      }),
    ),
  ];
});

function sideMarkerRoom(
  sections: BoardSections,
  fret: number,
  length: number,
  i: number,
): readonly Finding[] {
  if (fret > sections.frets.count) return [];
  const room = slotX(sections, fret) - slotX(sections, fret - 1) - sections.frets.slotWidth - 2 * WALL;
  return when(length > room, () =>
    wrong('marker-too-wide', `sideMarkers.at[${i}]`, `The side marker at fret ${fret} runs into a slot.`, {
      allowed: `at most ${mm(room)} along the board`,
      remedy: 'A smaller spread or a thinner rod.',
    }),
  );
}

const pinsFit = check(
  ['indexPins', 'faceMarkers', 'scale', 'frets', 'fingerboard', 'nut', 'fretWire', 'trussRod'],
  (sections) => {
    const { indexPins: pins, frets } = sections;
    const missing = pins.frets.flatMap((fret, i) =>
      when(fret > frets.count, () =>
        wrong(
          'no-such-fret',
          `indexPins.frets[${i}]`,
          `There is no fret ${fret}: the board has ${frets.count}.`,
          {
            allowed: `1 to ${frets.count}`,
          },
        ),
      ),
    );
    if (missing.length > 0) return missing;
    return [
      ...when(pins.frets[0] === pins.frets[1], () =>
        wrong(
          'pins-together',
          'indexPins.frets',
          'Both index pins are at the same fret, so they hold no direction.',
          {
            allowed: 'two frets, far apart',
          },
        ),
      ),
      ...pinsCovered(sections),
      ...pins.frets.flatMap((fret, i) => pinClears(sections, fret, i)),
    ];
  },
);

type PinSections = FaceSections & Pick<Instrument, 'indexPins' | 'fretWire' | 'trussRod'>;

function pinsCovered({ indexPins: pins, fretWire, faceMarkers }: PinSections): readonly Finding[] {
  if (pins.place === 'clear') return [];
  if (pins.place === 'slot') {
    return when(pins.diameter > fretWire.crownWidth + HAIR, () =>
      wrong(
        'pin-not-covered',
        'indexPins.diameter',
        `A pin of ${mm(pins.diameter)} shows beside a crown of ${mm(fretWire.crownWidth)}.`,
        {
          allowed: `at most ${mm(fretWire.crownWidth)} with place: slot`,
        },
      ),
    );
  }
  return pins.frets.flatMap((fret, i) => {
    const marker = faceMarkers.at.find((other) => other.fret === fret);
    if (marker === undefined) {
      return [
        wrong(
          'pin-not-covered',
          `indexPins.frets[${i}]`,
          `Fret ${fret} has no face marker to hide a pin under.`,
          {
            allowed: `a fret with a marker: ${faceMarkers.at.map((other) => other.fret).join(', ') || 'there is none'}`,
          },
        ),
      ];
    }
    return when(pins.diameter > marker.diameter + HAIR, () =>
      wrong(
        'pin-not-covered',
        'indexPins.diameter',
        `A pin of ${mm(pins.diameter)} shows beside the marker at fret ${fret}.`,
        {
          allowed: `at most ${mm(marker.diameter)}`,
        },
      ),
    );
  });
}

/** Clear of the rod, of the edges and, when asked, of the slots. */
function pinClears(sections: PinSections, fret: number, i: number): readonly Finding[] {
  const { indexPins: pins, trussRod: rod, nut, faceMarkers } = sections;
  const marker = faceMarkers.at.find((other) => other.fret === fret);
  const markerY = marker?.count === 2 ? faceMarkers.spread / 2 : 0;
  const y = pins.place === 'marker' ? markerY : pins.offset;
  const x = pins.place === 'slot' ? slotX(sections, fret) : spaceX(sections, fret);
  const reach = pins.diameter / 2 + pins.leastWall;
  const path = pins.place === 'marker' ? `indexPins.frets[${i}]` : 'indexPins.offset';
  const rodStart = rod === null ? 0 : nut.setForward + rod.from;
  const overRod =
    rod !== null &&
    x + reach > rodStart &&
    x - reach < rodStart + rod.length &&
    y - reach < rod.width / 2 - HAIR;
  return [
    ...when(overRod, () =>
      wrong('pin-over-rod', path, `The index pin at fret ${fret} goes into the truss rod's channel.`, {
        allowed: `at least ${mm((rod?.width ?? 0) / 2 + reach)} from the centreline`,
      }),
    ),
    ...when(y + reach > halfWidthAt(sections, x), () =>
      wrong('pin-off-board', path, `The index pin at fret ${fret} is too near the board's edge.`, {
        allowed: `at most ${mm(halfWidthAt(sections, x) - reach)} from the centreline`,
      }),
    ),
    ...pinBetweenSlots(sections, fret, reach),
  ];
}

function pinBetweenSlots(sections: PinSections, fret: number, reach: number): readonly Finding[] {
  if (sections.indexPins.place !== 'clear') return [];
  const room = slotX(sections, fret) - slotX(sections, fret - 1) - sections.frets.slotWidth;
  return when(2 * reach > room, () =>
    wrong(
      'pin-in-slot',
      'indexPins.diameter',
      `At fret ${fret} there is no room for an index pin between the slots.`,
      {
        allowed: `at most ${mm(room)} with its walls`,
      },
    ),
  );
}

/** Which of the two frets that differ by custom a family marks (common practice, no source). */
function customOf(
  family: Family,
): { readonly usual: readonly number[]; readonly unusual: readonly number[] } | null {
  switch (family) {
    case 'guitar':
    case 'bass':
      return { usual: [9], unusual: [10] };
    case 'mandolin':
    case 'ukulele':
      return { usual: [10], unusual: [9] };
    case 'dulcimer':
      return { usual: [7], unusual: [] };
    case 'other':
      return null;
  }
}

/** Remarks about marker frets; left out when the profile says that they are meant as drawn. */
export const markerCustom = check(['family', 'faceMarkers', 'frets'], ({ family, faceMarkers, frets }) => {
  const marked = new Set(faceMarkers.at.map(({ fret }) => fret));
  if (marked.size === 0) return [];
  const octave = frets.perOctave;
  const custom = octave === 12 ? customOf(family) : null;
  return [
    ...unusualMarkers(faceMarkers.at, marked, custom, family),
    ...when(octave <= frets.count && !marked.has(octave) && family !== 'dulcimer', () =>
      doubtful('octave-unmarked', 'faceMarkers.at', `The octave, fret ${octave}, has no marker.`, {
        remedy: SILENCE,
      }),
    ),
  ];
});

const SILENCE = 'Set markersAsDrawn: true when it is meant so.';

function unusualMarkers(
  at: readonly FaceMarker[],
  marked: ReadonlySet<number>,
  custom: ReturnType<typeof customOf>,
  family: Family,
): readonly Finding[] {
  if (custom === null) return [];
  const wanted = custom.usual.join(', ');
  const strange = at.flatMap(({ fret }, i) =>
    when(custom.unusual.includes(fret), () =>
      doubtful(
        'marker-unusual',
        `faceMarkers.at[${i}].fret`,
        `A ${family} is customarily marked at fret ${wanted}, not ${fret}.`,
        {
          remedy: SILENCE,
        },
      ),
    ),
  );
  const highest = Math.max(...marked);
  const absent = custom.usual.filter((fret) => fret < highest && !marked.has(fret));
  if (strange.length > 0) return strange;
  return absent.map((fret) =>
    doubtful(
      'marker-unusual',
      'faceMarkers.at',
      `A ${family} is customarily marked at fret ${fret}; this one is not.`,
      {
        remedy: SILENCE,
      },
    ),
  );
}

export const markerChecks: readonly Check[] = [fretsExist, faceMarkersFit, sideMarkersFit, pinsFit];
