import { lstat, realpath } from 'node:fs/promises';
import path from 'node:path';
import { DiskError } from './disk-error.mjs';

/**
 * Turns an editor's path, such as `/lessons/week-1.lesson`, into a place on the disk below the folder. The first name
 * must be the folder's own. Links are followed, and a link that leads out of the folder is refused.
 *
 * @param {string} folder the shared folder, with its own links already resolved
 * @param {string} editorPath
 * @returns {Promise<string>}
 */
export async function containedPath(folder, editorPath) {
  const names = namesOf(folder, editorPath);
  const wanted = path.join(folder, ...names);
  const real = await realOrWanted(wanted);
  if (!isWithin(folder, real)) throw new DiskError('NoPermissions', `${editorPath} leads out of the folder`);
  return real;
}

/**
 * The same, but a link that stands at the path itself is meant and not what it points to: deleting or renaming a link
 * must leave its target alone.
 *
 * @param {string} folder
 * @param {string} editorPath
 * @returns {Promise<string>}
 */
export async function containedEntry(folder, editorPath) {
  const names = namesOf(folder, editorPath);
  const name = names.pop();
  if (name === undefined) throw new DiskError('NoPermissions', 'the folder itself stays where it is');
  const parent = await containedPath(folder, ['', path.basename(folder), ...names].join('/'));
  return path.join(parent, name);
}

/**
 * @param {string} folder
 * @param {string} editorPath
 */
function namesOf(folder, editorPath) {
  const [root, ...names] = editorPath.split('/').slice(1);
  if (!editorPath.startsWith('/') || root !== path.basename(folder)) {
    throw new DiskError('FileNotFound', `${editorPath} is not in the folder`);
  }
  const kept = names.filter((name) => name !== '');
  for (const name of kept) {
    if (name === '.' || name === '..' || /[\\\0]/.test(name) || path.basename(name) !== name) {
      throw new DiskError('NoPermissions', `${editorPath} is not a plain path`);
    }
  }
  return kept;
}

/**
 * What does not exist yet lies where its nearest existing parent really is.
 *
 * @param {string} wanted
 * @returns {Promise<string>}
 */
async function realOrWanted(wanted) {
  try {
    return await realpath(wanted);
  } catch (error) {
    if (!isMissing(error)) throw error;
    // A link whose target is missing must not be written through: nobody can say yet where it leads.
    const dangling = await lstat(wanted).then(
      (stats) => stats.isSymbolicLink(),
      () => false,
    );
    if (dangling) throw new DiskError('NoPermissions', `${path.basename(wanted)} is a link to nothing`);
    const parent = path.dirname(wanted);
    return parent === wanted ? wanted : path.join(await realOrWanted(parent), path.basename(wanted));
  }
}

/** @param {unknown} error */
function isMissing(error) {
  return error instanceof Error && 'code' in error && error.code === 'ENOENT';
}

/**
 * @param {string} folder
 * @param {string} place
 */
function isWithin(folder, place) {
  const relative = path.relative(folder, place);
  return relative === '' || (!relative.startsWith(`..${path.sep}`) && relative !== '..' && !path.isAbsolute(relative));
}
