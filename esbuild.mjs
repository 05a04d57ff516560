// Bundles everything that ships into dist/. `node esbuild.mjs --debug` leaves names and source maps in.
import { copyFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { build } from 'esbuild';
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
  build({ ...node, entryPoints: { server: 'server/node.ts' } }),
  build({ ...node, entryPoints: { handspan: 'server/command-line/main.ts' }, banner: { js: '#!/usr/bin/env node' } }),
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
  // What an interactive page is written with: it goes into the file that is handed out.
  build({ ...page, sourcemap: false, entryPoints: { 'hand-out-page': 'client/hand-out-page/page.ts' } }),
  build({ ...page, sourcemap: false, entryPoints: { 'hand-out-page': 'client/hand-out-page/page.css' } }),
]);
// The painter of PNG pictures is too large for the packed extension: it lies beside the command line and is not packed.
copyFileSync(createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm'), 'dist/rasteriser.wasm');
