import { bounds } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { type Inscription, type Lettered, withLettering } from './lettering.ts';
import type { Part } from './types.ts';

/** The slot template with the number of each fret before its line, its own name and that of the instrument, where they are asked for. */
export function inscribeSlotTemplate(part: Part, layout: Layout, instrument: Instrument): Lettered {
  const { lettering, slotTemplate } = instrument.jigs;
  if (lettering === null || slotTemplate === null) return { part, findings: [] };
  const quarter = slotTemplate.width / 4;
  const names = namesOn(part, instrument, [layout.nutFace, quarter]);
  return withLettering(part, 'slotTemplate', [...numbers(layout, quarter), ...names], lettering.height);
}

/** The pin template with its own name and that of the instrument, where they are asked for. */
export function inscribePinTemplate(part: Part, layout: Layout, instrument: Instrument): Lettered {
  const { lettering, pinTemplate } = instrument.jigs;
  if (lettering === null || pinTemplate === null) return { part, findings: [] };
  const pins = layout.strings.map(({ pin }) => pin[0]);
  const near: Vec = [(Math.min(...pins) + layout.saddleLine[0][0]) / 2, 0];
  return withLettering(part, 'pinTemplate', namesOn(part, instrument, near), lettering.height);
}

/** One number a fret, in the space before its line, on the side of lesser y. */
function numbers(layout: Layout, quarter: number): Inscription[] {
  const firsts = layout.slots.filter(
    (slot, i) => slot.fret > 0 && layout.slots.findIndex((other) => other.fret === slot.fret) === i,
  );
  return firsts.map((slot, i): Inscription => {
    const before = firsts[i - 1];
    const from = xAt(before?.carrier ?? layout.nutLine, -quarter);
    const to = xAt(slot.carrier, -quarter);
    return {
      id: `slot-template-number-${String(slot.fret).padStart(2, '0')}`,
      text: slot.label,
      what: `the number of fret ${slot.label}`,
      within: { x: [from, to], y: [-2 * quarter, 2 * quarter] },
      near: [(from + to) / 2, -quarter],
    };
  });
}

/** x of a line across the board at a distance from the centreline. */
function xAt([a, b]: Layout['nutLine'], y: number): number {
  return a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]);
}

function namesOn(part: Part, instrument: Instrument, near: Vec): Inscription[] {
  const outline = part.features.find((f) => f.kind === 'outline' && f.keep === 'inside');
  const within = outline?.kind === 'outline' ? bounds(outline.ring) : part.blank.box;
  const [first = '', ...rest] = part.id.split('-');
  const own = [first.charAt(0).toUpperCase() + first.slice(1), ...rest].join(' ');
  return [
    { id: `${part.id}-name`, text: own, what: 'its name', within, near },
    { id: `${part.id}-instrument`, text: instrument.name, what: "the instrument's name", within, near },
  ];
}
