import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { createVSIX, listFiles, PackageManager } from '@vscode/vsce';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

/** The size that a packaged extension may reach, so that installing it is a matter of seconds. Unit: bytes. */
export const VSIX_LIMIT_BYTES = 2 * 1024 * 1024;

/** The files of the project that go into the package, as .vscodeignore leaves them. */
export async function shippedFiles() {
  return listFiles({ cwd: PROJECT_ROOT, packageManager: PackageManager.None });
}

/**
 * Packs what was built. The bundles carry their packages inside, so none is packed beside them.
 *
 * @param {string} folder that receives the file
 * @returns {Promise<{ readonly file: string, readonly bytes: number, readonly names: readonly string[] }>}
 */
export async function makeVsix(folder) {
  const manifest = JSON.parse(await readFile(path.join(PROJECT_ROOT, 'package.json'), 'utf8'));
  const file = path.join(folder, `${manifest.name}-${manifest.version}.vsix`);
  await createVSIX({
    cwd: PROJECT_ROOT,
    packagePath: file,
    dependencies: false,
    allowMissingRepository: true,
    // The project has no published home, so the picture in the README is looked for in the package itself.
    rewriteRelativeLinks: false,
  });
  return { file, bytes: (await stat(file)).size, names: zipEntryNames(await readFile(file)) };
}

/**
 * Reads a zip file's list of contents. Source of the layout: PKWARE APPNOTE.TXT 6.3.10, sections 4.3.12 and 4.3.16.
 *
 * @param {Buffer} zip
 */
function zipEntryNames(zip) {
  const END_OF_LIST = 0x06054b50;
  const LIST_ENTRY = 0x02014b50;
  let end = zip.length - 22;
  while (end >= 0 && zip.readUInt32LE(end) !== END_OF_LIST) end -= 1;
  if (end < 0) throw new Error('not a zip file');
  const names = [];
  let at = zip.readUInt32LE(end + 16);
  for (let count = zip.readUInt16LE(end + 10); count > 0; count -= 1) {
    if (zip.readUInt32LE(at) !== LIST_ENTRY) throw new Error('the zip file has a broken list of contents');
    const nameLength = zip.readUInt16LE(at + 28);
    names.push(zip.toString('utf8', at + 46, at + 46 + nameLength));
    at += 46 + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return names;
}
