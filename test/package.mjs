// `npm run package`: builds, packs handspan-VERSION.vsix into the project folder and says how large it is.
import path from 'node:path';
import { runNode } from './runner/child.mjs';
import { installIfStale, requireNode } from './runner/dependencies.mjs';
import { PROJECT_ROOT } from './runner/project-root.mjs';

requireNode();
await installIfStale(PROJECT_ROOT);
if ((await runNode(['esbuild.mjs'])) !== 0) process.exit(1);
const { makeVsix, VSIX_LIMIT_BYTES } = await import('./packaging/vsix.mjs');
const { file, bytes } = await makeVsix(PROJECT_ROOT);
console.log(`${path.basename(file)}: ${bytes} bytes of at most ${VSIX_LIMIT_BYTES}`);
if (bytes > VSIX_LIMIT_BYTES) {
  console.error('The package is too large.');
  process.exitCode = 1;
}
