import type { Intent } from '../../intent/types.ts';
import type { Ledger } from './proof.ts';
import type { Region } from './rings.ts';
import type { Sweep } from './sweep.ts';
import type { Target } from './targets.ts';
import type { Tool } from './tool.ts';

/** All that the checks of one program look at. */
export interface Job {
  readonly intent: Intent;
  readonly tool: Tool;
  readonly targets: readonly Target[];
  readonly stock: Region;
  readonly sweep: Sweep;
  readonly ledger: Ledger;
  /** Number of the target that each piece works on, or one of the two below. Filled in by `assignPieces`. */
  readonly owner: Int32Array;
}

/** The piece touches no wood. */
export const NOT_CUTTING = -2;
/** The piece touches wood and belongs to no cut. */
export const NOWHERE = -1;
