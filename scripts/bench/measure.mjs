// Times and peak memory of child processes.
import { spawnSync } from 'node:child_process';

/** One run of node with arguments: wall milliseconds and exit status. */
export function runNode(args) {
  const start = process.hrtime.bigint();
  const { status } = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'ignore'] });
  return { ms: Number(process.hrtime.bigint() - start) / 1e6, status };
}

/** Wall milliseconds of a run that must succeed. */
export function timeNode(args) {
  const { ms, status } = runNode(args);
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}`);
  return ms;
}

/** Peak memory of a run in MB, as the child itself reports it when it ends. */
export function memoryOf(args) {
  const hook = "process.on('exit',()=>process.stderr.write('\\nPEAK '+process.resourceUsage().maxRSS+'\\n'))";
  const url = `data:text/javascript,${encodeURIComponent(hook)}`;
  const { stderr } = spawnSync(process.execPath, ['--import', url, ...args], { encoding: 'utf8' });
  return Number(/PEAK (\d+)/.exec(stderr)?.[1]) / 1024;
}

/** What a run of node prints, as JSON. */
export function jsonFrom(args) {
  const { stdout, stderr, status } = spawnSync(process.execPath, args, {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return JSON.parse(stdout);
}

export function median(list) {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** `count` results of a measurement. */
export function repeat(count, measure) {
  return Array.from({ length: count }, measure);
}

export function round(value, digits) {
  return Number(value.toFixed(digits));
}
