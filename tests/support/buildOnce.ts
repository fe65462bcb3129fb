import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

/** The command-line tests run the bundle a user runs, so it is built anew before any of them. */
export default function setup(): void {
  execFileSync(process.execPath, ['scripts/build.mjs'], {
    cwd: join(import.meta.dirname, '../..'),
    stdio: 'inherit',
  });
}
