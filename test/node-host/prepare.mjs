import { existsSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { run, runNode } from '../runner/child.mjs';
import { installIfStale } from '../runner/dependencies.mjs';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

export const NODE_HOST = path.join(PROJECT_ROOT, 'test', 'node-host');

/** The Node that this editor asks for, which need not be ours. */
export const EDITORS_NODE = path.join(NODE_HOST, 'node_modules', 'node', 'bin', 'node');

export const EDITOR = path.join(NODE_HOST, 'node_modules', 'code-server');

/** Written last, so that a preparation that broke off is done again. */
const READY = path.join(NODE_HOST, 'node_modules', '.handspan-ready');

/** Fetches the editor and its own Node, and builds its native parts: some minutes on the first use, nothing afterwards. */
export async function prepareNodeHost() {
  await installIfStale(NODE_HOST, ['--ignore-scripts']);
  if (existsSync(READY)) return;
  if (!existsSync('/usr/include/gssapi.h') && existsSync('/usr/bin/apt-get') && process.getuid?.() === 0) {
    console.log('Installing the headers of Kerberos, which the editor builds against …');
    await run('apt-get', ['update', '-qq']);
    await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'libkrb5-dev']);
  }
  await must('its Node', runNode(['installArchSpecificPackage.js'], { cwd: path.dirname(path.dirname(EDITORS_NODE)) }));
  // The build asks the running npm which Node it belongs to: it must be started by the editor's Node and not know ours.
  const { npm_config_user_agent: _ours, ...environment } = process.env;
  await must(
    'the editor’s native parts; they need a C++ compiler, make, Python and the headers of Kerberos',
    run('npm', ['run', 'postinstall'], {
      cwd: EDITOR,
      env: { ...environment, PATH: `${path.dirname(EDITORS_NODE)}${path.delimiter}${process.env.PATH}` },
      shell: process.platform === 'win32',
    }),
  );
  await writeFile(READY, '');
}

/**
 * @param {string} what
 * @param {Promise<number>} exitCode
 */
async function must(what, exitCode) {
  if ((await exitCode) !== 0) throw new Error(`Could not prepare ${what}.`);
}
