/** Words that say from where places are counted: the work offset, and the offset of a tool's length. */
import { G_LENGTH, G_OFFSET, nameOfG } from './codes.ts';
import { BIT_H, INDEX_H } from './letters.ts';
import { gCodeOf, type LineWords, wordValue } from './lineWords.ts';
import { KNOWN, type Reading } from './reading.ts';
import { refuse } from './refusals.ts';

const TABLE = 'It takes the tool length from a table in the machine. Touch off the tool, with G49.';
const WITH_G43 = 'H stands with G43 and is the number of the tool in the spindle.';

/** G54 to G59: only the one in which the work zero is set. */
export function setWorkOffset(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_OFFSET);
  if (code < 0) return;
  const meant = reading.understands.workOffset ?? 'G54';
  const named = nameOfG(code);
  if (named === meant) reading.known |= KNOWN.offset;
  else refuse(reading.refusals, 'other-offset', named, `The work zero is set in ${meant}: write ${meant}.`);
}

/** G43, G49 and H. On a control with a table of tools the length of the tool in the spindle must be in force. */
export function setToolLength(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_LENGTH);
  if (words.letters & BIT_H) {
    reading.used |= BIT_H;
    if (code !== 430) refuse(reading.refusals, 'tool-table', `H${wordValue(words, INDEX_H)}`, WITH_G43);
  }
  if (code < 0) return;
  const { lengthOffset = 'G49' } = reading.understands;
  if (lengthOffset === 'none') {
    refuse(
      reading.refusals,
      'not-understood',
      nameOfG(code),
      'The control has no word for the length of a tool.',
    );
  } else if (code === 430) takeLength(reading, words, lengthOffset);
  else if (lengthOffset === 'G49' || reading.tool < 0) reading.known |= KNOWN.length;
  else reading.known &= ~KNOWN.length;
}

function takeLength(reading: Reading, words: LineWords, understood: 'G49' | 'G43'): void {
  if (understood === 'G49') {
    refuse(reading.refusals, 'tool-table', 'G43', TABLE);
    return;
  }
  const number = words.letters & BIT_H ? wordValue(words, INDEX_H) : Number.NaN;
  if (number === reading.tool) reading.known |= KNOWN.length;
  else refuse(reading.refusals, 'tool-table', 'G43 with another number than that of the tool', WITH_G43);
}
