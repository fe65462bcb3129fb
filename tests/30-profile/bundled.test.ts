import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { checkTogether } from '../../src/profile/checkTogether.ts';
import { schemaFiles } from '../../src/profile/schema/jsonSchema.ts';
import { readYaml } from '../../src/profile/yaml/readYaml.ts';
import { bundledInstrument, bundledShop, profileNames, ROOT, soundValue, textOf } from './bundled.ts';

const schemaOf = (name: string): string => /\$schema=(\S+)/.exec(textOf(`profiles/${name}`))?.[1] ?? '';
const instruments = profileNames().filter((name) => schemaOf(name) === 'schema/instrument.schema.json');
const shops = profileNames().filter((name) => schemaOf(name) === 'schema/shop.schema.json');

describe('bundled profiles', () => {
  it('each name their schema in the first line', () => {
    expect(instruments.length + shops.length).toBe(profileNames().length);
    expect(instruments).toContain('tarn-parlour.yaml');
    expect(shops).toEqual(
      expect.arrayContaining([
        'home-shop.yaml',
        'benchtop-router.yaml',
        'sheet-laser.yaml',
        'hand-tools.yaml',
      ]),
    );
    for (const name of profileNames())
      expect(textOf(`profiles/${name}`)).toMatch(/^# yaml-language-server: \$schema=/);
  });

  it.each(instruments)('%s loads with nothing worse than a note', (name) => {
    const outcome = bundledInstrument(name);
    expect(outcome.findings.filter((finding) => finding.severity !== 'note')).toEqual([]);
    expect(checkInstrument(soundValue(outcome).value)).toEqual([]);
  });

  it.each(shops)('%s loads with nothing worse than a note', (name) => {
    const outcome = bundledShop(name);
    expect(outcome.findings.filter((finding) => finding.severity !== 'note')).toEqual([]);
    soundValue(outcome);
  });

  it.each(instruments)('%s can be made in the default shop', (name) => {
    const shop = soundValue(bundledShop('home-shop.yaml')).value;
    expect(checkTogether(soundValue(bundledInstrument(name)).value, shop)).toEqual([]);
  });

  it('fits the stock of the default shop', () => {
    const shop = soundValue(bundledShop('home-shop.yaml')).value;
    const { fingerboard } = soundValue(bundledInstrument('tarn-parlour.yaml')).value;
    expect(shop.stock.map(({ material }) => material)).toContain(fingerboard.wood);
    expect(shop.machines.map(({ id }) => id)).toEqual(['benchtop-router', 'sheet-laser']);
  });

  it('is plain data without undefined, NaN or infinite numbers', () => {
    const values = [
      soundValue(bundledInstrument('tarn-parlour.yaml')).value,
      soundValue(bundledShop('home-shop.yaml')).value,
    ];
    // JSON loses undefined, NaN and infinities, so a round trip shows them.
    for (const value of values) expect(JSON.parse(JSON.stringify(value))).toEqual(value);
  });
});

describe('schema files for editors', () => {
  it('are up to date: run npm run schema when this fails', () => {
    const made = schemaFiles();
    for (const { name, text } of made) expect(textOf(`profiles/schema/${name}`)).toBe(text);
    expect(readdirSync(join(ROOT, 'profiles/schema')).sort()).toEqual(made.map(({ name }) => name).sort());
  });

  it('are the same bytes every time', () => {
    expect(schemaFiles()).toEqual(schemaFiles());
  });

  it('describe every key, so that an editor can explain it', () => {
    for (const { name, text } of schemaFiles()) {
      expect(undescribed(JSON.parse(text), name)).toEqual([]);
    }
  });

  it.each([...instruments, ...shops])('accept %s and refuse it with a key misspelt', (name) => {
    const schema: Parameters<typeof z.fromJSONSchema>[0] = JSON.parse(textOf(`profiles/${schemaOf(name)}`));
    const reader = z.fromJSONSchema(schema);
    const data = plain(readYaml(textOf(`profiles/${name}`), name, 'instrument').data);
    expect(reader.safeParse(data).error?.issues ?? []).toEqual([]);
    expect(reader.safeParse({ ...data, naem: 'x' }).success).toBe(false);
  });
});

const plain = (data: unknown): Record<string, unknown> => JSON.parse(JSON.stringify(data));

interface Described {
  readonly description?: string;
  readonly const?: string;
  readonly properties?: Readonly<Record<string, Described>>;
  readonly items?: Described | false;
  readonly oneOf?: readonly Described[];
  readonly prefixItems?: readonly Described[];
}

function undescribed(schema: Described, path: string): string[] {
  const children: (readonly [string, Described])[] = [
    ...Object.entries(schema.properties ?? {}),
    ...(schema.oneOf ?? []).map((option, i): readonly [string, Described] => [`option ${i}`, option]),
    ...(schema.prefixItems ?? []).map((item, i): readonly [string, Described] => [`${i}`, item]),
  ];
  // A choice between groups is described by the groups, a discriminating word by its value.
  const isPlain = schema.oneOf === undefined && schema.const === undefined;
  return [
    ...(isPlain && schema.description === undefined ? [path] : []),
    ...children.flatMap(([key, child]) => undescribed(child, `${path}/${key}`)),
    ...(schema.items === undefined || schema.items === false
      ? []
      : undescribed(schema.items, `${path}/items`)),
  ];
}
