/** What a bad cable, a bad disk or a bad mail program does to a file. */
import type { Damage } from './byHand.ts';
import { splice } from './text.ts';

const PRINTABLE = 95;

export const cutShort: Damage = ({ text }, random) => text.slice(0, 1 + random.below(text.length - 1));

export const cutShortAtALine: Damage = ({ lines }, random) =>
  `${lines.slice(0, 1 + random.below(lines.length - 1)).join('\n')}\n`;

/** Cut short, with the end put back by somebody who noticed. */
export const middleLost: Damage = ({ lines }, random) => {
  const from = 1 + random.below(lines.length - 6);
  const to = from + 1 + random.below(lines.length - 5 - from);
  return [...lines.slice(0, from), ...lines.slice(to)].join('\n');
};

export const characterGarbled: Damage = ({ text }, random) => {
  const at = random.below(text.length);
  return splice(text, at, at + 1, String.fromCharCode(32 + random.below(PRINTABLE)));
};

export const bitFlipped: Damage = ({ text }, random) => {
  const at = random.below(text.length);
  return splice(text, at, at + 1, String.fromCharCode(text.charCodeAt(at) ^ (1 << random.below(7))));
};

export const characterLost: Damage = ({ text }, random) => {
  const at = random.below(text.length);
  return splice(text, at, at + 1, '');
};

export const characterDoubled: Damage = ({ text }, random) => {
  const at = random.below(text.length);
  return splice(text, at, at, text[at] ?? '');
};

export const charactersLost: Damage = ({ text }, random) => {
  const at = random.below(text.length);
  return splice(text, at, at + 2 + random.below(60), '');
};

export const stretchDoubled: Damage = ({ text }, random) => {
  const at = random.below(text.length);
  return splice(text, at, at, text.slice(at, at + 2 + random.below(80)));
};

export const linesJoined: Damage = ({ text }, random) => {
  const ends = [...text.matchAll(/\n/g)].map((m) => m.index);
  const at = random.pick(ends);
  return splice(text, at, at + 1, random.pick(['', ' ']));
};

export const lineBroken: Damage = ({ text, words }, random) => {
  const word = random.pick(words);
  return splice(text, word.from, word.from, '\n');
};

export const linesLongerCut: Damage = ({ lines }, random) => {
  const most = 8 + random.below(20);
  return lines.map((line) => line.slice(0, most)).join('\n');
};
