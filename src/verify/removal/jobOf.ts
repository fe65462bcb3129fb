import type { Intent } from '../../intent/types.ts';
import { groundOf } from './ground.ts';
import type { Job, Known } from './job.ts';
import { onlyLooks } from './looks.ts';
import type { Ledger } from './proof.ts';
import { regionOf } from './rings.ts';
import type { Sweep } from './sweep.ts';
import { type Target, targetOf } from './targets.ts';
import { type Tool, toolOf } from './tool.ts';

/** All that the checks look at; null, with the reasons in the ledger, when tool or cuts cannot be proven. */
export function jobOf(intent: Intent, sweep: Sweep, ledger: Ledger, known: Known | null): Job | null {
  const tool = toolOf(intent);
  if (typeof tool === 'string') {
    ledger.refusals.push({
      line: 0,
      rule: 'provable-tool',
      found: tool,
      allowed: 'a flat, ball or vee cutter, a drill or a beam that follows its path exactly',
    });
    return null;
  }
  const targets = targetsOf(intent, tool, ledger);
  if (targets === null) return null;
  const stock = regionOf(intent.stock.region);
  const cleared = (intent.cleared ?? []).map(groundOf);
  return { intent, tool, targets, stock, cleared, ...forSweep(sweep), ledger, known, hasty: false };
}

/** The fields of a job that are as long as its path. */
export function forSweep(sweep: Sweep): Pick<Job, 'sweep' | 'cutting' | 'owner'> {
  return { sweep, cutting: new Uint8Array(sweep.count), owner: new Int32Array(sweep.count) };
}

function targetsOf(intent: Intent, tool: Tool, ledger: Ledger): Target[] | null {
  const targets: Target[] = [];
  for (const cut of intent.cuts) {
    const target = targetOf(cut, intent, tool);
    if (typeof target !== 'string') targets.push(target);
    else
      ledger.refusals.push({
        line: 0,
        rule: 'provable-cut',
        found: `${cut.id}: ${target}`,
        allowed:
          'region or drill (flat cutter or drill), surface (flat or ball), separate (flat or beam), line (vee or beam)',
      });
  }
  if (intent.cuts.length === 0 && !onlyLooks(intent)) {
    ledger.refusals.push({
      line: 0,
      rule: 'something-meant',
      found: 'an intent without cuts',
      allowed: 'at least one cut; none only where a cutter never goes below the clear height',
    });
    return null;
  }
  return targets.length === intent.cuts.length ? targets : null;
}
