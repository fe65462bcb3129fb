/** How the strings are held by a bridge without pins, in sentences. */
import type { Anchor } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';

/** Sentences for the bench; none for pins, which have a table of their own. `mm` writes a length. */
export function anchorLines(anchor: Anchor, mm = plain): string[] {
  switch (anchor.kind) {
    case 'pins':
      return [];
    case 'tied':
      return [
        `Tie block: its front face ${mm(anchor.behindSaddle)} behind the saddle line, ${mm(anchor.block)} along the strings, ${levelWords(anchor.rise, mm)}.`,
        `Holes of ${mm(anchor.hole)}, level and along the strings, their middles ${belowWords(anchor.below, mm)}. Drill them before the bridge is glued, from the front face, into a backing block.`,
        'Each string goes through its hole from the saddle side, back over the block, under itself and under its own turns; the last turn lies behind the back edge, or it slips.',
      ];
    case 'through':
      return [
        `String holes of ${mm(anchor.drill)}, straight through ${mm(anchor.through)} of bridge, top and plate, ${mm(anchor.behindSaddle)} behind the saddle line. Round over their front edges, where the strings bend.`,
        'Each string is held under the plate by its ball or by a knot over a bead or washer; feel inside that it lies flat on the plate before it is tuned up.',
      ];
    case 'tailpiece':
      return [
        `The strings leave the tailpiece ${mm(anchor.behindSaddle)} behind the saddle line, ${belowWords(anchor.below, mm)}.`,
        'The bridge is not glued: the strings alone hold it. Its feet are fitted to the bare top without a gap. Its place is found with the strings at pitch, when the open string and the octave agree on both outer strings; then it is marked.',
        'Change strings one at a time, or the bridge falls and its place is lost.',
      ];
  }
}

const plain = (length: number): string => `${formatShort(length, 2)} mm`;

const levelWords = (rise: number, mm: (length: number) => string): string =>
  rise === 0
    ? 'level with the bridge’s face'
    : `its upper side ${mm(Math.abs(rise))} ${rise > 0 ? 'above' : 'below'} the bridge’s face`;

const belowWords = (below: number, mm: (length: number) => string): string =>
  `${mm(Math.abs(below))} ${below >= 0 ? 'below' : 'above'} the bridge’s face`;
