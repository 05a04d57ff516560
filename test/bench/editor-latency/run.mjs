// `npm run bench -- editor`: builds the product and measures it in the real editor.
import { runNode } from '../../runner/child.mjs';
import { loadTypeScript } from '../../runner/load-typescript.mjs';

if ((await runNode(['esbuild.mjs'])) !== 0) process.exit(1);
/** @type {typeof import('./measure.ts')} */
const { measureEditor } = await loadTypeScript('test/bench/editor-latency/measure.ts');
await measureEditor();
