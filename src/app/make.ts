import { planCuts } from '../cutlist/planCuts.ts';
import type { CutPlan } from '../cutlist/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { benchSheet } from '../sheet/benchSheet.ts';
import { renderSheetText } from '../sheet/renderSheetText.ts';
import { sheetJson } from '../sheet/sheetJson.ts';
import { thingsToBuy } from '../sheet/thingsToBuy.ts';
import { TIME_MODEL } from '../timing/programTime.ts';
import { proveCutPlan } from '../verify/cutlist/proveCutPlan.ts';
import { writeCutListCsv } from '../writers/csv/cutList.ts';
import { writeDrillCsv } from '../writers/csv/drill.ts';
import { writeFretWireCsv } from '../writers/csv/fretWire.ts';
import { writeCutListMarkdown } from '../writers/notes/cutList.ts';
import { writeFeedNotes } from '../writers/notes/feedNotes.ts';
import type { ProgramFigures } from '../writers/notes/types.ts';
import { blanksToBuy } from './allParts.ts';
import { type Design, design } from './design.ts';
import { makeDrawings, type ProvenDrawing, unprovenDrawing } from './drawings.ts';
import { endsOfStrings } from './endsOfStrings.ts';
import { file } from './file.ts';
import { lieFiles, proveLies, unprovenLies } from './frames.ts';
import { inlayFiles, inlayPieces, proveInlays, unprovenInlays } from './inlays.ts';
import { placeInFiles } from './load.ts';
import { limitsOf, makersOf, writeManifest } from './manifest.ts';
import { makePreview } from './preview.ts';
import { jobsByProgram, makePrograms, workOf } from './programs.ts';
import { startPages } from './startPages.ts';
import type { JobSources, OutputFile, ProvenProgram } from './types.ts';
import { unproven } from './unproven.ts';
import { workFiles } from './workFiles.ts';

export interface Made {
  readonly slug: string;
  readonly instrument: string;
  readonly files: readonly OutputFile[];
  readonly programs: readonly ProvenProgram[];
  readonly handSteps: readonly string[];
}

/** Names the piece of work at hand, for a person who waits. */
export type OnStep = (what: string) => void;

/**
 * The whole job: every file of an instrument, all programs, drawings and the cut list proven. Nothing comes out unless
 * all of it proves.
 */
export function makeJob(sources: JobSources, onStep: OnStep = () => undefined): Outcome<Made> {
  onStep('reading the profile and the shop file');
  const designed = design(sources);
  if (!designed.ok) return designed;
  const made = designed.value;
  const { value: instrument } = made.instrument;
  const programs = makePrograms(jobsByProgram(made.plan.jobs), instrument.name, {
    onProgram: (name) => onStep(`writing and proving ${name}`),
  });
  onStep('laying the inlays into their pockets');
  const inlays = proveInlays(made, programs);
  onStep('holding the set-ups against each other');
  const lies = proveLies(programs);
  onStep('drawing and proving the drawings');
  const drawings = makeDrawings(made);
  onStep('planning the cut list');
  const cuts = planCuts(made.pieces, made.shop.value);
  const faults = [
    ...placeInFiles(programs.flatMap(unproven), made),
    ...drawings.flatMap(unprovenDrawing),
    ...unprovenInlays(inlays),
    ...unprovenLies(lies),
    ...unmadeFeatures(made),
    ...cutFaults(cuts, made),
  ];
  const findings = [...designed.findings, ...placeInFiles(cuts.findings, made), ...faults];
  if (faults.length > 0 || !cuts.ok) return { ok: false, findings };
  onStep('writing notes and the preview');
  const proven = [...drawings.map(drawingFile), ...inlayFiles(inlays), ...lieFiles(lies)];
  const files = filesOf(made, programs, proven, cuts.value);
  const handSteps = made.plan.handSteps.map((s) => s.step);
  return {
    ok: true,
    value: { slug: instrument.slug, instrument: instrument.name, files, programs, handSteps },
    findings,
  };
}

/** Every feature must be made exactly once, by a program or by a named hand step. */
function unmadeFeatures(made: Design): Finding[] {
  const makers = makersOf(made.plan.jobs, made.plan.handSteps);
  const features = made.parts.flatMap((part) => part.features.map((f) => f.id));
  const wrong = features.filter((id) => makers.get(id)?.length !== 1);
  return wrong.map((id) => ({
    code: 'feature-not-made-once',
    severity: 'error',
    text: `${id} is made ${makers.get(id)?.length ?? 0} times instead of once, so nothing is written.`,
    remedy: 'this is a fault of the tool',
  }));
}

function cutFaults(cuts: Outcome<CutPlan>, made: Design): Finding[] {
  if (!cuts.ok) return [];
  const failed = proveCutPlan(cuts.value, made.pieces, made.shop.value).filter((c) => !c.passed);
  return failed.map((check) => ({
    code: 'cut-list-not-proven',
    severity: 'error',
    text: `The cut list did not prove (${check.name}: ${check.place}), so nothing is written.`,
    remedy: 'this is a fault of the tool',
  }));
}

function filesOf(
  made: Design,
  programs: readonly ProvenProgram[],
  proven: readonly OutputFile[],
  cuts: CutPlan,
): OutputFile[] {
  const instrument = made.instrument.value;
  const shop = made.shop.value;
  const sheet = benchSheet(made.layout, instrument);
  const toBuy = [
    ...thingsToBuy(made.layout, instrument),
    ...inlayPieces(made.parts),
    ...blanksToBuy(made.parts),
  ];
  const { jobs, handSteps } = made.plan;
  const figures = programs.map(figuresOf);
  const files = [
    ...startPages(made, figures),
    file('preview.html', 'preview', makePreview(made, programs)),
    file('sheet.txt', 'sheet', renderSheetText(sheet)),
    file('sheet.json', 'sheet', sheetJson(sheet)),
    ...endsOfStrings(made),
    ...workFiles(made, figures),
    file('drill-coordinates.csv', 'coordinates', writeDrillCsv(made.layout, made.parts, instrument)),
    file('fret-wire.csv', 'cutlist', writeFretWireCsv(sheet.wire)),
    file('cut-list.md', 'cutlist', writeCutListMarkdown(cuts, toBuy, made.pieces)),
    file('cut-list.csv', 'cutlist', writeCutListCsv(cuts, toBuy)),
    file('feed-notes.md', 'notes', writeFeedNotes(jobs, handSteps, instrument, shop, figures)),
    ...proven,
    ...programs.flatMap(programFiles),
  ];
  const manifest = writeManifest({ ...made, files, programs, parts: made.parts, handSteps });
  return [...files, file('manifest.json', 'notes', manifest)];
}

function drawingFile({ path, text, drawing }: ProvenDrawing): OutputFile {
  return { ...file(path, 'drawing', text), part: drawing.part };
}

function figuresOf(program: ProvenProgram): ProgramFigures {
  const { job, proof, time } = program;
  return {
    program: job.program,
    minutes: time.minutes,
    time: { model: TIME_MODEL, ...time },
    passed: proof.passed,
    limits: limitsOf(program),
    maxOvercut: proof.maxOvercut,
    maxUndercut: proof.maxUndercut,
  };
}

function programFiles(program: ProvenProgram): OutputFile[] {
  const of = { part: program.job.part.id, operation: workOf(program) };
  const proofPath = program.intentPath.replace(/^intent\//, 'proof/');
  return [
    { ...file(program.path, 'program', program.text), ...of },
    { ...file(program.intentPath, 'intent', program.intentText), ...of },
    { ...file(proofPath, 'proof', `${JSON.stringify(program.proof, null, 1)}\n`), ...of },
  ];
}
