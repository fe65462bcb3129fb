import { drawLayout } from '../drawing/drawLayout.ts';
import { drawNeck } from '../drawing/drawNeck.ts';
import { drawPart } from '../drawing/drawPart.ts';
import { listShapes } from '../drawing/listShapes.ts';
import type { Drawing } from '../drawing/types.ts';
import type { Finding } from '../report/finding.ts';
import { proveDrawing } from '../verify/dxf/prove.ts';
import type { DrawingProof } from '../verify/dxf/types.ts';
import { writeDxf } from '../writers/dxf/write.ts';
import type { Design } from './design.ts';

export interface ProvenDrawing {
  readonly path: string;
  readonly drawing: Drawing;
  readonly text: string;
  readonly proof: DrawingProof;
}

/** A drawing of the whole layout and one of each part, each written, read anew and held against what it shows. */
export function makeDrawings(made: Design): ProvenDrawing[] {
  const instrument = made.instrument.value;
  const whole = [drawLayout(made.layout, instrument), ...drawNeck(made.layout, instrument)];
  return [...whole, ...made.parts.map(drawPart)].map((drawing) => {
    const text = writeDxf(drawing);
    return {
      path: `drawings/${drawing.id}.dxf`,
      drawing,
      text,
      proof: proveDrawing(text, listShapes(drawing)),
    };
  });
}

/** What to say of a drawing that did not prove. */
export function unprovenDrawing({ path, proof }: ProvenDrawing): Finding[] {
  if (proof.passed) return [];
  const failed = proof.checks.filter((c) => !c.passed).map((c) => `${c.name}: ${c.text}`);
  return [
    {
      code: 'drawing-not-proven',
      severity: 'error',
      text: `${path} did not prove, so nothing is written: ${failed.join('; ')}.`,
      remedy: 'this is a fault of the tool; the lines above say where',
    },
  ];
}
