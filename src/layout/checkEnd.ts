import type { Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { type BoardEnd, type BoardTaper, layOutTaper } from './board.ts';
import { ownWay, roomToOwnEnd } from './ownEnd.ts';
import type { FretSlot } from './types.ts';

/** Least wood between a slot and the body end, anywhere along it. Millimetres (common practice, no source). */
const WALL = 0.5;

/** Whether the body end, leaning or round, stays clear of every slot. */
export function checkEnd(slots: readonly FretSlot[], end: BoardEnd, instrument: Instrument): Finding[] {
  const { frets } = instrument;
  const roomAt = roomBefore(end, layOutTaper(instrument));
  const room = (line: FretSlot['line']): number => Math.min(...alongLine(line).map(roomAt));
  const least = WALL + frets.slotWidth / 2;
  return slots.flatMap((slot) => {
    const left = room(slot.line);
    if (left >= least - 1e-6) return [];
    return [
      errorFinding(
        'end-cuts-slot',
        `The body end comes within ${Math.max(0, left).toFixed(2)} mm of the slot of fret ${slot.label}${left < 0 ? ', or cuts it' : ''}.`,
        {
          where: { source: 'instrument', path: 'fingerboard.overhang' },
          allowed: `at least ${least.toFixed(2)} mm from the slot's middle to the end, at every place along it`,
          remedy: 'More overhang, a squarer end, or a larger radius of the end.',
        },
      ),
    ];
  });
}

/** Both ends of a slot and places between: an end that is an arc comes nearest to one of them within a hundredth. */
function alongLine([from, to]: FretSlot['line']): Vec[] {
  return Array.from({ length: 33 }, (_, k) => [
    from[0] + ((to[0] - from[0]) * k) / 32,
    from[1] + ((to[1] - from[1]) * k) / 32,
  ]);
}

/** How far a point lies before the end; negative past it. */
function roomBefore(end: BoardEnd, taper: BoardTaper): (p: Vec) => number {
  if (end.kind !== 'own') return ([x, y]) => endX(end, y) - x;
  const way = ownWay(end.outline, taper) ?? [];
  return (p) => roomToOwnEnd(way, p);
}

/** x of the body end at y, as if its corners were sharp. */
function endX(end: BoardEnd & { kind: 'straight' | 'arc' }, y: number): number {
  if (end.kind === 'straight') return end.at + end.lean * y;
  const rise = (y * y) / (Math.abs(end.radius) + Math.sqrt(Math.max(0, end.radius * end.radius - y * y)));
  return end.at - Math.sign(end.radius) * rise;
}
