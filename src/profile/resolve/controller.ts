/** What a control understands, with every capability that was left out filled in. */
import type { GivenShop } from '../schema/shop.ts';
import type { Controller, LengthUnit } from '../types.ts';
import type { Fill } from './fill.ts';

type GivenMachine = NonNullable<GivenShop['machines']>[number];
type GivenOf<Kind> = Extract<GivenMachine, { kind: Kind }>['controller'];
type Given = GivenOf<'router'> | GivenOf<'laser'>;
type Own = Pick<Controller, 'toolChange' | 'beamWord'>;

const NOT_STATED = 'only what is stated is written for a control';
/** NISTIR 6556, 3.3, allows 256 characters a line; one is left for its end. */
const LONGEST_LINE = 255;

/** The control of a router: its beam word is never used. */
export function resolveRouterControl(given: GivenOf<'router'>, path: string, fill: Fill): Controller {
  const toolChange = fill.plain(
    `${path}.toolChange`,
    given?.toolChange,
    'none',
    'one program a tool needs no word for it',
  );
  return resolveControl(given, path, fill, { toolChange, beamWord: 'M3' });
}

/** The control of a laser: it changes no tools. */
export function resolveLaserControl(given: GivenOf<'laser'>, path: string, fill: Fill): Controller {
  const beamWord = fill.plain(
    `${path}.beamWord`,
    given?.beamWord,
    'M3',
    'the power is what the S word says, at any speed',
  );
  return resolveControl(given, path, fill, { toolChange: 'none', beamWord });
}

function resolveControl(given: Given, path: string, fill: Fill, own: Own): Controller {
  return {
    ...motionWords(given, path, fill),
    ...stateWords(given, path, fill),
    ...textForm(given, path, fill),
    ...own,
  };
}

type MotionWords = Pick<Controller, 'arcPlanes' | 'drillCycles' | 'exactPath' | 'corners' | 'straightRapids'>;

function motionWords(given: Given, path: string, fill: Fill): MotionWords {
  return {
    arcPlanes: fill.shown(`${path}.arcPlanes`, given?.arcPlanes, [], 'none', NOT_STATED),
    drillCycles: fill.plain(`${path}.drillCycles`, given?.drillCycles, false, NOT_STATED),
    exactPath: fill.plain(`${path}.exactPath`, given?.exactPath, false, NOT_STATED),
    corners: given?.exactPath === true ? 0 : cornersOf(given, path, fill),
    straightRapids: fill.plain(
      `${path}.straightRapids`,
      given?.straightRapids,
      false,
      'the careful assumption',
    ),
  };
}

/** Unknown unless stated: a control that blends moves together cuts another shape than the one written. */
function cornersOf(given: Given, path: string, fill: Fill): number | null {
  const why = 'what a control without G61 does where moves meet stands in its manual';
  return fill.shown(`${path}.corners`, given?.corners, null, 'unknown', why);
}

type StateWords = Pick<Controller, 'workOffset' | 'dwellUnit' | 'lengthOffset' | 'programEnd'>;

function stateWords(given: Given, path: string, fill: Fill): StateWords {
  return {
    workOffset: fill.plain(
      `${path}.workOffset`,
      given?.workOffset,
      'G54',
      'the first work offset of every published grammar',
    ),
    dwellUnit: fill.plain(
      `${path}.dwellUnit`,
      given?.dwellUnit,
      'seconds',
      'what P counts in the published grammar (NISTIR 6556, 3.5.4)',
    ),
    lengthOffset: fill.plain(
      `${path}.lengthOffset`,
      given?.lengthOffset,
      'G49',
      'each tool is touched off, so an offset left from before must be off',
    ),
    programEnd: fill.plain(
      `${path}.programEnd`,
      given?.programEnd,
      'M2',
      'ends a program in every published grammar',
    ),
  };
}

type TextForm = Omit<Controller, keyof MotionWords | keyof StateWords | keyof Own>;

function textForm(given: Given, path: string, fill: Fill): TextForm {
  const units: LengthUnit = fill.plain(
    `${path}.units`,
    given?.units,
    'mm',
    'all computing is in millimetres',
  );
  return {
    units,
    decimals: fill.plain(`${path}.decimals`, given?.decimals, units === 'in' ? 5 : 4, decimalsWhy(units)),
    comments: fill.plain(
      `${path}.comments`,
      given?.comments,
      true,
      'round brackets are skipped by nearly every control',
    ),
    lineNumbers: fill.plain(`${path}.lineNumbers`, given?.lineNumbers, false, 'not needed'),
    numbering: fill.shown(
      `${path}.numbering`,
      given?.numbering,
      { start: 5, step: 5 },
      'from 5 in steps of 5',
      'a line can be put between two; written only with lineNumbers',
    ),
    percentLines: fill.plain(
      `${path}.percentLines`,
      given?.percentLines,
      false,
      'M2 or M30 ends a program without them',
    ),
    wordSpaces: fill.plain(`${path}.wordSpaces`, given?.wordSpaces, true, 'easier to read'),
    lineLength: fill.plain(
      `${path}.lineLength`,
      given?.lineLength,
      LONGEST_LINE,
      'the published grammar takes 256 (NISTIR 6556, 3.3)',
    ),
  };
}

function decimalsWhy(units: LengthUnit): string {
  return units === 'in'
    ? 'a step of 0.00001 in is 0.00025 mm, as fine as four digits in millimetres'
    : 'rounding stays under 0.001 mm in arcs';
}
