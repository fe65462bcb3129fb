/** The bundled shops with longer machines, wider stock and more work given to a machine, for instruments by lot. */
import fc from 'fast-check';
import { readProject, textOf } from '../30-profile/bundled.ts';

export interface ShopByLot {
  readonly text: string;
  readonly readInclude: (name: string) => string | null;
}

/** What is drawn: the kind of shop, and which work the router does there. */
export interface ShopLot {
  readonly kind: 'router' | 'laser';
  readonly inlays: boolean;
  readonly seat: boolean;
  readonly channel: boolean;
  readonly surface: boolean;
}

const oneIn = (n: number) => fc.integer({ min: 1, max: n }).map((k) => k === n);

export const shopLot: fc.Arbitrary<ShopLot> = fc.record({
  kind: fc.constantFrom('router', 'router', 'router', 'laser'),
  inlays: oneIn(4),
  seat: fc.boolean(),
  channel: fc.boolean(),
  surface: oneIn(12),
});

/** In a bundled file, what an instrument by lot needs to be otherwise. */
const CHANGES: Readonly<Record<string, readonly (readonly [from: string, to: string])[]>> = {
  'profiles/benchtop-router.yaml': [
    ['travel: { x: 600, y: 400, z: 80 }', 'travel: { x: 1400, y: 500, z: 80 }'],
    // Reaches the edge of the roundest board.
    ['cuttingLength: 3.5\n', 'cuttingLength: 6\n'],
  ],
  'profiles/sheet-laser.yaml': [
    ['bed: { x: 600, y: 400 }', 'bed: { x: 1400, y: 500 }'],
    // Tested in every thickness that a board may have.
    [
      'materialClass: tropical hardwood\n        thickness: 5',
      'materialClass: tropical hardwood\n        thickness: 3',
    ],
    [
      'materialClass: tropical hardwood\n        thickness: 8',
      'materialClass: tropical hardwood\n        thickness: 20',
    ],
  ],
};

const STOCK = `
stock:
  - { id: any-blank, kind: board, material: ebony, materialClass: tropical hardwood, length: 1300, width: 260, thickness: 20, count: 2, price: 50 }
  - { id: any-sheet, kind: sheet, material: birch plywood, materialClass: plywood, length: 1300, width: 400, thickness: 3, count: 2, price: 20, grain: none }
`;

const ON_ROUTER = {
  inlays: 'inlays',
  seat: 'nutSeat',
  channel: 'bindingChannel',
  surface: 'boardSurface',
} as const;

/** A shop's text, and the bundled files it includes, changed. */
export function shopOf(lot: ShopLot): ShopByLot {
  const plain = textOf(lot.kind === 'router' ? 'profiles/home-shop.yaml' : 'profiles/laser-and-hand.yaml');
  const keys = (Object.keys(ON_ROUTER) as (keyof typeof ON_ROUTER)[]).filter((key) => lot[key]);
  const work = keys.map((key) => `  ${ON_ROUTER[key]}: benchtop-router\n`).join('');
  const text = lot.kind === 'router' ? `${plain}${work}${STOCK}` : plain.replace('\nstock:\n', `${STOCK}`);
  return { text, readInclude: (name) => includeOf(name) };
}

function includeOf(name: string): string | null {
  const text = readProject(name);
  return (CHANGES[name] ?? []).reduce((told: string | null, [from, to]) => {
    if (told === null || !told.includes(from)) throw new Error(`${name} does not say: ${from}`);
    return told.replace(from, to);
  }, text);
}
