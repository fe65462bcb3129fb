/** The checks of what each cut leaves and where it lies. */

import { checkScribed } from '../field/checkScribed.ts';
import { checkSurface } from '../field/checkSurface.ts';
import { checkLine } from './beam.ts';
import { leftOf } from './coverage.ts';
import { finalsOf, ownFinalsOf } from './finals.ts';
import { checkFloor } from './floors.ts';
import type { Job } from './job.ts';
import { writeLeft } from './leftover.ts';
import { fitDrift, middleLine, type Offset, offsetsOf } from './located.ts';
import type { Piece } from './piece.ts';
import { judge, newWorst, note } from './proof.ts';
import { checkSeparate } from './separate.ts';
import type { RegionTarget, Target } from './targets.ts';
import { pieceLine } from './where.ts';

/** A whole program may be shifted, turned or grown by at most this at its farthest feature. Millimetres. */
const DRIFT = 0.002;

/** Writes the checks of every cut, and of the whole program's drift. */
export function checkCuts(job: Job): void {
  offsetsOfCuts(job);
}

/** The same; gives how far off each cut lies. */
export function offsetsOfCuts(job: Job): (readonly Offset[])[] {
  const offsets = job.targets.map((target, k) => job.known?.offsets[k] ?? checkCut(job, target));
  const all = offsets.flat();
  if (all.length > 0) checkDrift(job, all);
  return offsets;
}

function checkCut(job: Job, target: Target): readonly Offset[] {
  if (target.kind === 'surface') {
    checkSurface(job, target);
    return [];
  }
  const finals = finalsOf(job, target);
  switch (target.kind) {
    case 'line':
      checkLine(job, target, finals);
      if (job.tool.kind === 'vee') checkScribed(job, target);
      return [];
    case 'separate':
      checkSeparate(job, target, finals);
      return [];
    case 'region':
    case 'drill':
      checkRegion(job, target, finals);
      checkFloor(job, target);
      return checkPosition(job, target, ownFinalsOf(job, target));
  }
}

function checkRegion(job: Job, target: RegionTarget, finals: readonly Piece[]): void {
  const { wallUnder } = target.cut.tolerance;
  const { least } = job.tool;
  writeLeft(
    job,
    target,
    'wall undercut',
    leftOf(target.region, target.mayRemain, finals, least, wallUnder),
    wallUnder,
  );
  const { mayRemain } = target.cut;
  if (mayRemain === null) return;
  writeLeft(
    job,
    target,
    'corner left',
    leftOf(target.region, null, finals, least, mayRemain.maxGap),
    mayRemain.maxGap,
  );
}

function checkPosition(job: Job, target: RegionTarget, finals: readonly Piece[]): readonly Offset[] {
  const offsets = offsetsOf(target, finals);
  const isLocated = target.region.circle !== null || middleLine(target.region) !== null;
  if (!isLocated) return offsets;
  const worst = newWorst();
  for (const o of offsets) {
    const [first] = finals;
    note(worst, Math.abs(o.off), [o.x, o.y, 0], first === undefined ? 0 : pieceLine(job.sweep, first));
  }
  judge(job.ledger, 'position', worst, target.cut.tolerance.position, target.cut.id);
  return offsets;
}

function checkDrift(job: Job, offsets: readonly Offset[]): void {
  const drift = fitDrift(offsets, DRIFT);
  const write = (name: string, value: number): void =>
    judge(job.ledger, name, { value, place: null, line: 0, seen: offsets.length }, DRIFT);
  write('fitted shift', drift.shift);
  write('fitted turn', Math.abs(drift.turn) * drift.span);
  write('fitted growth', Math.abs(drift.growth) * drift.span);
}
