import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { MOST_BEND } from './stepDown.ts';
import type { Job, RouterJob } from './types.ts';

/** Chips of less than this share of what was aimed at rub instead of cutting (common practice, no source). */
const THIN = 0.5;

/** Warnings of feeds and depths that the shop's own figures have made risky, one for each tool and reason. */
export function riskyFeeds(jobs: readonly Job[]): Finding[] {
  const findings = jobs
    .filter((job): job is RouterJob => job.kind === 'router' && job.operations.length > 0)
    .flatMap((job) => [...tooDeep(job), ...tooThin(job)]);
  return [...new Map(findings.map((f) => [`${f.code} ${f.text}`, f])).values()];
}

/** The shop's own share of the diameter is taken as it is, whatever the cutter bends. */
function tooDeep({ tool, feeds, part }: RouterJob): Finding[] {
  const tip = feeds.bend?.tip ?? 0;
  if (tool.stepDownShare === null || tip <= MOST_BEND + 1e-9) return [];
  return [
    {
      code: 'step-down-bends-tool',
      severity: 'warning',
      where: { source: 'shop', path: 'tools' },
      text: `${tool.name}: passes of ${mm(feeds.stepDown)} in ${part.material} (stepDownShare ${formatShort(tool.stepDownShare, 3)}) bend its tip by about ${mm(tip)} in a full-width cut; walls come out that far off, and thin cutters break.`,
      allowed: `${mm(MOST_BEND)} at the tip`,
      remedy: 'lower stepDownShare or leave it out, or clamp the tool shorter (stickOut)',
    },
  ];
}

/** A machine that cannot feed fast enough for its slowest spindle speed makes dust and heat. */
function tooThin({ tool, feeds, part, machine }: RouterJob): Finding[] {
  if (tool.kind === 'drill' || feeds.chip >= feeds.chipLoad * THIN) return [];
  return [
    {
      code: 'chips-too-thin',
      severity: 'warning',
      where: { source: 'shop', path: 'machines' },
      text: `${tool.name} in ${part.material}: at ${feeds.rpm} rpm and ${feeds.feed} mm/min its chips are ${mm(feeds.chip)} thick instead of ${mm(feeds.chipLoad)}; ${machine.name} is ${feeds.boundBy.replace(/;.*/, '')}, so the edges rub, burn the wood and grow dull.`,
      allowed: `chips of at least ${mm(feeds.chipLoad * THIN)}`,
      remedy: 'a slower spindle, a cutter with fewer flutes, or a faster feed if the machine has one',
    },
  ];
}

const mm = (length: number): string => `${formatShort(length, 4)} mm`;
