// `npm run picture`: builds the product and makes the README's picture of the sheet beside a sample lesson.
import { runNode } from '../../runner/child.mjs';
import { loadTypeScript } from '../../runner/load-typescript.mjs';

if ((await runNode(['esbuild.mjs'])) !== 0) process.exit(1);
/** @type {typeof import('./take-picture.ts')} */
const { takePicture } = await loadTypeScript('test/workbench/picture/take-picture.ts');
await takePicture();
