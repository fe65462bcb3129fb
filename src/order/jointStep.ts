import { formatShort } from '../units/format.ts';
import { declare, makersOf, type OrderFacts } from './facts.ts';
import type { DeclaredStep, StepNumber } from './types.ts';

type Tenon = NonNullable<NonNullable<OrderFacts['instrument']['neckJoint']>['tenon']>;

/** Tenon and mortise cut, and bolts or glue made ready, while neck and block are still square. */
export function jointStep(facts: OrderFacts): DeclaredStep {
  const tenon = facts.instrument.neckJoint?.tenon ?? null;
  const jigs = makersOf(facts, 'jointTemplates');
  return declare({
    id: 'cut-joint',
    title: 'Cut tenon and mortise, and try them in one another',
    wanted: tenon !== null,
    after: ['fit-rod', ...jigs],
    does: tenon === null ? [] : [...cutting(tenon), ...drilling(tenon), ...relieving(tenon)],
    numbers: tenon === null ? [] : numbersOf(tenon),
    jigs: jigs.length > 0 ? ['templates for tenon and mortise'] : [],
    cautions: [
      'A hand-held router: both hands on it, work and template clamped, shallow passes, against the cutter’s turning, and off the work only once it stands still; follow its manual.',
    ],
    hold: 'the tenon goes in by hand and its shoulders meet the body all round; the centreline of the neck runs down the middle of the body',
  });
}

function cutting({ templates, build, corners }: Tenon): string[] {
  const square =
    corners === 'square'
      ? ['Cut the round corners at the mortise’s foot square with a chisel, until the tenon goes down.']
      : [];
  const wedge =
    build === 'dovetail'
      ? [
          'A wedge tightens as it goes down: stop while it still stands a little high, and pare cheek by cheek.',
        ]
      : [];
  if (templates === null)
    return ['Saw and pare the cheeks of the tenon, and chop the mortise to it.', ...square, ...wedge];
  const offset = formatShort((templates.bush - templates.cutter) / 2, 2);
  return [
    `Bush ${formatShort(templates.bush, 2)} mm, cutter ${formatShort(templates.cutter, 2)} mm: the cut lies ${offset} mm from the template’s edge. Measure both, and try them in scrap.`,
    'Saw the cheeks first and leave 2 mm for the router; the tenon’s template stands on the neck’s end, its line on the face for the board.',
    'The mortise’s template lies on the end of the body, its line on the plane of the top.',
    ...square,
    ...wedge,
  ];
}

function drilling({ bolts }: Tenon): string[] {
  if (bolts === null) return [];
  return [
    'Drill the block from the mortise’s floor, and the tenon’s end for the inserts (drill-coordinates.csv); put the inserts in square, with a bolt and a nut to turn them.',
  ];
}

function relieving({ relief }: Tenon): string[] {
  if (relief === null) return [];
  return [
    `Cut the heel’s face back by ${formatShort(relief.depth, 2)} mm within the outline of drawings/neck-joint.dxf; the rim stays ${formatShort(relief.rim, 2)} mm wide.`,
  ];
}

function numbersOf(tenon: Tenon): StepNumber[] {
  const { width, length, height, endGap, gap, bolts } = tenon;
  return [
    { what: 'tenon, width at the face for the board', is: width, workTo: 0.1 },
    { what: 'tenon, from that face to its foot', is: height, workTo: 0.2 },
    { what: 'tenon, length past the shoulders', is: length, workTo: 0.2 },
    { what: 'mortise, depth', is: length + endGap, workTo: 0.3 },
    { what: 'between them at cheeks and foot', is: gap, workTo: 0.1 },
    ...(bolts?.down ?? []).map((down, i) => ({
      what: `bolt ${i + 1}, below the face for the board`,
      is: down,
      workTo: 0.2,
    })),
  ];
}
