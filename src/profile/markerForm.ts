import type { MarkerForm } from './types.ts';

/** Extent of a marker along the board and across it, mm; of a block through its middle. */
export function markerSize(form: MarkerForm): { readonly along: number; readonly across: number } {
  switch (form.shape) {
    case 'round':
    case 'ring':
      return { along: form.diameter, across: form.diameter };
    case 'square':
      return { along: form.side, across: form.side };
    case 'diamond':
    case 'block':
    case 'notched block':
      return { along: form.length, across: form.width };
  }
}

/** Diameter of the largest round thing that a marker covers about its middle, mm; a ring covers nothing there. */
export function coveredBy(form: MarkerForm): number {
  const { along, across } = markerSize(form);
  switch (form.shape) {
    case 'round':
    case 'square':
      return along;
    case 'ring':
      return 0;
    case 'diamond':
      return (along * across) / Math.hypot(along, across);
    case 'block':
      return Math.min(along, across);
    case 'notched block':
      return Math.min(along - 2 * form.notchDepth, across);
  }
}

/** Width of the narrowest place a cutter must go through, mm. */
export function narrowest(form: MarkerForm): number {
  return form.shape === 'ring' ? (form.diameter - form.inner) / 2 : coveredBy(form);
}

/** The key of a profile that sets a marker's extent along the board or across it. */
export function sizeKey(form: MarkerForm, way: 'along' | 'across'): string {
  switch (form.shape) {
    case 'round':
    case 'ring':
      return 'diameter';
    case 'square':
      return 'side';
    case 'diamond':
    case 'block':
    case 'notched block':
      return way === 'along' ? 'length' : 'width';
  }
}

/** Of a block's sides, that its arcs may take: its corners are a little sharper or blunter than square. */
const BLOCK_SHARE = 0.85;

/**
 * Largest radius that a marker's corners can be rounded to, mm: the arcs of neighbouring corners meet in the middle of a side.
 * Null for a marker without corners.
 */
export function largestCorner(form: MarkerForm): number | null {
  switch (form.shape) {
    case 'round':
    case 'ring':
      return null;
    case 'square':
      return form.side / 2;
    case 'diamond': {
      const [a, b] = [form.length / 2, form.width / 2];
      // Tangents radius / tan(half angle) of a sharp and a blunt corner share one side: their tangents are b / a and a / b.
      return Math.hypot(a, b) / (a / b + b / a);
    }
    case 'block':
      return (BLOCK_SHARE * Math.min(form.length, form.width)) / 2;
    case 'notched block':
      return BLOCK_SHARE * notchedCorner(form);
  }
}

/** A mouth turns by the slope of the V's walls, its bottom by twice that; tangent = radius tan(half the turn). */
function notchedCorner(form: MarkerForm & { readonly shape: 'notched block' }): number {
  const turn = Math.atan2(2 * form.notchDepth, form.notchWidth);
  const wall = Math.hypot(form.notchWidth / 2, form.notchDepth);
  const [mouth, bottom] = [Math.tan(turn / 2), Math.tan(turn)];
  const shoulder = (form.width - form.notchWidth) / 2;
  return Math.min(wall / (mouth + bottom), shoulder / (1 + mouth), form.length / 2);
}
