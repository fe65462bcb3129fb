// Writes profiles/schema/*.json from the zod schemas in src/profile/schema, for completion in editors.
// The sources are TypeScript, which Node 20 cannot load: esbuild bundles them in memory first.
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const built = await build({
  entryPoints: [join(root, 'src/profile/schema/jsonSchema.ts')],
  bundle: true,
  write: false,
  format: 'esm',
  platform: 'node',
  target: 'node20',
});
const code = built.outputFiles[0].text;
const { schemaFiles } = await import(`data:text/javascript;base64,${Buffer.from(code).toString('base64')}`);

const folder = join(root, 'profiles/schema');
await mkdir(folder, { recursive: true });
for (const { name, text } of schemaFiles()) {
  await writeFile(join(folder, name), text);
  console.log(`profiles/schema/${name}`);
}
