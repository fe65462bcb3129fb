import type { MarkerForm } from './types.ts';

/** Extent of a marker along the board and across it, mm. */
export function markerSize(form: MarkerForm): { readonly along: number; readonly across: number } {
  switch (form.shape) {
    case 'round':
      return { along: form.diameter, across: form.diameter };
    case 'square':
      return { along: form.side, across: form.side };
    case 'diamond':
      return { along: form.length, across: form.width };
  }
}

/** Diameter of the largest round thing that a marker covers about its middle, mm. */
export function coveredBy(form: MarkerForm): number {
  const { along, across } = markerSize(form);
  return form.shape === 'diamond' ? (along * across) / Math.hypot(along, across) : along;
}

/** The key of a profile that sets a marker's extent along the board or across it. */
export function sizeKey(form: MarkerForm, way: 'along' | 'across'): string {
  switch (form.shape) {
    case 'round':
      return 'diameter';
    case 'square':
      return 'side';
    case 'diamond':
      return way === 'along' ? 'length' : 'width';
  }
}

/**
 * Largest radius that a marker's corners can be rounded to, mm: the arcs of neighbouring corners meet in the middle of a side.
 * Null for a round marker, which has no corners.
 */
export function largestCorner(form: MarkerForm): number | null {
  if (form.shape === 'round') return null;
  if (form.shape === 'square') return form.side / 2;
  const [a, b] = [form.length / 2, form.width / 2];
  // Tangents radius / tan(half angle) of a sharp and a blunt corner share one side: their tangents are b / a and a / b.
  return Math.hypot(a, b) / (a / b + b / a);
}
