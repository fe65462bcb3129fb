/** Limits of machine, tool and plan that every motion must keep. */
import { at } from './at.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { newPiece, type Piece, steepness } from './piece.ts';
import { boxOf } from './prim.ts';
import { breach, judge, judgeRule, keep, newRule, newWorst, note, type Rule } from './proof.ts';
import { loadPiece } from './sweep.ts';
import { feedOf, isExact, kindOf, speedOf, toolOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Feeds and lengths are rounded in the text by less than this. */
const ROUNDING = 1e-6;
/** Feeds are written in whole or tenth mm/min: half a unit is let pass. */
const FEED_ROUNDING = 0.5;

type Look = (piece: Piece, i: number, line: number) => void;

function everyPiece(job: Job, look: Look): void {
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    look(piece, i, pieceLine(job.sweep, piece));
  }
}

/** Writes `envelope` and, for a cutter, `lowest point`. */
export function checkEnvelope(job: Job): void {
  const { envelope } = job.intent.machine;
  const out = newWorst();
  const low = newWorst();
  const hasHeight = job.tool.kind !== 'beam';
  everyPiece(job, (p, _, line) => {
    const b = boxOf(p);
    const excess = [
      envelope.x[0] - b.minX,
      b.maxX - envelope.x[1],
      envelope.y[0] - b.minY,
      b.maxY - envelope.y[1],
    ];
    const lowest = Math.min(p.z0, p.z1);
    if (hasHeight) excess.push(envelope.z[0] - lowest, Math.max(p.z0, p.z1) - envelope.z[1]);
    note(out, Math.max(...excess), piecePlace(p, 1), line);
    note(low, job.intent.limits.zMin - lowest, piecePlace(p, p.z0 < p.z1 ? 0 : 1), line);
  });
  judge(job.ledger, 'envelope', out, ROUNDING);
  if (hasHeight) judge(job.ledger, 'lowest point', low, ROUNDING);
}

/** Writes `feed`, `machine feed` and, for a cutter, `plunge feed`. */
export function checkFeeds(job: Job): void {
  const { limits, machine } = job.intent;
  const [low, high] = limits.feed;
  const range = newRule('feed', `${low} to ${high} mm/min`);
  const motor = newRule(
    'machine feed',
    `${machine.maxFeed.xy} mm/min sideways, ${machine.maxFeed.z} mm/min up and down`,
  );
  const plunge = newRule('plunge feed', `${limits.plungeFeed} mm/min downward in wood`);
  everyPiece(job, (p, i, line) => {
    if (kindOf(job.sweep.tape, p.motion) === 'rapid') return;
    const feed = feedOf(job.sweep.tape, p.motion);
    const rise = steepness(p);
    const say = (rule: Rule, good: boolean, found: string): void =>
      good ? keep(rule) : breach(job.ledger, rule, found, line, piecePlace(p, 1));
    say(
      range,
      feed >= Math.min(low, limits.plungeFeed) - FEED_ROUNDING && feed <= high + FEED_ROUNDING,
      `F ${feed}`,
    );
    const sideways = feed * Math.sqrt(1 - rise * rise);
    const upright = feed * rise;
    say(
      motor,
      sideways <= machine.maxFeed.xy + FEED_ROUNDING && upright <= machine.maxFeed.z + FEED_ROUNDING,
      `${sideways.toFixed(1)} sideways, ${upright.toFixed(1)} up or down`,
    );
    if (job.tool.kind === 'beam' || at(job.owner, i) === NOT_CUTTING) return;
    say(
      plunge,
      !(p.z1 < p.z0) || upright <= limits.plungeFeed + FEED_ROUNDING,
      `${upright.toFixed(1)} mm/min downward`,
    );
  });
  judgeRule(job.ledger, range);
  judgeRule(job.ledger, motor);
  if (job.tool.kind !== 'beam') judgeRule(job.ledger, plunge);
}

/** Writes `spindle on` (a cutter), `spindle speed`, `tool` and `exact path`. */
export function checkModes(job: Job): void {
  const { intent } = job;
  const { tape } = job.sweep;
  const isBeam = job.tool.kind === 'beam';
  const needsExact = intent.machine.path === 'exact' && intent.machine.understands.exactPath;
  const on = newRule('spindle on', 'the spindle turns in every cut');
  const speed = newRule('spindle speed', `S ${intent.limits.spindle[0]} to ${intent.limits.spindle[1]}`);
  const tool = newRule('tool', `tool ${intent.tool.id}, or none named`);
  const exact = newRule('exact path', 'exact path mode (G61) in every cut');
  everyPiece(job, (p, i, line) => {
    const say = (rule: Rule, good: boolean, found: string): void =>
      good ? keep(rule) : breach(job.ledger, rule, found, line, piecePlace(p, 1));
    const inSpindle = toolOf(tape, p.motion);
    say(tool, inSpindle === -1 || inSpindle === intent.tool.id, `tool ${inSpindle}`);
    if (at(job.owner, i) === NOT_CUTTING) return;
    const s = speedOf(tape, p.motion);
    if (!isBeam) say(on, s > 0, 'a cut with the spindle off');
    say(speed, isWithin(s, intent.limits.spindle) && isWithin(s, intent.machine.spindle), `S ${s}`);
    if (needsExact) say(exact, isExact(tape, p.motion), 'a cut out of exact path mode');
  });
  lookAtToolWords(job, tool);
  if (!isBeam) {
    judgeRule(job.ledger, on);
    checkTurning(job);
  }
  judgeRule(job.ledger, speed);
  judgeRule(job.ledger, tool);
  if (needsExact) judgeRule(job.ledger, exact);
}

/** Some controls change the tool at the T word alone: one that names another tool breaks the rule with or without M6. */
function lookAtToolWords(job: Job, rule: Rule): void {
  for (const named of job.sweep.tape.result.tools) {
    if (named === job.intent.tool.id) keep(rule);
    else breach(job.ledger, rule, `T${named}`, 0, null);
  }
}

/** Writes `spindle turns right`: no tool that the proof knows cuts backward. */
function checkTurning(job: Job): void {
  const { result } = job.sweep.tape;
  const rule = newRule('spindle turns right', 'M3, clockwise; never M4');
  if (result.words.includes('M4')) breach(job.ledger, rule, 'M4', 0, null);
  else keep(rule);
  judgeRule(job.ledger, rule);
}

function isWithin(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low - FEED_ROUNDING && value <= high + FEED_ROUNDING;
}
