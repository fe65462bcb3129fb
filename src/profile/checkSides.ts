/** Can side markers be drilled as they are asked for, and the template for them be cut? */
import type { Finding } from '../report/finding.ts';
import { type Check, check, doubtful, HAIR, mm, when, wrong } from './check.ts';

/** The strip above the blank's top, and the batten below the board's underside (common practice, no source). Millimetres. */
const ABOVE = 3;
const BATTEN = 6;
/** Sheet between two pilot holes: less breaks or burns away (common practice, no source). */
const PILOT_WALL = 1;

const bindingIsThere = check(['sideMarkers', 'fingerboard'], ({ sideMarkers, fingerboard }) =>
  when(sideMarkers.drilled === 'before binding' && fingerboard.binding === null, () =>
    wrong(
      'no-binding-to-drill',
      'sideMarkers.drilled',
      'The side markers are to be drilled into the binding strip, but the board has no binding.',
      {
        allowed: 'after binding',
        remedy: 'Leave drilled out, or say what the binding is (fingerboard.binding).',
      },
    ),
  ),
);

/** The strip's lower edge is what it is laid against, and it lies at the board's underside only where nothing holds it up. */
const stripReachesUnderside = check(['sideMarkers', 'fingerboard'], ({ sideMarkers, fingerboard }) =>
  when(sideMarkers.drilled === 'before binding' && (fingerboard.binding?.channelDepth ?? null) !== null, () =>
    wrong(
      'strip-in-a-channel',
      'sideMarkers.drilled',
      'The binding is let into a channel, so its strip is lower than the board is thick: holes placed from the underside would not lie in it.',
      {
        allowed: 'after binding',
        remedy: 'Leave drilled out, so that the holes go through the binding once it is on.',
      },
    ),
  ),
);

const templateFits = check(['jigs', 'sideMarkers', 'fingerboard'], ({ jigs, sideMarkers, fingerboard }) => {
  const template = jigs.sideMarkerTemplate;
  if (template === null) return [];
  const least = fingerboard.blankThickness + ABOVE + BATTEN;
  const { at, spread } = sideMarkers;
  return [
    ...when(
      at.length === 0,
      (): Finding =>
        doubtful(
          'template-without-markers',
          'jigs.sideMarkerTemplate',
          'There are no side markers, so no template is made for them.',
        ),
    ),
    ...when(template.width < least - HAIR, () =>
      wrong(
        'template-too-narrow',
        'jigs.sideMarkerTemplate.width',
        `A strip ${mm(template.width)} wide does not reach from ${mm(ABOVE)} above a blank of ${mm(fingerboard.blankThickness)} down to a batten below it.`,
        { allowed: `at least ${mm(least)}` },
      ),
    ),
    ...when(at.some(({ count }) => count === 2) && spread - template.pilot < PILOT_WALL - HAIR, () =>
      wrong(
        'pilots-too-close',
        'jigs.sideMarkerTemplate.pilot',
        `Pilot holes of ${mm(template.pilot)} for markers ${mm(spread)} apart run into one another.`,
        { allowed: `at most ${mm(spread - PILOT_WALL)}`, remedy: 'Smaller pilot holes.' },
      ),
    ),
  ];
});

export const sideChecks: readonly Check[] = [bindingIsThere, stripReachesUnderside, templateFits];
