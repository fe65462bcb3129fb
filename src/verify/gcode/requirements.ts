import { KNOWN, type Reading } from './reading.ts';
import { refuse } from './refusals.ts';

const GEOMETRY = KNOWN.units | KNOWN.distance | KNOWN.offset | KNOWN.compensation | KNOWN.length;
export const FOR_RAPID = GEOMETRY;
export const FOR_FEED = GEOMETRY | KNOWN.feedMode | KNOWN.feed;
export const FOR_ARC = FOR_FEED | KNOWN.plane;

const WHAT: readonly (readonly [number, string, string])[] = [
  [KNOWN.units, 'the units are set', 'Write G21 (mm) or G20 (inches) in a line before the first move.'],
  [
    KNOWN.distance,
    'the distance mode is set',
    'Write G90 (absolute) or G91 (incremental) before the first move.',
  ],
  [KNOWN.offset, 'the work offset is set', 'Write G54 before the first move.'],
  [KNOWN.compensation, 'cutter compensation is off', 'Write G40 before the first move.'],
  [KNOWN.length, 'the tool length offset is off', 'Write G49 before the first move.'],
  [
    KNOWN.feedMode,
    'the feed mode is set',
    'Write G94 (per minute) or G93 (inverse time) before the first cut.',
  ],
  [
    KNOWN.feed,
    'a feed is set',
    'Write F with the first cut, and again after every G20, G21, G93 or G94: controls differ in what they keep.',
  ],
  [KNOWN.plane, 'the plane is set', 'Write G17, G18 or G19 before the first arc or drill cycle.'],
  [KNOWN.returnLevel, 'the return level is set', 'Write G98 or G99 in or before the drill cycle.'],
  [KNOWN.speed, 'a speed is set', 'Write S before or with M3 or M4.'],
];

/**
 * Refuses what depends on how the machine happened to stand: a mode that is needed here and that the program has not
 * set itself. Each is refused once; reading goes on with the assumed start state.
 */
export function requireModes(reading: Reading, needed: number, what: string): void {
  const missing = needed & ~reading.known;
  if (missing === 0) return;
  for (const [bit, name, allowed] of WHAT) {
    if (missing & bit) refuse(reading.refusals, 'mode-not-set', `${what} before ${name}`, allowed);
  }
  reading.known |= missing;
}
