/** Reads an intent file: exactly the shape of `types.ts`, every problem named with its place. */
import * as z from 'zod';
import type { Intent, ProgramIntent } from './types.ts';

const number = z.number();
const size = z.number().positive();
const atLeastZero = z.number().nonnegative();
const range = z.tuple([number, number]).refine(([a, b]) => a <= b, 'the first may not exceed the second');
const point = z.tuple([number, number]);
const ring = z.array(z.union([point, z.tuple([number, number, number])])).min(2);
const region = z.array(ring).min(1);

const plane = z.strictObject({ kind: z.literal('plane'), z: number });
const cone = z.strictObject({
  kind: z.literal('cone'),
  x: z.tuple([number, number]),
  R: z.tuple([size, size]),
  crest: number,
  below: number,
});
const run = z.tuple([number, number]);
const shaft = z.strictObject({
  kind: z.literal('shaft'),
  base: number,
  halfWidth: z.tuple([number, number]),
  grown: atLeastZero,
  raised: atLeastZero,
  top: number,
  least: number,
  stations: z.array(z.strictObject({ x: number, depth: run, shoulder: run, back: run })).min(1),
  ramps: z.strictObject({ x: range, rise: size }),
});
const surface = z.discriminatedUnion('kind', [plane, cone, shaft]);
const planed = z.strictObject({ kind: z.literal('planed'), z: number, x: range, floor: number });
const worked = z.strictObject({ kind: z.literal('worked'), z: number, x: range, cone });

const tolerance = z.strictObject({
  position: atLeastZero,
  wallOver: atLeastZero,
  wallUnder: atLeastZero,
  floorDeep: atLeastZero,
  floorShallow: atLeastZero,
  cusp: atLeastZero.nullable(),
});

const cut = z.strictObject({
  id: z.string().min(1),
  feature: z.string().min(1),
  kind: z.enum(['region', 'drill', 'separate', 'surface', 'line']),
  region: region.nullable(),
  line: z.array(point).min(2).nullable(),
  keep: region.nullable(),
  beam: z
    .strictObject({
      power: atLeastZero,
      feed: size,
      passes: z.int().positive(),
      pierce: z.exactOptional(size),
      leadIn: z.exactOptional(size),
      overCut: z.exactOptional(size),
    })
    .nullable(),
  floor: surface,
  from: z.literal('stockTop'),
  through: z.boolean(),
  mayCut: z.strictObject({ region, why: z.string() }).nullable(),
  mayRemain: z.strictObject({ region, maxGap: atLeastZero, why: z.string() }).nullable(),
  tabs: z.array(z.strictObject({ at: point, length: size, height: size })),
  tolerance,
});

const machine = z.strictObject({
  envelope: z.strictObject({ x: range, y: range, z: range }),
  rapid: z.enum(['straight', 'anyOrder']),
  path: z.enum(['exact', 'blended', 'unknown']),
  blend: z.exactOptional(size),
  maxFeed: z.strictObject({ xy: size, z: size }),
  spindle: range,
  spinUp: z.exactOptional(size),
  understands: z.strictObject({
    arcPlanes: z.array(z.enum(['xy', 'xz', 'yz'])),
    drillCycles: z.boolean(),
    exactPath: z.boolean(),
    toolChange: z.boolean(),
    workOffset: z.exactOptional(z.enum(['G54', 'G55', 'G56', 'G57', 'G58', 'G59'])),
    dwellUnit: z.exactOptional(z.enum(['seconds', 'milliseconds'])),
    lengthOffset: z.exactOptional(z.enum(['none', 'G49', 'G43'])),
    comments: z.exactOptional(z.literal(false)),
    percentLines: z.exactOptional(z.literal(true)),
    lineLength: z.exactOptional(z.int().min(80).max(256)),
    beamWord: z.exactOptional(z.enum(['M3', 'M4'])),
  }),
});

const width = z.strictObject({ diameter: size, from: atLeastZero });
const tool = z.strictObject({
  id: z.int().nonnegative(),
  kind: z.enum(['flat', 'ball', 'vee', 'drill', 'beam']),
  diameter: size,
  diameterRange: range,
  tipAngle: z.number().positive().max(180).nullable(),
  cutLength: atLeastZero,
  shank: width.nullable(),
  holder: z.array(width),
  kerf: size.nullable(),
});

const limits = z.strictObject({
  clearHeight: number,
  rapidFloor: number,
  travelHeight: z.exactOptional(number),
  zMin: number,
  stepDown: atLeastZero,
  feed: range,
  shaving: z.exactOptional(z.strictObject({ above: size, width: size })),
  plungeFeed: size,
  spindle: range,
});

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in 64 lower-case hexadecimal digits');
const cleared = z.strictObject({
  program: z.string().min(1),
  programSha256: sha256.nullable(),
  cut: z.string().min(1),
  region,
  z: number,
});
const row = z.tuple([number, number, number, number]);
const head = {
  format: z.literal(1),
  program: z.string().min(1),
  programSha256: sha256,
  units: z.literal('mm'),
  order: z.int().nonnegative(),
  after: z.array(z.string()),
};
const intent = z
  .strictObject({
    ...head,
    toPart: z.strictObject({
      matrix: z.array(row).length(3),
      mirrored: z.boolean(),
      workZero: z.string(),
      pins: z
        .array(z.strictObject({ feature: z.string(), at: z.tuple([number, number]) }))
        .min(2)
        .exactOptional(),
    }),
    stock: z.strictObject({
      region,
      bottom: number,
      top: z.discriminatedUnion('kind', [plane, cone, shaft, worked, planed]),
    }),
    machine,
    tool,
    limits,
    keepOuts: z.array(z.strictObject({ name: z.string(), region, z: range })),
    cuts: z.array(cut),
    cleared: z.exactOptional(z.array(cleared).min(1)),
    end: z.strictObject({ spindle: z.literal('off'), position: z.tuple([number, number, number]) }),
  })
  .refine((file) => file.cuts.length > 0 || onlyLooks(file), {
    path: ['cuts'],
    message:
      'at least one cut; none only where a cutter never goes below the clear height (limits.zMin = limits.clearHeight)',
  });
const staged = z.strictObject({ ...head, stages: z.array(intent).min(1) });

export type ParsedIntent =
  | { readonly ok: true; readonly intent: Intent }
  | { readonly ok: false; readonly problems: string[] };

export type ParsedProgramIntent =
  | { readonly ok: true; readonly intent: ProgramIntent }
  | { readonly ok: false; readonly problems: string[] };

/**
 * Reads the text of an intent file of one tool. Unknown, missing and misplaced fields are problems, all named at once.
 *
 * @example parseIntent('{"format":2}') // { ok: false, problems: ['format: ...', 'program: ...', ...] }
 */
export function parseIntent(text: string): ParsedIntent {
  const data = parseJson(text);
  return data.ok ? check(data.value, intent) : data;
}

/** The same for a file of one tool or of several (`stages`). */
export function parseProgramIntent(text: string): ParsedProgramIntent {
  const data = parseJson(text);
  if (!data.ok) return data;
  const isStaged = typeof data.value === 'object' && data.value !== null && 'stages' in data.value;
  return isStaged ? check(data.value, staged) : check(data.value, intent);
}

/** A program that only looks has no cuts. It is told from one whose cuts were lost by the height it never goes below. */
function onlyLooks({
  tool: { kind },
  limits: { zMin, clearHeight },
}: Pick<Intent, 'tool' | 'limits'>): boolean {
  return kind !== 'beam' && zMin === clearHeight;
}

type Json =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problems: string[] };

function parseJson(text: string): Json {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return { ok: false, problems: [`not a JSON text: ${error.message}`] };
  }
}

type Checked<T> =
  | { readonly ok: true; readonly intent: T }
  | { readonly ok: false; readonly problems: string[] };

function check<T extends ProgramIntent>(data: unknown, shape: z.ZodType<T>): Checked<T> {
  const parsed = shape.safeParse(data);
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.map(problemOf) };
  const doubled = repeatedIds(parsed.data);
  return doubled.length > 0 ? { ok: false, problems: doubled } : { ok: true, intent: parsed.data };
}

function problemOf(issue: z.core.$ZodIssue): string {
  const path = issue.path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('');
  return `${path.replace(/^\./, '') || 'the file'}: ${issue.message}`;
}

function repeatedIds(file: ProgramIntent): string[] {
  const seen = new Set<string>();
  const stages = 'stages' in file ? file.stages : [file];
  return stages.flatMap(({ cuts }, k) =>
    cuts.flatMap(({ id }, i) => {
      const isRepeated = seen.has(id);
      seen.add(id);
      const where = 'stages' in file ? `stages[${k}].cuts[${i}]` : `cuts[${i}]`;
      return isRepeated ? [`${where}.id: ${id} is the name of an earlier cut too`] : [];
    }),
  );
}
