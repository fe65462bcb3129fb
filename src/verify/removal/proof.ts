/**
 * What a proof says.
 *
 * In: figures found by the checks. Out: one list of checks, each with what was found, what is allowed and how many things were
 * looked at, and one of refusals with their lines. A check that saw nothing fails; a figure that is not a number fails.
 */
import type { Refusal } from '../gcode/types.ts';

export type Place = readonly [x: number, y: number, z: number];

export interface Check {
  readonly name: string;
  readonly passed: boolean;
  readonly value: number;
  readonly limit: number;
  /** Id of the cut it speaks of; absent when it speaks of the whole program. */
  readonly cut?: string;
  /** Which tool's stage of a program that changes tools, from 1. */
  readonly stage?: number;
  /** Where the value was found, program frame, mm. */
  readonly place?: Place;
  /** Line of the program that caused it. */
  readonly line?: number;
  /** How many things were looked at. */
  readonly seen: number;
}

/** A program that must have run before on the same blank: the proof counts with what it cleared. */
export interface Condition {
  readonly program: string;
  /** Hash of its text. */
  readonly programSha256: string;
  /** Its text was at hand, and clears what is counted with. */
  readonly checked: boolean;
}

export interface Proof {
  readonly passed: boolean;
  readonly program: string;
  /** Left out: none. */
  readonly onlyAfter?: readonly Condition[];
  /** The text is not the one the intent was written beside; null when no hash was given. */
  readonly edited: boolean | null;
  readonly checks: readonly Check[];
  readonly refusals: readonly Refusal[];
  /** mm; the worst over all cuts, sideways. */
  readonly maxOvercut: number;
  readonly maxUndercut: number;
  /** mm at feed and at rapid. */
  readonly cutLength: number;
  readonly rapidLength: number;
  readonly minutes: number;
}

/** The worst figure met so far. */
export interface Worst {
  value: number;
  place: Place | null;
  line: number;
  seen: number;
}

/** Nothing met yet. */
export function newWorst(): Worst {
  return { value: Number.NEGATIVE_INFINITY, place: null, line: 0, seen: 0 };
}

/** Takes a figure in. A figure that is not a number stays the worst for good. */
export function note(worst: Worst, value: number, place: Place | null, line: number): void {
  worst.seen += 1;
  if (Number.isNaN(worst.value) || value <= worst.value) return;
  worst.value = value;
  worst.place = place;
  worst.line = line;
}

/** Counts a thing that an earlier proof has looked at and found good. */
export function spare(worst: Worst): void {
  worst.seen += 1;
}

/** No more than this many refusals of one rule are listed: the first say it all. */
const LISTED = 5;

/** Where the checks write what they found. */
export interface Ledger {
  readonly checks: Check[];
  readonly refusals: Refusal[];
}

/** An empty ledger. */
export function newLedger(): Ledger {
  return { checks: [], refusals: [] };
}

/** Whether anything written so far speaks against the program. */
export function hasFailed(ledger: Ledger): boolean {
  return ledger.refusals.length > 0 || ledger.checks.some((check) => !check.passed);
}

/** Writes a check of a worst figure against its limit. */
export function judge(ledger: Ledger, name: string, worst: Worst, limit: number, cut?: string): void {
  ledger.checks.push({
    name,
    passed: worst.seen > 0 && worst.value <= limit,
    value: worst.seen > 0 ? worst.value : 0,
    limit,
    ...(cut === undefined ? {} : { cut }),
    ...(worst.place === null ? {} : { place: worst.place }),
    ...(worst.line === 0 ? {} : { line: worst.line }),
    seen: worst.seen,
  });
}

/** Counts how often a rule was broken, and lists the first few. */
export interface Rule {
  readonly name: string;
  readonly allowed: string;
  seen: number;
  broken: number;
  first: { place: Place | null; line: number } | null;
}

/** A rule nobody has broken yet. `name` is the check's name. */
export function newRule(name: string, allowed: string): Rule {
  return { name, allowed, seen: 0, broken: 0, first: null };
}

/** Takes one thing looked at and found good. */
export function keep(rule: Rule): void {
  rule.seen += 1;
}

/** Takes one breach in, with what was found in words. */
export function breach(ledger: Ledger, rule: Rule, found: string, line: number, place: Place | null): void {
  rule.seen += 1;
  rule.broken += 1;
  rule.first ??= { place, line };
  if (rule.broken > LISTED) return;
  ledger.refusals.push({ line, rule: ruleName(rule.name), found, allowed: rule.allowed });
}

function ruleName(check: string): string {
  return check.replaceAll(' ', '-');
}

/** Writes the check of a rule: value = times broken. */
export function judgeRule(ledger: Ledger, rule: Rule): void {
  const { first } = rule;
  ledger.checks.push({
    name: rule.name,
    passed: rule.seen > 0 && rule.broken === 0,
    value: rule.broken,
    limit: 0,
    ...(first?.place ? { place: first.place } : {}),
    ...(first ? { line: first.line } : {}),
    seen: rule.seen,
  });
}
