#!/usr/bin/env node
import { VERSION } from '../app/version.ts';

/** Name of the bundle, without its ending; put in by the build. */
declare const TOOL: string;

// The version answers before anything heavy is loaded.
const words = process.argv.slice(2);
if (words.length === 1 && (words[0] === '--version' || words[0] === '-v')) {
  process.stdout.write(`${VERSION}\n`);
} else {
  const { loadTool } = await import('./loadTool.ts');
  process.exitCode = await loadTool(import.meta.dirname, TOOL).run(words);
}
