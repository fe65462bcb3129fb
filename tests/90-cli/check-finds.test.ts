/** What `check` finds is what `make` finds, for mistakes that only planning or a proof shows, and in less time. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkJob } from '../../src/app/check.ts';
import { makeJob } from '../../src/app/make.ts';
import type { JobSources } from '../../src/app/types.ts';
import type { Finding } from '../../src/report/finding.ts';

const PROFILES = join(import.meta.dirname, '../../profiles');
const read = (name: string): string => readFileSync(join(PROFILES, name), 'utf8');

type Change = readonly [file: string, from: string, to: string];

function sourcesWith(changes: readonly Change[]): JobSources {
  const changed = (name: string): string =>
    changes
      .filter(([file]) => file === name)
      .reduce((text, [, from, to]) => {
        expect(text, `${name}: ${from}`).toContain(from);
        return text.replace(from, () => to);
      }, read(name));
  return {
    profile: { path: 'tarn-parlour.yaml', text: changed('tarn-parlour.yaml') },
    shop: { path: 'home-shop.yaml', text: changed('home-shop.yaml') },
    readInclude: changed,
  };
}

const ROUTER = 'benchtop-router.yaml';
/** The shop's own file has the last word. */
const home = (more: string): Change => ['home-shop.yaml', 'currency: EUR', `currency: EUR\n${more}`];
const onRouter: Change = ['home-shop.yaml', 'radiusBlock: sheet-laser', 'radiusBlock: benchtop-router'];
const clamp = (top: number): Change =>
  home(
    `keepOuts:\n  - { name: tall clamp, part: fingerboard, machine: benchtop-router, x: [441, 470], y: [-15, 15], z: [-6, ${top}] }`,
  );

interface Mistake {
  readonly what: string;
  readonly changes: readonly Change[];
  readonly codes: readonly string[];
  readonly path: string;
}

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a tolerance too wide for the walls',
    changes: [[ROUTER, 'diameter: 0.6\n    tolerance: 0.01', 'diameter: 0.6\n    tolerance: 0.05']],
    codes: ['tool-tolerance-too-wide'],
    path: 'tools[0].tolerance',
  },
  {
    what: 'a drill whose size nobody knows well enough',
    changes: [[ROUTER, 'diameter: 1.6\n    tolerance: 0.015', 'diameter: 1.6\n    tolerance: 0.05']],
    // Both pins, in the board and in the neck.
    codes: Array.from({ length: 4 }, () => 'tool-tolerance-too-wide'),
    path: 'tools[4].tolerance',
  },
  {
    what: 'tabs as high as the blank',
    changes: [home('holding: { tabHeight: 7 }')],
    // Of the board and of the head's veneer.
    codes: ['tabs-too-high', 'tabs-too-high', 'tabs-too-high'],
    path: 'holding.tabHeight',
  },
  {
    what: 'a skin as thick as the blank',
    changes: [home('holding: { by: skin, skin: 5 }')],
    codes: Array.from({ length: 4 }, () => 'skin-too-thick'),
    path: 'holding.skin',
  },
  {
    what: 'nothing between parts on a laser',
    changes: [home('allowances: { between: 0 }')],
    // Of gauges, joint and bridge jigs, templates and the radius block.
    codes: [
      ...Array.from({ length: 4 }, () => 'no-room-for-kerf'),
      'parts-too-close',
      ...Array.from({ length: 5 }, () => 'no-room-for-kerf'),
      'parts-too-close',
      'no-room-for-kerf',
    ],
    path: 'allowances.between',
  },
  {
    what: 'parts on a router nearer than its cutter is wide',
    changes: [home('allowances: { between: 3 }'), onRouter],
    codes: ['parts-too-close'],
    path: 'allowances.between',
  },
  {
    what: 'parts on a router so near that the cut round one takes the tabs of the next',
    changes: [home('allowances: { between: 3.5 }'), onRouter],
    codes: ['program-not-proven'],
    path: '',
  },
  {
    what: 'a missing tool',
    changes: [[ROUTER, 'diameter: 0.6\n', 'diameter: 0.9\n']],
    codes: ['no-tool-thin-enough'],
    path: 'frets.slotWidth',
  },
  {
    what: 'no board large enough',
    changes: [[ROUTER, 'length: 510', 'length: 310']],
    codes: ['piece-fits-no-stock'],
    path: 'stock',
  },
  {
    what: 'travel too short in x',
    changes: [[ROUTER, 'travel: { x: 600', 'travel: { x: 460']],
    codes: Array.from({ length: 4 }, () => 'blank-too-large-for-machine'),
    path: 'work.indexPins',
  },
  {
    what: 'travel too short in z',
    changes: [[ROUTER, 'z: 80 }', 'z: 11 }']],
    codes: Array.from({ length: 9 }, () => 'blank-too-large-for-machine'),
    path: 'work.indexPins',
  },
  {
    what: 'a drill point with no room below',
    changes: [[ROUTER, 'intoSpoilboard: 0.8', 'intoSpoilboard: 0.05']],
    codes: Array.from({ length: 4 }, () => 'drill-point-too-long'),
    path: 'machines',
  },
  {
    what: 'a clamp that the collet nut meets',
    changes: [clamp(19)],
    codes: ['tool-meets-keep-out'],
    path: 'keepOuts',
  },
];

const shown = (findings: readonly Finding[]): unknown[] =>
  findings.map((f) => [f.severity, f.code, f.where?.file, f.where?.line, f.text]);

describe('check finds what make finds', () => {
  it.each(MISTAKES)('$what', ({ changes, codes, path }) => {
    const sources = sourcesWith(changes);
    const checked = checkJob(sources);
    const made = makeJob(sources);
    expect(checked.findings.map((f) => f.code)).toEqual(codes);
    expect(checked.findings[0]?.where?.path ?? '').toBe(path);
    expect(shown(checked.findings)).toEqual(shown(made.findings));
    expect(checked.passed).toBe(made.ok);
  });

  it('finds nothing where make finds nothing: as it is, with slow feeds, with one spindle speed', () => {
    const slow: Change = [ROUTER, 'z: 600 mm/min }', 'z: 5 mm/min }'];
    const fixed: Change = [ROUTER, 'spindle: [8000, 24000]', 'spindle: [8000, 8000]'];
    for (const changes of [[], [slow], [fixed], [clamp(12)]]) {
      const sources = sourcesWith(changes);
      const made = makeJob(sources);
      expect(shown(checkJob(sources).findings)).toEqual(shown(made.findings));
      expect(made.ok).toBe(true);
    }
  });
});
