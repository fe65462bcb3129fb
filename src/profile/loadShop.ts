/**
 * Reads a shop file and the shop files it includes.
 *
 * In: text and name of the file, and a way to read others by name. Out: one shop with every default filled in, or every
 * mistake of all files. Lists (machines, tools, stock, keepOuts) are put one after the other, included files first; of
 * a value that is given more than once, the last counts, so a file has the last word over what it includes.
 */
import { hasErrors } from '../report/collect.ts';
import type { Outcome } from '../report/finding.ts';
import { checkShop } from './checkShop.ts';
import { gatherShopFiles, type ReadFile, type ShopFile } from './includes.ts';
import { type Loaded, type Places, placeFindings } from './loaded.ts';
import { startFill } from './resolve/fill.ts';
import { resolveShop } from './resolve/shop.ts';
import type { GivenShop } from './schema/shop.ts';
import type { Shop } from './types.ts';
import { canonical } from './yaml/fieldPath.ts';
import type { YamlFile } from './yaml/readYaml.ts';

/** Reads, joins, checks and completes a shop. `read` gets names as seen from where `file` was named. */
export function loadShop(text: string, file: string, read: ReadFile): Outcome<Loaded<Shop>> {
  const { files, findings } = gatherShopFiles(text, file, read);
  if (hasErrors(findings)) return { ok: false, findings };
  const fill = startFill();
  const shop = resolveShop(mergeShops(files.map(givenOf)), fill);
  const places = placesIn(files);
  const all = [...findings, ...placeFindings(checkShop(shop), places)];
  if (hasErrors(all)) return { ok: false, findings: all };
  const root = files.at(-1);
  const sources = [...(root === undefined ? [] : [root]), ...files.slice(0, -1)].map(({ yaml }) => ({
    name: yaml.file,
    text: yaml.text,
  }));
  return {
    ok: true,
    value: { value: shop, file, sources, ...places, defaults: fill.filled },
    findings: all,
  };
}

function givenOf({ yaml, given }: ShopFile): GivenShop {
  if (given === null) throw new Error(`no findings, yet nothing read: ${yaml.file}`);
  return given;
}

const LISTS = ['machines', 'tools', 'stock', 'keepOuts'] as const;

/** Lists one after the other; of everything else the last that is given. */
export function mergeShops(shops: readonly GivenShop[]): GivenShop {
  const last: GivenShop = Object.assign({}, ...shops);
  return {
    ...last,
    machines: shops.flatMap((shop) => shop.machines ?? []),
    tools: shops.flatMap((shop) => shop.tools ?? []),
    stock: shops.flatMap((shop) => shop.stock ?? []),
    keepOuts: shops.flatMap((shop) => shop.keepOuts ?? []),
    allowances: Object.assign({}, ...shops.map((shop) => shop.allowances)),
    holding: Object.assign({}, ...shops.map((shop) => shop.holding)),
    surfacing: Object.assign({}, ...shops.map((shop) => shop.surfacing)),
    pockets: Object.assign({}, ...shops.map((shop) => shop.pockets)),
    bores: Object.assign({}, ...shops.map((shop) => shop.bores)),
    outlines: Object.assign({}, ...shops.map((shop) => shop.outlines)),
    scribing: Object.assign({}, ...shops.map((shop) => shop.scribing)),
    work: Object.assign({}, ...shops.map((shop) => shop.work)),
  };
}

interface Origin {
  readonly yaml: YamlFile;
  readonly path: string;
}

/** Where a field of the joined shop stands: in its own file, under its own number there. */
function placesIn(files: readonly ShopFile[]): Places {
  const origin = (path: string): Origin => originOf(canonical(path), files);
  return {
    place: (path) => {
      const { yaml, path: own } = origin(path);
      return { ...yaml.place(own), path: canonical(path) };
    },
    has: (path) => {
      const { yaml, path: own } = origin(path);
      return yaml.has(own);
    },
  };
}

function originOf(path: string, files: readonly ShopFile[]): Origin {
  const item = /^(\w+)\[(\d+)\](.*)$/.exec(path);
  const [, key = '', number = '', rest = ''] = item ?? [];
  const list = LISTS.find((name) => name === key);
  if (list !== undefined) {
    let index = Number(number);
    for (const { yaml, given } of files) {
      const count = given?.[list]?.length ?? 0;
      if (index < count) return { yaml, path: `${list}[${index}]${rest}` };
      index -= count;
    }
  }
  const top = path.split(/[.[]/)[0] ?? '';
  const giving =
    files.findLast(({ yaml }) => yaml.has(path)) ??
    files.findLast(({ yaml }) => yaml.has(top)) ??
    files.at(-1);
  if (giving === undefined) throw new Error('a shop without a file');
  return { yaml: giving.yaml, path };
}
