/** The head: wood around its holes, room for knobs, strings clear of posts and not bent too far sideways. */
import { distanceToPolygon, isInArea, type Polygon } from '../geometry/area.ts';
import { nearestOn } from '../geometry/distance.ts';
import { flatten } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { HeadLayout, StringRun, TunerPost } from '../layout/types.ts';
import type { Headstock } from '../profile/types.ts';
import { errorFinding, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { Board } from './types.ts';
import { mm } from './words.ts';

/** Between a knob and the head's edge, and between two knobs (common practice, no source). */
const KNOB_ROOM = 1;
/** Between a string and a post that is not its own (common practice, no source). */
const STRING_ROOM = 1;
/** A string that turns farther sideways at the nut binds in its slot (common practice, no source). Radians. */
const MOST_SIDEWAYS = (12 * Math.PI) / 180;
const HAIR = 1e-6;

interface Head {
  readonly head: HeadLayout;
  readonly headstock: Headstock;
  readonly edge: Polygon;
}

/** What is wrong or doubtful about tuners, knobs and strings on the head. */
export function checkHead({ layout, instrument }: Board): Finding[] {
  const head = layout.neck?.head ?? null;
  const { headstock } = instrument;
  if (head === null || headstock === null) return [];
  const all: Head = { head, headstock, edge: flatten(head.plate, 0.002) };
  return [
    ...head.posts.flatMap((post) => holeNearEdge(all, post)),
    ...head.posts.flatMap((post) => knobUnderHead(all, post)),
    ...knobsCollide(all),
    ...head.runs.flatMap((run) => stringAtPosts(all, run)),
    ...head.runs.flatMap(sidewaysTooFar),
  ];
}

/** The widest that a tuner's hole gets, through wood and veneer. */
export function widestHole({ tuners, thickness, veneer }: Headstock): number {
  const deep = thickness + (veneer?.thickness ?? 0);
  const reamed = tuners.reamerTaper === null ? 0 : 2 * deep * Math.tan(tuners.reamerTaper / 2);
  return Math.max(tuners.hole + reamed, tuners.bushing?.diameter ?? 0);
}

function fieldOf({ headstock: { tuners } }: Head, { place }: TunerPost): string {
  const field = place > 0 && tuners.fromCentreLast !== tuners.fromCentre ? 'fromCentreLast' : 'fromCentre';
  return `headstock.tuners.${field}`;
}

function holeNearEdge(head: Head, post: TunerPost): Finding[] {
  const { tuners } = head.headstock;
  const inside = isInArea([head.edge], post.at);
  const left = (inside ? 1 : -1) * distanceToPolygon(head.edge, post.at) - widestHole(head.headstock) / 2;
  if (left >= tuners.leastEdge - HAIR) return [];
  const how = left <= 0 ? 'breaks out of the head' : `leaves ${mm(left)} of wood to the edge of the head`;
  return [
    errorFinding('tuner-too-near-edge', `The tuner hole of string ${post.string} ${how}.`, {
      where: { source: 'instrument', path: fieldOf(head, post) },
      found: mm(left),
      allowed: `at least ${mm(tuners.leastEdge)}`,
      remedy: 'posts nearer to the centreline or to the nut, or a wider or longer head',
    }),
  ];
}

function knobUnderHead(head: Head, post: TunerPost): Finding[] {
  const { knob } = head.headstock.tuners;
  if (knob === null) return [];
  const out = edgeBeside(head.edge, post.at, knob.width / 2) - Math.abs(post.at[1]);
  if (knob.reach >= out + KNOB_ROOM - HAIR) return [];
  return [
    errorFinding(
      'knob-under-head',
      `The knob of string ${post.string} begins ${mm(knob.reach)} from its post, and the edge of the head is ${mm(out)} away.`,
      {
        where: { source: 'instrument', path: fieldOf(head, post) },
        allowed: `a knob that begins at least ${mm(out + KNOB_ROOM)} from its post`,
        remedy: 'posts nearer to the edge, a narrower head, or tuners with longer shafts',
      },
    ),
  ];
}

/** How far the head reaches on a post's side, over a knob's width. */
function edgeBeside(edge: Polygon, [x, y]: Vec, half: number): number {
  const side = y < 0 ? -1 : 1;
  const near = edge.flatMap((p, i): number[] => {
    const q = edge[(i + 1) % edge.length] ?? p;
    const [low, high] = [Math.max(Math.min(p[0], q[0]), x - half), Math.min(Math.max(p[0], q[0]), x + half)];
    if (low > high || p[0] === q[0]) return [];
    const at = (along: number): number => side * (p[1] + ((q[1] - p[1]) * (along - p[0])) / (q[0] - p[0]));
    return [at(low), at(high)];
  });
  return Math.max(...near);
}

function knobsCollide({ head: { posts }, headstock: { tuners } }: Head): Finding[] {
  const { knob, apart } = tuners;
  const second = posts.find((post) => post.place === 1);
  const first = posts.find((post) => post.place === 0 && post.side === second?.side);
  if (knob === null || second === undefined || first === undefined) return [];
  const along = Math.abs(first.at[0] - second.at[0]);
  if (along - knob.width >= KNOB_ROOM - HAIR) return [];
  return [
    errorFinding('knobs-collide', `Neighbouring knobs are ${mm(knob.width)} wide and ${mm(along)} apart.`, {
      where: { source: 'instrument', path: 'headstock.tuners.apart' },
      found: mm(apart),
      allowed: `posts at least ${mm(knob.width + KNOB_ROOM)} apart along the head`,
    }),
  ];
}

function stringAtPosts({ head, headstock }: Head, run: StringRun): Finding[] {
  const segment = { kind: 'line', from: run.from, to: run.to } as const;
  return head.posts.flatMap((post): Finding[] => {
    if (post.string === run.string) return [];
    const gap = nearestOn(segment, post.at).distance - headstock.tuners.post / 2 - run.gauge / 2;
    if (gap >= STRING_ROOM - HAIR) return [];
    const make = gap <= 0 ? errorFinding : warningFinding;
    const how = gap <= 0 ? 'runs into' : `passes ${mm(gap)} from`;
    return [
      make('string-at-post', `String ${run.string} ${how} the post of string ${post.string}.`, {
        where: { source: 'instrument', path: 'headstock.tuners.fromCentre' },
        allowed: `at least ${mm(STRING_ROOM)}`,
        remedy: 'posts farther from the centreline next to the nut, or lines that close toward the tip',
      }),
    ];
  });
}

function sidewaysTooFar(run: StringRun): Finding[] {
  if (run.sideways <= MOST_SIDEWAYS) return [];
  return [
    warningFinding(
      'string-bent-sideways',
      `String ${run.string} turns ${degrees(run.sideways)} sideways at the nut and may bind in its slot.`,
      {
        where: { source: 'instrument', path: 'headstock.tuners.fromCentre' },
        allowed: `at most ${degrees(MOST_SIDEWAYS)} (common practice, no source)`,
        remedy: 'first posts nearer to the centreline or farther from the nut',
      },
    ),
  ];
}

const degrees = (angle: number): string => `${formatShort((angle * 180) / Math.PI, 1)} deg`;
