import type { Finding } from '../report/finding.ts';
import { renderFindings } from '../report/render.ts';
import { type LiveState, writeLivePreview } from '../writers/html/preview.ts';
import type { PreviewInput } from '../writers/html/types.ts';
import { sha256 } from './hash.ts';
import { sourceTexts } from './load.ts';
import { chooseAll, previewJob } from './previewJob.ts';
import { type Judged, judgeProgram, type Written } from './programs.ts';
import type { JobSources } from './types.ts';

/** A page that follows its files, as it stands. */
export interface LiveView {
  readonly html: string;
  /** What a page that is open is told: the news, and the mark of the drawing to load itself anew by. */
  readonly told: { readonly [Key in keyof LiveState]: LiveState[Key] | null };
  readonly isRight: boolean;
}

export interface LiveJob {
  /** Draws the files as they are now. Where they are wrong the last good drawing stays and the findings are told. */
  draw(sources: JobSources): LiveView;
  /** The same when a file cannot even be read. */
  fail(reason: string): LiveView;
}

const NONE = 'none';

/** Keeps the last good drawing, and what the proofs of its programs found: a program that has not changed is not proven again. */
export function createLiveJob(): LiveJob {
  let drawn: { readonly input: PreviewInput; readonly mark: string } | null = null;
  let known = new Map<string, Judged>();

  function view(state: 'good' | 'wrong', head: string, text: string): LiveView {
    const live = { drawing: drawn?.mark ?? NONE, state, head, text };
    const told = { ...live, drawing: drawn === null ? null : live.drawing };
    return { html: writeLivePreview(drawn?.input ?? null, live), told, isRight: state === 'good' };
  }

  return {
    draw(sources) {
      const used = new Map<string, Judged>();
      const result = previewJob(sources, chooseAll, (written) => {
        const key = keyOf(written);
        const judged = known.get(key) ?? judgeProgram(written);
        used.set(key, judged);
        return judged;
      });
      const text = wordsFor(result.findings, sources);
      if (!result.ok) return view('wrong', wrongHead(drawn !== null), text);
      known = used;
      const { input } = result.value;
      drawn = { input, mark: sha256(JSON.stringify(input)) };
      const unproven = input.programs.filter((p) => !p.proof.passed).length;
      const head =
        unproven === 0
          ? 'Drawn from the files as they are saved.'
          : `Drawn from the files as they are saved. Programs that do not prove: ${unproven}. Do not cut them.`;
      return view('good', head, text);
    },
    fail: (reason) => view('wrong', wrongHead(drawn !== null), reason),
  };
}

function wrongHead(isDrawn: boolean): string {
  return isDrawn
    ? 'The files as they are saved now cannot be drawn. Below stands the last good drawing.'
    : 'The files as they are saved now cannot be drawn.';
}

function wordsFor(findings: readonly Finding[], sources: JobSources): string {
  return findings.length === 0 ? '' : renderFindings(findings, sourceTexts(sources));
}

/** A judgement depends on the program, on what is meant, and on how the machine moves. */
function keyOf({ programSha256, whole, job }: Written): string {
  return sha256(`${programSha256} ${JSON.stringify(whole)} ${JSON.stringify(job.machine)}`);
}
