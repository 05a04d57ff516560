import { randomUUID } from 'node:crypto';
import { lstat, mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { containedEntry, containedPath } from './contained-path.mjs';
import { DiskError } from './disk-error.mjs';

/** Marks the half-written files that a write leaves behind if the machine stops in the middle of it. */
export const UNFINISHED_SUFFIX = '.handspan-unfinished';

/** The editor's numbers for kinds of entry; a link adds its own to what it points to. */
const FILE = 1;
const DIRECTORY = 2;
const LINK = 64;

/**
 * What the editor may ask of one folder; every answer is a plain record. All paths are the editor's, see containedPath.
 *
 * @param {string} folder with its own links already resolved
 */
export function diskFolder(folder) {
  return {
    /** @param {string} editorPath */
    async stat(editorPath) {
      // The editor's own dialogs ask for what is above the folder, and let nobody choose it where nothing is.
      if (editorPath === '/') return { type: DIRECTORY, ctime: 0, mtime: 0, size: 0 };
      await containedPath(folder, editorPath);
      const entry = await kindOf(lexical(folder, editorPath));
      return { type: entry.type, ctime: entry.stats.ctimeMs, mtime: entry.stats.mtimeMs, size: entry.stats.size };
    },

    /** @param {string} editorPath */
    async list(editorPath) {
      if (editorPath === '/') return [[path.basename(folder), DIRECTORY]];
      const place = await containedPath(folder, editorPath);
      const names = (await readdir(place)).filter((name) => !name.endsWith(UNFINISHED_SUFFIX));
      /** @type {[string, number][]} */
      const entries = [];
      for (const name of names) entries.push([name, (await kindOf(path.join(place, name))).type]);
      return entries;
    },

    /** @param {string} editorPath */
    async read(editorPath) {
      return readFile(await containedPath(folder, editorPath));
    },

    /**
     * Writes beside the file and renames, so that a reader meets the old bytes or the new ones and never a part.
     *
     * @param {string} editorPath
     * @param {Uint8Array} bytes
     * @param {{ readonly create: boolean, readonly overwrite: boolean }} options
     */
    async write(editorPath, bytes, options) {
      const place = await containedPath(folder, editorPath);
      const before = await stat(place).catch(() => undefined);
      if (before?.isDirectory()) throw new DiskError('FileIsADirectory', editorPath);
      if (before === undefined && !options.create) throw new DiskError('FileNotFound', editorPath);
      if (before !== undefined && options.create && !options.overwrite) throw new DiskError('FileExists', editorPath);
      const unfinished = path.join(path.dirname(place), `.${randomUUID()}${UNFINISHED_SUFFIX}`);
      try {
        const file = await open(unfinished, 'wx', before?.mode ?? 0o666);
        try {
          await file.writeFile(bytes);
          await file.sync();
        } finally {
          await file.close();
        }
        await rename(unfinished, place);
      } catch (error) {
        await rm(unfinished, { force: true });
        throw error;
      }
    },

    /** @param {string} editorPath */
    async makeFolder(editorPath) {
      await mkdir(await containedPath(folder, editorPath));
    },

    /**
     * @param {string} editorPath
     * @param {{ readonly recursive: boolean }} options
     */
    async remove(editorPath, options) {
      const place = await containedEntry(folder, editorPath);
      const entry = await lstat(place);
      if (entry.isDirectory() && !options.recursive && (await readdir(place)).length > 0) {
        throw new DiskError('NoPermissions', `${editorPath} is not empty`);
      }
      await rm(place, { recursive: entry.isDirectory() });
    },

    /**
     * @param {string} fromPath
     * @param {string} toPath
     * @param {{ readonly overwrite: boolean }} options
     */
    async move(fromPath, toPath, options) {
      const from = await containedEntry(folder, fromPath);
      const to = await containedEntry(folder, toPath);
      const taken = await lstat(to).catch(() => undefined);
      if (taken !== undefined && !options.overwrite) throw new DiskError('FileExists', toPath);
      await rename(from, to);
    },
  };
}

/**
 * @param {string} folder
 * @param {string} editorPath
 */
function lexical(folder, editorPath) {
  return path.join(path.dirname(folder), ...editorPath.split('/').filter((name) => name !== ''));
}

/** @param {string} place */
async function kindOf(place) {
  const own = await lstat(place);
  const target = own.isSymbolicLink() ? await stat(place).catch(() => own) : own;
  const type = (target.isFile() ? FILE : target.isDirectory() ? DIRECTORY : 0) | (own.isSymbolicLink() ? LINK : 0);
  return { type, stats: target };
}
