import { build } from 'esbuild';

/** Note name to hertz, or null for a name it does not know. */
export type FrequencyOf = (note: string) => number | null;

/**
 * `freq` of @tonaljs/note. The package's `main` names a file that it does not ship, so neither Node nor a plain import
 * finds it; esbuild follows its `module` field instead.
 */
export async function loadFrequencyOf(): Promise<FrequencyOf> {
  const built = await build({
    stdin: { contents: "export { freq } from '@tonaljs/note';", resolveDir: import.meta.dirname },
    bundle: true,
    write: false,
    format: 'esm',
    mainFields: ['module', 'main'],
  });
  const text = built.outputFiles[0]?.text ?? '';
  const library: { freq: FrequencyOf } = await import(
    /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(text)}`
  );
  return library.freq;
}
