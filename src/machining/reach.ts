import { type Area, areaSize, distanceToArea, divided, figuresOf, lengthRound } from '../geometry/area.ts';
import { areaOf, common, grown, less, opened } from '../geometry/kernel/area.ts';
import type { Region } from '../geometry/types.ts';
import { wallTurn } from '../geometry/wallTurn.ts';

/** What a round cutter cannot reach of a pocket. */
export interface Leftover {
  /** Each place by itself, a hair larger than it is, so that it reaches a little into the pocket's walls. */
  readonly pieces: readonly Area[];
  /** Farthest any point of them is from what the cutter reaches, mm. */
  readonly gap: number;
  /** All of them are inner corners; no neck and no branch too narrow for the cutter. */
  readonly corners: boolean;
}

/** A wall counts as reached where this little is left of it. Millimetres. */
const REACHED = 0.003;
/** Pieces are made larger by this, so that they hold all that is left for certain. Millimetres. */
const MARGIN = 0.01;
/** A corner of less than 30 degrees is a crack, whose tip a cutter leaves far from itself. Turn of its walls, radians. */
const SHARPEST = (150 * Math.PI) / 180;
/** A corner whose walls turn by t leaves r (1 / cos(t / 2) - 1) at its tip (geometry of the circle); chords and fillets besides. */
const TIP_SLACK = { share: 1.25, more: 0.02 };

/** What a cutter of a radius leaves of a pocket; null when it does not get in at all. */
export function leftBy(region: Region, radius: number): Leftover | null {
  const area = areaOf(region);
  const reached = opened(area, radius);
  if (reached.length === 0) return null;
  const found = figuresOf(less(area, grown(reached, REACHED / 3)))
    .map((piece) => ({ piece, gap: gapOf(piece, reached) }))
    .filter(({ gap }) => gap > REACHED);
  return {
    pieces: found.map(({ piece }) => grown(piece, MARGIN)),
    gap: Math.max(0, ...found.map(({ gap }) => gap)),
    corners: found.every(({ piece, gap }) => isCorner(piece, gap, reached, radius)),
  };
}

/** Looked at all along the edges: where two arcs of the cutter cross, the farthest place is the middle of a straight wall. */
function gapOf(piece: Area, reached: Area): number {
  const points = piece.flatMap((edge) => divided(edge, Math.min(LOOK, lengthRound(edge) / FEWEST_LOOKS)));
  return Math.max(...points.map((p) => distanceToArea(reached, p)));
}

const LOOK = 0.05;
const FEWEST_LOOKS = 24;

/** It touches what is reached at one place, and its walls turn as far as its tip is away, and no farther than a crack's. */
function isCorner(piece: Area, gap: number, reached: Area, radius: number): boolean {
  const contacts = figuresOf(common(grown(piece, MARGIN), reached)).length;
  const turn = wallTurn(piece, reached, REACHED);
  if (contacts !== 1 || turn < 0 || turn > SHARPEST) return false;
  const tip = radius * (1 / Math.cos(turn / 2) - 1);
  return gap <= TIP_SLACK.share * tip + TIP_SLACK.more;
}

/** Whether a cutter of a diameter clears a pocket but for its corners. */
export function clears(region: Region, diameter: number): boolean {
  return leftBy(region, diameter / 2)?.corners === true;
}

/** Diameter of the largest cutter that clears a pocket but for its corners, to 0.01 mm below; 0 when even 0.1 mm is too thick. */
export function largestCutter(region: Region): number {
  const size = Math.sqrt(Math.max(0, areaSize(areaOf(region)))) * 1.2;
  let [good, bad] = [0.1, size];
  if (!clears(region, good)) return 0;
  while (bad - good > 0.01) {
    const middle = (good + bad) / 2;
    if (clears(region, middle)) good = middle;
    else bad = middle;
  }
  return Math.floor(good * 100) / 100;
}
