// Node's own modules only: this runs before anything is installed.
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { runNpm } from './child.mjs';

const OLDEST_NODE = 20;

/** Ends the run with one plain line when Node is too old for what follows. */
export function requireNode() {
  if (Number.parseInt(process.versions.node, 10) >= OLDEST_NODE) return;
  console.error(`Handspan needs Node ${OLDEST_NODE} or later; this is ${process.versions.node}.`);
  process.exit(2);
}

/**
 * Installs what the folder's lock file names when it is not there yet, or not in those versions.
 *
 * @param {string} folder
 * @param {readonly string[]} [npmOptions]
 */
export async function installIfStale(folder, npmOptions = []) {
  if (!isStale(folder)) return;
  console.log(`Installing the packages of ${path.relative(process.cwd(), folder) || 'the project'} …`);
  const code = await runNpm(['ci', '--no-audit', '--no-fund', ...npmOptions], { cwd: folder });
  if (code !== 0) throw new Error(`npm ci failed in ${folder} (exit code ${code})`);
}

/** @typedef {{ readonly packages: Readonly<Record<string, { readonly version?: string, readonly optional?: boolean, readonly devOptional?: boolean }>> }} Lock */

/**
 * Compares the lock file with the one that npm leaves inside node_modules. Times would tell less: a fresh checkout
 * makes every file new. Optional packages are left out, since some of them belong to other systems.
 *
 * @param {string} folder
 */
function isStale(folder) {
  const installed = path.join(folder, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return true;
  const wanted = readLock(path.join(folder, 'package-lock.json')).packages;
  const found = readLock(installed).packages;
  return Object.entries(wanted).some(
    ([place, one]) => place !== '' && !one.optional && !one.devOptional && found[place]?.version !== one.version,
  );
}

/**
 * @param {string} file
 * @returns {Lock}
 */
function readLock(file) {
  return JSON.parse(readFileSync(file, 'utf8'));
}
