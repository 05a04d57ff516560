import { spawn } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';
import { PROJECT_ROOT } from './project-root.mjs';

/**
 * Runs a program with our own input and output and answers with its exit code; 1 when it was ended by a signal.
 *
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 * @returns {Promise<number>}
 */
export async function run(program, args, options = {}) {
  const child = spawn(program, args, { cwd: PROJECT_ROOT, stdio: 'inherit', ...options });
  const [code] = await once(child, 'exit');
  return code ?? 1;
}

/**
 * Runs a Node program.
 *
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 */
export function runNode(args, options) {
  return run(process.execPath, args, options);
}

/**
 * Runs npm: the one that started us where there is one, since on Windows the command is a script that needs a shell.
 *
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 */
export function runNpm(args, options = {}) {
  const npm = process.env.npm_execpath;
  if (npm?.endsWith('.js')) return runNode([npm, ...args], options);
  return run('npm', args, { shell: process.platform === 'win32', ...options });
}

/**
 * The script behind a command that a package brings, to be run by Node itself on every system.
 *
 * @param {string} relative such as `typescript/bin/tsc`
 */
export function packageScript(relative) {
  return path.join(PROJECT_ROOT, 'node_modules', ...relative.split('/'));
}
