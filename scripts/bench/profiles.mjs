// The bundled instruments and shops, told apart by the schema that their first line names.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './bundle.mjs';

const DEFAULT_INSTRUMENT = 'tarn-parlour.yaml';
const DEFAULT_SHOP = 'home-shop.yaml';

function named(schema) {
  const folder = join(root, 'profiles');
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .filter((name) =>
      readFileSync(join(folder, name), 'utf8').includes(`$schema=schema/${schema}.schema.json`),
    )
    .sort();
}

/** Every instrument in the default shop, then the default instrument in every other shop. */
export function jobList() {
  return [
    ...named('instrument').map((instrument) => ({ instrument, shop: DEFAULT_SHOP })),
    ...named('shop')
      .filter((shop) => shop !== DEFAULT_SHOP)
      .map((shop) => ({ instrument: DEFAULT_INSTRUMENT, shop })),
  ];
}

/** Arguments of a whole job. */
export function makeArguments({ instrument, shop }, out) {
  const path = (name) => join(root, 'profiles', name);
  return [join(root, 'dist/main.js'), 'make', path(instrument), '--shop', path(shop), '--out', out];
}
