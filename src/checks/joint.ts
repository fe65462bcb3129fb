/** Mortise and tenon: do they lie in their wood, and the bolts clear of everything? */
import { bounds } from '../geometry/ring.ts';
import { tongueHalf } from '../geometry/tongue.ts';
import type { JointLayout, Layout } from '../layout/types.ts';
import type { Instrument, NeckBlank, Tenon } from '../profile/types.ts';
import { errorFinding, type FindingDetails } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { checkJointTemplates } from './jointTemplates.ts';
import type { Board } from './types.ts';
import { mm } from './words.ts';

const HAIR = 1e-6;
/** Least shoulder of the heel beside the tenon and below it: what hides the mortise (common practice, no source). */
const SHOULDER = 2;
/** Least wood round an insert, and between it and a cut for the rod (common practice, no source). */
const ROUND_INSERT = 3;
/** Least wood beside the rod's cuts in the tenon (common practice, no source). */
const BESIDE_ROD = 4;
/** Least wood between the end of an insert's hole and the back of the heel's block, before it is carved (assumed). */
const BEHIND_INSERT = 15;

interface Joint {
  readonly fit: JointLayout;
  readonly tenon: Tenon;
  readonly blank: NeckBlank;
  readonly layout: Layout;
}

const AT = 'neckJoint.tenon';

const wrong = (code: string, field: string, text: string, details: Omit<FindingDetails, 'where'> = {}) =>
  errorFinding(code, text, { where: { source: 'instrument', path: `${AT}${field}` }, ...details });

/** What is wrong with the joint between neck and body. */
export function checkJoint({ layout, instrument }: Board): Finding[] {
  const tenon = instrument.neckJoint?.tenon ?? null;
  if (tenon === null) return [];
  const fit = layout.neck?.fit ?? null;
  const { neckBlank: blank } = instrument;
  if (fit === null || blank === null) return [needsBlank()];
  const joint: Joint = { fit, tenon, blank, layout };
  return [
    ...fields(tenon, instrument),
    ...tenonInNeck(joint),
    ...mortiseInBlock(joint),
    ...rodInTenon(joint),
    ...boltsInTenon(joint),
    ...boltsApart(joint),
    ...reliefHasRoom(fit),
    ...checkJointTemplates(fit, tenon),
  ];
}

const needsBlank = (): Finding =>
  wrong(
    'tenon-needs-neck-blank',
    '',
    'A tenon is cut from the neck, and the profile says nothing of its blank.',
    {
      remedy: 'Add a section neckBlank, or leave the tenon out.',
    },
  );

/** What the kinds of joint have and have not. */
function fields(tenon: Tenon, { neckJoint }: Instrument): Finding[] {
  const { build, bolts } = tenon;
  const findings: Finding[] = [];
  if ((build === 'bolted') !== (bolts !== null))
    findings.push(
      wrong(
        'bolts-and-build',
        '.bolts',
        `A joint of the build ${build} has ${bolts === null ? 'no' : ''} bolts.`.replace('  ', ' '),
        {
          remedy: 'build: bolted and its bolts, or neither',
        },
      ),
    );
  if (build === 'dovetail' && tenon.footWidth >= tenon.width)
    findings.push(
      wrong(
        'dovetail-is-no-wedge',
        '.footWidth',
        'A tapered dovetail is narrower at its foot than at its head.',
        {
          allowed: `less than ${mm(tenon.width)}`,
        },
      ),
    );
  if (build !== 'dovetail' && (tenon.flare !== 0 || tenon.footWidth !== tenon.width))
    findings.push(
      wrong(
        'only-a-dovetail-leans',
        tenon.flare === 0 ? '.footWidth' : '.flare',
        `The cheeks of a ${build} tenon are parallel and upright.`,
        {
          remedy: 'leave the field out, or build: dovetail',
        },
      ),
    );
  if (neckJoint !== null && tenon.height <= neckJoint.boardAboveRim)
    findings.push(
      wrong('tenon-above-the-top', '.height', 'The tenon ends above the plane of the top.', {
        allowed: `more than ${mm(neckJoint.boardAboveRim)}`,
      }),
    );
  return findings;
}

/** As long as the neck goes on past the joint, and hidden behind the heel's shoulders. */
function tenonInNeck({ fit, blank }: Joint): Finding[] {
  const { heel, length, mouth } = fit;
  const beside = Math.min(...[0, mouth.foot].map((x) => tongueHalf(heel, x) - tongueHalf(mouth, x)));
  const below = heel.foot - mouth.foot;
  return [
    ...(length > blank.pastJoint + HAIR
      ? [
          wrong(
            'tenon-longer-than-neck',
            '.length',
            `The tenon is ${mm(length)} long, and the neck goes on ${mm(blank.pastJoint)} past the joint.`,
            {
              allowed: `at most ${mm(blank.pastJoint)} (neckBlank.pastJoint)`,
            },
          ),
        ]
      : []),
    ...(beside < SHOULDER - HAIR
      ? [
          wrong(
            'tenon-wider-than-heel',
            '.width',
            `The heel's face leaves ${mm(beside)} beside the mortise.`,
            {
              allowed: `at least ${mm(SHOULDER)}: the heel is ${mm(2 * tongueHalf(heel, mouth.foot))} wide at the tenon's foot`,
              remedy: 'a narrower or less deep tenon, or a wider heel',
            },
          ),
        ]
      : []),
    ...(below < SHOULDER - HAIR
      ? [
          wrong('tenon-deeper-than-heel', '.height', `The heel's cap lies ${mm(below)} below the mortise.`, {
            allowed: `a tenon of at most ${mm(fit.tenon.foot + below - SHOULDER)}`,
          }),
        ]
      : []),
  ];
}

/** The mortise must not come out of the block, nor leave its walls thin. */
function mortiseInBlock({ fit }: Joint): Finding[] {
  const { block, mortiseDepth, mortise, topAt } = fit;
  const { leastWall } = block;
  const behind = block.length - mortiseDepth;
  const beside = block.width / 2 - Math.max(tongueHalf(mortise, topAt), tongueHalf(mortise, mortise.foot));
  const below = block.height + topAt - mortise.foot;
  const wall = (left: number, code: string, field: string, text: string): Finding[] =>
    left >= leastWall - HAIR
      ? []
      : [wrong(code, field, text, { allowed: `at least ${mm(leastWall)} (${AT}.block.leastWall)` })];
  return [
    ...wall(
      behind,
      'mortise-deeper-than-block',
      '.length',
      behind < 0
        ? `The mortise is ${mm(mortiseDepth)} deep and comes out of a block of ${mm(block.length)}.`
        : `Behind the mortise ${mm(behind)} of the block is left.`,
    ),
    ...wall(
      beside,
      'too-little-beside-mortise',
      '.block.width',
      `Beside the mortise ${mm(beside)} of the block is left.`,
    ),
    ...wall(below, 'mortise-below-block', '.height', `Below the mortise ${mm(below)} of the block is left.`),
  ];
}

/** What is cut for the rod past the joint must leave cheeks on the tenon. */
function rodInTenon({ fit, layout }: Joint): Finding[] {
  return layout.rodCuts.flatMap((cut): Finding[] => {
    const { x, y } = bounds(cut.ring);
    if (x[1] <= fit.joint) return [];
    const beside = tongueHalf(fit.root, Math.min(cut.depth, fit.root.foot)) - y[1];
    if (beside >= BESIDE_ROD - HAIR) return [];
    return [
      wrong(
        'rod-weakens-tenon',
        '.width',
        `The cut for the truss rod leaves ${mm(beside)} of the tenon on each side.`,
        {
          allowed: `at least ${mm(BESIDE_ROD)}`,
          remedy: 'a wider tenon, or a rod that ends before the joint',
        },
      ),
    ];
  });
}

/** Each insert in solid wood: within the tenon, the heel and clear of the rod and of its adjuster. */
function boltsInTenon({ fit, tenon, blank, layout }: Joint): Finding[] {
  const { bolts } = tenon;
  if (bolts === null) return [];
  const reach = bolts.insert / 2 + ROUND_INSERT;
  const intoHeel = bolts.insertDepth - fit.length;
  const inner = fit.joint + fit.length - bolts.insertDepth;
  const deep = fit.length + blank.heelLength - BEHIND_INSERT;
  const tooDeep =
    bolts.insertDepth > deep + HAIR
      ? [
          wrong(
            'insert-through-heel',
            '.bolts.insertDepth',
            'The hole for the insert comes out of the heel.',
            {
              allowed: `at most ${mm(deep)}`,
            },
          ),
        ]
      : [];
  const each = bolts.down.flatMap((down, i): Finding[] => {
    const at = `.bolts.down[${i}]`;
    const beside = Math.min(tongueHalf(fit.root, down), tongueHalf(fit.tenon, down)) - bolts.insert / 2;
    const heel = tongueHalf(fit.heel, down) - bolts.insert / 2;
    const above = overBolt(layout, inner, down - bolts.insert / 2);
    return [
      ...(beside < ROUND_INSERT - HAIR || down + reach > fit.root.foot + HAIR
        ? [
            wrong(
              'bolt-outside-tenon',
              at,
              `The insert of bolt ${i + 1} does not lie in the wood of the tenon.`,
              {
                allowed: `${mm(ROUND_INSERT)} of wood round a hole of ${mm(bolts.insert)}: at most ${mm(fit.root.foot - reach)} down, in a tenon of at least ${mm(2 * reach)}`,
              },
            ),
          ]
        : []),
      ...(intoHeel > 0 && (heel < ROUND_INSERT - HAIR || down + reach > fit.heel.foot + HAIR)
        ? [
            wrong(
              'bolt-outside-heel',
              at,
              `The insert of bolt ${i + 1} does not lie in the thickness of the heel.`,
              {
                allowed: `${mm(ROUND_INSERT)} of wood round it`,
              },
            ),
          ]
        : []),
      ...(above !== null && above.wood < ROUND_INSERT - HAIR
        ? [
            wrong(
              'bolt-at-rod',
              at,
              `Between the insert of bolt ${i + 1} and the cut for the truss rod's ${above.name} ${mm(above.wood)} of wood is left.`,
              {
                allowed: `at least ${mm(down - above.wood + ROUND_INSERT)} below the neck's face`,
              },
            ),
          ]
        : []),
    ];
  });
  return [...tooDeep, ...each];
}

/** The least wood between the top of a bolt's hole and the rod's cuts over it, from x = `from` on; null: no cut is there. */
function overBolt({ rodCuts }: Layout, from: number, top: number): { wood: number; name: string } | null {
  const over = rodCuts.filter(({ ring }) => bounds(ring).x[1] > from);
  const deepest = over.reduce<(typeof over)[number] | null>(
    (most, next) => (most === null || next.depth > most.depth ? next : most),
    null,
  );
  if (deepest === null) return null;
  return { wood: top - deepest.depth, name: deepest.id.replace('truss-rod-', '') };
}

/** Two inserts want wood between them. */
function boltsApart({ tenon: { bolts } }: Joint): Finding[] {
  if (bolts === null) return [];
  return bolts.down.slice(1).flatMap((down, i): Finding[] => {
    const apart = down - (bolts.down[i] ?? 0);
    const least = bolts.insert + ROUND_INSERT;
    if (apart >= least - HAIR) return [];
    return [
      wrong(
        'bolts-together',
        `.bolts.down[${i + 1}]`,
        `Bolts ${i + 1} and ${i + 2} are ${mm(apart)} apart.`,
        {
          allowed: `at least ${mm(least)}, the upper one first`,
        },
      ),
    ];
  });
}

function reliefHasRoom({ relief }: JointLayout): Finding[] {
  if (relief === null || relief.ring !== null) return [];
  return [
    wrong(
      'no-room-for-relief',
      '.relief.rim',
      'Between the rim of the heel and the tenon nothing is left to cut back.',
      {
        remedy: 'a narrower rim, a narrower or less deep tenon, or no relief',
      },
    ),
  ];
}
