/** Reads an intent file: exactly the shape of `types.ts`, every problem named with its place. */
import { z } from 'zod';
import type { Intent } from './types.ts';

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
const surface = z.discriminatedUnion('kind', [plane, cone]);

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
  beam: z.strictObject({ power: atLeastZero, feed: size, passes: z.int().positive() }).nullable(),
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
  path: z.enum(['exact', 'blended']),
  maxFeed: z.strictObject({ xy: size, z: size }),
  spindle: range,
  understands: z.strictObject({
    arcPlanes: z.array(z.enum(['xy', 'xz', 'yz'])),
    drillCycles: z.boolean(),
    exactPath: z.boolean(),
    toolChange: z.boolean(),
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
  zMin: number,
  stepDown: atLeastZero,
  feed: range,
  plungeFeed: size,
  spindle: range,
});

const row = z.tuple([number, number, number, number]);
const intent = z.strictObject({
  format: z.literal(1),
  program: z.string().min(1),
  programSha256: z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in 64 lower-case hexadecimal digits'),
  units: z.literal('mm'),
  order: z.int().nonnegative(),
  after: z.array(z.string()),
  toPart: z.strictObject({
    matrix: z.array(row).length(3),
    mirrored: z.boolean(),
    workZero: z.string(),
  }),
  stock: z.strictObject({ region, bottom: number, top: surface }),
  machine,
  tool,
  limits,
  keepOuts: z.array(z.strictObject({ name: z.string(), region, z: range })),
  cuts: z.array(cut).min(1),
  end: z.strictObject({ spindle: z.literal('off'), position: z.tuple([number, number, number]) }),
});

export type ParsedIntent =
  | { readonly ok: true; readonly intent: Intent }
  | { readonly ok: false; readonly problems: string[] };

/**
 * Reads the text of an intent file. Unknown, missing and misplaced fields are problems, all named at once.
 *
 * @example parseIntent('{"format":2}') // { ok: false, problems: ['format: ...', 'program: ...', ...] }
 */
export function parseIntent(text: string): ParsedIntent {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return { ok: false, problems: [`not a JSON text: ${error.message}`] };
  }
  const parsed = intent.safeParse(data);
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.map(problemOf) };
  const doubled = repeatedIds(parsed.data);
  return doubled.length > 0 ? { ok: false, problems: doubled } : { ok: true, intent: parsed.data };
}

function problemOf(issue: z.core.$ZodIssue): string {
  const path = issue.path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('');
  return `${path.replace(/^\./, '') || 'the file'}: ${issue.message}`;
}

function repeatedIds({ cuts }: Intent): string[] {
  const seen = new Set<string>();
  return cuts.flatMap(({ id }, i) => {
    const isRepeated = seen.has(id);
    seen.add(id);
    return isRepeated ? [`cuts[${i}].id: ${id} is the name of an earlier cut too`] : [];
  });
}
