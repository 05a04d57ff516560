import { existsSync } from 'node:fs';
import path from 'node:path';
import { downloadAndUnzipVSCode } from '@vscode/test-electron';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

/** The oldest desktop editor that the manifest allows. */
const VERSION = '1.91.1';

/**
 * The desktop editor's program: the one that VSCODE_EXECUTABLE names, else one that its makers' site gives.
 *
 * @returns {Promise<string>}
 * @throws with one plain line when there is none to be had
 */
export async function findDesktop() {
  const named = process.env.VSCODE_EXECUTABLE;
  if (named !== undefined) {
    if (existsSync(named)) return named;
    throw new Error(`VSCODE_EXECUTABLE names ${named}, and there is no such file.`);
  }
  try {
    return await downloadAndUnzipVSCode({ version: VERSION, cachePath: path.join(PROJECT_ROOT, '.vscode-test') });
  } catch {
    throw new Error('The desktop editor cannot be downloaded here: name its program in VSCODE_EXECUTABLE.');
  }
}
