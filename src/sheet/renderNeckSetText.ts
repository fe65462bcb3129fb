/** Setting the neck as a page of text: the angle, the board over the body, and what to take off the heel. */
import type { HeelWork, NeckSet } from '../neck/types.ts';
import { degreesFromRadians } from '../units/convert.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../units/format.ts';
import { type Column, textTable } from './textTable.ts';
import { wrapText } from './wrapText.ts';

/** The whole page. */
export function renderNeckSetText(set: NeckSet): string {
  const parts = [headOf(set), angleLines(set), extensionLines(set), heelLines(set), cautions()];
  return `${parts.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

const left = (...head: string[]): Column => ({ head, align: 'left' });
const right = (...head: string[]): Column => ({ head, align: 'right' });
const both = (mm: number): string => `${formatMm(mm, 2)} mm (${formatInches(mm, 3)} in)`;
const sentences = (...texts: string[]): string[] => texts.flatMap((text) => wrapText(text));
const degrees = (radians: number): string => `${formatNumber(degreesFromRadians(radians), 2)} deg`;

function headOf({ instrument, jointFret }: NeckSet): string[] {
  return sentences(
    `Neck set of ${instrument.replace(/\s+/g, ' ')}: the body begins at fret ${jointFret}.`,
    'Level the frets first, with the neck straight; strings off. Heights are from the plane of the rim at the joint, lengths along the middle from the joint.',
  );
}

function angleLines(set: NeckSet): string[] {
  const { tenth, saddle, clearance } = set;
  const rows = [
    ['joint to saddle line', both(set.length)],
    ['fret tops above the rim at the joint', both(set.fretsAboveRim)],
    ['bridge above the bare top', both(set.bridgeHeight)],
    ['clearance wanted, strings off', both(clearance.unstrung)],
    ['of which the pull is expected to take', both(clearance.drop)],
    ['rise of the top, joint to saddle line', both(set.domeRise)],
    ['neck angle, head back', degrees(set.angle)],
    ['straightedge above the bare top at the saddle line', both(set.straightedge)],
    [
      'saddle out of the bridge, for the action wanted',
      `${formatMm(saddle[0], 1)} to ${formatMm(saddle[1], 1)} mm`,
    ],
  ];
  return [
    'What is aimed at:',
    ...textTable([left('what'), left('how much')], rows),
    ...sentences(
      `A new build has no bridge yet: measure the straightedge over the bare top. Work to +/- 0.3 mm there. A tenth of a degree is ${formatMm(tenth.straightedge, 2)} mm at the saddle line and ${formatMm(tenth.action, 2)} mm of action at fret ${tenth.actionFret}.`,
    ),
  ];
}

function extensionLines({ extension }: NeckSet): string[] {
  const rows = extension.map((place) => [
    place.what,
    formatMm(place.along, 1),
    formatInches(place.along, 2),
    formatMm(place.gap, 2),
    formatInches(place.gap, 3),
    ...(falls(extension) ? [formatMm(place.fallAway, 2)] : []),
  ]);
  const heads = [
    left('where'),
    right('from the', 'joint mm'),
    right('', 'in'),
    right('under the', 'board mm'),
    right('', 'in'),
    ...(falls(extension) ? [right('frets fall', 'away mm')] : []),
  ];
  const end = extension.at(-1)?.gap ?? 0;
  const worst = Math.min(...extension.map((place) => place.gap));
  return [
    'The board over the body, between its underside and the top:',
    ...textTable(heads, rows),
    ...sentences(
      worst < 0
        ? `Minus means that the board fouls the top: flatten the top by as much, or thin the board’s underside, before the neck is tried; ${formatMm(-worst, 2)} mm at the worst place.`
        : `A wedge under the board, ${formatMm(extension[0]?.gap ?? 0, 2)} mm at the joint and ${formatMm(end, 2)} mm at the board’s end, carries it.`,
    ),
  ];
}

const falls = (extension: NeckSet['extension']): boolean => extension.some((place) => place.fallAway > 0);

function heelLines(set: NeckSet): string[] {
  const { work } = set;
  if (work === null) {
    return sentences(
      'Nothing was measured: say --straightedge (its height above the bare top at the saddle line) and --aim (how far the neck’s middle passes the bridge’s middle, as "1 mm treble") to learn what to take off the heel.',
    );
  }
  return [
    ...sentences(measuredWords(set, work)),
    ...(work.raise === 0 && work.aim === 0 ? [] : cornerLines(set, work)),
  ];
}

function measuredWords(set: NeckSet, { measured, raise, aim, angleNow, actionOff }: HeelWork): string {
  const height =
    raise === 0
      ? 'as it should be'
      : `${formatMm(Math.abs(raise), 2)} mm too ${raise > 0 ? 'low' : 'high'}, an angle of ${degrees(angleNow)}`;
  const side =
    aim === 0
      ? 'The middle runs where it should.'
      : `The middle passes ${formatMm(Math.abs(aim), 2)} mm to the ${aim > 0 ? 'treble' : 'bass'} side.`;
  const action =
    Math.abs(actionOff) < 0.005
      ? ''
      : ` Left so, the planned saddle gives an action ${formatMm(Math.abs(actionOff), 2)} mm too ${actionOff > 0 ? 'high' : 'low'} at fret ${set.tenth.actionFret}, or the saddle must stand out ${saddleWords(set)}.`;
  return `Measured: straightedge ${both(measured.straightedge)} above the bare top, ${height}. ${side}${action}`;
}

function saddleWords({ work }: NeckSet): string {
  const [low, high] = work?.saddleIfLeft ?? [0, 0];
  return `${formatMm(low, 1)} to ${formatMm(high, 1)} mm for the action wanted`;
}

function cornerLines({ heel }: NeckSet, work: HeelWork): string[] {
  const { removal, wedge } = work;
  const rows = [
    ['top', formatMm(removal.topBass, 2), formatMm(removal.topTreble, 2)],
    ['cap', formatMm(removal.capBass, 2), formatMm(removal.capTreble, 2)],
  ];
  const pitch = { cap: 'more toward the cap', top: 'more toward the top', neither: 'level from top to cap' }[
    work.side
  ];
  const yaw = work.cheek === 'neither' ? 'both cheeks alike' : `more off the ${work.cheek} cheek`;
  return [
    '',
    `Take off the heel’s face, as one plane (${pitch}, ${yaw}):`,
    ...textTable([left('mm'), right('bass cheek'), right('treble cheek')], rows),
    ...sentences(
      `Heel ${formatShort(heel.depth, 1)} mm deep, ${formatShort(heel.widthAtTop, 1)} mm wide at the top and ${formatShort(heel.widthAtCap, 1)} mm at the cap. Work to 0.1 mm; take half, seat the neck, measure again.`,
      ...(work.raise === 0
        ? []
        : [
            `Pitch alone is a wedge of ${degrees(wedge.angle)}: ${formatMm(wedge.thick, 2)} mm thick over the heel’s depth, thick end at the ${work.side === 'cap' ? 'cap' : 'top'}. A sanding wedge or a shim of that taper does the same.`,
          ]),
      `The nut moves ${formatMm(Math.abs(work.nutMoves), 2)} mm ${work.nutMoves >= 0 ? 'toward' : 'away from'} the bridge${work.nutSwings === 0 ? '' : ` and swings ${formatMm(Math.abs(work.nutSwings), 2)} mm to the ${work.nutSwings > 0 ? 'treble' : 'bass'} side`}: measure the bridge’s place from the nut afterwards, not before.`,
    ),
  ];
}

function cautions(): string[] {
  return sentences(
    'Aim is measured sideways from a straightedge along each edge of the board to the middle of the pins; lengthwise distances test the bridge, not the neck. A wrong neck angle cannot be undone by sanding the other way without a shim: try in scrap. Wear eye and dust protection.',
  );
}
