// Bundles everything that ships into dist/. `node esbuild.mjs --debug` leaves names and source maps in.
import { copyFileSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { build, transform } from 'esbuild';
import { HAND_OUT_BUNDLE } from './server/hand-out/bundle.mjs';

const debug = process.argv.includes('--debug');
/** @type {import('esbuild').BuildOptions} */
const shared = {
  bundle: true,
  minify: !debug,
  sourcemap: debug ? 'linked' : false,
  target: 'es2022',
  outdir: 'dist',
  logLevel: 'warning',
  legalComments: 'none',
};
/** @type {import('esbuild').BuildOptions} */
const node = { ...shared, platform: 'node', format: 'cjs', target: 'node20' };
/** @type {import('esbuild').BuildOptions} */
const page = {
  ...shared,
  platform: 'browser',
  format: 'iife',
  loader: { '.woff': 'file' },
  assetNames: 'fonts/[name]',
};

const handOut = { ...shared, ...HAND_OUT_BUNDLE };

rmSync('dist', { recursive: true, force: true });
await Promise.all([
  buildParted({
    server: 'server/node.ts',
    handspan: 'server/command-line/main.ts',
    // Each thread of the two above that makes files.
    desk: 'server/hand-out/desk-thread.ts',
  }),
  build({ ...node, entryPoints: { client: 'client/node.ts' }, external: ['vscode'] }),
  build({
    ...shared,
    platform: 'browser',
    format: 'cjs',
    entryPoints: { 'client.web': 'client/web.ts' },
    external: ['vscode'],
  }),
  // A classic script: the editor's web worker gave no answer to a module.
  // A worker has no DOM: without the condition, libraries give their browser form, which asks for `document`.
  build({ ...page, conditions: ['worker'], entryPoints: { 'server.worker': 'server/worker.ts' } }),
  build(handOut),
  build({ ...page, entryPoints: { preview: 'client/preview/page.ts', 'preview-style': 'client/preview/page.css' } }),
  build({ ...page, entryPoints: { paint: 'client/hand-out/picture-page/page.ts' } }),
  // What an interactive page is written with: it goes into the file that is handed out.
  build({ ...page, sourcemap: false, entryPoints: { 'hand-out-page': 'client/hand-out-page/page.ts' } }),
  build({ ...page, sourcemap: false, entryPoints: { 'hand-out-page': 'client/hand-out-page/page.css' } }),
]);
// The painter of PNG pictures is too large for the packed extension: it lies beside the command line and is not packed.
copyFileSync(createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm'), 'dist/rasteriser.wasm');

/**
 * Node's programs, parted so that what several of them need lies in dist/ once and each loads nothing but its own. The bundler parts
 * ES modules alone; each part is turned into a script for `require`, which starts sooner than Node's loader of modules.
 *
 * @param {Readonly<Record<string, string>>} entryPoints
 */
async function buildParted(entryPoints) {
  const sourcemap = debug ? 'inline' : false;
  const { outputFiles } = await build({
    ...node,
    entryPoints,
    format: 'esm',
    splitting: true,
    write: false,
    sourcemap,
  });
  mkdirSync('dist', { recursive: true });
  for (const { path, text } of outputFiles) {
    const { code } = await transform(text, {
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      minify: !debug,
      sourcemap,
      // So that a part is asked for in the same way everywhere.
      supported: { 'dynamic-import': false },
    });
    writeFileSync(path, code);
  }
}
