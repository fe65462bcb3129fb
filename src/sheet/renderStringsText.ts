/**
 * The strings as a page of text: what they weigh and how they pull, how they play, and where a saddle would go.
 * Cents with one decimal and their band; millimetres of what the model proposes with one decimal.
 */
import type { Shaken } from '../physics/uncertainty.ts';
import type { SaddleReport, Stringing, StringPull } from '../stringing/types.ts';
import { degreesFromRadians, poundsFromNewtons } from '../units/convert.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../units/format.ts';
import { heightLines } from './stringHeightsText.ts';
import { type Column, textTable } from './textTable.ts';

/** The whole page. */
export function renderStringsText(s: Stringing): string {
  const parts = [
    headOf(s),
    pullTable(s),
    feelTable(s),
    setBackTable(s),
    saddleTable(s),
    nutLines(s),
    centsTables(s),
    influenceLines(s),
    heightLines(s),
    retunedLines(s),
    notesOf(s),
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

const left = (...head: string[]): Column => ({ head, align: 'left' });
const right = (...head: string[]): Column => ({ head, align: 'right' });

/** As a bench reads it: `1 E2`. */
const nameOf = (pull: StringPull): string => `${pull.position} ${oneLine(pull.pitch)}`;
const signed = (value: number): string => {
  const digits = formatNumber(value, 1);
  return digits.startsWith('-') || digits === '0.0' ? digits : `+${digits}`;
};
const degrees = (radians: number): string => formatNumber(degreesFromRadians(radians), 1);
const percent = (share: number): string => `${formatNumber(100 * share, 0)} %`;

function headOf(s: Stringing): string[] {
  const scale = `${formatMm(s.scale, 2)} mm (${formatInches(s.scale, 3)} in)`;
  return [
    `Strings of ${oneLine(s.instrument)}: scale ${s.units === 'mm' ? scale : `${formatInches(s.scale, 3)} in (${formatMm(s.scale, 2)} mm)`}, A4 = ${formatShort(s.concertPitch, 2)} Hz. String 1 is the bass-most.`,
    'A model, with bands: nine of ten draws within the inputs’ tolerances lie inside. Set-backs stay those of the profile.',
  ];
}

function pullTable(s: Stringing): string[] {
  const heads = [
    left('string'),
    right('', 'Hz'),
    right('gauge', 'in'),
    right('core', 'in'),
    left('made of'),
    right('mass', 'g/m'),
    right('tension', 'N'),
    right('tension', 'lbf'),
    right('stress', 'MPa'),
    right('of least', 'strength'),
    right('break at', 'saddle deg'),
    right('down-', 'bearing N'),
  ];
  const rows = s.strings.map(({ pull }) => [
    nameOf(pull),
    formatNumber(pull.hertz, 2),
    formatInches(pull.gauge, 4),
    pull.make === 'plain' ? '' : `${pull.coreGiven ? '' : '~'}${formatInches(pull.core, 4)}`,
    pull.wrap === null ? `plain ${pull.material}` : `${pull.material}, ${pull.wrap}`,
    `${formatNumber(pull.massPerMetre, 3)}${pull.weighed ? ' w' : ''}`,
    formatNumber(pull.tension, 1),
    formatNumber(poundsFromNewtons(pull.tension), 1),
    formatNumber(pull.stress, 0),
    percent(pull.stress / pull.strength),
    degrees(pull.breakAngles.front + pull.breakAngles.back),
    formatNumber(pull.downBearing, 1),
  ]);
  const { tension, downBearing, balance } = s.totals;
  const marks = [
    ...(s.strings.some(({ pull }) => !pull.coreGiven) ? ['~ a usual core for the gauge, not measured.'] : []),
    ...(s.strings.some(({ pull }) => pull.weighed) ? ['w weighed.'] : []),
  ];
  return [
    'Pull, tuned, with the profile’s set-backs:',
    ...textTable(heads, rows),
    `All together ${formatNumber(tension, 0)} N (${formatNumber(poundsFromNewtons(tension), 0)} lbf) along the strings and ${formatNumber(downBearing, 0)} N (${formatNumber(poundsFromNewtons(downBearing), 0)} lbf) down on the saddle. Highest tension over lowest: ${formatNumber(balance, 2)}.`,
    ...(marks.length > 0 ? [marks.join(' ')] : []),
  ];
}

function feelTable(s: Stringing): string[] {
  const heads = [
    left('string'),
    right('tension for', 'one cent, N'),
    right('whole-tone bend', 'sideways, mm'),
    right('at the finger', 'N'),
    right('core bears', 'up to Hz'),
    right('sharp by', 'pressing'),
    right('sharp by', 'stiffness'),
  ];
  const rows = s.strings.map(({ pull, tuning }) => [
    nameOf(pull),
    formatNumber(pull.perCent, 2),
    formatNumber(pull.wholeTone.sideways, 0),
    formatNumber(pull.wholeTone.force, 0),
    formatNumber(pull.breaksAtHertz, 0),
    formatNumber(tuning.withoutSetBack.pressing, 0),
    formatNumber(tuning.withoutSetBack.stiffness, 0),
  ]);
  return [
    `Feel, bent in the middle of the string; the pitch at which the core bears its whole strength; and the cents by which fret ${s.fretNames[s.octaveFret - 1]} would be sharp without any set-back:`,
    ...textTable(heads, rows),
  ];
}

function setBackTable(s: Stringing): string[] {
  const aimed = s.strings.some(({ tuning }) => tuning.leastSquares !== null);
  const heads = [
    left('string'),
    right('profile', 'mm'),
    right('would like', 'mm'),
    right('would like', 'in'),
    ...(aimed ? [right('aiming at', '0, mm')] : []),
    right('straight', 'saddle mm'),
    right('compensated', 'mm'),
    right('its crown', 'leans mm'),
    right('profile at', `fret ${s.fretNames[s.octaveFret - 1]}, cents`),
  ];
  const rows = s.strings.map(({ pull, tuning }) => [
    nameOf(pull),
    formatMm(tuning.setBack, 2),
    `${formatMm(tuning.ideal.value, 1)} (${formatMm(tuning.ideal.low, 1)} to ${formatMm(tuning.ideal.high, 1)})`,
    formatInches(tuning.ideal.value, 2),
    ...(aimed ? [tuning.leastSquares === null ? '' : formatMm(tuning.leastSquares, 1)] : []),
    formatMm(tuning.straight, 1),
    formatMm(tuning.crowned, 1),
    lean(tuning.lean),
    cell(tuning.cents.profile, tuning.cents.plusMinus, s.octaveFret - 1),
  ]);
  return [
    `Set-backs behind the scale length; the model weighs ${fretsInWords(s)}:`,
    ...textTable(heads, rows),
    ...(aimed
      ? [
          'The profile aims some strings sharp or flat at the octave; "aiming at 0" is the least-squares answer.',
        ]
      : []),
  ];
}

/** A crown's lean in words: toward the nut or toward the bridge's back. */
function lean(mm: number): string {
  const digits = formatMm(Math.abs(mm), 1);
  if (digits === '0.0') return '0.0';
  return `${digits} ${mm > 0 ? 'back' : 'forward'}`;
}

function fretsInWords({ counted, fretNames }: Stringing): string {
  const [first, last] = [counted[0] ?? 0, counted[counted.length - 1] ?? 0];
  const named = (place: number): string => fretNames[place - 1] ?? '';
  if (first === last) return `fret ${named(first)}`;
  return last - first + 1 === counted.length
    ? `frets ${named(first)} to ${named(last)}`
    : `frets ${counted.map(named).join(' ')}`;
}

const SADDLES: Readonly<Record<SaddleReport['name'], string>> = {
  profile: 'as the profile says',
  constant: 'square, one set-back',
  inSlot: 'straight, in the profile’s slot',
  straight: 'straight, best place and angle',
  crowned: 'compensated crown',
};

function saddleTable(s: Stringing): string[] {
  const heads = [
    left('saddle'),
    right('on the', 'centreline mm'),
    right('under the', 'bass string mm'),
    right('under the', 'treble string mm'),
    right('angle', 'deg'),
    right('worst miss', 'cents'),
  ];
  const rows = s.saddles.map(({ name, line, worst }) => [
    SADDLES[name],
    line === null ? '' : formatMm(line.atCentre, 1),
    line === null ? '' : formatMm(line.bass, 1),
    line === null ? '' : formatMm(line.treble, 1),
    line === null ? '' : degrees(line.angle),
    `${formatNumber(worst.value, 1)} (${formatNumber(worst.low, 1)} to ${formatNumber(worst.high, 1)})`,
  ]);
  const { has, needs, profileNeeds } = s.saddleWidth;
  return [
    `Saddles, each chosen for the least sum of squares over ${fretsInWords(s)}, and the worst miss of any string against what is aimed at:`,
    ...textTable(heads, rows),
    `The compensated crown needs a saddle ${formatMm(needs, 1)} mm wide and the profile’s set-backs one of ${formatMm(profileNeeds, 1)} mm; the profile’s is ${formatShort(has, 3)} mm. The crown’s line is the middle of the slot; the profile’s slot goes straight through the outer strings’ set-backs.`,
  ];
}

function nutLines(s: Stringing): string[] {
  if (s.nut === null) return [];
  const { now, proposed, setBacks, wishes, worst } = s.nut;
  const heads = [
    left('string'),
    right('would like the', 'nut forward mm'),
    right('set-back with the', 'shared nut mm'),
  ];
  const rows = s.strings.map(({ pull }, i) => [
    nameOf(pull),
    formatMm(wishes[i] ?? 0, 1),
    formatMm(setBacks[i] ?? 0, 1),
  ]);
  return [
    `One nut for all, chosen with the saddle: ${formatMm(proposed, 1)} mm forward of scale zero (the profile’s: ${formatMm(now, 2)} mm). Worst miss then ${formatNumber(worst, 0)} cents, each string on its own crown.`,
    ...textTable(heads, rows),
  ];
}

function cell(cents: readonly number[], plusMinus: readonly number[], i: number): string {
  return `${signed(cents[i] ?? 0)} ±${formatNumber(plusMinus[i] ?? 0, 1)}`;
}

type Which = 'profile' | 'straight' | 'crowned';

const CENTS_HEADS: Readonly<Record<Which, string>> = {
  profile: 'Cents sharp (+) or flat (-) at each fret, with the profile’s set-backs:',
  straight: 'The same on the straight saddle:',
  crowned: 'The same on the compensated crown:',
};

function centsTables(s: Stringing): string[] {
  const which: readonly Which[] = ['profile', 'straight', 'crowned'];
  return which.flatMap((name, i) => [...(i === 0 ? [] : ['']), CENTS_HEADS[name], ...centsTable(s, name)]);
}

function centsTable({ strings, fretNames }: Stringing, which: Which): string[] {
  const heads = [right('fret'), ...strings.map(({ pull }) => right(nameOf(pull)))];
  const frets = strings[0]?.tuning.cents[which].length ?? 0;
  const rows = Array.from({ length: frets }, (_, i) => [
    fretNames[i] ?? '',
    ...strings.map(({ tuning }) => cell(tuning.cents[which], tuning.cents.plusMinus, i)),
  ]);
  return textTable(heads, rows);
}

const INPUTS: Readonly<Record<Shaken, string>> = {
  action: 'action',
  firstFret: 'height over the first fret',
  core: 'core or gauge',
  mass: 'mass per length',
  modulus: 'stiffness of the material',
  relief: 'relief',
  fingerBehind: 'finger’s place behind the fret',
  press: 'finger’s press',
  slots: 'places of the fret slots',
};

function influenceLines(s: Stringing): string[] {
  const heads = [left('input'), right('share of', 'the doubt'), right('alone moves a', 'set-back by +/- mm')];
  const rows = s.influences.map(({ input, share, halfBand }) => [
    INPUTS[input],
    percent(share),
    formatMm(halfBand, 2),
  ]);
  return [
    `Where the doubt about the set-backs comes from (${s.samples} draws): the first of these that can be measured is worth measuring best.`,
    ...textTable(heads, rows),
  ];
}

function retunedLines(s: Stringing): string[] {
  if (s.retuned === null) return [];
  const heads = [
    left('string'),
    left('now'),
    right('', 'Hz'),
    right('tension', 'N'),
    right('tension', 'lbf'),
    right('change', 'N'),
    right('of least', 'strength'),
    right('would like', 'mm'),
    right(`at fret ${s.fretNames[s.octaveFret - 1]}`, 'cents'),
  ];
  const rows = s.retuned.strings.map(({ position, pull, change, ideal, atOctave }, i) => [
    `${position} ${oneLine(s.strings[i]?.pull.pitch ?? '')}`,
    oneLine(pull.pitch),
    formatNumber(pull.hertz, 2),
    formatNumber(pull.tension, 1),
    formatNumber(poundsFromNewtons(pull.tension), 1),
    signed(change),
    pull.stress < pull.strength ? percent(pull.stress / pull.strength) : 'BREAKS',
    formatMm(ideal, 1),
    formatNumber(atOctave, 0),
  ]);
  return [
    `The same set tuned otherwise, A4 = ${formatShort(s.retuned.concertPitch, 2)} Hz, on the profile’s saddle: ${formatNumber(s.retuned.total, 0)} N (${formatNumber(poundsFromNewtons(s.retuned.total), 0)} lbf) in all.`,
    ...textTable(heads, rows),
  ];
}

function notesOf(s: Stringing): string[] {
  return [
    'How it is worked out: T = 4 mu L² f²; a wrap fills pi/4 of the ring it stands in; errors from length, mass, tension and bending stiffness after Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024), with relief, the frets behind the finger and the core’s own stretch added. Nut and saddle are taken not to give or slip.',
    ...s.sources.map((source) => `Figures: ${source}.`),
    'Strings under tension store energy: wear eye protection, tune up in steps, and follow the string maker’s limits.',
  ];
}

/** A name from a profile on one line. */
function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').trim();
}
