import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explainDefaults } from '../../src/profile/loaded.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import { slugOf } from '../../src/profile/resolve/slug.ts';
import { nearestName } from '../../src/profile/suggest.ts';
import { formatInches } from '../../src/units/format.ts';
import { parseLength } from '../../src/units/length.ts';
import { bundledInstrument, bundledShop, parlourWith, readProject, soundValue, textOf } from './bundled.ts';

const PARLOUR = 'profiles/tarn-parlour.yaml';

describe('an instrument file', () => {
  it('means the same in millimetres and in inches', () => {
    const text = textOf(PARLOUR);
    const inInches = text
      .split('\n')
      .map((line) => (line.trim().startsWith('#') ? line : lengthsInInches(line)))
      .join('\n')
      .replace('units: mm', 'units: in');
    expect(inInches).not.toBe(text);
    const metric = soundValue(loadInstrument(text, PARLOUR)).value;
    const imperial = soundValue(loadInstrument(inInches, PARLOUR)).value;
    expect({ ...imperial, units: 'mm' }).toEqual(metric);
  });

  it('points at every field, whichever way its path is spelt', () => {
    const loaded = soundValue(bundledInstrument('tarn-parlour.yaml'));
    const lines = textOf(PARLOUR).split('\n');
    const textAt = (path: string): string => {
      const { line = 0, column = 0 } = loaded.place(path);
      return (lines[line - 1] ?? '').slice(column - 1);
    };
    expect(textAt('scale.length')).toBe('628');
    expect(textAt('strings[3].setBack')).toBe('2.0 }');
    expect(textAt('strings.3.setBack')).toBe('2.0 }');
    expect(textAt('faceMarkers.at[4].count')).toMatch(/^2, diameter/);
    expect(textAt('bridge.pins.drill')).toBe('3/16 in');
    expect(textAt('fingerboard')).toBe('fingerboard:');
    // What the file does not give is shown at the group that would hold it.
    expect(textAt('bridge.pins.nothing')).toBe('pins:');
    expect(loaded.place('concertPitch').path).toBe('concertPitch');
    expect(loaded.place('indexPins.frets.1')).toMatchObject({ file: PARLOUR, path: 'indexPins.frets[1]' });
  });

  it('lists every default with its reason', () => {
    const short = [
      'name: Short',
      'strings: [{ pitch: A4, gauge: 0.6, make: plain, setBack: 1 }]',
      'scale: { length: 380 }',
      'frets: { count: 14, slotWidth: 0.6 }',
      'fretWire: { tangDepth: 1.6, tangWidth: 0.51, barbWidth: 0.75, crownHeight: 1, crownWidth: 2 }',
      'fingerboard: { wood: maple, materialClass: hardwood, thickness: 6, widthAtNut: 35, widthAt: { fret: 12, width: 45 }, overhang: 8, radius: 300 }',
      'nut: { stringSpread: 0 }',
      'bridge: { stringSpread: 0, pins: { behindSaddle: 12, seat: 5.6, pinTaper: 3, through: 10 } }',
    ].join('\n');
    const loaded = soundValue(loadInstrument(short, 'short.yaml'));
    const defaults = new Map(explainDefaults(loaded).map(({ path, value, why }) => [path, { value, why }]));
    expect(defaults.get('frets.slotDepth')?.value).toBe('2 mm');
    expect(defaults.get('bridge.pins.drill')?.value).toBe('4.7625 mm');
    expect(defaults.get('bridge.pins.reamerTaper')?.value).toBe('3 deg');
    expect(defaults.get('trussRod')?.value).toBe('none');
    expect(defaults.get('jigs.radiusBlock')?.value).toBe('none');
    expect(defaults.get('indexPins.frets')?.value).toBe('[2, 12]');
    expect(defaults.get('targets.actionBass')?.value).toBe('2.4 mm');
    expect([...defaults.keys()].filter((path) => path.includes('setBack'))).toEqual([]);
    expect(defaults.get('strings[0].material')?.value).toBe('steel');
    expect(defaults.get('strings[0].modulus')?.value).toBe('that of steel');
    expect(defaults.get('strings[0].aimCents')?.value).toBe('0');
    expect(defaults.get('bridge.saddle.width')?.value).toBe('3.175 mm');
    expect(defaults.get('targets.firstFretTreble')?.value).toBe('0.35 mm');
    expect(defaults.get('targets.bowFret')?.value).toBe('12');
    expect(defaults.get('intonation.fretWeights')?.value).toBe('frets 1 to 12 alike');
    for (const { value, why } of defaults.values()) {
      expect(value).not.toBe('');
      expect(why.length).toBeGreaterThan(4);
    }
    expect(new Set(defaults.keys()).size).toBe(explainDefaults(loaded).length);
  });

  it('fills in what a string is made of by the kind of instrument, and says so', () => {
    const bare: readonly (readonly [string, string])[] = [
      [', core: 18 thou, wrap: phosphor bronze', ''],
      [', core: 16 thou, wrap: phosphor bronze', ', massPerMetre: 6.1, aimCents: -1.5, importance: 2'],
    ];
    const load = (family: string) =>
      soundValue(loadInstrument(parlourWith(['family: guitar', `family: ${family}`], ...bare), PARLOUR));
    const guitar = load('guitar');
    const [low, second] = guitar.value.strings;
    // Common practice, from memory: a 0.053 in string has a core of some 0.018 in.
    expect(low?.build.core).toBeCloseTo(18 * 0.0254, 10);
    expect(low?.build).toMatchObject({ coreGiven: false, material: 'steel', wrap: 'phosphor bronze' });
    expect(second).toMatchObject({ aimCents: -1.5, importance: 2, build: { massPerMetre: 6.1 } });
    expect(guitar.value.strings[5]).toMatchObject({
      aimCents: 0,
      importance: 1,
      build: { core: 0.3048, coreGiven: true, wrap: null, massPerMetre: null },
    });
    expect(explainDefaults(guitar).find((d) => d.path === 'strings[0].core')?.why).toContain('measure');
    expect(load('bass').value.strings[0]?.build.wrap).toBe('nickel-plated steel');
    const ukulele = load('ukulele').value.strings;
    expect(ukulele[0]?.build).toMatchObject({
      material: 'multifilament nylon',
      wrap: 'silvered copper',
      core: 0.48,
    });
    expect(ukulele[5]?.build.material).toBe('nylon');
  });

  it('takes a usual core between, before and past the gauges that are known', () => {
    const coreOf = (gauge: string): number =>
      soundValue(
        loadInstrument(
          parlourWith(['gauge: 53 thou, make: wound, core: 18 thou', `gauge: ${gauge}, make: wound`]),
          PARLOUR,
        ),
      ).value.strings[0]?.build.core ?? 0;
    expect(coreOf('47.5 thou')).toBeCloseTo(17 * 0.0254, 10);
    const cores = ['50 thou', '60 thou', '80 thou', '105 thou', '130 thou'].map(coreOf);
    for (let i = 1; i < cores.length; i += 1) expect(cores[i]).toBeGreaterThan(cores[i - 1] ?? 0);
    expect(cores[4]).toBeLessThan(0.65 * 130 * 0.0254 + 1e-9);
  });

  it('never assumes a set-back', () => {
    const outcome = loadInstrument(parlourWith([', setBack: 2.8', '']), PARLOUR);
    expect(outcome.ok).toBe(false);
    expect(outcome.findings).toHaveLength(1);
    expect(outcome.findings[0]).toMatchObject({
      code: 'missing-key',
      where: { line: 27, path: 'strings[4].setBack' },
    });
    expect(outcome.findings[0]?.text).toContain('Zero is never assumed');
  });

  it('follows the concert pitch', () => {
    const low = soundValue(
      loadInstrument(parlourWith(['units: mm', 'units: mm\nconcertPitch: 415 Hz']), PARLOUR),
    ).value;
    expect(low.strings[1]?.hertz).toBeCloseTo(103.75, 10);
    expect(low.strings[1]?.pitch).toBe('A2');
  });

  it('takes names in any script and makes folder names of them', () => {
    const name = (text: string) =>
      soundValue(loadInstrument(parlourWith(['name: Tarn Parlour', `name: ${text}`]), PARLOUR)).value;
    expect(name('Tärn "Große" Æble №2').slug).toBe('tarn-grosse-aeble-no2');
    expect(name('湖のギター')).toMatchObject({
      name: '湖のギター',
      slug: expect.stringMatching(/^instrument-[0-9a-f]{8}$/),
    });
    expect(slugOf('湖')).not.toBe(slugOf('山'));
    expect(slugOf('../../etc/passwd')).toBe('etc-passwd');
    expect(slugOf('CON')).toBe('instrument-con');
    expect(slugOf('---')).toMatch(/^instrument-/);
    expect(slugOf('x'.repeat(300)).length).toBeLessThanOrEqual(48);
  });

  it.each(['\\n', '\\r', '\\u0085', '\\u2028', '\\0', '\\e[2J', '\\t', '\\u202e'])(
    'refuses %s in a name',
    (sign) => {
      const text = parlourWith(['name: Tarn Parlour', `name: "Tarn${sign}Parlour"`]);
      expect(loadInstrument(text, PARLOUR).findings.map((finding) => finding.code)).toContain('bad-text');
    },
  );

  it('reads JSON too, and keys such as __proto__ do no harm', () => {
    const outcome = loadInstrument(
      '{"name": "Json", "__proto__": {"units": "in"}, "constructor": 1}',
      'x.json',
    );
    const unknown = outcome.findings
      .filter((finding) => finding.code === 'unknown-key')
      .map((finding) => finding.found);
    expect(unknown).toEqual(['__proto__', 'constructor']);
  });

  it('answers any text at all without throwing', () => {
    const fragment = fc.constantFrom(
      'name',
      'strings',
      'scale',
      ':',
      ' ',
      '\n',
      '  ',
      '- ',
      '[',
      ']',
      '{',
      '}',
      '&a ',
      '*a',
      '"',
      "'",
      '#',
      '|',
      '>',
      '?',
      '!',
      '%',
      '628',
      'in',
      '\t',
      '---',
      ',',
    );
    const texts = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.array(fragment, { maxLength: 60 }).map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(texts, (text) => {
        const outcome = loadInstrument(text, 'any.yaml');
        return !outcome.ok && outcome.findings.some((finding) => finding.severity === 'error');
      }),
      { seed: 20_240_601, numRuns: 1500 },
    );
  });

  it('refuses enormous and deeply nested files quickly', () => {
    const began = performance.now();
    for (const text of [
      '['.repeat(100_000),
      'a: '.repeat(50_000),
      `x: [${'1, '.repeat(100_000)}]`,
      'y'.repeat(3_000_000),
      '- '.repeat(50_000),
    ]) {
      expect(loadInstrument(text, 'large.yaml').ok).toBe(false);
    }
    expect(performance.now() - began).toBeLessThan(15_000);
  });

  it('takes back any single change that keeps it sound, and reports any that does not, at its line', () => {
    const text = textOf(PARLOUR);
    const lines = text.split('\n');
    const fields = lines.flatMap((line, i) => (/^ *[a-zA-Z]+: [\d.]+$/.test(line) ? [i] : []));
    fc.assert(
      fc.property(
        fc.constantFrom(...fields),
        fc.constantFrom('', ' soon', ' 1e9', ' [1]', ' {}', ' 3 stone'),
        (i, value) => {
          const changed = lines.with(i, (lines[i] ?? '').replace(/: .*/, `:${value}`)).join('\n');
          const outcome = loadInstrument(changed, PARLOUR);
          expect(outcome.ok).toBe(false);
          expect(outcome.findings.map((finding) => finding.where?.line)).toContain(i + 1);
        },
      ),
      { seed: 20_240_602, numRuns: 150 },
    );
  });
});

/** The numbers of a line that are lengths, as bare inches. */
function lengthsInInches(line: string): string {
  const lengthKeys =
    /\b(setBack|length|slotWidth|slotDepth|leastWoodBelow|tangDepth|tangWidth|barbWidth|crownHeight|crownWidth|trim|thickness|blankThickness|widthAtNut|width|overhang|endRounding|radius|proud|clearance|spread|diameter|depth|below|offset|leastWall|setForward|stringSpread|from|behindSaddle|drill|seat|through|actionBass|actionTreble|relief|height|plateThickness|dowelDiameter|padding|margin|pilot|gauge|core|edge|ramp|firstFretBass|firstFretTreble|fingerBehind|press|boardAboveRim|heelDepth|heelWidthAtTop|heelWidthAtCap|domeRadius|domeApex|fallAway|straightedge|drop|heelLength|pastJoint|leastUnderRod|shoulder|widthAtShoulder|widthAtTip|tip|corner|first|apart|fromCentre|fromCentreLast|post|hole|reach|leastEdge|access|filler|wall|front|wingLength|tipWidth|cornerRadius|tipThickness|indexPin|play|collar|over|gap|endGap|footWidth|insert|insertDepth|rim|bush|cutter): ([^,}#\n]+)/g;
  return line.replace(lengthKeys, (_, key: string, written: string) => {
    const parsed = parseLength(written.trim(), 'mm');
    if (!parsed.ok) throw new Error(parsed.problem);
    // An exact fraction of an inch: 127/5 mm, so mm = inches x 127/5.
    const inches = `${Math.round(parsed.value * 50_000)}/1270000`;
    const check = parseLength(inches, 'in');
    if (!check.ok || check.value !== parsed.value)
      throw new Error(`${written} is ${formatInches(parsed.value, 6)} in`);
    return `${key}: ${inches}`;
  });
}

describe('a shop file', () => {
  const files: Record<string, string> = {
    'shops/home.yaml':
      'name: Home\ninclude: [parts/a.yaml, ./parts/b.yaml]\nallowances: { ends: 20 }\nwork: { fretSlots: hand }\n',
    'shops/parts/a.yaml':
      'name: A\ncurrency: GBP\nunits: in\nallowances: { ends: 1, sides: 1/8 }\nmachines:\n  - { kind: router, id: mill, travel: { x: 24, y: 16, z: 3 }, spindle: [8000, 24000], maxFeed: { xy: 60, z: 20 } }\n',
    'shops/parts/b.yaml':
      'include: [../parts/a.yaml]\ntools:\n  - { id: 7, kind: flat, diameter: 0.6, cuttingLength: 3.5, shankDiameter: 3.175 }\nstock:\n  - { id: dowel, kind: stick, material: birch, materialClass: hardwood, length: 1000, diameter: 8 }\n',
  };
  const read = (name: string): string | null => files[name] ?? null;
  const load = (name: string, more: Record<string, string> = {}) =>
    loadShop(more[name] ?? files[name] ?? '', name, (other) => more[other] ?? read(other));

  it('puts lists together, takes each file once and has the last word itself', () => {
    const loaded = soundValue(load('shops/home.yaml'));
    const shop = loaded.value;
    expect(shop.name).toBe('Home');
    expect(shop.currency).toBe('GBP');
    expect(shop.allowances).toMatchObject({ ends: 20, sides: 3.175 });
    expect(shop.machines).toHaveLength(1);
    expect(shop.machines[0]).toMatchObject({
      travel: { x: 609.6, y: 406.4, z: 76.2 },
      maxFeed: { xy: 1524, z: 508 },
    });
    expect(shop.tools[0]?.machine).toBe('mill');
    expect(shop.stock[0]).toMatchObject({ width: 8, thickness: 8, grain: 'length', price: null });
    expect(shop.work).toMatchObject({ fretSlots: 'hand', boardOutline: 'mill', pinTemplate: 'mill' });
    expect(loaded.sources).toEqual([
      { name: 'shops/home.yaml', text: files['shops/home.yaml'] },
      { name: 'shops/parts/a.yaml', text: files['shops/parts/a.yaml'] },
      { name: 'shops/parts/b.yaml', text: files['shops/parts/b.yaml'] },
    ]);
  });

  it('points into the file that a value came from', () => {
    const { place } = soundValue(load('shops/home.yaml'));
    expect(place('tools[0].diameter')).toMatchObject({ file: 'shops/parts/b.yaml', line: 3, column: 36 });
    expect(place('machines[0].travel')).toMatchObject({ file: 'shops/parts/a.yaml', line: 6 });
    expect(place('allowances.ends')).toMatchObject({ file: 'shops/home.yaml', line: 3 });
    expect(place('allowances.sides')).toMatchObject({ file: 'shops/parts/a.yaml', line: 4 });
    expect(place('holding.tabLength')).toMatchObject({ file: 'shops/home.yaml', line: 1 });
  });

  it('reports a circle of includes where it closes', () => {
    const { findings } = load('shops/c.yaml', {
      'shops/c.yaml': 'include: [d.yaml]\n',
      'shops/d.yaml': 'name: D\ninclude:\n  - parts/../c.yaml\n',
    });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      code: 'include-cycle',
      where: { file: 'shops/d.yaml', line: 3, column: 5 },
    });
    expect(findings[0]?.text).toContain('shops/c.yaml includes shops/d.yaml includes shops/c.yaml');
  });

  it('reports the mistakes of all files in one run', () => {
    const { findings } = load('shops/e.yaml', {
      'shops/e.yaml': 'naem: E\ninclude: [f.yaml, gone.yaml]\n',
      'shops/f.yaml': 'tools: [{ id: 1 }]\nholding: { tabLength: long }\n',
    });
    const places = findings.map((finding) => `${finding.where?.file}:${finding.where?.line} ${finding.code}`);
    expect(places).toEqual(
      expect.arrayContaining([
        'shops/e.yaml:1 unknown-key',
        'shops/e.yaml:2 include-not-found',
        'shops/f.yaml:2 bad-length',
        'shops/f.yaml:1 missing-key',
      ]),
    );
  });

  it.each(['/etc/shop.yaml', 'C:/shop.yaml', 'https://example.org/shop.yaml', '~/shop.yaml', 'a\\\\b.yaml'])(
    'does not follow %s',
    (name) => {
      let asked = 0;
      const outcome = loadShop(`include: ["${name}"]\n`, 'shop.yaml', () => {
        asked++;
        return 'name: Elsewhere\n';
      });
      expect(outcome.findings.map((finding) => finding.code)).toEqual(['include-not-relative']);
      expect(asked).toBe(0);
    },
  );

  it('gives work to what is there: hand, then router, then laser for flat things', () => {
    const hand = soundValue(bundledShop('hand-tools.yaml')).value;
    expect(new Set(Object.values(hand.work))).toEqual(new Set(['hand']));
    const router = soundValue(bundledShop('benchtop-router.yaml')).value;
    // A board is worked to its radius, drilled in its edge and turned over, and a neck carved, by hand unless a router is asked to.
    const { boardSurface, sideMarkers, boardUnderside, neckBack, ...others } = router.work;
    expect([boardSurface, sideMarkers, boardUnderside, neckBack]).toEqual(['hand', 'hand', 'hand', 'hand']);
    expect(new Set(Object.values(others))).toEqual(new Set(['benchtop-router']));
    const laser = soundValue(bundledShop('sheet-laser.yaml')).value;
    expect(laser.work).toMatchObject({ fretSlots: 'hand', indexPins: 'hand', pinTemplate: 'sheet-laser' });
    const withoutWork = textOf('profiles/home-shop.yaml').replace(/work:[\s\S]*$/, '');
    const both = soundValue(loadShop(withoutWork, 'profiles/home-shop.yaml', readProject)).value;
    expect(both.work).toEqual(soundValue(bundledShop('home-shop.yaml')).value.work);
  });

  it('gives the same result twice', () => {
    const once = soundValue(bundledShop('home-shop.yaml'));
    const again = soundValue(bundledShop('home-shop.yaml'));
    expect(JSON.stringify([once.value, once.defaults])).toBe(JSON.stringify([again.value, again.defaults]));
  });
});

describe('suggestions', () => {
  it.each<[string, string | null]>([
    ['lenght', 'length'],
    ['Slot_Width', 'slotWidth'],
    ['slotwdth', 'slotWidth'],
    ['nutt', 'nut'],
    ['colour', null],
    ['', null],
    ['x'.repeat(10_000), null],
  ])('%s', (written, expected) => {
    expect(nearestName(written, ['length', 'slotWidth', 'nut', 'fingerboard'])).toBe(expected);
  });
});
