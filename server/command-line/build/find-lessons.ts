import { readdir, realpath, stat } from 'node:fs/promises';
import { basename, join, relative, sep } from 'node:path';
import { reasonOf } from '../lesson-file.ts';

/** A lesson that is to be handed out. */
export interface FoundLesson {
  /** As it is told to the teacher: from where the call was made. */
  readonly file: string;
  /** Its real path, by which it is the same lesson however it is named. */
  readonly real: string;
  /** Its place below the folder that was named, parted by `/`. */
  readonly below: string;
}

export interface Found {
  /** In the order of the paths, and in each in the order of the names. */
  readonly lessons: readonly FoundLesson[];
  /** The real paths of the folders that were searched, and of those inside them. */
  readonly folders: readonly string[];
  /** What cannot be used, a sentence each. */
  readonly complaints: readonly string[];
}

export const LESSON_ENDING = '.lesson';

/** The lessons at these paths: files, and folders with all that are inside. `except` is the real path of a folder that is not searched. */
export async function findLessons(paths: readonly string[], except: string | undefined): Promise<Found> {
  const lessons = new Map<string, FoundLesson>();
  const folders: string[] = [];
  const complaints: string[] = [];
  let met = 0;
  const add = (lesson: FoundLesson): void => {
    met += 1;
    if (!lessons.has(lesson.real)) lessons.set(lesson.real, lesson);
  };
  const search = async (folder: string, top: string): Promise<void> => {
    const real = await realpath(folder);
    // Only inside of what is searched: the folder itself may well be named.
    if (real === except && folder !== top) return;
    folders.push(real);
    const entries = await readdir(folder, { withFileTypes: true });
    entries.sort((one, other) => (one.name < other.name ? -1 : 1));
    for (const entry of entries) {
      if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
      const path = join(folder, entry.name);
      // Links to folders are not followed: they may lead around in a circle.
      if (entry.isDirectory()) await attempt(path, () => search(path, top));
      else if (entry.name.endsWith(LESSON_ENDING) && (entry.isFile() || entry.isSymbolicLink())) {
        await attempt(path, async () => {
          if (!(await stat(path)).isFile()) return;
          add({ file: path, real: await realpath(path), below: relative(top, path).split(sep).join('/') });
        });
      }
    }
  };
  const attempt = async (path: string, work: () => Promise<void>): Promise<void> => {
    try {
      await work();
    } catch (thrown) {
      complaints.push(`${path}: ${reasonOf(thrown)}`);
    }
  };
  for (const path of paths) {
    await attempt(path, async () => {
      if ((await stat(path)).isDirectory()) {
        const before = met + complaints.length;
        await search(path, path);
        if (met + complaints.length === before)
          complaints.push(`${path}: there is no lesson in this folder (a file that ends in ${LESSON_ENDING})`);
      } else add({ file: path, real: await realpath(path), below: basename(path) });
    });
  }
  return { lessons: [...lessons.values()], folders, complaints };
}
