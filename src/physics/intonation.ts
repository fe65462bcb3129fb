/**
 * How far from its pitch a stopped string sounds.
 *
 * The four parts of the error are those of Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024): length, mass,
 * tension and stiffness, each in cents; the open string is taken as tuned.
 */
import { openLength, restLength, soundingLength } from './frettedLength.ts';
import { clampedPinned, stiffnessNumber } from './stiffString.ts';
import { mersenneTension } from './tension.ts';
import type { SetUp, TunedString } from './types.ts';

/** A string at rest, tuned. */
export interface OpenString {
  readonly length: number;
  /** kappa = E A / T: relative rise of tension for a relative stretch. */
  readonly stretch: number;
  /** B = sqrt(E I / T) / L. */
  readonly stiffness: number;
}

/** The parts of one stopped note's error, cents. */
export interface CentsParts {
  readonly length: number;
  readonly mass: number;
  readonly tension: number;
  readonly stiffness: number;
}

/** The open string for a saddle at that set-back. */
export function openString(setUp: SetUp, string: TunedString, setBack: number): OpenString {
  const length = openLength(setUp, setBack);
  if (string.kind === 'measured') return { length, stretch: string.stretch, stiffness: string.stiffness };
  const tension = mersenneTension(string.body.massPerMetre, length, string.hertz);
  return {
    length,
    stretch: string.body.axial / tension,
    stiffness: stiffnessNumber(string.body.bending, tension, length),
  };
}

/** What decides a stopped note: its length, its relative stretch, and its tension and stiffness then. */
interface StoppedString {
  /** Open length over the fret's ratio times the sounding length. */
  readonly shortening: number;
  /** Q: how much longer the whole string has become, over its open length. */
  readonly stretched: number;
  /** Tension over the open string's. */
  readonly tension: number;
  /** Factor of the bending stiffness over the open string's. */
  readonly stiffening: number;
}

function stopped(setUp: SetUp, open: OpenString, fret: number, setBack: number): StoppedString {
  const ratio = setUp.ratios[fret];
  if (ratio === undefined) throw new Error(`no fret ${fret + 1} among ${setUp.ratios.length}`);
  const sounding = soundingLength(setUp, fret, setBack);
  const stretched = (sounding + restLength(setUp, fret, setBack) - open.length) / open.length;
  const tension = 1 + open.stretch * stretched;
  const b =
    setUp.stiffnessRule === 'by scale'
      ? ratio * open.stiffness
      : (open.stiffness * open.length) / (sounding * Math.sqrt(tension));
  return {
    shortening: open.length / (ratio * sounding),
    stretched,
    tension,
    stiffening: clampedPinned(b) / clampedPinned(open.stiffness),
  };
}

/** Cents of a frequency ratio. */
const cents = (ratio: number): number => 1200 * Math.log2(ratio);

/** How far the note at a fret (index from 0) is sharp, in its parts. */
export function centsParts(setUp: SetUp, open: OpenString, fret: number, setBack: number): CentsParts {
  const s = stopped(setUp, open, fret, setBack);
  return {
    length: cents(s.shortening),
    mass: cents(1 + s.stretched) / 2,
    tension: cents(s.tension) / 2,
    stiffness: cents(s.stiffening),
  };
}

/** How far the note at a fret is sharp: the sum of its parts. */
export function centsSharp(setUp: SetUp, open: OpenString, fret: number, setBack: number): number {
  const s = stopped(setUp, open, fret, setBack);
  return cents(s.shortening * s.stiffening * Math.sqrt((1 + s.stretched) * s.tension));
}

/** Cents by which every fret's note is sharp (negative: flat), first fret first. */
export function fretCents(setUp: SetUp, string: TunedString, setBack: number): number[] {
  const open = openString(setUp, string, setBack);
  return Array.from({ length: setUp.ratios.length }, (_, fret) => centsSharp(setUp, open, fret, setBack));
}
