import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { OUTPUT, PROJECT_ROOT } from './project-root.mjs';

/**
 * Bundles a module of the tests that is written in TypeScript, and loads it into this program.
 *
 * @param {string} entry relative to the project
 * @returns {Promise<any>} what it exports
 */
export async function loadTypeScript(entry) {
  const outfile = path.join(OUTPUT, `${path.basename(entry, '.ts')}.mjs`);
  await build({
    entryPoints: [path.join(PROJECT_ROOT, entry)],
    outfile,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    logLevel: 'warning',
  });
  return import(pathToFileURL(outfile).href);
}
