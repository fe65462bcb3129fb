/** The checks of a program's work, one after another. */
import { assignPieces } from './assign.ts';
import { checkBurns } from './beam.ts';
import { checkCuts } from './cuts.ts';
import { markCutting } from './cutting.ts';
import { checkEngagement } from './engagement.ts';
import { checkFinite } from './finish.ts';
import { checkReach } from './holder.ts';
import type { Job } from './job.ts';
import { checkKeepOuts } from './keepOuts.ts';
import { checkEnvelope, checkFeeds, checkModes } from './limits.ts';
import { checkLook, onlyLooks } from './looks.ts';
import { checkLoosened } from './loosened.ts';
import { checkNeighbours } from './neighbours.ts';
import { hasFailed } from './proof.ts';
import { checkBeamRapids, checkRapids } from './rapids.ts';
import { checkShavings } from './shaving.ts';
import { checkSpinUp } from './spinUp.ts';

type Step = (job: Job) => void;

const COMMON: readonly Step[] = [
  checkFinite,
  assignPieces,
  checkCuts,
  checkNeighbours,
  checkLoosened,
  checkKeepOuts,
  checkEnvelope,
  checkFeeds,
  checkModes,
];
const BY_CUTTER: readonly Step[] = [
  ...COMMON,
  checkSpinUp,
  checkRapids,
  checkEngagement,
  checkShavings,
  checkReach,
];
const BY_BEAM: readonly Step[] = [...COMMON, checkBeamRapids, checkBurns];

/** A program that only looks has no cut to be measured. */
const LOOKING: readonly Step[] = [checkFinite, checkEnvelope, checkKeepOuts, checkLook];

/** The same, those that take the least time first. All that need to know which cut a piece works on follow `assignPieces`. */
const LIGHT: readonly Step[] = [checkFinite, checkEnvelope, checkFeeds, checkModes, checkKeepOuts];
const BY_CUTTER_LIGHT_FIRST: readonly Step[] = [
  ...LIGHT,
  checkSpinUp,
  assignPieces,
  checkRapids,
  checkReach,
  checkEngagement,
  checkShavings,
  checkNeighbours,
  checkLoosened,
  checkCuts,
];
const BY_BEAM_LIGHT_FIRST: readonly Step[] = [
  ...LIGHT,
  checkBeamRapids,
  assignPieces,
  checkBurns,
  checkNeighbours,
  checkLoosened,
  checkCuts,
];

/** Runs every check, in the order in which a proof lists them. */
export function checkAll(job: Job): void {
  markCutting(job);
  for (const step of stepsFor(job, BY_BEAM, BY_CUTTER)) step(job);
}

/** Runs the checks until one fails, those that take the least time first. */
export function checkUntilOneFails(job: Job): void {
  markCutting(job);
  for (const step of stepsFor(job, BY_BEAM_LIGHT_FIRST, BY_CUTTER_LIGHT_FIRST)) {
    step({ ...job, hasty: true });
    if (hasFailed(job.ledger)) return;
  }
}

function stepsFor(job: Job, byBeam: readonly Step[], byCutter: readonly Step[]): readonly Step[] {
  if (onlyLooks(job.intent)) return LOOKING;
  return job.tool.kind === 'beam' ? byBeam : byCutter;
}
