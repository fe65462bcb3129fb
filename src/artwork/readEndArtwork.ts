import type { Ring } from '../geometry/types.ts';
import type { EndArtwork, Fingerboard } from '../profile/types.ts';
import { errorFinding, noteFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { makeFigures } from './makeFigures.ts';
import type { ReadBeside } from './readArtwork.ts';
import type { Problem } from './types.ts';

const PATH = 'fingerboard.endArtwork';

/** Rounding that nobody sees is not spoken of. Millimetres. */
const SHOWN = 0.02;

/**
 * The outline whose right side is a board's end, about its own middle, counter-clockwise, corners that go in rounded as the
 * outline's cutter leaves them; null where the profile names none. Millimetres.
 */
export function readEndArtwork(
  { endArtwork }: Pick<Fingerboard, 'endArtwork'>,
  readBeside: ReadBeside,
): Outcome<Ring | null> {
  if (endArtwork === null) return { ok: true, value: null, findings: [] };
  const text = readBeside(endArtwork.file);
  if (text === null) return { ok: false, findings: [noFile(endArtwork.file)] };
  const { cornerRadius: corner } = endArtwork;
  // With a gap of the cutter's own radius nothing is taken off corners that stand out: the cutter goes round them.
  const made = makeFigures(text, asDrawn(endArtwork), { gap: corner, corner });
  if (!made.ok) return { ok: false, findings: made.problems.map((p) => asFinding(p, endArtwork.file)) };
  const [figure, ...more] = made.figures;
  if (figure === undefined || more.length > 0 || figure.part.holes.length > 0)
    return { ok: false, findings: [notOne(endArtwork.file)] };
  const findings = made.deviation > SHOWN ? [rounded(made.deviation, endArtwork)] : [];
  return { ok: true, value: figure.part.outer, findings };
}

function asDrawn({ file }: EndArtwork): Parameters<typeof makeFigures>[1] {
  return {
    file,
    fret: 0,
    between: null,
    rotate: 0,
    size: { kind: 'scale', scale: 1 },
    mirrorForLeftHand: true,
  };
}

function noFile(file: string): Finding {
  return errorFinding('artwork-not-found', `The outline of the end, ${file}, cannot be read.`, {
    where: { source: 'instrument', path: `${PATH}.file` },
    allowed: 'an SVG or DXF file, named as seen from the folder of the instrument file',
  });
}

function asFinding({ code, text, line, remedy }: Problem, file: string): Finding {
  const smaller = 'Draw it wider there, or state a smaller endArtwork.cornerRadius with a cutter to match.';
  const advice = code === 'artwork-too-fine' ? smaller : remedy;
  return errorFinding(code, `${file}, line ${line}: ${text}`, {
    where: { source: 'instrument', path: `${PATH}.file` },
    ...(advice === undefined ? {} : { remedy: advice }),
  });
}

function notOne(file: string): Finding {
  return errorFinding('end-artwork-not-one', `${file} holds more than one outline.`, {
    where: { source: 'instrument', path: `${PATH}.file` },
    allowed: 'one closed outline, whose right side is the end of the board',
  });
}

function rounded(most: number, { file, cornerRadius }: EndArtwork): Finding {
  return noteFinding(
    'artwork-rounded',
    `Corners of ${file} that go in are filled by up to ${most.toFixed(2)} mm, as a cutter of ${(2 * cornerRadius).toFixed(2)} mm leaves them.`,
    {
      where: { source: 'instrument', path: `${PATH}.cornerRadius` },
      remedy: 'A smaller endArtwork.cornerRadius, with a cutter to match.',
    },
  );
}
