/**
 * Cautions as data: what each says and when it applies. They defer to the machine's manual, the material's data sheet, local
 * codes and trained people. Limits are quoted with their source; everything else is common practice, no source.
 */
import type { MaterialClass } from '../../profile/types.ts';

/** Who or what does the work. */
export type Worker = 'router' | 'laser' | 'hand' | 'saw';

export type CautionWhen =
  | { readonly kind: 'always' }
  | { readonly kind: 'worker'; readonly workers: readonly Worker[] }
  | { readonly kind: 'material'; readonly classes: readonly MaterialClass[] }
  | { readonly kind: 'laser material'; readonly classes: readonly MaterialClass[] }
  /** A turning tool thinner than this, mm. */
  | { readonly kind: 'thin tool'; readonly below: number }
  /** A material named with one of these words. */
  | { readonly kind: 'named material'; readonly words: readonly string[] }
  | { readonly kind: 'part'; readonly part: string }
  /** A cutter goes straight down where an earlier program should have cleared. */
  | { readonly kind: 'cleared before' }
  | { readonly kind: 'strings' }
  | { readonly kind: 'truss rod' };

export interface Caution {
  readonly id: string;
  readonly when: readonly CautionWhen[];
  readonly title: string;
  readonly text: string;
}

/** What is at hand when cautions are chosen. */
export interface Situation {
  readonly workers: readonly Worker[];
  readonly classes: readonly MaterialClass[];
  /** Names of materials, as written. */
  readonly materials: readonly string[];
  /** Diameters of turning tools, mm. */
  readonly tools: readonly number[];
  readonly parts: readonly string[];
  readonly clearedBefore: boolean;
  readonly strings: boolean;
  readonly trussRod: boolean;
}

const WOOD: readonly MaterialClass[] = ['tropical hardwood', 'hardwood', 'softwood', 'plywood', 'mdf'];
const SHELL = ['shell', 'nacre', 'pearl', 'abalone', 'paua'];

export const CAUTIONS: readonly Caution[] = [
  {
    id: 'others-come-first',
    when: [{ kind: 'always' }],
    title: 'What comes before these notes',
    text: 'The machine’s manual, the material’s data sheet, local codes and people trained on the machine come before anything written here. Feeds, speeds and powers are starting points: begin in scrap.',
  },
  {
    id: 'eyes-and-ears',
    when: [{ kind: 'worker', workers: ['router', 'saw', 'hand'] }],
    title: 'Eyes and ears',
    text: 'Wear eye protection whenever a tool cuts, and ear protection near a router, a saw or an extractor.',
  },
  {
    id: 'wood-dust',
    when: [{ kind: 'material', classes: WOOD }],
    title: 'Wood dust',
    text: 'Extract dust where it is made and wear a mask made for fine dust; do not sweep it dry. Limits in the air: hardwood dust 3 mg/m3, softwood 5 mg/m3, mixtures as hardwood, 8-hour average (UK Health and Safety Executive, wood dust pages); 1 mg/m3 recommended (US NIOSH). Hardwood dust can cause cancer of the nose, and woodworkers’ asthma is common (same HSE pages). Your country’s limits may be lower.',
  },
  {
    id: 'tropical-dust',
    when: [{ kind: 'material', classes: ['tropical hardwood'] }],
    title: 'Tropical hardwood',
    text: 'Dust of tropical hardwoods can sensitise or irritate skin, eyes and lungs, at times after years without trouble: cover the skin, wash it, stop when it itches. African ebony: sawdust may cause dermatitis (USDA Forest Products Laboratory fact sheet).',
  },
  {
    id: 'shell-dust',
    when: [{ kind: 'named material', words: SHELL }],
    title: 'Shell dust',
    text: 'Dust of shell irritates and can harm the lungs for good: 6 of 26 shell sawyers examined had a lung disease from it (Orriols and others, European Respiratory Journal 10(4), 1997). Work it wet or under extraction, with a mask made for fine dust.',
  },
  {
    id: 'glued-boards',
    when: [{ kind: 'material', classes: ['mdf', 'plywood'] }],
    title: 'Glued boards',
    text: 'Dust and fumes of glued boards carry resin as well as wood: extract them, and read the maker’s data sheet.',
  },
  {
    id: 'workholding',
    when: [{ kind: 'worker', workers: ['router'] }],
    title: 'Workholding',
    text: 'Hold the blank so that it can neither lift nor turn, on a flat board that may be cut into. Clamps and screws stay out of the tool’s way, also where the tool only travels. What holds a part to the end, tabs or a thin skin, is cut by hand, after the spindle has stopped.',
  },
  {
    id: 'loose-clothing',
    when: [{ kind: 'worker', workers: ['router', 'saw'] }],
    title: 'Clothing and hands',
    text: 'No gloves, rings, loose sleeves or loose hair near anything that turns. Hands stay away until it stands still.',
  },
  {
    id: 'stop-at-hand',
    when: [{ kind: 'worker', workers: ['router', 'laser'] }],
    title: 'The stop',
    text: 'Know where the stop is and keep a hand near it through the first run of every program.',
  },
  {
    id: 'small-cutter',
    when: [{ kind: 'thin tool', below: 2.5 }],
    title: 'Small cutters break',
    text: 'Cutters this thin break without warning and fly: guard and eye protection, clean collet, as little stick-out as will do, true running checked before the first cut. Never feed by feel above the stated rate.',
  },
  {
    id: 'cleared-before',
    when: [{ kind: 'cleared before' }],
    title: 'Programs that go on from another',
    text: 'A program that clears what a larger cutter left goes straight down where that cutter should have been. Run before it, or on another blank or work zero, it drives a thin cutter into standing wood, and the cutter breaks and flies. Look into every pocket before it starts: floors clear, corners only left.',
  },
  {
    id: 'laser-chlorine',
    when: [{ kind: 'worker', workers: ['laser'] }],
    title: 'Never in a laser',
    text: 'Never put PVC, vinyl or any other plastic that bears chlorine in a laser: it gives off hydrogen chloride and other poisons, and eats the machine. When you do not know what a sheet is, do not cut it.',
  },
  {
    id: 'laser-alone',
    when: [{ kind: 'worker', workers: ['laser'] }],
    title: 'Never leave a laser alone',
    text: 'Stay with a laser as long as it runs, with an extinguisher fit for it in reach. A flame that stays means: stop.',
  },
  {
    id: 'laser-fumes',
    when: [{ kind: 'worker', workers: ['laser'] }],
    title: 'Fumes and the beam',
    text: 'Run the extraction before and after the cut, to the open or through the filter the maker names. Lid and interlocks stay shut and whole; eyewear is for the beam’s own wavelength. A stray beam blinds.',
  },
  {
    id: 'laser-acrylic',
    when: [{ kind: 'laser material', classes: ['acrylic', 'card'] }],
    title: 'Catches fire easily',
    text: 'Acrylic and card take fire easily under a beam: air assist on, eyes on the cut, lowest power that does it.',
  },
  {
    id: 'saw-kickback',
    when: [{ kind: 'worker', workers: ['saw'] }],
    title: 'Sawing',
    text: 'A piece that binds behind a turning blade is thrown. Use the guard, the riving knife and push sticks; never cut short or narrow pieces freehand on a machine: a hand saw is quick enough.',
  },
  {
    id: 'sharp-tools',
    when: [{ kind: 'worker', workers: ['hand'] }],
    title: 'Hand tools',
    text: 'Clamp the wood, keep both hands behind the edge, drill and ream with the piece held in a vice or on a fence.',
  },
  {
    id: 'fret-ends',
    when: [{ kind: 'part', part: 'fingerboard' }],
    title: 'Wire ends',
    text: 'Cut ends of fret wire fly and are sharp: nip them under a cloth and wear eye protection.',
  },
  {
    id: 'string-tension',
    when: [{ kind: 'strings' }],
    title: 'Strings',
    text: 'Strings at pitch store energy: tune up in stages, face turned away, eyes protected; cut a string only after it is slack.',
  },
  {
    id: 'truss-rod',
    when: [{ kind: 'truss rod' }],
    title: 'Truss rod',
    text: 'A truss rod under load stores energy and can strip or break: slacken the strings first, turn by eighths, stop when it binds, and follow its maker’s directions.',
  },
  {
    id: 'protected-species',
    when: [
      { kind: 'material', classes: ['tropical hardwood'] },
      { kind: 'named material', words: [...SHELL, 'ivory', 'tortoise'] },
    ],
    title: 'Protected species',
    text: 'Some tropical woods, shells and other natural materials may be bought, sold or taken across borders only with papers. Check the current CITES appendices and your country’s rules, and keep the receipts.',
  },
];

/** The cautions that apply, in the order of the list. */
export function cautionsFor(situation: Situation): Caution[] {
  return CAUTIONS.filter((caution) => caution.when.some((when) => applies(when, situation)));
}

function applies(when: CautionWhen, it: Situation): boolean {
  switch (when.kind) {
    case 'always':
      return true;
    case 'worker':
      return it.workers.some((w) => when.workers.includes(w));
    case 'material':
      return it.classes.some((c) => when.classes.includes(c));
    case 'laser material':
      return it.workers.includes('laser') && it.classes.some((c) => when.classes.includes(c));
    case 'thin tool':
      return it.tools.some((d) => d < when.below);
    case 'named material':
      return it.materials.some((m) => when.words.some((word) => m.toLowerCase().includes(word)));
    case 'part':
      return it.parts.includes(when.part);
    case 'cleared before':
      return it.clearedBefore;
    case 'strings':
      return it.strings;
    case 'truss rod':
      return it.trussRod;
  }
}
