/**
 * Outlines drawn in other programs, read into figures that can be cut.
 *
 * In: the text of an SVG or DXF file, and how a profile wants it. Out: figures, each a pocket and the part that goes into it, or
 * findings that name the file, the line and the place. Frame: x as drawn, y up, turned as asked, the middle of all of it at 0, 0.
 * Millimetres.
 */
import type { Vec } from '../geometry/types.ts';
import type { Curve } from './curves.ts';

/** A chain of curves from one file, each beginning where the one before ends. */
export interface Chain {
  readonly curves: readonly Curve[];
  /** The file says that it is closed, or its ends meet. */
  readonly closed: boolean;
  /** The element or entity that it comes from, and its line. */
  readonly what: string;
  readonly line: number;
}

/** What is wrong with a file, before its name is known. */
export interface Problem {
  readonly code: string;
  readonly text: string;
  readonly line: number;
  readonly remedy?: string;
}

/** A file read, or all that is wrong with it. */
export type Read =
  | { readonly ok: true; readonly chains: readonly Chain[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A closed outline as chords, with what it comes from. */
export interface Outline {
  readonly points: readonly Vec[];
  readonly what: string;
  readonly line: number;
}
