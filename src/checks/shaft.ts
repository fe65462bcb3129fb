/** The carved back: does it leave enough wood under the truss rod, and come out of its blank? */
import { sectionsOn } from '../carving/along.ts';
import { backHeight } from '../carving/section.ts';
import type { Shaft } from '../carving/types.ts';
import { bounds } from '../geometry/ring.ts';
import type { RodCut } from '../layout/types.ts';
import { errorFinding, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board } from './types.ts';
import { mm } from './words.ts';

const HAIR = 1e-6;
/** The back is looked at this often over the rod. Millimetres. */
const STEP = 2;
/** A measured point may lie so far off the curve that stands for it (common practice, no source). Millimetres. */
const WELL_FITTED = 0.3;

/** Least wood between a cut for the rod and the back, and where: under the cut's two lower edges, square down. */
export function leastUnder(
  shaft: Shaft,
  { ring, depth }: RodCut,
): { readonly wood: number; readonly x: number } | null {
  const { x, y } = bounds(ring);
  const [from, to] = [Math.max(x[0], shaft.x[0]), Math.min(x[1], shaft.x[1])];
  if (from > to) return null;
  const sectionAt = sectionsOn(shaft);
  const half = Math.max(...y.map(Math.abs));
  const count = Math.max(1, Math.ceil((to - from) / STEP));
  const places = Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  const left = places.map((at) => ({ wood: -backHeight(sectionAt(at), half) - depth, x: at }));
  return left.reduce((least, next) => (next.wood < least.wood ? next : least));
}

/** What is wrong or doubtful in the back of the neck. */
export function checkShaft({ layout, instrument }: Board): Finding[] {
  const { shaft } = layout;
  const { neckShape, neckBlank } = instrument;
  if (shaft === null || neckShape === null) return [];
  const deepest = shaft.stations.reduce((most, next) => (next.depth > most.depth ? next : most));
  return [
    ...layout.rodCuts.flatMap((cut) => underRod(shaft, cut, neckShape.leastUnderRod)),
    ...(neckBlank !== null && deepest.depth > neckBlank.thickness + HAIR
      ? [
          errorFinding(
            'back-deeper-than-blank',
            `At fret ${deepest.label} the back lies ${mm(deepest.depth)} below the board, and the neck's blank is ${mm(neckBlank.thickness)} thick.`,
            {
              where: { source: 'instrument', path: 'neckShape.stations' },
              allowed: `at most ${mm(neckBlank.thickness + instrument.fingerboard.thickness)} of depth, board and neck together`,
            },
          ),
        ]
      : []),
    ...shaft.stations.flatMap(({ label, fitted }, i) =>
      fitted !== null && fitted > WELL_FITTED
        ? [
            warningFinding(
              'points-off-curve',
              `At fret ${label} a measured point lies ${mm(fitted)} off the smooth back that comes nearest to all of them.`,
              {
                where: { source: 'instrument', path: `neckShape.stations.${i}.points` },
                allowed: `at most ${mm(WELL_FITTED)}`,
                remedy: 'Measure again; a back with a ridge or a hollow cannot be described here.',
              },
            ),
          ]
        : [],
    ),
  ];
}

function underRod(shaft: Shaft, cut: RodCut, least: number): Finding[] {
  const found = leastUnder(shaft, cut);
  if (found === null || found.wood >= least - HAIR) return [];
  return [
    errorFinding(
      'carved-through-to-rod',
      `The carved back leaves ${mm(found.wood)} of wood under the edges of the truss rod's channel, ${mm(found.x)} from scale zero.`,
      {
        where: { source: 'instrument', path: 'neckShape.stations' },
        allowed: `at least ${mm(least)} (neckShape.leastUnderRod)`,
        remedy: 'a deeper or fuller back, a shallower channel, or a slimmer rod',
      },
    ),
  ];
}
