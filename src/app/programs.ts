import { buildIntent } from '../intent/build.ts';
import type { Intent } from '../intent/types.ts';
import type { Job } from '../machining/types.ts';
import { planMoves } from '../motion/planMoves.ts';
import type { Finding } from '../report/finding.ts';
import { formatMm } from '../units/format.ts';
import { prove } from '../verify/prove.ts';
import { writeProgram } from '../writers/gcode/write.ts';
import { sha256 } from './hash.ts';
import type { ProvenProgram } from './types.ts';
import { VERSION } from './version.ts';

const encoder = new TextEncoder();

/** Writes a job's program and its intent, then reads the text back and proves the one against the other. */
export function makeProgram(job: Job, instrumentName: string): ProvenProgram {
  const text = writeProgram(planMoves(job), {
    remarks: remarksOf(job, instrumentName),
    controller: job.machine.controller,
  });
  const programSha256 = sha256(text);
  const intent = buildIntent(job, programSha256);
  const proof = prove(encoder.encode(text), intent, { programSha256, rapid: rapidOf(job) });
  return {
    path: `programs/${job.program}`,
    intentPath: `intent/${job.program.replace(/\.nc$/, '.json')}`,
    job,
    text,
    intent,
    intentText: intentText(intent),
    proof,
  };
}

/** The intent as it is written: one cut a line would be long, so plain two-space JSON with vertices kept on one line. */
function intentText(intent: Intent): string {
  const spaced = JSON.stringify(intent, null, 1);
  return `${spaced.replace(/\[\s+(-?[\d.e+-]+(?:,\s+-?[\d.e+-]+)*)\s+\]/g, (_, list: string) => `[${list.replace(/\s+/g, ' ')}]`)}\n`;
}

function rapidOf(job: Job): { readonly xy: number; readonly z: number } {
  return job.kind === 'router' ? job.machine.rapid : { xy: job.machine.rapid, z: job.machine.rapid };
}

function remarksOf(job: Job, instrumentName: string): string[] {
  const { box, thickness } = job.part.blank;
  const size = [box.x[1] - box.x[0], box.y[1] - box.y[0], thickness].map((v) => formatMm(v, 2)).join(' x ');
  return [
    `${instrumentName}: ${job.part.title}, ${job.operation}`,
    `program ${job.program}, written by nutline ${VERSION}; millimetres`,
    `machine: ${job.machine.name}`,
    toolRemark(job),
    `work zero: ${job.setup.workZero}`,
    `blank: ${size} mm`,
    ...(job.kind === 'router'
      ? [`clear height: ${formatMm(job.machine.clearHeight, 2)} mm above the top`]
      : []),
    'check the work zero and run it once above the wood before cutting',
  ];
}

function toolRemark(job: Job): string {
  if (job.kind === 'laser') return `beam: kerf ${formatMm(job.kerf, 3)} mm, as tested in this shop`;
  const { tool, feeds } = job;
  return `tool ${tool.id}: ${tool.name}, ${formatMm(tool.diameter, 3)} mm, ${feeds.rpm} rpm`;
}

/** What to say of a program that did not prove: nothing is written, and the fault is ours. */
export function unproven(program: ProvenProgram): Finding[] {
  if (program.proof.passed) return [];
  const failed = program.proof.checks.filter((c) => !c.passed);
  const refusals = program.proof.refusals.map(
    (r) => `line ${r.line}: ${r.rule}, found ${r.found}, allowed ${r.allowed}`,
  );
  const checks = failed.map(
    (c) => `${c.name}: ${c.value} (limit ${c.limit})${c.cut === undefined ? '' : ` at ${c.cut}`}`,
  );
  return [
    {
      code: 'program-not-proven',
      severity: 'error',
      text: `${program.path} did not prove, so nothing is written: ${[...refusals, ...checks].slice(0, 5).join('; ')}.`,
      remedy: 'this is a fault of the tool or a shop file it cannot serve; the lines above say where',
    },
  ];
}
