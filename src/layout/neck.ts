import { mirrorY, translate } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Headstock, Instrument, NeckBlank } from '../profile/types.ts';
import { errorFinding, outcomeOf } from '../report/collect.ts';
import type { Outcome } from '../report/finding.ts';
import { type BoardTaper, boardEnd, halfWidthAt } from './board.ts';
import { headOutline } from './headOutline.ts';
import type { HeadLayout, HeelLayout, NeckLayout, Scarf } from './neckTypes.ts';
import { fretCarrier } from './scale.ts';
import { layOutPosts, layOutRuns } from './tuners.ts';
import type { StringLine } from './types.ts';

/** The tongue of a plate is this much wider than the board on each side at its end: it is planed flush once it is glued. */
const SPARE = 3;
/** Of a head sawn from the neck's own blank, how much of the neck counts as wood beside it. */
const ONE_PIECE = 40;

export interface NeckGround {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  readonly nutLine: readonly [Vec, Vec];
  readonly strings: readonly StringLine[];
  /** The outline that a file holds: x from the break, the tip at negative x; null where none is named. */
  readonly drawn: Ring | null;
}

/** Where the neck begins and ends, its scarf and its head; null where the profile says nothing of them. */
export function layOutNeck(ground: NeckGround): Outcome<NeckLayout | null> {
  const { instrument, nutLine } = ground;
  const { neckBlank: blank, headstock, neckJoint } = instrument;
  if (blank === null && headstock === null) return outcomeOf(null, []);
  const [bass, treble] = nutLine;
  const breakX = Math.min(bass[0], treble[0]) - instrument.nut.thickness;
  const joint = neckJoint === null ? null : fretCarrier(instrument, neckJoint.fret).at;
  const scarf = blank?.build === 'scarf' && headstock !== null ? scarfOf(headstock, blank, breakX) : null;
  const neck: Omit<NeckLayout, 'head'> = {
    breakX,
    joint,
    end: joint === null ? boardEnd(instrument) : joint + (blank?.pastJoint ?? 0),
    scarf,
    heel: heelOf(instrument, joint),
  };
  if (headstock === null) return outcomeOf({ ...neck, head: null }, []);
  const outline = outlineOf(headstock, ground, breakX);
  if (outline === null) return { ok: false, findings: [noShape()] };
  return outcomeOf({ ...neck, head: layOutHead(headstock, ground, neck, outline) }, []);
}

/**
 * The plate lies on a bevel that leaves the shaft's top behind the nut: with the head's angle a, the plate's thickness h and the
 * shaft's T, the seam meets the neck's plane h / sin a from the break, and is T / sin a long.
 */
export function scarfOf(
  { angle, thickness: plate }: Pick<Headstock, 'angle' | 'thickness'>,
  { thickness }: Pick<NeckBlank, 'thickness'>,
  breakX: number,
): Scarf {
  const seamTop = breakX + plate / Math.sin(angle);
  return {
    seamTop,
    seamBack: seamTop - thickness / Math.tan(angle),
    bevel: thickness / Math.sin(angle),
    overlap: plate / Math.tan(angle),
  };
}

function heelOf({ neckJoint, neckBlank: blank }: Instrument, joint: number | null): HeelLayout | null {
  if (neckJoint === null || joint === null || blank === null) return null;
  const depth = neckJoint.heelDepth + neckJoint.boardAboveRim;
  const under = Math.max(0, depth - blank.thickness);
  return {
    x: [joint - blank.heelLength, joint + blank.pastJoint],
    depth,
    // A hair, so that a heel of exactly so many blocks does not ask for one more.
    blocks: blank.heel === 'one piece' ? 0 : Math.ceil(under / blank.thickness - 1e-9),
  };
}

function outlineOf({ outline }: Headstock, { drawn, taper }: NeckGround, breakX: number): Ring | null {
  if (outline.kind === 'sizes') return headOutline(outline, { breakX, half: halfWidthAt(taper, breakX) });
  return drawn === null ? null : translate(drawn, [breakX, 0]);
}

function noShape() {
  return errorFinding('headstock-has-no-shape', 'These sizes of the head leave no room for its outline.', {
    where: { source: 'instrument', path: 'headstock.outline' },
    allowed:
      'cheeks that swing out by less than about 0.8 of `shoulder`, sides between them and the tip that splay less than they do, a tip that rises by less than half its width, corners that fit between side and middle',
    remedy: 'a longer head or shoulder, or a smaller tip or corner',
  });
}

function layOutHead(
  headstock: Headstock,
  { instrument, taper, strings }: NeckGround,
  { breakX, scarf }: Omit<NeckLayout, 'head'>,
  outline: Ring,
): HeadLayout {
  const posts = layOutPosts(headstock.tuners, strings.length, breakX);
  const tongue = breakX + (scarf?.overlap ?? ONE_PIECE);
  const half = halfWidthAt(taper, tongue) + (scarf === null ? 0 : SPARE);
  return {
    angle: headstock.angle,
    length: breakX - tipOf(headstock, outline, breakX),
    outline,
    plate: [...outline, { x: tongue, y: -half, bulge: 0 }, { x: tongue, y: half, bulge: 0 }],
    posts,
    runs: layOutRuns(instrument, posts, strings, breakX),
  };
}

/** x of the farthest place of the outline: of a hollow tip its corners. */
function tipOf({ outline: given }: Headstock, outline: Ring, breakX: number): number {
  const middle = given.kind === 'sizes' ? [breakX - given.length] : [];
  return Math.min(...middle, ...outline.map(({ x }) => x));
}

/** The same neck for the other hand. */
export function mirrorNeck(neck: NeckLayout): NeckLayout {
  const { head } = neck;
  if (head === null) return neck;
  const flip = ([x, y]: Vec): Vec => [x, -y || 0];
  return {
    ...neck,
    head: {
      ...head,
      outline: mirrorY(head.outline),
      plate: mirrorY(head.plate),
      posts: head.posts.map((post) => ({ ...post, at: flip(post.at) })),
      runs: head.runs.map((run) => ({ ...run, from: flip(run.from), to: flip(run.to) })),
    },
  };
}
