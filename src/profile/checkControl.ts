/** Do the stated capabilities of a control go together? */
import { errorFinding, type FindingDetails } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { when } from './check.ts';
import type { Controller, Laser } from './types.ts';

/** Fewer digits of an inch leave more than the 0.002 mm a located hole may be off. */
const LEAST_INCH_DECIMALS = 4;
/** N words of five digits leave room for at least this many lines before they begin again. */
const LINES_NUMBERED = 100;

/** Half of what a wall may be off, so that the cutter's own tolerance has the other half. Millimetres. */
const MOST_BLEND = 0.005;

type Details = Omit<FindingDetails, 'where'>;

const wrong = (code: string, path: string, text: string, details: Details): Finding =>
  errorFinding(code, text, { where: { source: 'shop', path }, ...details });

/** What is wrong with a control's capabilities taken together. */
export function checkControl(control: Controller, path: string): readonly Finding[] {
  const { units, decimals, lengthOffset, toolChange, numbering, corners } = control;
  return [
    ...when(units === 'in' && decimals < LEAST_INCH_DECIMALS, () =>
      wrong(
        'decimals-too-few',
        `${path}.decimals`,
        `With ${decimals} digits of an inch a hole could be off by 0.013 mm.`,
        { allowed: '4 or 5 where programs are in inches' },
      ),
    ),
    ...when((corners ?? 0) > MOST_BLEND, () =>
      wrong(
        'corners-too-loose',
        `${path}.corners`,
        `A control that leaves its path by up to ${corners} mm where moves meet cannot keep walls within 0.01 mm.`,
        {
          allowed: `at most ${MOST_BLEND} mm`,
          remedy: 'set the limit lower at the control, or state exactPath: true if it understands G61',
        },
      ),
    ),
    ...when(lengthOffset === 'G43' && toolChange === 'none', () =>
      wrong(
        'length-table-not-used',
        `${path}.lengthOffset`,
        'Tool lengths are taken from the table of the control only where programs change tools.',
        { allowed: 'none or G49, with each tool touched off; or toolChange: M6' },
      ),
    ),
    ...when((99_999 - numbering.start) / numbering.step < LINES_NUMBERED, () =>
      wrong(
        'numbering-too-short',
        `${path}.numbering`,
        'The line numbers would begin again after a few lines.',
        {
          allowed: 'a smaller start or step',
        },
      ),
    ),
  ];
}

/** A beam whose power follows the speed is off while the head stands still. */
export function checkPierce({ controller, settings }: Laser, path: string): readonly Finding[] {
  return settings.flatMap(({ cut }, i) =>
    when(controller.beamWord === 'M4' && cut.pierce > 0, () =>
      wrong(
        'pierce-without-beam',
        `${path}.settings[${i}].cut.pierce`,
        'With M4 the beam is off while the head stands still, so it cannot pierce.',
        { allowed: '0, or beamWord: M3' },
      ),
    ),
  );
}
