import { errorFinding, noteFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { planWire } from '../wire/planWire.ts';
import type { Board } from './types.ts';
import { mm } from './words.ts';

/** Whether every piece of fret wire comes out of the sticks that are bought; says so when a lucky cut is needed. */
export function checkWire({ layout, instrument }: Board): Finding[] {
  const { stick, trim } = instrument.fretWire;
  if (stick === null) return [];
  const { pieces, sticks } = planWire(layout, instrument);
  if (sticks !== null) return sticks.isLeast ? [] : [maybeMore(sticks.sticks.length)];
  const longest = pieces.reduce((a, b) => (b.cut > a.cut ? b : a));
  return [
    errorFinding(
      'fret-wire-too-short',
      `The piece for fret ${longest.label} is ${mm(longest.cut)} long, ${mm(trim)} of it to trim: a stick of ${mm(stick)} does not hold it.`,
      {
        where: { source: 'instrument', path: 'fretWire.stick' },
        found: mm(stick),
        allowed: `at least ${mm(longest.cut)}`,
        remedy: 'Longer sticks, wire from a coil (leave fretWire.stick out), or less to trim.',
      },
    ),
  ];
}

function maybeMore(count: number): Finding {
  return noteFinding(
    'wire-sticks-not-least',
    `The plan takes ${count} sticks of fret wire; whether fewer would do was not searched to the end.`,
    { where: { source: 'instrument', path: 'fretWire.stick' } },
  );
}
