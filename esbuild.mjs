// Bundles everything that ships into dist/. `node esbuild.mjs --debug` leaves names and source maps in.
import { rmSync } from 'node:fs';
import { build } from 'esbuild';

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
  loader: { '.woff2': 'file' },
  assetNames: 'fonts/[name]',
};

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
  build({ ...page, entryPoints: { preview: 'client/preview/page.ts', 'preview-style': 'client/preview/page.css' } }),
]);
