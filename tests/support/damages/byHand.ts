/** Slips of a person who edits a program by hand: one word, one line. */
import type { Random } from './random.ts';
import { type Parts, splice, type Word, withDigits, written } from './text.ts';

/** A damage: the new text, or null when the program has nothing of the kind. */
export type Damage = (parts: Parts, random: Random) => string | null;

const NUMBERS = 'XYZIJKRFSPQ';
const PLACES = 'XYZIJKR';

/** A word with one of these letters, any as likely as any other; null when there is none. */
export function anyWord(
  parts: Parts,
  random: Random,
  letters: string,
  wanted: (word: Word) => boolean = () => true,
): Word | null {
  const list = parts.words.filter((word) => letters.includes(word.letter) && wanted(word));
  return list.length === 0 ? null : random.pick(list);
}

function onWord(
  letters: string,
  change: (word: Word, random: Random, parts: Parts) => string | null,
  wanted?: (word: Word) => boolean,
): Damage {
  return (parts, random) => {
    const word = anyWord(parts, random, letters, wanted);
    if (word === null) return null;
    const digits = change(word, random, parts);
    return digits === null ? null : withDigits(parts.text, word, digits);
  };
}

function anotherDigit(digits: string, at: number, random: Random): string {
  const old = digits[at] ?? '0';
  const other = String((Number(old) + 1 + random.below(9)) % 10);
  return digits.slice(0, at) + other + digits.slice(at + 1);
}

function placesOfDigits(digits: string): number[] {
  return [...digits].flatMap((c, i) => (/\d/.test(c) ? [i] : []));
}

export const digitChanged: Damage = onWord(NUMBERS, (word, random) =>
  anotherDigit(word.digits, random.pick(placesOfDigits(word.digits)), random),
);

export const digitLost: Damage = onWord(NUMBERS, ({ digits }, random) => {
  const at = random.pick(placesOfDigits(digits));
  const rest = digits.slice(0, at) + digits.slice(at + 1);
  return /\d/.test(rest) ? rest : null;
});

export const digitsSwapped: Damage = onWord(NUMBERS, ({ digits }, random) => {
  const places = placesOfDigits(digits).filter((i) => /\d/.test(digits[i + 1] ?? ''));
  if (places.length === 0) return null;
  const at = random.pick(places);
  return digits.slice(0, at) + (digits[at + 1] ?? '') + (digits[at] ?? '') + digits.slice(at + 2);
});

export const numberNudged: Damage = onWord(PLACES, (word, random) =>
  written(word.value + random.sign() * random.size(0.0005, 0.3)),
);

export const signChanged: Damage = onWord(
  PLACES,
  ({ digits }) => (digits.startsWith('-') ? digits.slice(1) : `-${digits}`),
  (word) => word.value !== 0,
);

export const pointLost: Damage = onWord(
  NUMBERS,
  ({ digits }) => digits.replace('.', ''),
  (word) => word.digits.includes('.'),
);

export const pointMoved: Damage = onWord(
  NUMBERS,
  ({ value }, random) => written(value * random.pick([0.01, 0.1, 10, 100]), 6),
  (word) => word.value !== 0,
);

export const wordLost: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'GXYZIJKRFSPQMLT');
  return word === null ? null : splice(parts.text, word.from, word.to, '');
};

export const letterChanged: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'XYZIJKFS');
  if (word === null) return null;
  const near: Readonly<Record<string, string>> = {
    X: 'YZIC',
    Y: 'XZJU',
    Z: 'XYKA',
    I: 'JKX',
    J: 'IKY',
    K: 'IJZ',
    F: 'SGD',
    S: 'FDA',
  };
  return splice(parts.text, word.from, word.from + 1, random.pick([...(near[word.letter] ?? 'X')]));
};

export const centreLettersSwapped: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'IJK', (w) => centresOf(parts, w).length === 2);
  if (word === null) return null;
  const [a, b] = centresOf(parts, word);
  if (a === undefined || b === undefined) return null;
  const text = splice(parts.text, b.from, b.from + 1, a.letter);
  return splice(text, a.from, a.from + 1, b.letter);
};

function centresOf(parts: Parts, word: Word): Word[] {
  return parts.words.filter((w) => w.line === word.line && 'IJK'.includes(w.letter));
}

export const centreShifted: Damage = onWord('IJK', ({ value }, random) =>
  written(value + random.sign() * random.size(0.001, 3)),
);

export const motionWordChanged: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'G', (w) => w.value >= 0 && w.value <= 3);
  if (word === null) return null;
  return withDigits(parts.text, word, String(random.pick([0, 1, 2, 3].filter((n) => n !== word.value))));
};

export const arcTurned: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'G', (w) => w.value === 2 || w.value === 3);
  return word === null ? null : withDigits(parts.text, word, word.value === 2 ? '3' : '2');
};

/** Words that stand against each other, one of which a slip puts for the other. */
const MODES: readonly (readonly number[])[] = [
  [90, 91],
  [17, 18, 19],
  [20, 21],
  [93, 94],
  [61, 64],
  [54, 55, 56, 57, 58, 59],
  [98, 99],
];

export const modeChanged: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'G', (w) => MODES.some((group) => group.includes(w.value)));
  if (word === null) return null;
  const group = MODES.find((g) => g.includes(word.value)) ?? [];
  return withDigits(parts.text, word, String(random.pick(group.filter((code) => code !== word.value))));
};

export const modeInserted: Damage = (parts, random) => {
  const line = random.pick(parts.working);
  return withLineBefore(parts, line, `G${random.pick(random.pick(MODES))}`);
};

export const modeLost: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'G', (w) => w.value >= 17 || w.value === 4);
  return word === null ? null : splice(parts.text, word.from, word.to, '');
};

function withLineBefore({ lines }: Parts, at: number, line: string): string {
  return [...lines.slice(0, at), line, ...lines.slice(at)].join('\n');
}

export const lineLost: Damage = ({ lines, working }, random) => {
  const at = random.pick(working);
  return [...lines.slice(0, at), ...lines.slice(at + 1)].join('\n');
};

export const linesLost: Damage = ({ lines, working }, random) => {
  const at = random.pick(working);
  return [...lines.slice(0, at), ...lines.slice(at + 2 + random.below(12))].join('\n');
};

export const lineDoubled: Damage = (parts, random) => {
  const at = random.pick(parts.working);
  return withLineBefore(parts, at, parts.lines[at] ?? '');
};

export const lineCopiedElsewhere: Damage = (parts, random) =>
  withLineBefore(parts, random.pick(parts.working), parts.lines[random.pick(parts.working)] ?? '');

export const linesSwapped: Damage = ({ lines, working }, random) => {
  const a = random.pick(working);
  const b = random.share() < 0.7 ? a + 1 : random.pick(working);
  const [one, other] = [lines[a], lines[b]];
  if (one === undefined || other === undefined || one === other) return null;
  return lines.map((line, i) => (i === a ? other : i === b ? one : line)).join('\n');
};

export const spindleWordChanged: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'M', (w) => w.value >= 3 && w.value <= 5);
  if (word === null) return null;
  return withDigits(parts.text, word, String(random.pick([3, 4, 5].filter((n) => n !== word.value))));
};

export const spindleWordLost: Damage = (parts, random) => {
  const word = anyWord(parts, random, 'M', (w) => w.value >= 3 && w.value <= 5);
  return word === null ? null : splice(parts.text, word.from, word.to, '');
};

export const stopInserted: Damage = (parts, random) =>
  withLineBefore(
    parts,
    random.pick(parts.working),
    random.pick(['M5', 'M0', 'M1', 'M30', 'M2', 'G4 P1', 'G80']),
  );

export const feedChanged: Damage = onWord('F', ({ value }, random) =>
  written(value * random.pick([0.01, 0.1, 0.5, 0.9, 1.1, 1.5, 2, 3, 10, 25.4]), 1),
);

export const speedChanged: Damage = onWord('S', ({ value }, random) =>
  written(value * random.pick([0, 0.01, 0.1, 0.5, 0.8, 1.05, 1.2, 2, 10]), 0),
);

export const dwellChanged: Damage = onWord('P', ({ value }, random) =>
  written(value * random.pick([0, 0.1, 0.5, 0.001, 1000]), 3),
);

export const toolNamed: Damage = (parts, random) => {
  const other = random.pick([0, 1, 2, 3, 4, 5, 6, 7, 12].filter((id) => id !== parts.intent.tool.id));
  const at = random.pick(parts.working.slice(0, Math.ceil(parts.working.length / 3)));
  return withLineBefore(parts, at, random.share() < 0.5 ? `T${other}` : `T${other} M6`);
};

export const remarkLeftOpen: Damage = ({ text, lines, working }, random) => {
  const closing = [...text.matchAll(/\)/g)].map((m) => m.index);
  if (closing.length > 0 && random.share() < 0.5) {
    const at = random.pick(closing);
    return splice(text, at, at + 1, '');
  }
  const number = random.pick(working);
  return lines.map((line, i) => (i === number ? `(${line})` : line)).join('\n');
};
