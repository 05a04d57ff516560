import { existsSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds the product's lock file, from wherever in it this code runs: some of it is bundled first. */
export const PROJECT_ROOT = rootAbove(path.dirname(fileURLToPath(import.meta.url)));

/** Where every run leaves what it made: reports, screenshots, logs. Git does not see it. */
export const OUTPUT = path.join(PROJECT_ROOT, 'test', 'output');

/**
 * @param {string} folder
 * @returns {string}
 */
function rootAbove(folder) {
  if (existsSync(path.join(folder, 'package-lock.json'))) return folder;
  const parent = path.dirname(folder);
  if (parent === folder) throw new Error('the project’s folder is nowhere above');
  return rootAbove(parent);
}
