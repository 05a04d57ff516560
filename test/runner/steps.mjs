import path from 'node:path';
import { checkPackage } from '../packaging/check-package.mjs';
import { packageScript, runNode } from './child.mjs';
import { installIfStale } from './dependencies.mjs';
import { PROJECT_ROOT } from './project-root.mjs';
import { rawReportPath, reportOfVitest } from './report.mjs';

/** @typedef {{ readonly name: string, readonly needsBuild: boolean, run(): Promise<import('./report.mjs').Report> }} Step */

/**
 * A program that is one check: it passes or it does not.
 *
 * @param {string} name
 * @param {readonly (readonly string[])[]} commands the script of a package and its arguments; all must pass
 * @returns {Step}
 */
function command(name, commands) {
  return {
    name,
    needsBuild: false,
    async run() {
      const codes = await twoAtATime(
        commands.map(
          ([script = '', ...args]) =>
            () =>
              runNode([packageScript(script), ...args]),
        ),
      );
      const failed = codes.filter((code) => code !== 0);
      const message = `exit code ${failed.join(', ')}`;
      const result = failed.length === 0 ? { name, ok: true } : { name, ok: false, message };
      return { runner: name, cases: [result], skipped: [] };
    },
  };
}

/**
 * @param {string} name of the report
 * @param {string} project of vitest.config.mjs
 * @param {Readonly<Record<string, string>>} [environment]
 * @param {readonly string[]} [files] all of the project's when none is named
 * @returns {Step}
 */
function vitest(name, project, environment = {}, files = []) {
  return {
    name,
    needsBuild: project !== 'unit',
    async run() {
      const code = await runNode(
        [
          packageScript('vitest/vitest.mjs'),
          'run',
          ...files,
          '--project',
          project,
          '--reporter=default',
          '--reporter=json',
          `--outputFile.json=${rawReportPath(name)}`,
        ],
        { env: { ...process.env, ...environment } },
      );
      return reportOfVitest(name, code);
    },
  };
}

/**
 * The workbench tests in another editor than the daily one.
 *
 * @param {string} editor
 * @param {() => Promise<void>} prepare
 * @param {readonly string[]} [files]
 * @returns {Step}
 */
function workbenchIn(editor, prepare, files = []) {
  const step = vitest(`workbench-${editor}`, 'workbench', { HANDSPAN_EDITOR: editor }, files);
  return {
    ...step,
    async run() {
      await prepare();
      return step.run();
    },
  };
}

const TYPE_CHECKED = ['.', 'server', 'server/tsconfig.worker.json', 'client', 'client/preview', 'test'];

/**
 * As many as the smallest machines have cores for.
 *
 * @param {readonly (() => Promise<number>)[]} works
 */
async function twoAtATime(works) {
  /** @type {number[]} */
  const outcomes = [];
  const left = [...works];
  const oneAfterTheOther = async () => {
    for (let work = left.shift(); work !== undefined; work = left.shift()) outcomes.push(await work());
  };
  await Promise.all([oneAfterTheOther(), oneAfterTheOther()]);
  return outcomes;
}

/** @type {Readonly<Record<string, readonly Step[]>>} */
export const STEPS = {
  normal: [
    command(
      'types',
      TYPE_CHECKED.map((project) => ['typescript/bin/tsc', '-p', project]),
    ),
    command('lint', [['@biomejs/biome/bin/biome', 'check', '.', '--error-on-warnings']]),
    command('layers', [
      [
        'dependency-cruiser/bin/dependency-cruise.mjs',
        'shared',
        'server',
        'client',
        '--config',
        '.dependency-cruiser.cjs',
      ],
    ]),
    command('dead-code', [['knip/bin/knip.js']]),
    vitest('unit', 'unit'),
    vitest('protocol', 'protocol'),
    { name: 'package', needsBuild: true, run: checkPackage },
    vitest('workbench', 'workbench', { HANDSPAN_EDITOR: 'oldest' }),
  ],
  newest: [
    workbenchIn('newest', () => installIfStale(path.join(PROJECT_ROOT, 'test', 'newest'), ['--ignore-scripts'])),
  ],
  // In these two the extensions run in Node; the sheet is the same page as in the web editor.
  'node-host': [
    workbenchIn('node-host', async () => (await import('../node-host/prepare.mjs')).prepareNodeHost(), [
      'host-suite.spec.ts',
    ]),
  ],
  desktop: [
    workbenchIn('desktop', async () => {
      process.env.VSCODE_EXECUTABLE = await (await import('../desktop/find-desktop.mjs')).findDesktop();
    }, ['host-suite.spec.ts']),
  ],
};
