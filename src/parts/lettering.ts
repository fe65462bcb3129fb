import { plainText } from '../geometry/lettering/plainText.ts';
import { simpleChains } from '../geometry/lettering/simpleChains.ts';
import { flatten, rectangle } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import { noteFinding, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { type PlacedText, placeTexts, type TextWish } from './placeText.ts';
import type { Feature, LineFeature, Part } from './types.ts';

/** A text as it stands in a profile, and where on a part it is wanted. */
export interface Inscription extends Omit<TextWish, 'text'> {
  readonly text: string;
  /** In words, for a person who misses it: `the number of fret 7`. */
  readonly what: string;
}

export interface Lettered {
  readonly part: Part;
  readonly findings: readonly Finding[];
}

/** Chords of curves that letters keep clear of. Millimetres. */
const SAGITTA = 0.05;

/** The part with its inscriptions, each in a place clear of everything else on it; those that have none are left out with a note. */
export function withLettering(
  part: Part,
  work: LineFeature['work'],
  inscriptions: readonly Inscription[],
  height: number,
): Lettered {
  const spelt = inscriptions.map((wanted) => ({ wanted, plain: plainText(wanted.text) }));
  const wishes = spelt
    .filter(({ plain }) => plain.text !== '')
    .map(({ wanted, plain }) => ({ ...wanted, text: plain.text }));
  const results = placeTexts(wishes, height, { outline: outlineOf(part), obstacles: obstaclesOf(part) });
  const lines = results.flatMap(({ placed }) => (placed === null ? [] : linesOf(placed, work)));
  const homeless = wishes.filter((_, i) => results[i]?.placed === null);
  return {
    part: { ...part, features: [...lines, ...part.features] },
    findings: [
      ...homeless.map((wish) => leftOut(part, wish, height)),
      ...spelt.flatMap(({ wanted, plain }) => misspelt(part, wanted, plain)),
    ],
  };
}

function linesOf({ wish, strokes }: PlacedText, work: LineFeature['work']): LineFeature[] {
  return strokes.flatMap(simpleChains).map((points, i) => ({
    id: `${wish.id}-${i + 1}`,
    work,
    kind: 'line',
    points,
    meaning: 'lettering',
  }));
}

function outlineOf(part: Part): Vec[] {
  const outline = part.features.find((f) => f.kind === 'outline' && f.keep === 'inside');
  return flatten(outline?.kind === 'outline' ? outline.ring : rectangle(part.blank.box), SAGITTA);
}

function obstaclesOf(part: Part): (readonly Vec[])[] {
  return part.features.flatMap(obstacleOf);
}

function obstacleOf(feature: Feature): (readonly Vec[])[] {
  switch (feature.kind) {
    case 'line':
      return feature.points.slice(1).map((to, i) => [feature.points[i] ?? to, to]);
    case 'slot':
      return [feature.line];
    case 'pocket':
      return [flatten(feature.region.outer, SAGITTA)];
    case 'underside pocket':
      return [];
    case 'hole':
      return [squareAbout(feature.at, feature.diameter / 2)];
    case 'outline':
      return feature.keep === 'outside' ? [flatten(feature.ring, SAGITTA)] : [];
    case 'channel':
      return [flatten(feature.ring, SAGITTA)];
    case 'surface':
    case 'neck back':
    case 'edge hole':
      return [];
  }
}

function squareAbout([x, y]: Vec, half: number): Vec[] {
  return [
    [x - half, y - half],
    [x + half, y - half],
    [x + half, y + half],
    [x - half, y + half],
  ];
}

const WHERE = { source: 'instrument', path: 'jigs.lettering' } as const;

function leftOut(part: Part, wish: TextWish & { readonly what: string }, height: number): Finding {
  return noteFinding(
    'lettering-left-out',
    `On the ${part.title.toLowerCase()} ${wish.what} (${wish.text}) finds no free place at a height of ${formatShort(height, 2)} mm and is left out.`,
    { where: WHERE, remedy: 'Smaller letters or a larger template; or nothing, when it is not needed.' },
  );
}

function misspelt(part: Part, wanted: Inscription, plain: ReturnType<typeof plainText>): Finding[] {
  const { replaced, leftOut: lost } = plain;
  if (replaced.length + lost.length === 0) return [];
  const words = [
    ...(replaced.length === 0 ? [] : [`${replaced.join(' ')} written without marks or spelt out`]),
    ...(lost.length === 0 ? [] : [`${lost.join(' ')} left out`]),
  ];
  return [
    warningFinding(
      'letters-not-in-face',
      `On the ${part.title.toLowerCase()} ${wanted.what} reads ${plain.text === '' ? 'nothing' : `"${plain.text}"`}: the single-stroke face has the letters of ASCII only (${words.join('; ')}).`,
      { where: WHERE, found: wanted.text, remedy: 'Nothing, when it reads well; else mark it by hand.' },
    ),
  ];
}
