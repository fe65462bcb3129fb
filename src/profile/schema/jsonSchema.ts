/** JSON Schema files (draft 2020-12) for editors: completion, descriptions, and squiggles under misspelt keys. */
import * as z from 'zod';
import { instrumentSchema } from './instrument.ts';
import { shopSchema } from './shop.ts';

/** One file of `profiles/schema`. */
export interface SchemaFile {
  readonly name: string;
  readonly text: string;
}

/** The schema files, the same bytes every time. */
export function schemaFiles(): readonly SchemaFile[] {
  return [
    { name: 'instrument.schema.json', text: jsonSchemaText(instrumentSchema()) },
    { name: 'shop.schema.json', text: jsonSchemaText(shopSchema()) },
  ];
}

// `io: 'input'`: what a file may say, not what its values turn into.
const jsonSchemaText = (schema: z.ZodType): string =>
  `${JSON.stringify(z.toJSONSchema(schema, { io: 'input', override: allowNone }), null, 2)}\n`;

/** A group marked `orNone` may also be that one word, and one marked `orAuto` that one. */
function allowNone({ jsonSchema }: { readonly jsonSchema: z.core.JSONSchema.BaseSchema }): void {
  const { orNone, orAuto, ...rest } = jsonSchema;
  if (orNone !== true) return;
  for (const key of Object.keys(jsonSchema)) delete jsonSchema[key];
  if (rest.description !== undefined) jsonSchema.description = rest.description;
  const auto = { const: 'auto', description: 'They are found where there is room.' };
  jsonSchema.anyOf = [
    { const: 'none', description: 'There are none.' },
    ...(orAuto === true ? [auto] : []),
    rest,
  ];
}
