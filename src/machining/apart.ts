import { bounds } from '../geometry/ring.ts';
import type { Box, Ring } from '../geometry/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';

/**
 * Whether parts on one panel lie so close that the cut round one would run into the next; told by the boxes about them, mm.
 * `width` is that of the cut.
 */
export function partsTooClose(rings: readonly Ring[], width: number, title: string): Finding | null {
  const boxes = rings.map(bounds);
  const gaps = boxes.flatMap((box, i) => boxes.slice(i + 1).map((other) => gapBetween(box, other)));
  const least = Math.min(...gaps, Number.POSITIVE_INFINITY);
  if (least >= width - 1e-9) return null;
  return {
    code: 'parts-too-close',
    severity: 'error',
    where: { source: 'shop', path: 'allowances.between' },
    text: `The parts of ${title.toLowerCase()} lie ${mm(least)} apart on their panel, and the cut round each is ${mm(width)} wide: it would run into the next.`,
    allowed: `at least ${mm(width)}`,
    remedy: 'widen allowances.between, or cut them with a thinner tool',
  };
}

/** Of two boxes that do not overlap, the distance; 0 where they do. */
function gapBetween(a: Box, b: Box): number {
  const dx = Math.max(a.x[0] - b.x[1], b.x[0] - a.x[1], 0);
  const dy = Math.max(a.y[0] - b.y[1], b.y[0] - a.y[1], 0);
  return Math.hypot(dx, dy);
}

const mm = (length: number): string => `${formatShort(length, 3)} mm`;
