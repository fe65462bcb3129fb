import type { MaterialClass, Router, Tool } from '../profile/types.ts';
import type { FeedLimit } from './fastestFeed.ts';

/**
 * Speeds of the cutting edge to aim for, m/min (common practice, no source). Sedlecky (BioResources 12(4), 2017) milled panels
 * at 20 to 60 m/s; small cutters in small spindles stay far below, and large ones are held here because they burn and scream.
 */
const EDGE_SPEED: Readonly<Record<MaterialClass, number>> = {
  'tropical hardwood': 300,
  hardwood: 350,
  softwood: 400,
  plywood: 350,
  mdf: 350,
  acrylic: 200,
  card: 300,
  shell: 100,
};
/** Of a drill's corners: they stay in the cut all the time and get hot. */
const DRILL_SPEED = 60;
/** Spindles are set in steps of this, rpm. */
const STEP = 100;

export interface Spindle {
  readonly rpm: number;
  /** Of the edge, m/min. */
  readonly surfaceSpeed: number;
  readonly bound: 'edge speed' | 'fastest' | 'slowest' | 'feed';
  readonly boundBy: string;
}

/**
 * Spindle speed: the wished speed of the edge, v = pi d n, within the machine's range, and no faster than the machine's feed
 * can follow with chips of full thickness (`perTurn`, mm a turn). Thin chips rub and burn.
 */
export function chooseSpindle(
  tool: Tool,
  material: MaterialClass,
  router: Router,
  perTurn: number,
  limit: FeedLimit,
): Spindle {
  const speed = tool.kind === 'drill' ? DRILL_SPEED : EDGE_SPEED[material];
  const byEdge = (speed * 1000) / (Math.PI * tool.diameter);
  const byFeed = limit.feed / perTurn;
  const [slowest, fastest] = router.spindle;
  const wanted = Math.min(byEdge, byFeed, fastest);
  const rpm = Math.max(slowest, Math.floor(wanted / STEP) * STEP);
  const surfaceSpeed = (Math.PI * tool.diameter * rpm) / 1000;
  if (wanted < slowest)
    return {
      rpm,
      surfaceSpeed,
      bound: 'slowest',
      boundBy: `raised to the slowest spindle speed, ${slowest} rpm`,
    };
  if (wanted === fastest)
    return {
      rpm,
      surfaceSpeed,
      bound: 'fastest',
      boundBy: `limited by spindle speed, ${fastest} rpm; the edge could run at ${speed} m/min`,
    };
  if (wanted === byFeed)
    return {
      rpm,
      surfaceSpeed,
      bound: 'feed',
      boundBy: `slowed so that chips stay thick enough: the feed is limited by ${limit.by}`,
    };
  return { rpm, surfaceSpeed, bound: 'edge speed', boundBy: `${speed} m/min at the edge in ${material}` };
}
