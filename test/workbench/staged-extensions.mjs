import { cp, mkdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { build } from 'esbuild';
import { shippedFiles } from '../packaging/vsix.mjs';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

/** What runs inside the extension host of every editor. */
export const HOST_SUITE = path.join(PROJECT_ROOT, 'test', 'workbench', 'host-suite', 'main.ts');

/** The web editor asks for this file of every extension, and the test server would print that it found none. */
const NO_TRANSLATIONS = '{}';

/**
 * Copies just the files that the package would hold: what the package forgets is missed here too.
 *
 * @param {string} folder
 */
export async function stageProduct(folder) {
  for (const name of await shippedFiles()) {
    await cp(path.join(PROJECT_ROOT, name), path.join(folder, name), { recursive: true });
  }
  await writeFile(path.join(folder, 'package.nls.json'), NO_TRANSLATIONS);
}

/**
 * Bundles an extension of the tests, whose folder holds a package.json and a main.ts.
 *
 * @param {string} source relative to the project
 * @param {string} folder
 * @param {Readonly<Record<string, unknown>>} [additions] to its package.json
 */
export async function stageHelper(source, folder, additions = {}) {
  const from = path.join(PROJECT_ROOT, source);
  const manifest = JSON.parse(await readFile(path.join(from, 'package.json'), 'utf8'));
  await mkdir(folder, { recursive: true });
  await writeFile(path.join(folder, 'package.json'), JSON.stringify({ ...manifest, ...additions }));
  await writeFile(path.join(folder, 'package.nls.json'), NO_TRANSLATIONS);
  await bundleForEditor(path.join(from, 'main.ts'), path.join(folder, 'main.js'));
}

/**
 * Bundles a module as the editor's extension host loads it.
 *
 * @param {string} from
 * @param {string} to
 */
export async function bundleForEditor(from, to) {
  await build({
    entryPoints: [from],
    outfile: to,
    bundle: true,
    platform: 'browser',
    format: 'cjs',
    target: 'es2022',
    external: ['vscode'],
    sourcemap: 'inline',
    logLevel: 'warning',
  });
}
