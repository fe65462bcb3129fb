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

const HOOK = `data:text/javascript,${encodeURIComponent(
  "process.on('exit',()=>{const u=process.resourceUsage();process.stderr.write('\\nPEAK '+u.maxRSS+' CPU '+(u.userCPUTime+u.systemCPUTime)+'\\n')})",
)}`;

/** A run that tells what it cost when it ends. */
function costed(args) {
  const start = process.hrtime.bigint();
  const { stdout, stderr, status } = spawnSync(process.execPath, ['--import', HOOK, ...args], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  const ms = Number(process.hrtime.bigint() - start) / 1e6;
  const [, peak, cpu] = /PEAK (\d+) CPU (\d+)/.exec(stderr) ?? [];
  return { stdout, stderr, status, ms, peakMegabytes: Number(peak) / 1024, cpuMs: Number(cpu) / 1000 };
}

/** Peak memory of a run in MB, as the child itself reports it when it ends. */
export function memoryOf(args) {
  return costed(args).peakMegabytes;
}

/** What a run that must succeed prints as JSON, and what it cost: wall and processor milliseconds, MB at the peak. */
export function reportOf(args) {
  const { stdout, stderr, status, ms, peakMegabytes, cpuMs } = costed(args);
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return { json: JSON.parse(stdout), ms, peakMegabytes, cpuMs };
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
