/** The programs that are damaged: the bundled instrument in the bundled shop, and variants of both. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { design } from '../../../src/app/design.ts';
import { jobsByProgram, makePrograms } from '../../../src/app/programs.ts';
import { parseProgramIntent } from '../../../src/intent/schema.ts';
import type { StagedIntent } from '../../../src/intent/types.ts';
import type { Program } from './text.ts';

interface Variant {
  readonly name: string;
  readonly profile: (text: string) => string;
  readonly shop: (name: string, text: string) => string;
  /** Left out: the home shop. */
  readonly shopFile?: string;
  /** Left out: all programs. */
  readonly only?: RegExp;
}

const asIs = (text: string): string => text;
const shopAsIs = (_: string, text: string): string => text;

/** Replaces every pair, each of which must be there. */
function replaced(text: string, pairs: readonly (readonly [string | RegExp, string])[]): string {
  return pairs.reduce((done, [from, to]) => {
    const next = done.replace(from, to);
    if (next === done) throw new Error(`nothing reads ${from}`);
    return next;
  }, text);
}

/**
 * The neck's programs stay out: what decides whether a damaged program does harm looks at one cut at a time, and there pockets lie
 * within pockets.
 */
function withoutNeck(text: string): string {
  return replaced(text, [
    [/^# The neck's wood\.[\s\S]*?(?=^# For setting the neck)/m, ''],
    [/^ {2}# Depths count from the face that the board is glued to\.[\s\S]*?(?=\n\nbridge:)/m, ''],
  ]);
}

function router(pairs: readonly (readonly [string | RegExp, string])[]): Variant['shop'] {
  return (name, text) => (name === 'benchtop-router.yaml' ? replaced(text, pairs) : text);
}

/** Everything the bundled router does is given to the router of another bundled file. */
function onRouter(file: string): Variant['shop'] {
  return (name, text) =>
    name === 'home-shop.yaml' ? text.replaceAll('benchtop-router', file.replace('.yaml', '')) : text;
}

/** The bundled router works the board to its radius. */
const withSurfacing: Variant['shop'] = (name, text) =>
  name === 'home-shop.yaml'
    ? replaced(text, [['work:\n', 'work:\n  boardSurface: benchtop-router\n']])
    : text;

const VARIANTS: readonly Variant[] = [
  { name: 'as bundled', profile: asIs, shop: shopAsIs },
  {
    name: 'left-handed, drill cycles',
    profile: (text) => replaced(text, [['hand: right', 'hand: left']]),
    shop: router([
      ['drillCycles: false', 'drillCycles: true'],
      ['lineNumbers: false', 'lineNumbers: true'],
      ['programEnd: M2', 'programEnd: M30'],
    ]),
  },
  {
    name: 'sizes in inches',
    profile: (text) =>
      replaced(text, [
        [/^ {2}length: 628$/m, '  length: 24 3/4 in'],
        ['widthAtNut: 46', 'widthAtNut: 1 13/16 in'],
        ['width: 57 }', 'width: 2 1/4 in }'],
        ['slotDepth: 2.0', 'slotDepth: 80 thou'],
        ['radius: 16 in', 'radius: 14 in'],
      ]),
    shop: router([
      ['decimals: 4', 'decimals: 5'],
      ['cuttingLength: 3.5', 'cuttingLength: 4'],
    ]),
  },
  {
    name: 'small radius, programs in inches',
    profile: (text) => replaced(text, [['radius: 16 in', 'radius: 10 in']]),
    shop: router([
      ['units: mm\n      decimals: 4', 'units: in\n      decimals: 5'],
      ['cuttingLength: 3.5', 'cuttingLength: 4.5'],
    ]),
  },
  { name: 'plain router', profile: asIs, shop: onRouter('plain-router.yaml') },
  { name: 'tool-change router', profile: asIs, shop: shopAsIs, shopFile: 'tool-change-router.yaml' },
  // Its other programs are those of the plain router again, or as long as all the rest together.
  {
    name: 'templates on a plain router',
    profile: asIs,
    shop: shopAsIs,
    shopFile: 'plain-router.yaml',
    only: /template/,
  },
  {
    name: 'worked to its radius first',
    profile: (text) => replaced(text, [['surfaceWhenSlotted: flat', 'surfaceWhenSlotted: radiused']]),
    shop: withSurfacing,
    only: /surface|slots/,
  },
  { name: 'worked to its radius last', profile: asIs, shop: withSurfacing, only: /surface|outline/ },
  {
    name: 'pockets of every shape',
    profile: (text) =>
      replaced(text, [
        [
          /^ {4}- \{ fret: 3, diameter: 6 \}\n[\s\S]*?(?=\n\nsideMarkers)/m,
          [
            '    - { fret: 3, shape: diamond, length: 12, width: 8 }',
            '    - { fret: 5, shape: ring, diameter: 16, inner: 7 }',
            '    - { fret: 7, shape: notched block, length: 12, width: 30, notchDepth: 2, notchWidth: 6 }',
            '    - { fret: 9, shape: block, length: 13, width: 34 }',
            '    - { fret: 12, count: 2, shape: square, side: 8 }',
          ].join('\n'),
        ],
        ['  spread: 24\n', '  spread: 24\n  cornerRadius: 0.6\n'],
      ]),
    shop: shopAsIs,
    only: /markers/,
  },
  {
    name: 'the conventional way',
    profile: asIs,
    shop: (name, text) => (name === 'home-shop.yaml' ? `${text}\nmillingDirection: conventional\n` : text),
    only: /pins|markers|outline/,
  },
  {
    name: 'clamped',
    profile: asIs,
    shop: (name, text) =>
      name === 'home-shop.yaml'
        ? `${text}\nkeepOuts:\n  - { name: left clamp, part: fingerboard, x: [-15, 3], y: [-34, -30], z: [-6, 15] }\n`
        : text,
  },
];

/** In their order. */
export const VARIANT_NAMES: readonly string[] = VARIANTS.map((v) => v.name);

const PROFILES = join(import.meta.dirname, '../../../profiles');

/** The intent of a program that changes tools, as it was written; null for one of a single tool. */
function stagedIn(intentText: string): StagedIntent | null {
  const parsed = parseProgramIntent(intentText);
  if (!parsed.ok) throw new Error(parsed.problems.join('; '));
  return 'stages' in parsed.intent ? parsed.intent : null;
}

/** Every program of every variant, or of those named; throws when one does not come out proven. */
export function corpus(folder: string = PROFILES, names: readonly string[] = VARIANT_NAMES): Program[] {
  const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
  return VARIANTS.filter((variant) => names.includes(variant.name)).flatMap((variant) => {
    const { shopFile = 'home-shop.yaml' } = variant;
    const designed = design({
      profile: { path: 'tarn-parlour.yaml', text: variant.profile(withoutNeck(read('tarn-parlour.yaml'))) },
      shop: { path: shopFile, text: variant.shop(shopFile, read(shopFile)) },
      readInclude: (name) => variant.shop(name, read(name)),
    });
    if (!designed.ok) throw new Error(`${variant.name}: ${JSON.stringify(designed.findings)}`);
    const { plan, instrument } = designed.value;
    const { only = /./ } = variant;
    // In the order in which they run: what goes over cleared ground names the text that clears it.
    const wanted = jobsByProgram(plan.jobs).filter(([job]) => only.test(job?.program ?? ''));
    return makePrograms(wanted, instrument.value.name).map(({ text, intent, intents, intentText, proof }) => {
      if (!proof.passed) throw new Error(`${variant.name}: ${intent.program} does not prove`);
      return {
        name: `${variant.name}: ${intent.program}`,
        text,
        intent: { ...intent, cuts: intents.flatMap(({ cuts }) => cuts) },
        staged: stagedIn(intentText),
      };
    });
  });
}
