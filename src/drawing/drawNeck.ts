import type { Layout } from '../layout/types.ts';
import { drawNeckPlan } from './drawNeckPlan.ts';
import { drawNeckSide } from './drawNeckSide.ts';
import type { NeckHeading } from './neckHeading.ts';
import type { Drawing } from './types.ts';

/** The neck from its side and from its face, as far as the profile describes it. */
export function drawNeck(layout: Layout, heading: NeckHeading): Drawing[] {
  return [drawNeckSide(layout, heading), drawNeckPlan(layout, heading)].filter((drawing) => drawing !== null);
}
