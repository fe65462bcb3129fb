/** Are the index pins hidden, clear of the truss rod and inside the board? */
import type { Finding } from '../report/finding.ts';
import {
  type BoardSections,
  fretName,
  fretRange,
  halfWidthAt,
  noSuchFret,
  slotX,
  spaceX,
} from './boardShape.ts';
import { check, HAIR, mm, when, wrong } from './check.ts';
import { coveredBy } from './markerForm.ts';
import type { Instrument } from './types.ts';

export const pinsFit = check(
  ['indexPins', 'faceMarkers', 'scale', 'frets', 'fingerboard', 'nut', 'fretWire', 'trussRod'],
  (sections) => {
    const { indexPins: pins, frets } = sections;
    if (pins.place === 'none' || pins.place === 'auto') return [];
    const missing = pins.frets.flatMap((fret, i) =>
      when(fret > frets.count, () =>
        wrong('no-such-fret', `indexPins.frets[${i}]`, noSuchFret(frets, fret), {
          allowed: fretRange(frets),
        }),
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

type PinSections = BoardSections & Pick<Instrument, 'faceMarkers' | 'indexPins' | 'fretWire' | 'trussRod'>;

function pinsCovered({ indexPins: pins, frets, fretWire, faceMarkers }: PinSections): readonly Finding[] {
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
          `Fret ${fretName(frets, fret)} has no face marker to hide a pin under.`,
          {
            allowed: `a fret with a marker: ${markedFrets(faceMarkers, frets) || 'there is none'}`,
          },
        ),
      ];
    }
    return when(pins.diameter > coveredBy(marker) + HAIR, () =>
      wrong(
        'pin-not-covered',
        'indexPins.diameter',
        `A pin of ${mm(pins.diameter)} shows beside the marker at fret ${fretName(frets, fret)}.`,
        {
          allowed: `at most ${mm(coveredBy(marker))}`,
        },
      ),
    );
  });
}

const markedFrets = ({ at }: Instrument['faceMarkers'], frets: Instrument['frets']): string =>
  [...new Set(at.map(({ fret }) => fretName(frets, fret)))].join(', ');

/** Clear of the rod, of the edges and, when asked, of the slots. */
function pinClears(sections: PinSections, fret: number, i: number): readonly Finding[] {
  const { indexPins: pins, trussRod: rod, nut, faceMarkers } = sections;
  const marker = faceMarkers.at.find((other) => other.fret === fret);
  if (pins.place === 'marker' && marker === undefined) return [];
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
      wrong(
        'pin-over-rod',
        path,
        `The index pin at fret ${fretName(sections.frets, fret)} goes into the truss rod's channel.`,
        {
          allowed: `at least ${mm((rod?.width ?? 0) / 2 + reach)} from the centreline`,
        },
      ),
    ),
    ...when(y + reach > halfWidthAt(sections, x), () =>
      wrong(
        'pin-off-board',
        path,
        `The index pin at fret ${fretName(sections.frets, fret)} is too near the board's edge.`,
        {
          allowed: `at most ${mm(halfWidthAt(sections, x) - reach)} from the centreline`,
        },
      ),
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
      `At fret ${fretName(sections.frets, fret)} there is no room for an index pin between the slots.`,
      {
        allowed: `at most ${mm(room)} with its walls`,
      },
    ),
  );
}
