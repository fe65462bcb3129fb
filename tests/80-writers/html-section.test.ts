import { describe, expect, it } from 'vitest';
import type { PreviewCut, PreviewFigure, PreviewProgram } from '../../src/writers/html/types.ts';
import { modelOf, previewOf, reasoning, type SectionFigure, withText } from '../support/previewPrograms.ts';

type Name = 'over' | 'under' | 'deep' | 'high';

/** The proof's figures that a section has too. */
const NAMES: Readonly<Record<string, Name>> = {
  'wall overcut': 'over',
  'wall undercut': 'under',
  'floor deep': 'deep',
  'floor shallow': 'high',
  gouge: 'deep',
};
/** What the two must agree to, mm. */
const AGREE = 0.01;
/** Half the length of a section laid through a place, mm. */
const REACH = 4;
const DIRECTIONS = 12;

/** A marked line has no walls, and what is cut right through has no floor. */
function nameOf({ kind, through }: PreviewCut, figure: PreviewFigure): Name | null {
  const name = NAMES[figure.name] ?? null;
  if (figure.place === null || kind === 'line') return null;
  return through && (name === 'deep' || name === 'high') ? null : name;
}

/** The worst over sections in several directions through a place: one of them is nearly square to any wall. */
function sectionsThrough(
  model: object,
  name: Name,
  [x, y]: readonly [number, number, number],
): SectionFigure {
  let worst: SectionFigure = { value: Number.NEGATIVE_INFINITY, x: 0, y: 0 };
  for (let k = 0; k < DIRECTIONS; k += 1) {
    const angle = (k * Math.PI) / DIRECTIONS;
    const [dx, dy] = [REACH * Math.cos(angle), REACH * Math.sin(angle)];
    const line = reasoning.lineOfPlan(x - dx, y - dy, x + dx, y + dy);
    const found = reasoning.figuresOf(model, reasoning.sectionOf(model, line, 200))[name];
    if (found.value > worst.value) worst = found;
  }
  return worst;
}

/** Every figure of the proof beside that of the section, as `cut: name proof section`, where they do not agree; and how many there were. */
function compare(program: PreviewProgram): { readonly seen: number; readonly apart: string[] } {
  const model = modelOf(program);
  const apart: string[] = [];
  let seen = 0;
  for (const cut of program.cuts) {
    for (const figure of cut.figures) {
      const name = nameOf(cut, figure);
      if (name === null || figure.place === null) continue;
      const found = sectionsThrough(model, name, figure.place);
      seen += 1;
      if (!(Math.abs(found.value - figure.value) <= AGREE)) {
        apart.push(`${cut.id}: ${figure.name} ${figure.value} ${found.value}`);
      }
    }
  }
  return { seen, apart };
}

const parlour = previewOf().programs;

function programOf(path: string, programs: readonly PreviewProgram[] = parlour): PreviewProgram {
  const program = programs.find((p) => p.path === path);
  if (program === undefined) throw new Error(`no program ${path}`);
  return program;
}

describe('a section has the figures of the proof within 0.01 mm', () => {
  it.each([
    ['fingerboard-pins.nc', 4],
    ['fingerboard-slots.nc', 76],
    ['fingerboard-markers.nc', 32],
    ['fingerboard-outline.nc', 2],
    ['slot-template.nc', 2],
    ['pin-template.nc', 18],
    ['radius-block-plates.nc', 30],
  ])('in %s', (path, count) => {
    const { seen, apart } = compare(programOf(path));
    expect(apart).toEqual([]);
    expect(seen).toBe(count);
  });

  it('on slanted slots of another bundled instrument', () => {
    const { programs } = previewOf('scree-baritone.yaml');
    const { seen, apart } = compare(programOf('fingerboard-slots.nc', programs));
    expect(apart).toEqual([]);
    expect(seen).toBeGreaterThan(60);
  });
});

describe('a section of a program that was damaged', () => {
  const slots = programOf('fingerboard-slots.nc');

  it('shows a slot that lies 0.2 mm aside, as the proof does', () => {
    const damaged = withText('fingerboard-slots.nc', (text) => text.replace('G0 X322 ', 'G0 X322.2 '));
    const cut = damaged.cuts.find((c) => c.figures.some((f) => f.name === 'wall overcut' && !f.passed));
    const figure = cut?.figures.find((f) => f.name === 'wall overcut');
    if (cut === undefined || figure?.place == null) throw new Error('the damage did nothing');
    expect(figure.value).toBeGreaterThan(0.15);
    const found = sectionsThrough(modelOf(damaged), 'over', figure.place);
    expect(found.value).toBeCloseTo(figure.value, 2);
  });

  it('differs from what it shows of the sound one', () => {
    const sound = sectionsThrough(
      modelOf(slots),
      'over',
      slots.cuts[0]?.figures.find((f) => f.name === 'wall overcut')?.place ?? [0, 0, 0],
    );
    expect(sound.value).toBeLessThan(0.01);
  });
});

describe('the heights along a section', () => {
  it('are those of a slot: its floor on the radius below the top, its width that of the cutter', () => {
    const model = modelOf(programOf('fingerboard-slots.nc'));
    const [slot] = programOf('fingerboard-slots.nc').cuts;
    const xs = slot?.rings[0]?.map((v) => v[0]) ?? [];
    const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
    const line = reasoning.lineOfPlan(middle - 2, 0, middle + 2, 0);
    const { stations, left, meant, top } = reasoning.sectionOf(model, line, 100);
    const cut = [...stations.keys()].filter((k) => (left[k] ?? 0) < (top[k] ?? 0) - 0.1);
    const [first, last] = [stations[cut[0] ?? 0] ?? 0, stations[cut.at(-1) ?? 0] ?? 0];
    expect(last - first).toBeCloseTo(0.6, 4);
    expect((first + last) / 2).toBeCloseTo(2, 3);
    const centre = cut[Math.floor(cut.length / 2)] ?? 0;
    expect((meant[centre] ?? 0) - (left[centre] ?? 0)).toBeGreaterThan(0);
    expect((meant[centre] ?? 0) - (left[centre] ?? 0)).toBeLessThan(0.03);
  });
});
