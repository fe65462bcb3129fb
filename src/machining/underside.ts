import type { Feature, HoleFeature, Part } from '../parts/types.ts';
import type { Router, Shop } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { type Place, planHoles, type ToolWork } from './features.ts';
import { planPockets } from './pockets.ts';
import type { Unordered } from './programOrder.ts';
import { routerJob } from './routerJob.ts';
import { fits, makeSetup } from './setup.ts';
import { makeTurnedSetup, pocketsTurned } from './turnedSetup.ts';

type PlannedJobs = { readonly jobs: readonly Unordered[] } | { readonly findings: readonly Finding[] };

/** Waste left between the hole of a turning pin and the board: an outline's cutter passes there. Millimetres. */
const ROOM_TO_BOARD = 3.5;

/**
 * The work on a board's underside: first the holes of two turning pins, through the waste of the blank and on into the board below,
 * then, with the blank turned over on its pins, the pockets. Both before all else, while the top still is flat.
 */
export function planUnderside(
  features: readonly Feature[],
  part: Part,
  router: Router,
  shop: Shop,
): PlannedJobs {
  const [zero, far] = features.filter((f) => f.kind === 'hole');
  if (zero === undefined || far === undefined) throw new Error(`${part.id} is turned over without pins`);
  const wrong = [...cannotTurn(part, zero, shop), ...tooLargeToTurn(part, router, shop)];
  if (wrong.length > 0) return { findings: wrong };
  const pins = pinWork([zero, far], part, router, shop);
  const setup = makeTurnedSetup(part, [zero, far], router, shop.keepOuts);
  const pockets = planPockets(
    pocketsTurned(
      features.filter((f) => f.kind === 'underside pocket'),
      zero.at,
    ),
    { part, setup, router, shop },
  );
  const findings = [pins.planned, pockets].flatMap((p) => ('findings' in p ? p.findings : []));
  if ('findings' in pins.planned || 'findings' in pockets) return { findings };
  const { pinDepth } = shop.turning;
  const named = (work: readonly ToolWork[], name: string): { work: ToolWork; program: string }[] =>
    work.map((one, i) => ({ work: one, program: `${part.id}-${name}${i === 0 ? '' : `-${i + 1}`}.nc` }));
  return {
    jobs: [
      ...named(pins.planned.work, 'turning-pins').map(({ work, program }) =>
        routerJob(work, {
          program,
          part,
          operation: 'turning pins',
          setup: pins.setup,
          router,
          below: pinDepth,
        }),
      ),
      ...named(pockets.work, 'underside').map(({ work, program }) =>
        routerJob(work, {
          program,
          part,
          operation: work.stage?.operation ?? 'underside',
          setup: work.stage?.setup ?? setup,
          router,
          below: router.intoSpoilboard,
        }),
      ),
    ],
  };
}

/** The holes go as deep into the board below as the pins are to stand, by drills that are long enough for that. */
function pinWork(pins: readonly HoleFeature[], part: Part, router: Router, shop: Shop) {
  const deep = part.blank.thickness + shop.turning.pinDepth;
  const setup = makeSetup(part, router, shop.keepOuts);
  const place: Place = {
    part,
    setup,
    router: { ...router, intoSpoilboard: shop.turning.pinDepth },
    shop: { ...shop, tools: shop.tools.filter((t) => t.kind !== 'drill' || t.cuttingLength >= deep - 1e-9) },
  };
  return { setup, planned: planHoles(pins, place) };
}

const mm = (length: number): string => `${formatShort(length, 2)} mm`;

function cannotTurn({ blank, features, title }: Part, pin: HoleFeature, { allowances }: Shop): Finding[] {
  const findings: Finding[] = [];
  if (blank.top.kind !== 'plane')
    findings.push({
      code: 'turned-on-a-round-top',
      severity: 'error',
      where: { source: 'instrument', path: 'fingerboard.surfaceWhenSlotted' },
      text: `The blank of the ${title.toLowerCase()} already has its radius: turned over it does not lie flat.`,
      allowed: 'surfaceWhenSlotted: flat, or a router that works the radius afterwards (work: boardSurface)',
      remedy: 'cut the underside by hand (work: boardUnderside: hand), or slot the board flat',
    });
  const board = features.find((f) => f.kind === 'outline' && f.work === 'boardOutline');
  const least = pin.at[0] - blank.box.x[0] + pin.diameter / 2 + ROOM_TO_BOARD;
  if (board !== undefined && allowances.ends < least - 1e-9)
    findings.push({
      code: 'no-room-for-turning-pins',
      severity: 'error',
      where: { source: 'shop', path: 'allowances.ends' },
      text: `Turning pins of ${mm(pin.diameter)} do not fit the ${mm(allowances.ends)} of waste at each end of the blank with room for the outline’s cutter.`,
      allowed: `at least ${mm(least)}`,
      remedy: 'leave more waste at the ends, or take thinner pins (turning.pinDiameter)',
    });
  return findings;
}

/** The drill goes on into the board below, and has to come up again from there over the blank. */
function tooLargeToTurn(part: Part, router: Router, shop: Shop): Finding[] {
  const setup = makeSetup(part, router, shop.keepOuts);
  if (fits(setup, router, shop.turning.pinDepth)) return [];
  const { x, y } = part.blank.box;
  return [
    {
      code: 'blank-too-large-for-machine',
      severity: 'error',
      where: { source: 'shop', path: 'work.boardUnderside' },
      text: `The blank of the ${part.title.toLowerCase()}, ${mm(x[1] - x[0])} by ${mm(y[1] - y[0])}, and pins ${mm(shop.turning.pinDepth)} deep in the board below do not fit ${router.name}.`,
      allowed: `${router.travel.x} by ${router.travel.y} by ${router.travel.z} mm with room around it`,
      remedy: 'let another machine or the hand do this work (work: in the shop file), or take shorter pins',
    },
  ];
}
