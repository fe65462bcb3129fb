/** Clamps and other things on the bed that no part of the tool may come near. */
import type { Intent } from '../../intent/types.ts';
import type { Job } from './job.ts';
import { newPiece, type Piece } from './piece.ts';
import { linePrim, type Prim } from './prim.ts';
import { judge, newWorst, note } from './proof.ts';
import { boundaryDistance, isInside, type Region, regionOf } from './rings.ts';
import { loadPiece } from './sweep.ts';
import { kindOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Farther than this is not measured. Millimetres. */
const FAR = 1000;

/** Writes the check `keep-outs`: value = how far the tool enters one, mm; negative is clear. */
export function checkKeepOuts(job: Job): void {
  const { keepOuts } = job.intent;
  if (keepOuts.length === 0) return;
  const regions = keepOuts.map((k) => regionOf(k.region));
  const worst = newWorst();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    keepOuts.forEach((keepOut, k) => {
      const region = regions[k];
      if (region === undefined) return;
      const value = entered(job, piece, keepOut, region);
      note(worst, value, piecePlace(piece, 1), pieceLine(job.sweep, piece));
    });
  }
  judge(job.ledger, 'keep-outs', worst, 0);
}

/** Every round part of tool and holder from its own height upward, against the keep-out's top. */
function entered(job: Job, piece: Piece, keepOut: Intent['keepOuts'][number], region: Region): number {
  const { tool } = job.intent;
  const lowest = Math.min(piece.z0, piece.z1);
  // A vee is as wide as its body, whatever it is in the wood.
  const body = Math.max(job.tool.most, tool.kind === 'beam' ? 0 : tool.diameterRange[1] / 2);
  const widest = [{ radius: body, from: 0 }, ...wider(tool)]
    .filter((part) => lowest + part.from < keepOut.z[1])
    .reduce((most, part) => Math.max(most, part.radius), Number.NEGATIVE_INFINITY);
  if (widest === Number.NEGATIVE_INFINITY) return -FAR;
  return widest - distanceTo(job, piece, region);
}

function wider(tool: Intent['tool']): { radius: number; from: number }[] {
  const parts = tool.shank === null ? tool.holder : [tool.shank, ...tool.holder];
  return parts.map((part) => ({ radius: part.diameter / 2, from: part.from }));
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
