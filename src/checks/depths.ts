import { highestUnder, lowestUnder } from '../geometry/inlayLoss.ts';
import type { Vec } from '../geometry/types.ts';
import type { PlacedMarker } from '../layout/types.ts';
import { errorFinding, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board } from './types.ts';
import { start } from './walls.ts';
import { mm, placeIn } from './words.ts';

const HAIR = 1e-6;
/** Least marker left after the board has been radiused: thinner ones chip or show the glue (common practice, no source). */
const LEAST_MARKER = 0.3;

/** A marker or a figure of artwork in its pocket. Millimetres. */
interface SetInlay {
  /** In words, as `the pocket of the marker at fret 7`. */
  readonly pocket: string;
  /** Field of the profile that puts it there. */
  readonly path: string;
  /** Wood between the pocket's floor and the glue under the board. */
  readonly woodBelow: number;
  /** Of the marker's thickness at its lowest place, once board and marker are level. */
  readonly left: number;
  /** That place. */
  readonly at: Vec;
}

/**
 * Whether each face marker and each artwork leaves wood below its pocket, and levelling leaves enough of it. A pocket is measured from the
 * finished board, so both hold for a board that is radiused before its pockets are cut as for one that is radiused after.
 */
export function checkDepths(board: Board): Finding[] {
  const inlays = board.layout.faceMarkers.map((marker) => inlayIn(board, marker));
  // The figures of one artwork are mended by one change.
  const paths = [...new Set(inlays.map(({ path }) => path))];
  return paths.flatMap((path) => {
    const own = inlays.filter((inlay) => inlay.path === path);
    return [...leavesWood(board, leastOf(own, 'woodBelow')), ...survives(board, leastOf(own, 'left'))];
  });
}

function inlayIn({ layout, instrument, cuts }: Board, { id, at, form }: PlacedMarker): SetInlay {
  const cut = cuts.find((other) => other.id === id);
  if (cut === undefined) throw new Error(`no cut for ${id}`);
  const { thickness, proud } = instrument.faceMarkers;
  const { surface } = layout.board;
  const top = highestUnder(surface, at, form) + proud;
  const lowest = lowestUnder(surface, at, form);
  return {
    pocket: cut.name,
    path: cut.path,
    woodBelow: instrument.fingerboard.thickness + top - thickness,
    left: thickness - (top - lowest.height),
    at: lowest.at,
  };
}

function leastOf(inlays: readonly SetInlay[], key: 'woodBelow' | 'left'): SetInlay {
  return inlays.reduce((least, other) => (other[key] < least[key] ? other : least));
}

function leavesWood({ instrument }: Board, { pocket, path, woodBelow }: SetInlay): Finding[] {
  const { frets, faceMarkers } = instrument;
  if (woodBelow >= frets.leastWoodBelow - HAIR) return [];
  return [
    errorFinding(
      'pocket-too-deep',
      `${start(pocket)} (${path}) ${woodBelow <= 0 ? 'cuts through the board' : `leaves ${mm(woodBelow)} of wood below it`}.`,
      {
        where: { source: 'instrument', path: 'faceMarkers.thickness' },
        found: mm(faceMarkers.thickness),
        allowed: `at least ${mm(frets.leastWoodBelow)} of wood (frets.leastWoodBelow)`,
        remedy: 'Thinner markers, more of them standing proud, or a thicker board.',
      },
    ),
  ];
}

function survives(board: Board, inlay: SetInlay): Finding[] {
  const { thickness, leastLeft } = board.instrument.faceMarkers;
  const { pocket, path, left, at } = inlay;
  const place = placeIn(board.layout, board.instrument, at);
  const remedy = 'Thicker markers, a smaller marker, or less of it standing proud.';
  if (left < LEAST_MARKER - HAIR)
    return [
      errorFinding(
        'marker-sanded-away',
        `Levelling takes ${mm(thickness - left)} off what lies in ${pocket} (${path}), which is ${mm(thickness)} thick: ${place}.`,
        {
          where: { source: 'instrument', path: 'faceMarkers.thickness' },
          found: mm(thickness),
          allowed: `at least ${mm(thickness - left + LEAST_MARKER)}`,
          remedy,
        },
      ),
    ];
  if (left >= leastLeft - HAIR) return [];
  return [
    warningFinding(
      'marker-left-thin',
      `Of what lies in ${pocket} ${mm(left)} is left once the board is radiused and level: ${place}.`,
      {
        where: { source: 'instrument', path },
        found: mm(left),
        allowed: `at least ${mm(leastLeft)} (faceMarkers.leastLeft)`,
        remedy,
      },
    ),
  ];
}
