import type { MaterialClass, Router, Tool } from '../profile/types.ts';
import { chipLoadFor } from './chipLoads.ts';
import type { Feeds } from './types.ts';

/** Cutting speeds to aim for in wood, m/min: well inside the 20 to 60 m/s that Sedlecky (BioResources 12(4), 2017) tried. */
const EDGE_SPEED = { cutter: 300, drill: 60 };

/** Share of a cutter's diameter taken in one pass (common practice, no source). */
const STEP_DOWN: Record<MaterialClass, number> = {
  'tropical hardwood': 0.5,
  hardwood: 0.5,
  softwood: 1,
  plywood: 0.75,
  mdf: 0.75,
  acrylic: 0.4,
  card: 1,
};

/** Share of the sideways feed at which a flat cutter may go down (common practice, no source). */
const PLUNGE_SHARE = 0.3;

/** Feeds and speeds for a tool in a material on a machine. Feed = rpm x flutes x chip load, within the machine's limits. */
export function chooseFeeds(tool: Tool, material: MaterialClass, router: Router): Feeds {
  const wantedRpm =
    (EDGE_SPEED[tool.kind === 'drill' ? 'drill' : 'cutter'] * 1000) / (Math.PI * tool.diameter);
  const rpm = Math.floor(Math.min(Math.max(wantedRpm, router.spindle[0]), router.spindle[1]) / 100) * 100;
  const table = chipLoadFor(material, tool.diameter);
  const chipLoad = tool.chipLoad ?? table.chipLoad;
  const wantedFeed = rpm * tool.flutes * chipLoad;
  const feed = Math.floor(Math.min(wantedFeed, router.maxFeed.xy));
  const plungeWanted = tool.kind === 'drill' ? wantedFeed : wantedFeed * PLUNGE_SHARE;
  return {
    rpm,
    feed,
    plunge: Math.floor(Math.min(plungeWanted, router.maxFeed.z)),
    stepDown: tool.diameter * (tool.stepDownShare ?? (tool.kind === 'drill' ? 1 : STEP_DOWN[material])),
    chipLoad,
    boundBy: boundBy(wantedRpm, wantedFeed, router),
    source: tool.chipLoad === null ? table.source : 'given for this tool in the shop file',
  };
}

function boundBy(wantedRpm: number, wantedFeed: number, router: Router): string {
  if (wantedFeed > router.maxFeed.xy) return `limited by the machine's feed, ${router.maxFeed.xy} mm/min`;
  if (wantedRpm > router.spindle[1]) return `limited by spindle speed, ${router.spindle[1]} rpm`;
  if (wantedRpm < router.spindle[0]) return `raised to the slowest spindle speed, ${router.spindle[0]} rpm`;
  return 'limited by the chip load';
}
