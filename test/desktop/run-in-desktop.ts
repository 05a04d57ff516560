import { cp, mkdtemp, realpath, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { runTests } from '@vscode/test-electron';
import { PROJECT_ROOT } from '../runner/project-root.mjs';
import type { HostResult } from '../workbench/host-suite/check.ts';
import { readHostReport } from '../workbench/host-suite-report.ts';
import { bundleForEditor, HOST_SUITE, stageProduct } from '../workbench/staged-extensions.mjs';
import { findDesktop } from './find-desktop.mjs';

/** The suite in the desktop editor, whose extensions run in Node. */
export async function runInDesktop(): Promise<readonly HostResult[]> {
  const scratch = await realpath(await mkdtemp(path.join(tmpdir(), 'handspan-desktop-')));
  const [product, lessons] = [path.join(scratch, 'product'), path.join(scratch, 'lessons')];
  try {
    await cp(path.join(PROJECT_ROOT, 'test', 'workbench', 'lessons'), lessons, { recursive: true });
    await stageProduct(product);
    const suite = path.join(product, 'suite.js');
    await bundleForEditor(HOST_SUITE, suite);
    await runTests({
      vscodeExecutablePath: await findDesktop(),
      extensionDevelopmentPath: product,
      extensionTestsPath: suite,
      launchArgs: [
        lessons,
        '--disable-extensions',
        '--disable-workspace-trust',
        '--user-data-dir',
        path.join(scratch, 'data'),
      ],
    });
    return await readHostReport(lessons);
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}
