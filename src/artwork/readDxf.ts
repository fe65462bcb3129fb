import DxfParser, { type IDxf } from 'dxf-parser';
import { mmFromInches } from '../units/convert.ts';
import { applyToCurve, type Matrix } from './curves.ts';
import { curvesOf } from './dxfCurves.ts';
import { entityLines } from './dxfLines.ts';
import { joinChains } from './joinChains.ts';
import type { Chain, Problem, Read } from './types.ts';

/** Entities that the reader gives figures of. */
const DRAWN = new Set(['LINE', 'CIRCLE', 'ARC', 'ELLIPSE', 'LWPOLYLINE', 'POLYLINE', 'SPLINE']);

/** Outlines of a DXF drawing in millimetres; lines and arcs that meet are put together. */
export function readDxf(text: string): Read {
  const drawing = parse(text);
  if (drawing === null) return refused('not-dxf', 'The file is no DXF text that can be read.', 1);
  const scale = unitOf(drawing);
  if (scale === null)
    return refused(
      'artwork-unit-unknown',
      'The unit of the drawing ($INSUNITS) is none that is known here.',
      1,
    );
  const listed = entityLines(text);
  const problems: Problem[] = listed
    .filter((entity) => !DRAWN.has(entity.name))
    .map(({ name, line }) => ({
      code: 'artwork-unsupported',
      text: `A ${name} has no outline that can be cut.`,
      line,
      remedy: 'Explode it to lines and arcs, or take it out of the drawing.',
    }));
  const known = listed.filter((entity) => DRAWN.has(entity.name));
  const matrix: Matrix = [scale, 0, 0, scale, 0, 0];
  const chains: Chain[] = [];
  drawing.entities
    .filter((entity) => DRAWN.has(entity.type))
    .forEach((entity, i) => {
      const line = known[i]?.line ?? 1;
      const read = curvesOf(entity);
      const what = `the ${entity.type} on layer ${String(entity.layer).slice(0, 40)}`;
      if (typeof read === 'string') {
        problems.push({ code: 'artwork-unsupported', text: `Of ${what}: ${read}.`, line });
      } else {
        chains.push({ ...read, curves: read.curves.map((c) => applyToCurve(matrix, c)), what, line });
      }
    });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, chains: joinChains(chains) };
}

function refused(code: string, text: string, line: number): Read {
  return { ok: false, problems: [{ code, text, line }] };
}

function parse(text: string): IDxf | null {
  try {
    return new DxfParser().parseSync(text);
  } catch {
    // The reader throws plain errors of many kinds at whatever is no DXF; which one tells a person nothing.
    return null;
  }
}

/** Millimetres in a unit of the drawing ($INSUNITS of the published DXF reference); without one it counts as millimetres. */
function unitOf({ header }: IDxf): number | null {
  const inch = mmFromInches(1);
  const units: Readonly<Record<number, number>> = {
    0: 1,
    1: inch,
    2: 12 * inch,
    4: 1,
    5: 10,
    6: 1000,
    9: inch / 1000,
    10: 36 * inch,
    13: 0.001,
    14: 100,
  };
  const code: unknown = (header as Readonly<Record<string, unknown>> | undefined)?.$INSUNITS;
  return typeof code === 'number' ? (units[code] ?? null) : 1;
}
