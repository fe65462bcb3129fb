import { boardSteps } from './boardSteps.ts';
import { carvingSteps } from './carvingSteps.ts';
import { declare, makingStep, type OrderFacts, type Task } from './facts.ts';
import { neckSteps } from './neckSteps.ts';
import { sortSteps } from './sortSteps.ts';
import { stringSteps } from './stringSteps.ts';
import type { BuildStep, DeclaredStep, Doer } from './types.ts';

/** Works of the fingerboard, and others that have a step of their own. */
const OWN_STEP = [
  'boardUnderside',
  'indexPins',
  'fretSlots',
  'faceMarkers',
  'inlays',
  'boardOutline',
  'boardSurface',
  'sideMarkers',
  'neckBack',
  'tieHoles',
  'saddleInPlace',
  'saddleBlank',
];

/** The whole build, every step after all that it needs. */
export function planOrder(facts: OrderFacts): BuildStep[] {
  return runOnce(
    sortSteps([
      ...firstSteps(facts),
      ...partSteps(facts),
      ...boardSteps(facts),
      ...neckSteps(facts),
      ...carvingSteps(facts),
      ...stringSteps(facts),
    ]),
  );
}

/** A program that makes the features of several steps is run in the first of them. */
function runOnce(steps: readonly BuildStep[]): BuildStep[] {
  const run = new Set<string>();
  return steps.map((step) => {
    const doers = step.doers.map((doer): Doer => {
      if (doer.kind === 'hand' || !run.has(doer.file)) return doer;
      return { ...doer, done: true };
    });
    for (const doer of doers) if (doer.kind === 'program') run.add(doer.file);
    return { ...step, doers };
  });
}

function firstSteps({ tasks }: OrderFacts): DeclaredStep[] {
  const walks = tasks.filter(isWalkRoundBoard);
  const machines = new Set(tasks.flatMap(({ doer }) => (doer.kind === 'program' ? [doer.worker] : [])));
  return [
    declare({
      id: 'measure',
      title: 'Measure before anything is cut',
      after: [],
      does: [
        'Wire, markers, pins, rod, blanks and cutters, as the page START-HERE lists them.',
        'Where the caliper says otherwise than the profile, change the profile or the shop file and make everything again; do not correct at the machine.',
      ],
      hold: 'profile and shop file say what the caliper says',
    }),
    declare({
      id: 'try-in-scrap',
      title: 'Try it in scrap',
      after: ['measure'],
      does: [
        ...(machines.has('router')
          ? [
              'Run each program above the wood first, then once in scrap of the same thickness, and measure it.',
            ]
          : []),
        ...(machines.has('laser')
          ? ['Trace with the beam off, then cut one small part from an offcut and measure its width.']
          : []),
        ...(machines.size === 0
          ? ['Saw two slots in scrap with the same saw, and press wire into them.']
          : []),
      ],
      cautions: [
        'The machine’s manual, the material’s data sheet, local codes and trained people come first. Eye and ear protection; dust extraction and a mask.',
      ],
      hold: 'slots, holes and pockets in the scrap are as wide and as deep as the bench sheet says',
    }),
    declare({
      id: 'walk-round-board',
      title: 'Walk round the fingerboard’s blank, spindle off',
      wanted: walks.length > 0,
      after: ['try-in-scrap'],
      does: ['Clamp the blank, touch off, and let the tip go round it above the wood.'],
      doers: walks.map(({ doer }) => doer),
      hold: 'the tip waits over every corner of the blank within a millimetre, passes clear of every clamp, and ends above the work zero',
    }),
  ];
}

/** Goes round the blank and makes nothing. */
const isWalkRoundBoard = ({ part, works }: Task): boolean => part === 'fingerboard' && works.length === 0;

/** Jigs, templates and every other part that is not the fingerboard: made before they are wanted, in any order. */
function partSteps({ tasks }: OrderFacts): DeclaredStep[] {
  const others = tasks.filter(
    (task) => !isWalkRoundBoard(task) && !task.works.some((work) => OWN_STEP.includes(work)),
  );
  const parts = [...new Set(others.map(({ part }) => part))];
  return parts.map((part) => {
    const own = others.filter((task) => task.part === part);
    return declare({
      id: makingStep(part),
      title: `Make: ${own[0]?.partTitle ?? part}`,
      after: ['try-in-scrap'],
      does: own.some(({ works }) => works.length === 0)
        ? ['Walk round the blank above the wood first, spindle off: the tip waits over every corner.']
        : [],
      doers: own.map(({ doer }) => doer),
    });
  });
}
