import { bounds } from '../geometry/ring.ts';
import type { Part } from '../parts/types.ts';
import { formatShort } from '../units/format.ts';
import { readProgram } from '../verify/gcode/readProgram.ts';
import type { StartState } from '../verify/gcode/types.ts';
import { UNDERSTANDS_EVERYTHING } from '../verify/gcode/understands.ts';
import { writePreview } from '../writers/html/preview.ts';
import { recordMoves } from '../writers/html/recordMoves.ts';
import type { PreviewProgram, PreviewRing } from '../writers/html/types.ts';
import { cautionsFor } from '../writers/notes/cautions.ts';
import { situationOfAll } from '../writers/notes/situations.ts';
import type { Design } from './design.ts';
import { toleranceOf } from './manifest.ts';
import type { ProvenProgram } from './types.ts';

const START: StartState = {
  units: 'mm',
  distance: 'absolute',
  plane: 'xy',
  feedMode: 'per minute',
  position: [0, 0, 0],
};

/** The preview page: every program drawn from its written text, read anew. */
export function makePreview(made: Design, programs: readonly ProvenProgram[]): string {
  const { value: instrument } = made.instrument;
  const situation = situationOfAll(made.plan.jobs, made.plan.handSteps, instrument);
  return writePreview({
    title: instrument.name,
    text: 'What the written programs will do, drawn from their own text. Look at each before it is run.\n\nThe cautions stand here in short; START-HERE.md and feed-notes.md have them in full.',
    cautions: cautionsFor(situation).map((c) => `${c.title}. ${firstSentence(c.text)}`),
    programs: programs.map(previewOf),
  });
}

function previewOf(program: ProvenProgram): PreviewProgram {
  const { job, proof, intent, text } = program;
  const recorder = recordMoves();
  readProgram(new TextEncoder().encode(text), START, UNDERSTANDS_EVERYTHING, recorder.add);
  const box = bounds(job.setup.stock.region.outer);
  return {
    path: job.program,
    part: job.part.title,
    operation: job.operation,
    machine: job.machine.name,
    tool:
      job.kind === 'router'
        ? `no. ${job.tool.id}, ${job.tool.name}`
        : `beam, kerf ${formatShort(job.kerf, 3)} mm`,
    cutWidth: intent.tool.diameter,
    cutBy: job.kind === 'router' ? 'cutter' : 'beam',
    workZero: job.setup.workZero,
    minutes: proof.minutes,
    proof: {
      passed: proof.passed,
      maxOvercut: proof.maxOvercut,
      maxUndercut: proof.maxUndercut,
      tolerance: toleranceOf(program),
    },
    stock: { x: box.x, y: box.y, z: [job.setup.stock.bottom, 0] },
    moves: recorder.finish(),
    outlines: [...outlinesOf(job.part, job.setup.shift), ...regionsOf(program)],
    lines: intent.cuts.flatMap((cut) => (cut.line === null ? [] : [cut.line])),
    centrelineY: job.part.id === 'radius-block-plates' ? null : -job.setup.shift[1],
    text,
  };
}

function firstSentence(text: string): string {
  return /^.*?[.:](?=\s|$)/.exec(text)?.[0].replace(/:$/, '.') ?? text;
}

/** What the program's pockets, slots and holes are meant to be. */
function regionsOf({ intent }: ProvenProgram): PreviewRing[] {
  return intent.cuts.flatMap((cut) => cut.region ?? []);
}

/** The finished edges of a part, in the program's frame. */
function outlinesOf(part: Part, shift: readonly [number, number]): PreviewRing[] {
  return part.features.flatMap((feature) =>
    feature.kind === 'outline'
      ? [feature.ring.map((v) => [v.x - shift[0], v.y - shift[1], v.bulge] as const)]
      : [],
  );
}
