import type { Ring } from '../geometry/types.ts';
import type { BridgeBody, FaceMarkers } from '../profile/types.ts';
import { errorFinding, noteFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { type Figure, makeFigures } from './makeFigures.ts';
import type { Problem } from './types.ts';

/** Text of a file beside the profile; null when it cannot be read. */
export type ReadBeside = (name: string) => string | null;

/**
 * The figures of each artwork that a profile names, in its order. A finding names the field of the profile; its sentence names the
 * file, the line and the place in the drawing.
 */
export function readArtwork(
  markers: FaceMarkers,
  readBeside: ReadBeside,
): Outcome<readonly (readonly Figure[])[]> {
  const fit = { gap: markers.clearance / 2, corner: markers.cornerRadius };
  const findings: Finding[] = [];
  const artwork = markers.artwork.map((wanted, i): readonly Figure[] => {
    const path = `faceMarkers.artwork[${i}]`;
    const text = readBeside(wanted.file);
    if (text === null) {
      findings.push(noFile(wanted.file, path));
      return [];
    }
    const made = makeFigures(text, wanted, fit);
    if (!made.ok) {
      findings.push(...made.problems.map((problem) => asFinding(problem, wanted.file, path)));
      return [];
    }
    if (made.deviation > SHOWN) findings.push(rounded(made.deviation, wanted.file, path));
    return made.figures;
  });
  const failed = findings.some((f) => f.severity === 'error');
  return failed ? { ok: false, findings } : { ok: true, value: artwork, findings };
}

/** Rounding that nobody sees is not spoken of. Millimetres. */
const SHOWN = 0.02;

function noFile(file: string, path: string): Finding {
  return errorFinding('artwork-not-found', `The artwork ${file} cannot be read.`, {
    where: { source: 'instrument', path: `${path}.file` },
    allowed: 'an SVG or DXF file, named as seen from the folder of the instrument file',
  });
}

function asFinding({ code, text, line, remedy }: Problem, file: string, path: string): Finding {
  return errorFinding(code, `${file}, line ${line}: ${text}`, {
    where: { source: 'instrument', path: `${path}.file` },
    ...(remedy === undefined ? {} : { remedy }),
  });
}

function rounded(most: number, file: string, path: string): Finding {
  return noteFinding(
    'artwork-rounded',
    `Corners of ${file} are cut back by up to ${most.toFixed(2)} mm, as round cutters make them; pocket and part alike.`,
    {
      where: { source: 'instrument', path },
      remedy: 'A smaller faceMarkers.cornerRadius, with a cutter to match.',
    },
  );
}

/** Least radius of the corners of a drawn bridge that go in: a usual cutter's. Millimetres. */
const BRIDGE_CORNER = 1.6;

/** The outline that a profile names for its bridge, about its own middle; null where it names none. */
export function readBridgeOutline(body: BridgeBody | null, readBeside: ReadBeside): Outcome<Ring | null> {
  const artwork = body?.artwork ?? null;
  if (artwork === null) return { ok: true, value: null, findings: [] };
  const path = 'bridge.body.artwork';
  const text = readBeside(artwork.file);
  if (text === null) return { ok: false, findings: [noFile(artwork.file, path)] };
  const wanted = { ...artwork, size: { kind: 'scale' as const, scale: 1 } };
  // A gap as wide as the corners leaves those that stand out as they are drawn.
  const made = makeFigures(text, wanted, { gap: BRIDGE_CORNER, corner: BRIDGE_CORNER });
  if (!made.ok) return { ok: false, findings: made.problems.map((p) => asFinding(p, artwork.file, path)) };
  const [figure] = made.figures;
  if (figure === undefined || made.figures.length > 1 || figure.part.holes.length > 0)
    return { ok: false, findings: [notOneOutline(artwork.file, path)] };
  const findings = made.deviation > SHOWN ? [bridgeRounded(made.deviation, artwork.file, path)] : [];
  return { ok: true, value: figure.part.outer, findings };
}

function notOneOutline(file: string, path: string): Finding {
  return errorFinding('bridge-not-one-outline', `${file} holds more than one outline.`, {
    where: { source: 'instrument', path: `${path}.file` },
    allowed: 'one closed outline, the edge of the bridge',
    remedy: 'Leave holes and slots out of the drawing: they come from the profile.',
  });
}

function bridgeRounded(most: number, file: string, path: string): Finding {
  return noteFinding(
    'artwork-rounded',
    `Hollow corners of ${file} are filled by up to ${most.toFixed(2)} mm, as round cutters leave them.`,
    { where: { source: 'instrument', path }, remedy: 'Nothing, or draw them rounder.' },
  );
}
