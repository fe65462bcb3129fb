import { bounds } from '../geometry/ring.ts';
import type { Ring } from '../geometry/types.ts';
import type { Headstock } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { makeFigures } from './makeFigures.ts';
import type { ReadBeside } from './readArtwork.ts';

/** Corners that go in are rounded to this radius, so that a cutter of 3.2 mm makes them. Millimetres. */
const INWARD = 2;
/** What counts as lying on the nut's end. Millimetres. */
const ON_END = 0.02;
const PATH = 'headstock.outline.file';

/**
 * The outline of a head that a file holds, at its true size: x from the break at 0, the tip at negative x, the middle of the nut's end
 * on y = 0; counter-clockwise from the treble end of the break to its bass end. Null where the profile names no file.
 */
export function readHeadOutline(headstock: Headstock | null, readBeside: ReadBeside): Outcome<Ring | null> {
  if (headstock === null || headstock.outline.kind === 'sizes')
    return { ok: true, value: null, findings: [] };
  const { file } = headstock.outline;
  const text = readBeside(file);
  if (text === null)
    return refused(`The outline ${file} cannot be read.`, {
      allowed: 'an SVG or DXF file, named as seen from the folder of the instrument file',
    });
  // As wide a gap as the corner's radius leaves the corners that stand out as they are drawn.
  const made = makeFigures(text, drawnAs(file), { gap: INWARD, corner: INWARD });
  if (!made.ok) {
    const findings = made.problems.map((p) =>
      errorFinding(p.code, `${file}, line ${p.line}: ${p.text}`, {
        where: { source: 'instrument', path: PATH },
        ...(p.remedy === undefined ? {} : { remedy: p.remedy }),
      }),
    );
    return { ok: false, findings };
  }
  const [figure, ...more] = made.figures;
  if (figure === undefined || more.length > 0 || figure.part.holes.length > 0)
    return refused(`${file} does not hold one outline alone.`, { allowed: 'one closed outline' });
  const placed = fromNutEnd(figure.part.outer);
  return placed === null
    ? refused(`The outline in ${file} has no straight upright end at its right.`, {
        remedy: "Draw the nut's end as one upright line at the right, square to the centreline.",
      })
    : { ok: true, value: placed, findings: [] };
}

function drawnAs(file: string): Parameters<typeof makeFigures>[1] {
  const size = { kind: 'scale', scale: 1 } as const;
  return { file, fret: 0, between: null, rotate: 0, size, mirrorForLeftHand: true };
}

function refused(text: string, details: Pick<Finding, 'allowed' | 'remedy'>): Outcome<never> {
  const where = { source: 'instrument', path: PATH } as const;
  return { ok: false, findings: [errorFinding('headstock-outline', text, { where, ...details })] };
}

/** Moved and turned so that it begins at the upper corner of its right end; null where that end is no upright line. */
function fromNutEnd(ring: Ring): Ring | null {
  const right = bounds(ring).x[1];
  const start = ring.findIndex((v, i) => isOn(v, right) && !isOn(ring[(i + 1) % ring.length], right));
  const turned = [...ring.slice(start), ...ring.slice(0, start)];
  const end = turned.findIndex((v, i) => i > 0 && isOn(v, right));
  const [treble, bass] = [turned[0], turned[end]];
  if (start < 0 || end < 0 || treble === undefined || bass === undefined || treble.y - bass.y < 10)
    return null;
  const middle = (treble.y + bass.y) / 2;
  return turned.slice(0, end + 1).map((v, i) => ({
    x: i === 0 || i === end ? 0 : v.x - right,
    y: v.y - middle,
    bulge: i === end ? 0 : v.bulge,
  }));
}

function isOn(vertex: Ring[number] | undefined, x: number): boolean {
  return vertex !== undefined && Math.abs(vertex.x - x) <= ON_END;
}
