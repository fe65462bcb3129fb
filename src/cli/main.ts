#!/usr/bin/env node
import { VERSION } from '../app/version.ts';

// The version answers before anything heavy is loaded.
const words = process.argv.slice(2);
if (words.length === 1 && (words[0] === '--version' || words[0] === '-v')) {
  process.stdout.write(`${VERSION}\n`);
} else {
  const { run } = await import('./run.ts');
  process.exitCode = await run(words);
}
