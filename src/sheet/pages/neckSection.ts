import type { NeckSet } from '../../neck/types.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import { formatNumber } from '../../units/format.ts';
import { both, size } from '../lengthWords.ts';
import { heading, left, lengthCells, lengthColumns, measuredTable, right, text, VALUE } from './blocks.ts';
import type { PageBlock } from './types.ts';

/** A worksheet for the neck's set: what to measure, and how each figure turns into wood to take off. */
export function neckSection(set: NeckSet): PageBlock[] {
  const { heel, length } = set;
  const share = (depth: number): string => formatNumber(depth / length, 3);
  const halfTop = share(heel.widthAtTop / 2);
  const halfCap = share(heel.widthAtCap / 2);
  return [
    heading('Neck set'),
    text(
      'Level the frets first, with the neck straight and the strings off. Measure three times, seat the neck anew between.',
    ),
    measuredTable(
      'What is aimed at',
      [left('what'), ...lengthColumns(set, 'is to be'), left('work to')],
      [
        [
          'straightedge on the frets, above the bare top at the saddle line',
          ...lengthCells(set, set.straightedge),
          `+/- ${size(set, 0.3)}`,
        ],
        ['joint to saddle line', ...lengthCells(set, length), `+/- ${size(set, 0.5)}`],
        [
          'the neck’s middle past the bridge’s middle, sideways',
          ...lengthCells(set, 0),
          `+/- ${size(set, 0.4)}`,
        ],
      ],
    ),
    {
      kind: 'table',
      name: 'From the measured figures to wood',
      columns: [left('figure'), left('how'), left('comes to')],
      rows: [
        [
          'e, how far the straightedge lies too low',
          `${both(set, set.straightedge)} less what was measured`,
          VALUE,
        ],
        ['cap side, both cheeks, where e is more than nothing', `e x ${share(heel.depth)}`, VALUE],
        ['top side, both cheeks, where e is less than nothing', `-e x ${share(heel.depth)}`, VALUE],
        ['y, how far the middle passes on the treble side; minus on the bass side', 'measured', VALUE],
        [
          'at the top, one cheek more than the other',
          `y x 2 x ${halfTop}, treble cheek where y is more than nothing`,
          VALUE,
        ],
        ['at the cap, one cheek more than the other', `y x 2 x ${halfCap}, the same cheek`, VALUE],
      ],
    },
    text(
      `Take it off as one plane, the least corner nothing: nutline neckset with --straightedge and --aim prints the four corners. The angle is ${formatNumber(degreesFromRadians(set.angle), 2)} degrees, head back where that is positive; a tenth of a degree is ${size(set, set.tenth.straightedge)} at the saddle line and ${size(set, set.tenth.action)} of action at fret ${set.tenth.actionFret}.`,
    ),
    ...extension(set),
  ];
}

function extension(set: NeckSet): PageBlock[] {
  return [
    heading('The board over the body', 3),
    measuredTable(
      'The board over the body',
      [
        left('where'),
        ...lengthColumns(set, 'from the joint'),
        ...lengthColumns(set, 'under the board'),
        right('what'),
      ],
      set.extension.map((place) => [
        place.what,
        ...lengthCells(set, place.along),
        ...lengthCells(set, Math.abs(place.gap)),
        place.gap < 0 ? 'to flatten' : 'wedge',
      ]),
    ),
  ];
}
