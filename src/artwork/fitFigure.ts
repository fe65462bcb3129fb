import { type Area, distanceToArea, divided, figuresOf, lengthRound } from '../geometry/area.ts';
import type { Fit } from '../geometry/form.ts';
import { common, grown, less, opened } from '../geometry/kernel/area.ts';
import { fitRegion } from '../geometry/kernel/outline.ts';
import type { Region, Vec } from '../geometry/types.ts';
import { wallTurn } from '../geometry/wallTurn.ts';

/** A figure as both cutters make it. */
export interface Fitted {
  readonly part: Region;
  readonly pocket: Region;
  /** Farthest any place of the drawing is from what is cut, and where. Millimetres. */
  readonly deviation: { readonly most: number; readonly at: Vec | null };
  /** Places that no cutter of this radius gets into. */
  readonly tooFine: readonly Vec[];
}

/** Chords are fitted with arcs within this. Millimetres. */
const ARC_FIT = 0.0015;
/** What is lost by less than this is not lost. Millimetres. */
const KEPT = 0.003;
/** A tip of less than 30 degrees is a crack, which no cutter gets near to. Turn of its walls, radians. */
const SHARPEST = (150 * Math.PI) / 180;
/** Pieces that reach this much into their neighbours hold all that is lost for certain. Millimetres. */
const MARGIN = 0.01;
/** Once is enough for most figures; opening what was closed may undo a little of it. */
const ROUNDS = 3;

/**
 * The figure that both a pocket and a part can have. Corners that stand out are rounded as the pocket's cutter leaves them, corners
 * that go in as the part's cutter does: opened by one radius, then closed by the other, so that both walls stay the gap apart
 * everywhere, corners included. Millimetres.
 */
export function fitFigure(figure: Area, { gap, corner }: Fit): Fitted | null {
  const outward = Math.max(0, corner - gap);
  let area = figure;
  for (let k = 0; k < ROUNDS; k += 1) area = closed(opened(area, outward), corner);
  if (area.length === 0) return null;
  const lost = lossesOf(figure, area, outward);
  const outside = complementOf(figure, corner);
  const filled = lossesOf(outside, less(outside, area), corner);
  const worst = [...lost, ...filled].toSorted((a, b) => b.gap - a.gap)[0];
  return {
    part: fitRegion(area, ARC_FIT),
    pocket: fitRegion(grown(area, gap), ARC_FIT),
    deviation: { most: worst?.gap ?? 0, at: worst?.at ?? null },
    tooFine: [...lost, ...filled].filter((l) => l.tooFine).map((l) => l.at),
  };
}

/** What a disc of a radius outside the area does not reach is added to it. */
function closed(area: Area, radius: number): Area {
  return grown(grown(area, radius), -radius);
}

interface Loss {
  readonly at: Vec;
  readonly gap: number;
  readonly tooFine: boolean;
}

/** Each place that is in the first and not in the second: a tip touches what is left once, a neck more often, a speck never. */
function lossesOf(before: Area, after: Area, radius: number): Loss[] {
  if (after.length === 0) return before.map((p) => ({ at: p[0] ?? [0, 0], gap: radius, tooFine: true }));
  return figuresOf(less(before, grown(after, KEPT / 3))).flatMap((piece): Loss[] => {
    const points = piece.flatMap((edge) => divided(edge, Math.max(0.02, lengthRound(edge) / 48)));
    const farthest = points
      .map((at) => ({ at, gap: distanceToArea(after, at) }))
      .toSorted((a, b) => b.gap - a.gap)[0];
    if (farthest === undefined || farthest.gap <= KEPT) return [];
    const contacts = figuresOf(common(grown(piece, MARGIN), after)).length;
    const tooFine = contacts !== 1 || wallTurn(piece, after, KEPT) > SHARPEST;
    return [{ ...farthest, tooFine }];
  });
}

/** All about a figure, as far as matters here. */
function complementOf(figure: Area, radius: number): Area {
  const points = figure.flat();
  const room = 4 * radius + 1;
  const [x0, x1] = [Math.min(...points.map((p) => p[0])) - room, Math.max(...points.map((p) => p[0])) + room];
  const [y0, y1] = [Math.min(...points.map((p) => p[1])) - room, Math.max(...points.map((p) => p[1])) + room];
  const box: Area = [
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
  ];
  return less(box, figure);
}
