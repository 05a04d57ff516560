// `npm run bench`: what the core takes, against the budgets. `npm run bench -- editor`: key to paint in the real editor.
import { spawn } from 'node:child_process';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { Bench } from 'tinybench';

const HERE = import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname);
/** How long each case runs. Enough for a few hundred samples of the slowest that has a budget. Unit: ms. */
const TIME_MS = 1500;
const WARM_UP_MS = 400;

const OUTFILE = path.join(HERE, '..', 'output', 'core.bench.mjs');

if (process.argv[2] === 'editor') await import('./editor-latency/run.mjs');
else if (process.argv[2] === 'group') await measureGroup(Number(process.argv[3]));
else await measureCore();

async function measureCore() {
  await build({
    entryPoints: [path.join(HERE, 'core.bench.ts')],
    outfile: OUTFILE,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'warning',
  });
  const { groups } = await bundled();
  console.log(`${'what'.padEnd(56)} ${'median ms'.padStart(10)} ${'p95 ms'.padStart(10)} ${'budget'.padStart(10)}  `);
  for (const at of groups.keys()) {
    const child = spawn(process.execPath, [process.argv[1] ?? '', 'group', String(at)], { stdio: 'inherit' });
    const code = await new Promise((resolve) => child.on('exit', resolve));
    if (code !== 0) process.exitCode = 1;
  }
}

/** @returns {Promise<{ groups: readonly (() => readonly import('./bench-case.ts').BenchCase[])[] }>} */
function bundled() {
  return import(pathToFileURL(OUTFILE).href);
}

/** @param {number} at */
async function measureGroup(at) {
  const { groups } = await bundled();
  const medians = new Map();
  for (const one of groups[at]?.() ?? []) {
    const { median, p95 } = await measure(one);
    medians.set(one.name, median);
    const measured = one.budgetOf === 'median' ? median : p95;
    const budget = one.budgetMs === undefined ? '' : `${one.budgetMs}`;
    const verdict = one.budgetMs === undefined ? '' : measured <= one.budgetMs ? 'kept' : 'MISSED';
    const reference = one.reference === undefined ? undefined : medians.get(one.reference);
    const ratio = reference === undefined ? '' : `  ${told(reference / median, one)}`;
    console.log(`${one.name.padEnd(56)} ${shown(median)} ${shown(p95)} ${budget.padStart(10)}  ${verdict}${ratio}`);
  }
}

/**
 * @param {import('./bench-case.ts').BenchCase} one
 * @returns {Promise<{ median: number, p95: number }>}
 */
async function measure(one) {
  const bench = new Bench({ time: TIME_MS, warmupTime: WARM_UP_MS, retainSamples: true });
  bench.add(one.name, () => {
    one.run();
  });
  const [task] = await bench.run();
  const result = task?.result;
  if (result === undefined || !('latency' in result)) throw new Error(`${one.name} was not measured`);
  const samples = [...(result.latency.samples ?? [])].sort((a, b) => a - b);
  /** @param {number} share */
  const at = (share) => samples[Math.min(samples.length - 1, Math.floor(samples.length * share))] ?? Number.NaN;
  return { median: at(0.5), p95: at(0.95) };
}

/**
 * @param {number} times
 * @param {import('./bench-case.ts').BenchCase} one
 */
function told(times, { reference, timesAsFast }) {
  const wanted =
    timesAsFast === undefined ? '' : `, ${timesAsFast} wanted: ${times >= timesAsFast ? 'kept' : 'MISSED'}`;
  return `${times.toFixed(1)} times as fast as ${reference}${wanted}`;
}

/** @param {number} ms */
function shown(ms) {
  return (ms >= 0.1 ? ms.toFixed(2) : ms.toPrecision(3)).padStart(10);
}
