import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { BoardEnd, BoardTaper } from './board.ts';
import { ownWay } from './ownEnd.ts';

/** An end of one's own drawing must reach both edges of the board. */
export function ownEndFinding(end: BoardEnd, taper: BoardTaper): Finding | null {
  if (end.kind !== 'own' || ownWay(end.outline, taper) !== null) return null;
  const across = end.outline.map(([, y]) => y);
  const width = 2 * (taper.at0 + taper.slope * end.at);
  return errorFinding(
    'end-artwork-too-narrow',
    'The outline of the end does not reach both edges of the board.',
    {
      where: { source: 'instrument', path: 'fingerboard.endArtwork.file' },
      found: `${(Math.max(...across) - Math.min(...across)).toFixed(2)} mm wide, drawn 1:1`,
      allowed: `wider than the board, which is ${width.toFixed(2)} mm wide at its end`,
      remedy: 'Draw it wider: what lies past the board’s edges is not used.',
    },
  );
}
