import type { Controller } from '../../profile/types.ts';
import { COMMENT_ROOM, commentText, inComment } from './commentText.ts';

/** One line of a program before it is laid out: words in order, or a remark for a person. */
export type Line =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'remark'; readonly text: string };

/** The line of a few words; none when there are no words. */
export function wordLine(...words: readonly string[]): Line[] {
  return words.length === 0 ? [] : [{ kind: 'words', words }];
}

/** N words have at most five digits (NISTIR 6556, 3.3.1). */
const NUMBERS = 100_000;

/** Words that may stand on a line of their own before the rest: they only set a mode. */
const MODAL = /^(?:F|G98$)/;

/** The text of a program: remarks wrapped, lines numbered, none longer than the control takes. */
export function layOutText(lines: readonly Line[], controller: Controller): string {
  const gap = controller.wordSpaces ? ' ' : '';
  const room = controller.lineLength - (controller.lineNumbers ? 'N99999'.length + gap.length : 0);
  const texts = lines.flatMap((line) =>
    line.kind === 'remark' ? remarkLines(line.text, room, controller) : fitWords(line.words, gap, room),
  );
  const numbered = controller.lineNumbers ? number(texts, gap, controller) : texts;
  const framed = controller.percentLines ? ['%', ...numbered, '%'] : numbered;
  return `${framed.join('\n')}\n`;
}

function number(texts: readonly string[], gap: string, { numbering }: Controller): string[] {
  const { start, step } = numbering;
  const count = Math.floor((NUMBERS - 1 - start) / step) + 1;
  return texts.map((text, i) => `N${start + (i % count) * step}${gap}${text}`);
}

/** A line that is too long gives up its modal words to a line before it, which sets the same modes first. */
function fitWords(words: readonly string[], gap: string, room: number): string[] {
  const whole = words.join(gap);
  if (whole.length <= room) return [whole];
  const modal = words.filter((w) => MODAL.test(w));
  const rest = words.filter((w) => !MODAL.test(w)).join(gap);
  if (rest.length > room || modal.length === 0) throw new Error(`a line of more than ${room}: ${whole}`);
  return [modal.join(gap), rest];
}

function remarkLines(text: string, room: number, controller: Controller): string[] {
  if (!controller.comments) return [];
  return wrap(commentText(text), room - COMMENT_ROOM).map(inComment);
}

/** Words of a text in lines of at most `room` characters; a longer word is cut. */
function wrap(text: string, room: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((w) => pieces(w, room))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (longer.length > room) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

function pieces(word: string, room: number): string[] {
  if (word.length <= room) return [word];
  return [word.slice(0, room), ...pieces(word.slice(room), room)];
}
