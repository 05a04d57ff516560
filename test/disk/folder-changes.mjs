import { watch } from 'node:fs';
import { lstat, readdir } from 'node:fs/promises';
import path from 'node:path';
import { UNFINISHED_SUFFIX } from './disk-folder.mjs';

/** Folders that hold no lessons and too many files to watch one by one. */
const NOT_WATCHED = new Set(['node_modules', '.git']);

/** How many changes are kept for a page that comes back late. Whoever is further behind sees the rest on a reload. */
const CHANGES_KEPT = 1000;

/**
 * @typedef {'created' | 'changed' | 'deleted'} ChangeKind
 * @typedef {{ readonly number: number, readonly kind: ChangeKind, readonly path: string }} Change
 */

/**
 * Watches a folder with one plain watch per folder: the recursive kind loses a file on Linux once it was replaced by
 * renaming, which is how most programs save. Changes are numbered from 1; `after(n)` answers as soon as there is one
 * with a higher number, or with none when the signal ends the waiting.
 *
 * @param {string} folder with its own links already resolved
 */
export async function watchFolder(folder) {
  /** @type {Map<string, import('node:fs').FSWatcher>} */
  const watches = new Map();
  /** What was last seen of each entry: its time and size, or that it is a folder. @type {Map<string, string>} */
  const seen = new Map();
  /** @type {Change[]} */
  const changes = [];
  /** @type {Set<() => void>} */
  const waiting = new Set();
  let latest = 0;
  let closed = false;
  // One look at the disk after the other: two at once could report the same change twice.
  let looking = Promise.resolve();

  /**
   * @param {ChangeKind} kind
   * @param {string} place
   */
  function report(kind, place) {
    latest += 1;
    const relative = path.relative(folder, place).split(path.sep);
    changes.push({ number: latest, kind, path: ['', path.basename(folder), ...relative].join('/') });
    if (changes.length > CHANGES_KEPT) changes.shift();
    for (const wake of waiting) wake();
  }

  /** @param {string} place */
  async function look(place) {
    const before = seen.get(place);
    const now = await markOf(place);
    if (closed || now === before) return;
    if (now === undefined) {
      forget(place);
      report('deleted', place);
      return;
    }
    seen.set(place, now);
    report(before === undefined ? 'created' : 'changed', place);
    if (now === 'folder') await watchOne(place, look);
  }

  /** @param {string} place */
  function forget(place) {
    for (const known of [...seen.keys()]) {
      if (known === place || known.startsWith(place + path.sep)) seen.delete(known);
    }
    for (const [known, one] of [...watches]) {
      if (known !== place && !known.startsWith(place + path.sep)) continue;
      one.close();
      watches.delete(known);
    }
  }

  /**
   * @param {string} place
   * @param {(entry: string) => Promise<void>} meet called for each entry that is already there
   */
  async function watchOne(place, meet) {
    if (watches.has(place)) return;
    const one = watchIfThere(place, (name) => {
      if (name.endsWith(UNFINISHED_SUFFIX) || NOT_WATCHED.has(name)) return;
      looking = looking.then(() => look(path.join(place, name)));
    });
    if (one === undefined) return;
    // A folder that is deleted while it is watched ends its watch with an error on some systems.
    one.on('error', () => one.close());
    watches.set(place, one);
    for (const name of await readdir(place).catch(() => [])) {
      if (!name.endsWith(UNFINISHED_SUFFIX) && !NOT_WATCHED.has(name)) await meet(path.join(place, name));
    }
  }

  /** @param {string} place */
  async function meetQuietly(place) {
    const mark = await markOf(place);
    if (mark === undefined) return;
    seen.set(place, mark);
    if (mark === 'folder') await watchOne(place, meetQuietly);
  }

  await watchOne(folder, meetQuietly);

  return {
    latest: () => latest,

    /**
     * @param {number} number
     * @param {AbortSignal} signal
     * @returns {Promise<{ readonly latest: number, readonly changes: readonly Change[] }>}
     */
    async after(number, signal) {
      if (latest <= number && !signal.aborted && !closed) {
        await new Promise((resolve) => {
          const wake = () => {
            waiting.delete(wake);
            signal.removeEventListener('abort', wake);
            resolve(undefined);
          };
          waiting.add(wake);
          signal.addEventListener('abort', wake);
        });
      }
      return { latest, changes: changes.filter((change) => change.number > number) };
    },

    close() {
      closed = true;
      for (const one of watches.values()) one.close();
      watches.clear();
      for (const wake of waiting) wake();
    },
  };
}

/**
 * @param {string} place
 * @param {(name: string) => void} tell
 * @returns {import('node:fs').FSWatcher | undefined} nothing when the folder is gone again by now
 */
function watchIfThere(place, tell) {
  try {
    return watch(place, (_event, name) => {
      if (name !== null) tell(name);
    });
  } catch {
    return undefined;
  }
}

/**
 * What is told of a link is the link itself: following it could lead out of the folder, or in a circle.
 *
 * @param {string} place
 * @returns {Promise<string | undefined>}
 */
async function markOf(place) {
  try {
    const stats = await lstat(place);
    return stats.isDirectory() ? 'folder' : `${stats.mtimeMs} ${stats.size} ${stats.ino}`;
  } catch {
    return undefined;
  }
}
