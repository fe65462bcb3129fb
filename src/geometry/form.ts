import { circle, mirrorY, reverse, translate } from './ring.ts';
import { straightCorners, withRoundCorners } from './roundCorners.ts';
import type { Region, Ring, Vec } from './types.ts';

/** Which way the sides of a block run: those that face the slots, and those that face the board's edges. */
export interface BlockSides {
  /** dx / dy of the slots on the nut side and on the bridge side. */
  readonly slants: readonly [nut: number, bridge: number];
  /** dy / dx of the board's edges on the side of lesser y and on that of greater y. */
  readonly slopes: readonly [low: number, high: number];
}

/**
 * A marker's outline about its middle: a square stands along the board, a diamond on its points; a block has its sides along slots
 * and edges and its length and width through its middle; a notched one has a V in the middle of each side that faces a slot; a ring
 * leaves an island of its inner diameter. Artwork comes with its fit to the pocket already worked out. Millimetres.
 */
export type Form =
  | { readonly shape: 'round'; readonly diameter: number }
  | { readonly shape: 'square'; readonly side: number }
  | { readonly shape: 'diamond'; readonly length: number; readonly width: number }
  | { readonly shape: 'ring'; readonly diameter: number; readonly inner: number }
  | ({ readonly shape: 'block'; readonly length: number; readonly width: number } & BlockSides)
  | ({
      readonly shape: 'notched block';
      readonly length: number;
      readonly width: number;
      readonly notchDepth: number;
      readonly notchWidth: number;
    } & BlockSides)
  | { readonly shape: 'artwork'; readonly pocket: Region; readonly part: Region; readonly box: Extent };

/** How far a form reaches to either side of its middle. */
export interface Extent {
  readonly along: number;
  readonly across: number;
}

/** How a part and its pocket go together. Millimetres. */
export interface Fit {
  /** Between part and pocket, all round. */
  readonly gap: number;
  /** Least radius of a corner that a cutter makes from its inside: of the pocket's corners, and of the part's inner ones. */
  readonly corner: number;
}

/** Extent along x and across it. */
export function formSize(form: Form): Extent {
  switch (form.shape) {
    case 'round':
    case 'ring':
      return { along: form.diameter, across: form.diameter };
    case 'square':
      return { along: form.side, across: form.side };
    case 'diamond':
      return { along: form.length, across: form.width };
    case 'block':
    case 'notched block': {
      const corners = cornersOf(form);
      const twice = (way: 0 | 1): number => 2 * Math.max(...corners.map((p) => Math.abs(p[way])));
      return { along: twice(0), across: twice(1) };
    }
    case 'artwork':
      return form.box;
  }
}

/** Diameter of the circle about the middle that holds the whole form. */
export function formReach(form: Form): number {
  const { along, across } = formSize(form);
  const isPointed = form.shape === 'round' || form.shape === 'ring' || form.shape === 'diamond';
  return isPointed ? Math.max(along, across) : Math.hypot(along, across);
}

/** The pocket for a form about `at`: its walls `gap` outside the part's. */
export function pocketOf(form: Form, at: Vec, { gap, corner }: Fit): Region {
  if (form.shape === 'artwork') return moved(form.pocket, at);
  return formRegion(form, at, gap, { outward: corner, inward: Math.max(0, corner - gap) });
}

/** The part that goes into the pocket of a form about `at`. */
export function inlayOf(form: Form, at: Vec, { gap, corner }: Fit): Region {
  if (form.shape === 'artwork') return moved(form.part, at);
  return formRegion(form, at, 0, { outward: Math.max(0, corner - gap), inward: corner });
}

/** The form as it is named, all its corners sharp. */
export function plainForm(form: Form, at: Vec): Region {
  return inlayOf(form, at, { gap: 0, corner: 0 });
}

/** The form for the other hand: y changes sign. */
export function mirrorForm(form: Form): Form {
  switch (form.shape) {
    case 'block':
    case 'notched block':
      return {
        ...form,
        slants: [-form.slants[0], -form.slants[1]],
        slopes: [-form.slopes[1], -form.slopes[0]],
      };
    case 'artwork':
      return { ...form, pocket: mirrored(form.pocket), part: mirrored(form.part) };
    case 'round':
    case 'square':
    case 'diamond':
    case 'ring':
      return form;
  }
}

/** Radii of a form's corners: those that stand out and those that go in. */
interface Radii {
  readonly outward: number;
  readonly inward: number;
}

function formRegion(
  form: Exclude<Form, { readonly shape: 'artwork' }>,
  at: Vec,
  out: number,
  radii: Radii,
): Region {
  switch (form.shape) {
    case 'round':
      return { outer: circle(at, form.diameter / 2 + out), holes: [] };
    case 'ring':
      return {
        outer: circle(at, form.diameter / 2 + out),
        holes: [reverse(circle(at, form.inner / 2 - out))],
      };
    case 'square':
    case 'diamond':
    case 'block':
    case 'notched block': {
      const corners = straightCorners(cornersOf(form), out);
      return { outer: translate(withRoundCorners(corners, radii.outward, radii.inward), at), holes: [] };
    }
  }
}

/**
 * Counter-clockwise outer outline of a form about `at`, its walls `out` mm outside the form's own, its corners rounded to `corner` mm.
 */
export function formRing(form: Form, at: Vec, out: number, corner: number): Ring {
  return pocketOf(form, at, { gap: out, corner }).outer;
}

type Cornered = Extract<Form, { readonly shape: 'square' | 'diamond' | 'block' | 'notched block' }>;

/** Corners about the middle, counter-clockwise. */
function cornersOf(form: Cornered): Vec[] {
  switch (form.shape) {
    case 'square': {
      const half = form.side / 2;
      return [
        [-half, -half],
        [half, -half],
        [half, half],
        [-half, half],
      ];
    }
    case 'diamond': {
      const [a, b] = [form.length / 2, form.width / 2];
      return [
        [0, -b],
        [a, 0],
        [0, b],
        [-a, 0],
      ];
    }
    case 'block':
    case 'notched block':
      return blockCorners(form);
  }
}

function blockCorners(block: Extract<Cornered, { readonly shape: 'block' | 'notched block' }>): Vec[] {
  const [l, w] = [block.length / 2, block.width / 2];
  const [nut, bridge] = block.slants;
  const [low, high] = block.slopes;
  const corner = (x: number, slant: number, y: number, slope: number): Vec => {
    // x = x0 + slant y and y = y0 + slope x at once.
    const at = (x + slant * y) / (1 - slant * slope);
    return [at, y + slope * at];
  };
  const [a, b, c, d] = [
    corner(-l, nut, -w, low),
    corner(l, bridge, -w, low),
    corner(l, bridge, w, high),
    corner(-l, nut, w, high),
  ] as const;
  if (block.shape === 'block') return [a, b, c, d];
  const { notchDepth: deep, notchWidth: wide } = block;
  const half = wide / 2;
  return [
    a,
    b,
    [l - bridge * half, -half],
    [l - deep, 0],
    [l + bridge * half, half],
    c,
    d,
    [-l + nut * half, half],
    [-l + deep, 0],
    [-l - nut * half, -half],
  ];
}

function moved({ outer, holes }: Region, by: Vec): Region {
  return { outer: translate(outer, by), holes: holes.map((hole) => translate(hole, by)) };
}

function mirrored({ outer, holes }: Region): Region {
  return { outer: mirrorY(outer), holes: holes.map(mirrorY) };
}
