import { fileURLToPath } from 'node:url';

/** @param {string} name */
const here = (name) => fileURLToPath(new URL(name, import.meta.url));

/**
 * What writes files to hand out is large, so it is loaded only where a file is written. One script for all hosts, without Node's
 * own modules so that files come out the same in each: Node requires it, a worker imports it and finds it under a global name.
 *
 * @type {import('esbuild').BuildOptions}
 */
export const HAND_OUT_BUNDLE = {
  entryPoints: { 'hand-out': here('main.ts') },
  bundle: true,
  platform: 'browser',
  conditions: ['worker'],
  format: 'iife',
  globalName: 'handspanHandOut',
  footer: { js: "if (typeof module === 'object') module.exports = handspanHandOut;" },
  // Faces are packed as WOFF, so the reader of WOFF2 stays out.
  alias: { 'brotli/decompress.js': here('no-woff2.ts') },
  // Where the library looks for a colour profile, which no file of ours has.
  define: { 'import.meta.url': '"https://invalid.example/"' },
};
