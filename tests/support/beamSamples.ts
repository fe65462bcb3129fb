import type { BeamRun, IntentCut } from '../../src/intent/types.ts';
import type { Sample } from './proofSamples.ts';

/**
 * The laser sample, its two outlines begun with a pause and a straight way in from the waste, and run on by 1 mm past their start:
 * the opening from 1.5 mm within it, the plate from 2.1213 mm (1.5 across and along) below it.
 */
export function withWayIn({ text, intent }: Sample): Sample {
  const changes: readonly (readonly [string, string])[] = [
    ['G0 X44.9 Y25\nM3 S800\n', 'G0 X43.4 Y25\nM3 S800\nG4 P0.4\nG1 X44.9 Y25 F500\n'],
    // 1 mm of a circle of radius 4.9, clockwise from (44.9, 25).
    ['G2 X44.9 Y25 I-4.9 J0 F500\n', 'G2 X44.9 Y25 I-4.9 J0\nG2 X44.7983 Y24.0069 I-4.9 J0\n'],
    ['G0 X30 Y9.9\nM3 S800\n', 'G0 X28.5 Y8.4\nM3 S800\nG4 P0.4\nG1 X30 Y9.9\n'],
    ['G1 X30\nM5', 'G1 X30\nG1 X31\nM5'],
  ];
  const written = changes.reduce((program, [from, to]) => {
    if (!program.includes(from)) throw new Error(`the sample does not say ${from}`);
    return program.replace(from, to);
  }, text);
  const leadIns: Readonly<Record<string, number>> = { opening: 1.5, plate: 2.1213 };
  const cuts = intent.cuts.map((cut): IntentCut => {
    const leadIn = leadIns[cut.id];
    if (leadIn === undefined || cut.beam === null) return cut;
    const beam: BeamRun = { ...cut.beam, pierce: 0.4, leadIn, overCut: 1 };
    return { ...cut, beam };
  });
  return { text: written, intent: { ...intent, cuts } };
}
