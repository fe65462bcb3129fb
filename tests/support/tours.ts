/**
 * Points of published travelling-salesman instances with the length of their best rounds: G. Reinelt, TSPLIB, A traveling
 * salesman problem library, ORSA Journal on Computing 3(4) (1991) 376-384. Lengths are EUC_2D: each step rounded.
 */
import type { Vec } from '../../src/geometry/types.ts';

function pointsOf(text: string): Vec[] {
  return text.split(/\s+/).map((pair) => {
    const [x, y] = pair.split(',').map(Number);
    if (x === undefined || y === undefined) throw new Error(`a point without two numbers: ${pair}`);
    return [x, y];
  });
}

/** Length of a round by the rule of the library: every step rounded to a whole number. */
export function roundedLength(round: readonly Vec[]): number {
  return round.reduce((sum, p, i) => {
    const q = round[(i + 1) % round.length] ?? p;
    return sum + Math.floor(Math.hypot(p[0] - q[0], p[1] - q[1]) + 0.5);
  }, 0);
}

export const instances = {
  eil51: {
    best: 426,
    points: pointsOf(
      '37,52 49,49 52,64 20,26 40,30 21,47 17,63 31,62 52,33 51,21 42,41 31,32 5,25 12,42 36,16 52,41 ' +
        '27,23 17,33 13,13 57,58 62,42 42,57 16,57 8,52 7,38 27,68 30,48 43,67 58,48 58,27 37,69 38,46 ' +
        '46,10 61,33 62,63 63,69 32,22 45,35 59,15 5,6 10,17 21,10 5,64 30,15 39,10 32,39 25,32 25,55 ' +
        '48,28 56,37 30,40',
    ),
  },
  berlin52: {
    best: 7542,
    points: pointsOf(
      '565,575 25,185 345,750 945,685 845,655 880,660 25,230 525,1000 580,1175 650,1130 1605,620 ' +
        '1220,580 1465,200 1530,5 845,680 725,370 145,665 415,635 510,875 560,365 300,465 520,585 ' +
        '480,415 835,625 975,580 1215,245 1320,315 1250,400 660,180 410,250 420,555 575,665 1150,1160 ' +
        '700,580 685,595 685,610 770,610 795,645 720,635 760,650 475,960 95,260 875,920 700,500 555,815 ' +
        '830,485 1170,65 830,610 605,625 595,360 1340,725 1740,245',
    ),
  },
  st70: {
    best: 675,
    points: pointsOf(
      '64,96 80,39 69,23 72,42 48,67 58,43 81,34 79,17 30,23 42,67 7,76 29,51 78,92 64,8 95,57 57,91 ' +
        '40,35 68,40 92,34 62,1 28,43 76,73 67,88 93,54 6,8 87,18 30,9 77,13 78,94 55,3 82,88 73,28 ' +
        '20,55 27,43 95,86 67,99 48,83 75,81 8,19 20,18 54,38 63,36 44,33 52,18 12,13 25,5 58,85 5,67 ' +
        '90,9 41,76 25,76 37,64 56,63 10,55 98,7 16,74 89,60 48,82 81,76 29,60 17,22 5,45 79,70 9,100 ' +
        '17,82 74,67 10,68 48,19 83,86 84,94',
    ),
  },
} as const;
