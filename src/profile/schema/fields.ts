/**
 * The kinds of values that files hold, as zod types that explain themselves.
 *
 * Each carries its description and JSON Schema type for editors. A failed one adds a single issue whose message is the
 * sentence for the reader and whose `params` say what is allowed and what to do.
 */
import Fraction from 'fraction.js';
import * as z from 'zod';
import { ACCELERATION_FORMS, parseAcceleration } from '../../units/acceleration.ts';
import { ANGLE_FORMS, parseAngle } from '../../units/angle.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import type { Parsed } from '../../units/exact.ts';
import { formatInches, formatShort } from '../../units/format.ts';
import { LENGTH_FORMS, parseLength } from '../../units/length.ts';
import { CONCERT_PITCH, PITCH_FORMS, parsePitch } from '../../units/pitch.ts';
import { parseSpeed, SPEED_FORMS } from '../../units/speed.ts';
import type { LengthUnit } from '../types.ts';

/** Compiling a reader for each group pays off after many files; a run reads five. */
export const PARSE_ONCE = { jitless: true } as const;

/** Message of an issue for a missing key that has no sentence of its own. */
export const MISSING = 'missing';

/** What an issue of ours carries besides its sentence. */
export interface IssueParams {
  readonly code: string;
  readonly allowed?: string;
  readonly remedy?: string;
}

export type Range = readonly [least: number, most: number];

/** Context that a file sets for all its values. */
export interface FileContext {
  /** Unit of bare lengths. */
  readonly units: LengthUnit;
  /** Of A4, hertz. */
  readonly concertPitch: number;
}

/** The context when a file says nothing: what the schema for editors is made with. */
export const PLAIN_CONTEXT: FileContext = { units: 'mm', concertPitch: CONCERT_PITCH };

interface Quantity {
  readonly about: string;
  readonly code: string;
  readonly forms: string;
  readonly parse: (written: string | number) => Parsed<number>;
  readonly range: Range;
  readonly show: (value: number) => string;
  /** Said when the field is missing. */
  readonly whenMissing?: string;
}

/** A length in mm, shown in the file's unit. */
export const showLength = (mm: number, units: LengthUnit): string =>
  units === 'mm' ? `${formatShort(mm, 3)} mm` : `${formatInches(mm, 4).replace(/\.?0+$/, '')} in`;

const showHertz = (hertz: number): string => `${formatShort(hertz, 2)} Hz`;

const parseHertz = (written: string | number): Parsed<number> =>
  typeof written === 'number' ? { ok: true, value: written } : parsePitch(written);

const showDegrees = (radians: number): string => `${formatShort(degreesFromRadians(radians), 3)} deg`;

/** A group of keys in which every other key is refused. The refusal's message lists the keys there are. */
export const group = <Shape extends z.core.$ZodLooseShape>(shape: Shape, about: string) =>
  z
    .strictObject(shape, {
      error: (issue) => (issue.code === 'unrecognized_keys' ? Object.keys(shape).join(', ') : undefined),
    })
    .meta({ description: about });

/** One of a few words. */
export const choice = <const Words extends readonly string[]>(words: Words, about: string) =>
  z.enum(words).meta({ description: about });

export const flag = (about: string) => z.boolean().meta({ description: about });

export const wholeNumber = (about: string, [least, most]: Range) =>
  z.int().min(least).max(most).meta({ description: about });

export const plainNumber = (about: string, [least, most]: Range) =>
  z.number().min(least).max(most).meta({ description: about });

/** Names become labels and comments: any script, but nothing that could end a line or hide what follows. */
export const text = (about: string) =>
  z
    .unknown()
    .transform((raw, context): string => {
      const problem = textProblem(raw);
      return problem === null ? String(raw).trim() : addIssue(context, problem, textParams(raw));
    })
    .meta({ type: 'string', description: about });

const LONGEST_TEXT = 80;

function textProblem(raw: unknown): string | null {
  if (raw === null || raw === '') return 'There is no text here.';
  if (typeof raw !== 'string') return 'This must be a text.';
  if (raw.trim() === '') return 'There is no text here.';
  if (/[\p{Cc}\p{Zl}\p{Zp}]/u.test(raw))
    return 'The text holds a line break, a tab or another control character.';
  if (/[\p{Cs}\u202a-\u202e\u2066-\u2069\ufeff]/u.test(raw)) {
    return 'The text holds a character that hides or turns what follows it.';
  }
  return [...raw].length > LONGEST_TEXT ? 'The text is too long for a label.' : null;
}

const textParams = (raw: unknown): IssueParams => ({
  code: 'bad-text',
  allowed: `one line of at most ${LONGEST_TEXT} printable letters, in any script`,
  ...(typeof raw === 'number' || typeof raw === 'boolean' ? { remedy: 'Put it in quotes.' } : {}),
});

/** A word that other fields refer to: a machine's id, a stock item's id. */
export const identifier = (about: string) =>
  z
    .unknown()
    .transform((raw, context): string =>
      typeof raw === 'string' && /^[a-z0-9][a-z0-9-]{0,39}$/.test(raw)
        ? raw
        : addIssue(context, 'This cannot serve as an id.', {
            code: 'bad-id',
            allowed: 'small letters a to z, digits and hyphens, at most 40',
          }),
    )
    .meta({ type: 'string', pattern: '^[a-z0-9][a-z0-9-]{0,39}$', description: about });

/** A share from 0 to 1, or as `80 %`. */
export const share = (about: string, [least, most]: Range) =>
  quantity({
    about,
    code: 'bad-share',
    forms: 'a number from 0 to 1, or a percentage: 0.8, 80 %',
    parse: parseShare,
    range: [least, most],
    show: (value) => formatShort(value, 4),
  });

function parseShare(written: string | number): Parsed<number> {
  if (typeof written === 'number') return { ok: true, value: written };
  const percent = /^(\d{1,3}(?:\.\d{1,6})?) ?%$/.exec(written.trim());
  if (percent !== null) return { ok: true, value: Number(percent[1]) / 100 };
  return { ok: false, problem: 'This is not a share.' };
}

/** A fret by its name: `7`, or `6+` for the half fret behind it, which is read as 6.5. */
export const fretName = (about: string, range: Range) =>
  quantity({
    about,
    code: 'bad-fret',
    forms: 'the number of a fret (7), or of a half fret (6+)',
    parse: parseFretName,
    range,
    show: showFretName,
  });

function parseFretName(written: string | number): Parsed<number> {
  if (typeof written === 'number' && Number.isInteger(written)) return { ok: true, value: written };
  const name = /^(\d{1,2})(\+?)$/.exec(String(written).trim());
  if (name === null) return { ok: false, problem: 'This is not the name of a fret.' };
  return { ok: true, value: Number(name[1]) + (name[2] === '+' ? 0.5 : 0) };
}

/** A fret's name as it is written: 6.5 is `6+`. */
export const showFretName = (fret: number): string =>
  Number.isInteger(fret) ? String(fret) : `${Math.floor(fret)}+`;

/** An exact ratio: `3/2`; kept as the fraction it is. */
export const ratio = (about: string, [least, most]: Range) =>
  z
    .unknown()
    .transform((raw, context): Fraction => {
      const code = 'bad-ratio';
      const allowed = `a ratio of whole numbers such as 3/2, from ${least} to ${most}`;
      const written = typeof raw === 'number' ? String(raw) : raw;
      if (typeof written !== 'string' || !/^\d{1,9}([:/]\d{1,9}|\.\d{1,9})?$/.test(written.trim()))
        return addIssue(context, 'This is not a ratio.', { code, allowed });
      const [above, below] = written.trim().split(/[:/]/);
      if (Number(below ?? 1) === 0) return addIssue(context, 'Nothing divides by 0.', { code, allowed });
      const value = new Fraction(above ?? '').div(below ?? 1);
      if (value.compare(least) < 0 || value.compare(most) > 0)
        return addIssue(context, `${value.toFraction()} makes no sense here.`, { code, allowed });
      return value;
    })
    .meta({ type: ['string', 'number'], description: about });

/** The kinds of values that depend on what the file says about its units and pitch. */
export function fieldsFor({ units, concertPitch }: FileContext) {
  return {
    length: (about: string, range: Range, whenMissing?: string) =>
      quantity({
        about,
        code: 'bad-length',
        forms: LENGTH_FORMS,
        parse: (written) => parseLength(written, units),
        range,
        show: (value) => showLength(value, units),
        ...(whenMissing === undefined ? {} : { whenMissing }),
      }),
    /** A length, or the word for one beyond all: infinity. */
    lengthOr: (about: string, range: Range, word: string) => {
      const spec: Quantity = {
        about,
        code: 'bad-length',
        forms: `${word}, or a length: ${LENGTH_FORMS}`,
        parse: (written) => parseLength(written, units),
        range,
        show: (value) => showLength(value, units),
      };
      return z
        .unknown()
        .transform((raw, context): number =>
          raw === word ? Number.POSITIVE_INFINITY : readQuantity(raw, context, spec),
        )
        .meta({ type: ['number', 'string'], description: about });
    },
    speed: (about: string, range: Range) =>
      quantity({
        about,
        code: 'bad-speed',
        forms: SPEED_FORMS,
        parse: (written) => parseSpeed(written, units),
        range,
        show: (value) => `${showLength(value, units)}/min`,
      }),
    acceleration: (about: string, range: Range) =>
      quantity({
        about,
        code: 'bad-acceleration',
        forms: ACCELERATION_FORMS,
        parse: (written) => parseAcceleration(written, units),
        range,
        show: (value) => `${showLength(value, units)}/s^2`,
      }),
    angle: (about: string, [least, most]: Range) =>
      quantity({
        about,
        code: 'bad-angle',
        forms: ANGLE_FORMS,
        parse: parseAngle,
        range: [least, most],
        show: showDegrees,
      }),
    /** Keeps what was written beside the hertz it means. */
    pitch: (about: string, range: Range) => {
      const spec: Quantity = {
        about,
        code: 'bad-pitch',
        forms: PITCH_FORMS,
        parse: (written) => parsePitch(written, concertPitch),
        range,
        show: showHertz,
      };
      return z
        .unknown()
        .transform((raw, context) => ({
          written: String(raw).trim(),
          hertz: readQuantity(raw, context, spec),
        }))
        .meta({ type: 'string', description: about });
    },
    hertz: (about: string, range: Range) =>
      quantity({
        about,
        code: 'bad-pitch',
        forms: '440 or 440 Hz',
        parse: parseHertz,
        range,
        show: showHertz,
      }),
  };
}

export type Fields = ReturnType<typeof fieldsFor>;

function quantity(spec: Quantity) {
  return z
    .unknown()
    .transform((raw, context): number => readQuantity(raw, context, spec))
    .meta({ type: ['number', 'string'], description: spec.about });
}

type Context = z.core.$RefinementCtx<unknown>;

function readQuantity(raw: unknown, context: Context, spec: Quantity): number {
  const { code, forms: allowed } = spec;
  if (raw === undefined)
    return addIssue(context, spec.whenMissing ?? MISSING, { code: 'missing-key', allowed });
  if (raw === null || raw === '') return addIssue(context, 'There is no value here.', { code, allowed });
  if (typeof raw !== 'string' && typeof raw !== 'number') {
    return addIssue(context, 'This must be a single value.', { code, allowed });
  }
  const parsed = spec.parse(raw);
  if (!parsed.ok) return addIssue(context, parsed.problem, { code, allowed });
  return checkRange(parsed.value, context, spec);
}

function checkRange(value: number, context: Context, { code, range, show }: Quantity): number {
  const [least, most] = range;
  // A hair of room, so that a limit written in inches is inside the limit in millimetres.
  const hair = 1e-9 * Math.max(1, Math.abs(most));
  if (value >= least - hair && value <= most + hair) return value;
  const side = value < least ? 'less than' : 'more than';
  return addIssue(context, `${show(value)} is ${side} makes sense here.`, {
    code: `${code}-size`,
    allowed: `${show(least)} to ${show(most)}`,
  });
}

function addIssue(context: Context, message: string, params: IssueParams): never {
  context.issues.push({ code: 'custom', message, input: context.value, params: { ...params } });
  return z.NEVER;
}
