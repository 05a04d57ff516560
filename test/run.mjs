// Everything that proves the product: `node test/run.mjs [normal] [newest] [node-host] [desktop]`, or all at once.
// Installs and builds first, and ends with one line summed from the reports that the runners wrote.
import { runNode } from './runner/child.mjs';
import { installIfStale, requireNode } from './runner/dependencies.mjs';
import { PROJECT_ROOT } from './runner/project-root.mjs';

requireNode();
const asked = process.argv.slice(2);
process.exitCode = await main(asked.length === 0 ? ['normal'] : asked);

/**
 * @param {readonly string[]} sets
 * @returns {Promise<number>} the exit code
 */
async function main(sets) {
  await installIfStale(PROJECT_ROOT);
  // Only now is there anything to import that needs a package.
  const { STEPS } = await import('./runner/steps.mjs');
  const { clearReports, sumOfReports, writeReport } = await import('./runner/report.mjs');

  const unknown = sets.filter((name) => !Object.hasOwn(STEPS, name));
  if (unknown.length > 0) {
    console.error(`There is no set called ${unknown.join(', ')}. There are: ${Object.keys(STEPS).join(', ')}.`);
    return 2;
  }

  await clearReports();
  const built = (await timed('build', () => runNode(['esbuild.mjs']))) === 0;
  await writeReport({
    runner: 'build',
    cases: [built ? { name: 'build', ok: true } : { name: 'build', ok: false, message: 'esbuild failed' }],
    skipped: [],
  });
  for (const step of sets.flatMap((name) => STEPS[name] ?? [])) {
    const report = await timed(step.name, async () => {
      if (step.needsBuild && !built) return notRun(step.name, 'not run: the build failed');
      return step.run().catch((error) => notRun(step.name, String(error)));
    });
    await writeReport(report);
  }

  const { passed, failures, skipped } = await sumOfReports();
  for (const name of skipped) console.log(`skipped  ${name}`);
  for (const name of failures) console.log(`failed   ${name}`);
  console.log(`${passed} passed, ${failures.length} failed`);
  return failures.length === 0 ? 0 : 1;
}

/**
 * @template T
 * @param {string} name
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
async function timed(name, work) {
  console.log(`\n── ${name}`);
  const start = performance.now();
  const outcome = await work();
  console.log(`── ${name}: ${((performance.now() - start) / 1000).toFixed(1)} s`);
  return outcome;
}

/**
 * @param {string} runner
 * @param {string} message
 * @returns {import('./runner/report.mjs').Report}
 */
function notRun(runner, message) {
  console.error(message);
  return { runner, cases: [{ name: runner, ok: false, message }], skipped: [] };
}
