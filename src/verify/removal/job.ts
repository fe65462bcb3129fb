import type { Intent } from '../../intent/types.ts';
import type { Ground } from './ground.ts';
import type { Offset } from './located.ts';
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
  /** What earlier programs have cleared of it. */
  readonly cleared: readonly Ground[];
  readonly sweep: Sweep;
  readonly ledger: Ledger;
  /** 1 for each piece that takes material away, else 0. Filled in by `markCutting`. */
  readonly cutting: Uint8Array;
  /** Number of the target that each piece works on, or one of the two below. Filled in by `assignPieces`. */
  readonly owner: Int32Array;
  /** What need not be looked at again; null for a proof from nothing. */
  readonly known: Known | null;
  /** Only whether the program proves is asked: a long check may end at the first thing that is wrong. */
  readonly hasty: boolean;
}

/**
 * What an earlier proof has shown that holds here too. That proof passed, so what it showed was good: such pieces and cuts
 * count as looked at, and only what differs is measured.
 */
export interface Known {
  /** Number of the target that the same piece worked on before; UNKNOWN for a piece that is not the same. */
  readonly owner: Int32Array;
  /** 1 for a piece that is the same and has only the same pieces about it. */
  readonly calm: Uint8Array;
  /** 1 for a piece that is the same and fed no faster than it was. */
  readonly noFaster: Uint8Array;
  /** Of each target with only the same pieces about it, how far it lies off; null for another. */
  readonly offsets: readonly (readonly Offset[] | null)[];
}

/** The piece touches no wood. */
export const NOT_CUTTING = -2;
/** The piece touches wood and belongs to no cut. */
export const NOWHERE = -1;
/** The piece was not there in the earlier proof. */
export const UNKNOWN = -3;
