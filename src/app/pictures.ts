import { errorFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { drawPicture } from '../writers/html/picture/drawPicture.ts';
import { writePreview } from '../writers/html/preview.ts';
import type { Painter } from '../writers/png/write.ts';
import { file } from './file.ts';
import { sha256 } from './hash.ts';
import type { SheetName } from './preview.ts';
import { type PreviewJob, previewJob } from './previewJob.ts';
import type { JobSources, OutputFile } from './types.ts';
import { VERSION } from './version.ts';

/** Code of findings that speak of the command's own words, not of a file. */
export const BAD_CHOICE = 'bad-choice';

/** Pixels of a PNG for each of a picture's own. */
const SHARPNESS = 1.5;

export interface PictureWords {
  /** Name of a program, with or without its ending, or its number in cutting order; left out: all. */
  readonly program: string | undefined;
  /** Name of a part; left out: all. */
  readonly part: string | undefined;
  readonly inches: boolean;
  readonly formats: readonly ('svg' | 'png')[];
  /** A file that is to hold the picture; then one sheet alone may be asked for. */
  readonly into: string | undefined;
}

export interface Picture {
  /** File name without an ending: sheet and program. */
  readonly name: string;
  readonly part: string;
  readonly operation: string;
  readonly svg: string | null;
  readonly png: Uint8Array | null;
}

export interface LookedAt {
  readonly slug: string;
  readonly instrument: string;
  /** Every program in cutting order. */
  readonly programs: readonly string[];
  /** Those that were drawn and did not prove. */
  readonly unproven: readonly string[];
}

/** The page of all programs, also of those that do not prove: they say so. */
export function makePage(sources: JobSources): Outcome<LookedAt & { readonly files: readonly OutputFile[] }> {
  const job = previewJob(sources);
  if (!job.ok) return job;
  const { input } = job.value;
  const files = withManifest([file('preview.html', 'preview', writePreview(input))], input.title);
  return { ok: true, value: { ...lookedAt(job.value), files }, findings: job.findings };
}

/** A picture of each program that is asked for. */
export async function makePictures(
  sources: JobSources,
  words: PictureWords,
  painter: () => Painter,
): Promise<Outcome<LookedAt & { readonly pictures: readonly Picture[] }>> {
  const job = previewJob(sources, (sheets) => choose(sheets, words));
  if (!job.ok) return job;
  const pictures: Picture[] = [];
  for (const at of job.value.drawn.keys()) pictures.push(await pictureOf(job.value, at, words, painter));
  return { ok: true, value: { ...lookedAt(job.value), pictures }, findings: job.findings };
}

function lookedAt({ slug, sheets, input }: PreviewJob): LookedAt {
  return {
    slug: `${slug}-preview`,
    instrument: input.title,
    programs: sheets.map((sheet) => sheet.path),
    unproven: input.programs.filter((p) => !p.proof.passed).map((p) => p.path),
  };
}

async function pictureOf(
  { input, sheets, drawn }: PreviewJob,
  at: number,
  { inches, formats }: PictureWords,
  painter: () => Painter,
): Promise<Picture> {
  const program = input.programs[at];
  const index = drawn[at];
  if (program === undefined || index === undefined) throw new Error(`no program ${at}`);
  const count = sheets.length;
  const head = { title: input.title, number: index + 1, count, unit: inches ? 'in' : 'mm' } as const;
  const svg = drawPicture(program, head);
  return {
    name: `${String(index + 1).padStart(String(count).length, '0')}-${stemOf(program.path)}`,
    part: program.part,
    operation: program.operation,
    svg: formats.includes('svg') ? svg : null,
    png: formats.includes('png') ? await pixelsOf(svg, painter()) : null,
  };
}

/** Loaded only here: nothing else makes pixels, and what does it is heavy. */
async function pixelsOf(svg: string, painter: Painter): Promise<Uint8Array> {
  const { writePng } = await import('../writers/png/write.ts');
  return writePng(svg, painter, SHARPNESS);
}

/** A program's path as a file's name: without its ending, a tool's number after it kept. */
function stemOf(path: string): string {
  return path
    .replace(/\.[a-z]+(?=,|$)/, '')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[.-]+/, '');
}

/** Numbers of the sheets that are asked for. */
function choose(sheets: readonly SheetName[], words: PictureWords): Outcome<readonly number[]> {
  const all = [...sheets.keys()];
  const named = all.filter((i) => isNamed(sheets[i], i, words.program));
  if (named.length === 0) {
    if (words.program === undefined) return refuse('There is no program to draw.', 'nothing');
    return refuse(`There is no program ${words.program}.`, `a number or a name:${listOf(sheets, all)}`);
  }
  const part = words.part?.trim().toLowerCase();
  const found = named.filter((i) => part === undefined || sheets[i]?.part.toLowerCase() === part);
  if (found.length === 0) {
    const parts = [...new Set(named.flatMap((i) => sheets[i]?.part ?? []))];
    return refuse(`No program here works on a part named ${words.part}.`, parts.join('; '));
  }
  if (found.length > 1 && words.into !== undefined) {
    return refuse(
      `${words.into} can hold one sheet and ${found.length} are asked for.`,
      `one of them by --program, or no file, for a picture of each:${listOf(sheets, found)}`,
    );
  }
  return { ok: true, value: found, findings: [] };
}

function listOf(sheets: readonly SheetName[], numbers: readonly number[]): string {
  return numbers
    .map((i) => `\n  ${i + 1}  ${sheets[i]?.path}  (${sheets[i]?.operation}, ${sheets[i]?.part})`)
    .join('');
}

function isNamed(sheet: SheetName | undefined, index: number, word: string | undefined): boolean {
  if (sheet === undefined || word === undefined) return word === undefined;
  const wanted = word.trim().toLowerCase();
  const path = sheet.path.toLowerCase();
  return [String(index + 1), path, path.split('.')[0], path.split(',')[0]].includes(wanted);
}

function refuse(text: string, allowed: string): Outcome<never> {
  const findings: Finding[] = [errorFinding(BAD_CHOICE, text, { allowed })];
  return { ok: false, findings };
}

/** Pictures as files, with a list of them by hash. */
export function pictureFiles(pictures: readonly Picture[], instrument: string): OutputFile[] {
  const files = pictures.flatMap(({ name, part, operation, svg, png }): OutputFile[] => {
    const common = { role: 'preview', part, operation } as const;
    return [
      ...(svg === null ? [] : [{ ...common, path: `${name}.svg`, bytes: new TextEncoder().encode(svg) }]),
      ...(png === null ? [] : [{ ...common, path: `${name}.png`, bytes: png }]),
    ];
  });
  return withManifest(files, instrument);
}

function withManifest(files: readonly OutputFile[], instrument: string): OutputFile[] {
  const manifest = {
    nutline: VERSION,
    format: 1,
    instrument,
    files: files.map(({ path, role, part, operation, bytes }) => ({
      path,
      role,
      part,
      operation,
      sha256: sha256(bytes),
      bytes: bytes.length,
    })),
  };
  return [...files, file('manifest.json', 'notes', `${JSON.stringify(manifest, null, 1)}\n`)];
}
