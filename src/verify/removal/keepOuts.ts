/** Clamps and other things on the bed that no part of the tool may come near. */
import type { Intent } from '../../intent/types.ts';
import { partsAbove } from './holder.ts';
import type { Job } from './job.ts';
import { newPiece, type Piece } from './piece.ts';
import { linePrim, type Prim } from './prim.ts';
import { breach, judge, newRule, newWorst, note } from './proof.ts';
import { boundaryDistance, isInside, type Region, regionOf } from './rings.ts';
import { loadPiece } from './sweep.ts';
import { kindOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Farther than this is not measured. Millimetres. */
const FAR = 1000;

/** Writes the check `keep-outs`: value = how far the tool enters one, mm; negative is clear. What enters which is refused by name. */
export function checkKeepOuts(job: Job): void {
  const { keepOuts } = job.intent;
  if (keepOuts.length === 0) return;
  const regions = keepOuts.map((k) => regionOf(k.region));
  const rule = newRule('keep-outs', 'no part of the tool, its shank or the collet nut inside a keep-out');
  const worst = newWorst();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    keepOuts.forEach((keepOut, k) => {
      const region = regions[k];
      if (region === undefined) return;
      const { value, part } = entered(job, piece, keepOut, region);
      const line = pieceLine(job.sweep, piece);
      note(worst, value, piecePlace(piece, 1), line);
      if (!(value <= 0)) breach(job.ledger, rule, inWords(keepOut, part, value), line, piecePlace(piece, 1));
    });
  }
  judge(job.ledger, 'keep-outs', worst, 0);
}

function inWords({ name, region, z }: KeepOut, part: string, value: number): string {
  const { minX, maxX, minY, maxY } = regionOf(region).box;
  const side = (from: number, to: number): string => `${from.toFixed(1)} to ${to.toFixed(1)}`;
  return `the ${part} ${value.toFixed(2)} mm inside "${name}" (X ${side(minX, maxX)}, Y ${side(minY, maxY)}, up to Z ${z[1].toFixed(1)})`;
}

type KeepOut = Intent['keepOuts'][number];

/** Every round part of tool and holder against the keep-out's top; the widest that is low enough counts. */
function entered(
  job: Job,
  piece: Piece,
  keepOut: KeepOut,
  region: Region,
): { readonly value: number; readonly part: string } {
  const { tool } = job.intent;
  const lowest = Math.min(piece.z0, piece.z1);
  // A vee is as wide as its body, whatever it is in the wood.
  const body = Math.max(job.tool.most, tool.kind === 'beam' ? 0 : tool.diameterRange[1] / 2);
  const low = [
    { name: tool.kind === 'beam' ? 'beam' : 'cutter', radius: body, from: 0 },
    ...partsAbove(tool),
  ].filter((part) => lowest + part.from < keepOut.z[1]);
  const [first, ...others] = low;
  if (first === undefined) return { value: -FAR, part: '' };
  const widest = others.reduce((most, part) => (part.radius > most.radius ? part : most), first);
  return { value: widest.radius - distanceTo(job, piece, region), part: widest.name };
}

/** 0 when the path enters the region. A rapid whose axes run on their own may pass anywhere in its box. */
function distanceTo(job: Job, piece: Piece, region: Region): number {
  const isBox = job.intent.machine.rapid === 'anyOrder' && kindOf(job.sweep.tape, piece.motion) === 'rapid';
  const paths: Prim[] = isBox ? boxPaths(piece) : [piece];
  const points = isBox ? [...paths.map((p) => [p.x0, p.y0] as const)] : [[piece.x0, piece.y0] as const];
  if (points.some(([x, y]) => isInside(region, x, y))) return 0;
  if (isBox && region.edges.some((e) => inBox(piece, e.x0, e.y0))) return 0;
  return Math.min(...paths.map((p) => boundaryDistance(region, p, FAR)));
}

function boxPaths({ x0, y0, x1, y1 }: Piece): Prim[] {
  return [
    linePrim(x0, y0, x1, y0),
    linePrim(x1, y0, x1, y1),
    linePrim(x1, y1, x0, y1),
    linePrim(x0, y1, x0, y0),
  ];
}

function inBox(p: Piece, x: number, y: number): boolean {
  return (
    x >= Math.min(p.x0, p.x1) &&
    x <= Math.max(p.x0, p.x1) &&
    y >= Math.min(p.y0, p.y1) &&
    y <= Math.max(p.y0, p.y1)
  );
}
