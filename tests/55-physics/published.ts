/**
 * Numbers typed from M. B. Anderson, R. G. Beausoleil, "Classical guitar intonation and compensation: The well-tempered
 * guitar", J. Acoust. Soc. Am. 156(1), 683 (2024), and the boards they are stated for.
 */
import { fretCents } from '../../src/physics/intonation.ts';
import type { NutString } from '../../src/physics/solve/nut.ts';
import type { SetUp, StiffnessRule, TunedString } from '../../src/physics/types.ts';

/** One string of their Tables: radius mm, g/m, N, R, kappa, B0, GPa; then saddle and nut set-back mm, rms cents. */
export interface PublishedString {
  readonly set: 'nylon-light' | 'nylon-normal' | 'carbon-normal';
  readonly note: string;
  readonly radius: number;
  readonly mass: number;
  readonly tension: number;
  readonly r: number;
  readonly kappa: number;
  readonly b0: number;
  readonly modulus: number;
  readonly saddle: number;
  readonly nut: number;
  readonly rms: number;
}

type Row = readonly [string, ...number[]];

const rows = (set: PublishedString['set'], list: readonly Row[]): PublishedString[] =>
  list.map(([note, radius = 0, mass = 0, tension = 0, r = 0, kappa = 0, b0 = 0, modulus = 0, ...rest]) => {
    const [saddle = 0, nut = 0, rms = 0] = rest;
    return { set, note, radius, mass, tension, r, kappa, b0, modulus, saddle, nut, rms };
  });

/** The default figures for nylon in src/physics/materials.ts were chosen from the normal-tension set alone. */
export const PUBLISHED: readonly PublishedString[] = [
  ...rows('nylon-normal', [
    ['E4', 0.356, 0.374, 68.6, 23.6, 48.2, 0.0019, 8.33, 1.48, -0.36, 0.143],
    ['B3', 0.409, 0.505, 52.0, 23.8, 48.7, 0.0022, 4.82, 1.69, -0.36, 0.145],
    ['G3', 0.512, 0.836, 54.2, 28.8, 58.6, 0.00301, 3.87, 2.33, -0.43, 0.177],
    ['D3', 0.368, 1.92, 70.0, 22.5, 46.0, 0.00192, 7.56, 1.49, -0.34, 0.137],
    ['A2', 0.445, 3.289, 67.3, 23.9, 48.7, 0.00239, 5.28, 1.83, -0.36, 0.146],
    ['E2', 0.546, 5.47, 62.8, 28.6, 58.2, 0.00321, 3.9, 2.46, -0.43, 0.177],
  ]),
  ...rows('nylon-light', [
    ['E4', 0.349, 0.361, 66.4, 37.8, 76.6, 0.00235, 13.28, 1.95, -0.57, 0.229],
    ['B3', 0.403, 0.487, 50.2, 42.6, 86.2, 0.00287, 8.5, 2.37, -0.64, 0.259],
    ['G3', 0.504, 0.808, 52.5, 55.0, 111.1, 0.00409, 7.3, 3.39, -0.82, 0.339],
    ['D3', 0.356, 1.822, 66.4, 31.4, 63.7, 0.00218, 10.65, 1.76, -0.47, 0.19],
    ['A2', 0.419, 2.741, 56.0, 26.1, 53.2, 0.00235, 5.4, 1.83, -0.39, 0.159],
    ['E2', 0.533, 5.158, 59.2, 28.5, 57.9, 0.00312, 3.83, 2.4, -0.43, 0.175],
  ]),
  ...rows('carbon-normal', [
    ['E4', 0.305, 0.464, 85.3, 21.8, 44.6, 0.00157, 13.04, 1.23, -0.33, 0.132],
    ['B3', 0.345, 0.607, 62.6, 26.0, 53.1, 0.00194, 8.86, 1.53, -0.4, 0.158],
    ['G3', 0.42, 0.893, 58.0, 26.9, 54.7, 0.00239, 5.71, 1.86, -0.41, 0.164],
    ['D3', 0.356, 1.643, 59.9, 24.3, 49.6, 0.00193, 7.47, 1.51, -0.37, 0.148],
    ['A2', 0.445, 3.089, 63.2, 26.9, 54.7, 0.00253, 5.57, 1.96, -0.41, 0.164],
    ['E2', 0.559, 5.715, 65.6, 23.5, 47.9, 0.00298, 3.2, 2.24, -0.35, 0.145],
  ]),
];

/** Their scale, nut height and saddle height over the nut, mm. */
export const X0 = 650;
const B = 1;
const C = 4;

export const twelfths = (count: number): number[] =>
  Array.from({ length: count }, (_, i) => 2 ** ((i + 1) / 12));

/** Their board: frets in a plane, the string passing straight on behind the fret to a finger `d` behind it. */
export function publishedBoard(d: number, nutForward: number, rule: StiffnessRule = 'by scale'): SetUp {
  const ratios = twelfths(12);
  return {
    scale: X0,
    ratios,
    frets: ratios.map((ratio) => X0 * (1 - 1 / ratio)),
    drops: ratios.map(() => 0),
    nutForward,
    nutHeight: B,
    saddleHeight: B + C,
    saddleSlope: 0,
    fingerBehind: ratios.map(() => d),
    press: 0,
    crownHeight: Number.POSITIVE_INFINITY,
    restsOnFrets: false,
    stiffnessRule: rule,
  };
}

/** A published string on the published board, nut and saddle free. Their nut setting is positive away from the saddle. */
export function publishedPair(string: TunedString, d: number, rule?: StiffnessRule): NutString {
  return {
    weight: 1,
    fretWeights: Array(12).fill(1),
    errors: (setBack, nutForward) => fretCents(publishedBoard(d, nutForward, rule), string, setBack),
  };
}

/** Root of the mean square over frets 0 to 12, the open string's 0 included: thirteen terms, as printed. */
export const rms13 = (errors: readonly number[]): number =>
  Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / 13);
