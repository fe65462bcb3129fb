import { drawLayout } from '../drawing/drawLayout.ts';
import { drawNeck } from '../drawing/drawNeck.ts';
import { drawPart } from '../drawing/drawPart.ts';
import type { Vec } from '../geometry/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { parseLength } from '../units/length.ts';
import type { PageFonts } from '../writers/pdf/page.ts';
import { PAPERS, type Paper } from '../writers/pdf/paper.ts';
import { writeSvg } from '../writers/svg/write.ts';
import { design } from './design.ts';
import { file } from './file.ts';
import { sha256 } from './hash.ts';
import { paperPages } from './paperPages.ts';
import type { JobSources, OutputFile } from './types.ts';
import { VERSION } from './version.ts';

/** Code of findings that speak of the command's own words, not of a file. */
export const BAD_PAPER = 'bad-paper';

/** What was asked of the printer, as written. */
export interface PrintWords {
  readonly paper: string | undefined;
  readonly printedBar: string | undefined;
}

export interface Templates {
  readonly slug: string;
  readonly instrument: string;
  readonly files: readonly OutputFile[];
}

/** Narrowest and widest roll, mm. */
const ROLL = [200, 1600] as const;
/** A bar of 100 mm that printed outside these was not printed at 1:1 at all. */
const BAR = [90, 110] as const;

/** Every part and the whole layout at 1:1, as PDF on sheets and as SVG in one piece; bench sheets and order of work on the same paper. */
export async function makeTemplates(
  sources: JobSources,
  words: PrintWords,
  fonts: PageFonts,
): Promise<Outcome<Templates>> {
  const paper = readPaper(words.paper);
  const stretch = readBar(words.printedBar);
  const designed = design(sources);
  const findings = [...designed.findings, ...paper.findings, ...stretch.findings];
  if (!designed.ok || !paper.ok || !stretch.ok) return { ok: false, findings };
  const made = designed.value;
  const { value: instrument, file: path } = made.instrument;
  const hash = sha256(made.instrument.sources[0]?.text ?? '');
  const whole = [drawLayout(made.layout, instrument), ...drawNeck(made.layout, instrument)];
  const drawings = [...whole, ...made.parts.map(drawPart)];
  // Loaded only here: nothing else writes PDF, and it is heavy.
  const { writePdf } = await import('../writers/pdf/write.ts');
  const head = { instrument: instrument.name, hash, stretch: stretch.value };
  const files: OutputFile[] = [];
  for (const drawing of drawings) {
    const pdf = await writePdf(drawing, paper.value, head);
    files.push({
      path: `${drawing.id}.pdf`,
      role: 'template',
      part: drawing.part,
      operation: null,
      bytes: pdf,
    });
    files.push({ ...file(`${drawing.id}.svg`, 'template', writeSvg(drawing)), part: drawing.part });
  }
  files.push(...(await paperPages(made, paper.value, hash, fonts)));
  const manifest = {
    nutline: VERSION,
    format: 1,
    instrument: instrument.name,
    units: 'mm',
    profile: { path, sha256: hash },
    paper: paper.value.name,
    stretch: { along: stretch.value[0], across: stretch.value[1] },
    files: files.map((f) => ({
      path: f.path,
      role: f.role,
      part: f.part,
      sha256: sha256(f.bytes),
      bytes: f.bytes.length,
    })),
  };
  files.push(file('manifest.json', 'notes', `${JSON.stringify(manifest, null, 1)}\n`));
  return {
    ok: true,
    value: { slug: `${instrument.slug}-templates`, instrument: instrument.name, files },
    findings,
  };
}

function readPaper(written: string | undefined): Outcome<Paper> {
  const word = (written ?? 'a4').trim().toLowerCase();
  const sheet = PAPERS.find((paper) => paper.name === word);
  if (sheet !== undefined) return sound(sheet);
  const width = /^roll\s+(.+)$/.exec(word)?.[1];
  const allowed = `${PAPERS.map((p) => p.name).join(', ')}, or a roll's width as "roll 610 mm", ${ROLL[0]} to ${ROLL[1]} mm`;
  if (width === undefined) return refuse(`"${written}" is not a paper that is known.`, allowed);
  const length = parseLength(width, 'mm');
  if (!length.ok) return refuse(length.problem, allowed);
  if (length.value < ROLL[0] || length.value > ROLL[1]) {
    return refuse(`A roll ${width} wide cannot be used.`, allowed);
  }
  return sound({ kind: 'roll', name: word, width: length.value });
}

/** `99.2 mm`, or `99.2 mm x 100.1 mm`: what the bars of 100 mm measured, level and upright. */
function readBar(written: string | undefined): Outcome<Vec> {
  if (written === undefined) return sound([1, 1]);
  const allowed = `what the 100 mm bar measured, as "99.2 mm", or level and upright, as "99.2 mm x 100.1 mm"; ${BAR[0]} to ${BAR[1]} mm`;
  const parts = written.split(/\s+x\s+/);
  if (parts.length > 2) return refuse(`"${written}" is more than two lengths.`, allowed);
  const lengths = parts.map((part) => parseLength(part, 'mm'));
  const bad = lengths.find((length) => !length.ok);
  if (bad !== undefined && !bad.ok) return refuse(bad.problem, allowed);
  const values = lengths.flatMap((length) => (length.ok ? [length.value] : []));
  if (values.some((value) => value < BAR[0] || value > BAR[1])) {
    return refuse(`A bar of 100 mm that printed as ${written} was not printed at 1:1.`, allowed);
  }
  const [level = 100, upright = level] = values;
  return sound([100 / level, 100 / upright]);
}

const sound = <T>(value: T): Outcome<T> => ({ ok: true, value, findings: [] });

function refuse(text: string, allowed: string): Outcome<never> {
  const findings: Finding[] = [errorFinding(BAD_PAPER, text, { allowed })];
  return { ok: false, findings };
}
