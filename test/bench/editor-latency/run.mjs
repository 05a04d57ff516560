// `npm run bench -- editor`: builds the product and measures it in the real editor.
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { runNode } from '../../runner/child.mjs';
import { OUTPUT, PROJECT_ROOT } from '../../runner/project-root.mjs';

if ((await runNode(['esbuild.mjs'])) !== 0) process.exit(1);
const outfile = path.join(OUTPUT, 'editor-latency.mjs');
await build({
  entryPoints: [path.join(PROJECT_ROOT, 'test', 'bench', 'editor-latency', 'measure.ts')],
  outfile,
  bundle: true,
  packages: 'external',
  platform: 'node',
  format: 'esm',
  logLevel: 'warning',
});
/** @type {typeof import('./measure.ts')} */
const { measureEditor } = await import(pathToFileURL(outfile).href);
await measureEditor();
