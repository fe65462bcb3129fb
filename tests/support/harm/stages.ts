/** The judge of programs that change tools: every part from one M6 to the next is judged as a program of its own. */
import type { Intent, StagedIntent } from '../../../src/intent/types.ts';
import { runProgram } from '../machine/run.ts';
import { lineOf } from '../machine/text.ts';
import { goodOf, harmOf, harmOfGood, harmOfTool, tidy, untidy } from './judge.ts';
import { type Good, type Harm, SLACK } from './types.ts';

/** What stays the same for all damages of one program. */
export interface GoodStages {
  readonly intent: StagedIntent;
  readonly text: string;
  readonly head: string;
  readonly parts: readonly { readonly text: string; readonly good: Good }[];
}

/** A program cut at its M6 words. */
interface Cut {
  readonly head: string;
  /** Each with the number of the tool that it puts in: the last that T named. */
  readonly parts: readonly { readonly text: string; readonly tool: number | null }[];
  /** An end of the program before its last part. */
  readonly endsEarly: boolean;
}

function cutAtChanges(text: string): Cut {
  const lines = text.split('\n');
  const read = lines.map(lineOf);
  const starts = read.flatMap(({ m }, i) => (m.includes(6) ? [i] : []));
  let named: number | null = null;
  const tools = read.map(({ words }) => {
    named = words.get('T') ?? named;
    return named;
  });
  const last = starts[starts.length - 1] ?? 0;
  return {
    head: lines.slice(0, starts[0] ?? 0).join('\n'),
    // A part ends where the next begins; the machine that runs it wants a word for that.
    parts: starts.map((from, k) => {
      const to = starts[k + 1];
      const part = lines.slice(from, to).join('\n');
      return { text: to === undefined ? part : `${part}\nM2\n`, tool: tools[from] ?? null };
    }),
    endsEarly: read.some(({ m }, i) => i < last && (m.includes(2) || m.includes(30))),
  };
}

export function goodOfStages(text: string, intent: StagedIntent): GoodStages {
  const { head, parts } = cutAtChanges(text);
  if (parts.length !== intent.stages.length) throw new Error(`${intent.program}: ${parts.length} parts`);
  return {
    intent,
    text,
    head,
    parts: intent.stages.map((stage, k) => {
      const part = parts[k]?.text ?? '';
      return { text: part, good: { ...goodOf(part, stage), manyTools: true } };
    }),
  };
}

/** The harm that a damaged text does, or null. */
export function harmOfStages(good: GoodStages, text: string, slack: number = SLACK): Harm | null {
  const { head, parts, endsEarly } = cutAtChanges(text);
  if (endsEarly) return control('ends before its last tool');
  if (parts.length !== good.parts.length) return control(`${parts.length} tools`);
  const other = parts.findIndex(({ tool }, k) => tool !== good.intent.stages[k]?.tool.id);
  if (other >= 0) return control(`tool ${parts[other]?.tool} put in`);
  const before = head === good.head ? null : harmInHead(good, head);
  if (before !== null) return before;
  for (const [k, part] of good.parts.entries()) {
    const now = parts[k]?.text ?? '';
    const harm = now === part.text ? null : harmOf(part.good, now, slack);
    if (harm !== null) return harm;
  }
  return null;
}

/** The harm of the good program itself; null unless the judge is wrong. */
export function harmOfGoodStages(good: GoodStages): Harm | null {
  const found = good.parts.map((part) => harmOfGood(part.good)).find((harm) => harm !== null);
  return harmInHead(good, good.head) ?? found ?? null;
}

/** What the good program does with other tools in the magazine than those meant. */
export function harmOfStagedTools(
  good: GoodStages,
  { stages }: StagedIntent,
  slack: number = SLACK,
): Harm | null {
  for (const [k, part] of good.parts.entries()) {
    const stage = stages[k];
    const isSame = stage === undefined || stage.tool === part.good.intent.tool;
    const harm = isSame ? null : harmOfTool(part.good, stage, slack);
    if (harm !== null) return harm;
  }
  return null;
}

/** Before the first tool the machine may only go up, wherever it was left, with nothing turning. */
function harmInHead(good: GoodStages, head: string): Harm | null {
  const [first] = good.parts;
  if (first === undefined) throw new Error('a program without a tool');
  const { intent, stock } = first.good;
  const ended = `${head}\nM2\n`;
  for (const left of [tidy(intent), untidy(intent, stock)]) {
    const { steps, stopped, speed, at } = runProgram(ended, left);
    if (stopped !== null) return control(stopped);
    if (speed !== 0 || steps.some((step) => step.speed !== 0)) return control('on before the first tool');
    if (at[2] < intent.limits.clearHeight - SLACK) return control('low at the first change of tools');
    const bad = steps.find((step) => !step.rapid || isAsideLow(step, intent));
    if (bad !== undefined) return control(`line ${bad.line}: a way before the first tool`);
  }
  return null;
}

function isAsideLow({ x0, y0, z0, x1, y1, z1 }: Good['cutting']['steps'][number], intent: Intent): boolean {
  const highest = Math.max(intent.limits.clearHeight, ...intent.keepOuts.map((k) => k.z[1]));
  return (x0 !== x1 || y0 !== y1) && Math.min(z0, z1) < highest - SLACK;
}

function control(what: string): Harm {
  return { kind: 'control', what };
}
