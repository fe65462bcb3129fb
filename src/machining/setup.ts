import { rectangle } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { Part, Top } from '../parts/types.ts';
import type { KeepOut, Machine, Router } from '../profile/types.ts';
import { downToStep } from '../units/step.ts';
import type { Setup } from './types.ts';

/** Between the blank and the ends of the machine's travel, so that a cutter can pass outside the blank. */
const TRAVEL_MARGIN = 20;

/**
 * How a part's blank lies on a machine, and what stands beside it there. A fingerboard keeps its middle line, which is the crest of
 * any curved top or floor, on y = 0 of the program.
 */
export function makeSetup(part: Part, machine: Machine, keepOuts: readonly KeepOut[]): Setup {
  const { box, thickness, top } = part.blank;
  const onCentreline =
    part.zero !== undefined ||
    part.features.some((f) => f.kind === 'surface' || (f.kind === 'slot' && f.work !== 'saddleSlot'));
  const shift: Vec = onCentreline ? [box.x[0], 0] : [box.x[0], box.y[0]];
  const region = rectangle({
    x: [0, box.x[1] - box.x[0]],
    y: [box.y[0] - shift[1], box.y[1] - shift[1]],
  });
  return {
    workZero: onCentreline
      ? (part.zero ?? middleLineZero(top))
      : `X0 and Y0 on the lower left corner of the ${part.grain === undefined ? 'panel' : 'blank'}, Z0 on its top`,
    shift,
    stock: { region: { outer: region, holes: [] }, bottom: -thickness, top: shiftTop(top, shift) },
    keepOuts: keepOuts.filter((k) => k.part === part.id && (k.machine === null || k.machine === machine.id)),
  };
}

/** Where the tip may go once the blank lies within the machine's travel, as far as `below` its bottom, in the program frame. */
export function envelopeOf(
  setup: Setup,
  router: Router,
  below = router.intoSpoilboard,
): { x: [number, number]; y: [number, number]; z: [number, number] } {
  const xs = setup.stock.region.outer.map((v) => v.x);
  const ys = setup.stock.region.outer.map((v) => v.y);
  const from: Vec = [Math.min(...xs) - TRAVEL_MARGIN, Math.min(...ys) - TRAVEL_MARGIN];
  const { units, decimals } = router.controller;
  // The lowest cut is written to the nearest step.
  const lowest = downToStep(setup.stock.bottom - below, units, decimals);
  return {
    x: [from[0], from[0] + router.travel.x],
    y: [from[1], from[1] + router.travel.y],
    z: [lowest, lowest + router.travel.z],
  };
}

/** Whether the blank, with room around it, is within the machine's travel. */
export function fits(setup: Setup, router: Router, below = router.intoSpoilboard): boolean {
  const xs = setup.stock.region.outer.map((v) => v.x);
  const ys = setup.stock.region.outer.map((v) => v.y);
  const envelope = envelopeOf(setup, router, below);
  return (
    Math.max(...xs) + TRAVEL_MARGIN <= envelope.x[1] &&
    Math.max(...ys) + TRAVEL_MARGIN <= envelope.y[1] &&
    router.clearHeight <= envelope.z[1]
  );
}

/** Where the middle has been worked down, the end of the blank still has the height that z is measured from. */
function middleLineZero(top: Top): string {
  const on =
    top.kind === 'worked' || top.kind === 'planed' ? 'the flat that is left at that end,' : 'its top';
  return `X0 on the blank’s nut end, Y0 halfway between its two long edges (touch both and halve), Z0 on ${on} at the middle line`;
}

/** The same blank, kept on its middle line, once its top has changed; the top is in the program frame. */
export function workedSetup(setup: Setup, top: Top): Setup {
  return { ...setup, workZero: middleLineZero(top), stock: { ...setup.stock, top } };
}

/** A floor or top given in the part frame, in the program frame. */
export function shiftTop<T extends Top>(top: T, shift: Vec): T {
  if (top.kind === 'plane') return top;
  const x = [top.x[0] - shift[0], top.x[1] - shift[0]];
  return top.kind === 'worked' ? { ...top, x, cone: shiftTop(top.cone, shift) } : { ...top, x };
}

/** A point of the part frame, in the program frame. */
export function toProgram([x, y]: Vec, shift: Vec): Vec {
  return [x - shift[0], y - shift[1]];
}
