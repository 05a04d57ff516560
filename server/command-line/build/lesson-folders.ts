import { fileWords, freeName } from '../../../shared/export/hand-out/file-words.ts';
import type { BuildNotes } from './build-notes.ts';
import { type FoundLesson, LESSON_ENDING } from './find-lessons.ts';

/** The most of a folder's name. Unit: bytes of UTF-8. */
const LONGEST_FOLDER = 80;

/** The name of a lesson's file without its ending. */
export function calledOf(below: string): string {
  const name = below.slice(below.lastIndexOf('/') + 1);
  return name.endsWith(LESSON_ENDING) ? name.slice(0, -LESSON_ENDING.length) : name;
}

/**
 * The folder of each lesson's files, by its source: named as its file, below folders as in the term. A lesson keeps the folder that it
 * had; no two have the same, whatever a system takes for the same.
 */
export function lessonFolders(
  lessons: readonly { readonly lesson: FoundLesson; readonly source: string }[],
  notes: BuildNotes,
): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  const folders = new Map<string, string>();
  for (const [source, { folder }] of Object.entries(notes)) {
    // Claims the name as it is: the notes have it once.
    freeName(folder, taken);
    folders.set(source, folder);
  }
  for (const { lesson, source } of lessons) {
    if (folders.has(source)) continue;
    const parts = lesson.below.split('/').slice(0, -1);
    const named = [...parts, calledOf(lesson.below)].map((part) => {
      const words = fileWords(part, LONGEST_FOLDER);
      return freeName(words === '' ? 'lesson' : words, new Set());
    });
    folders.set(source, freeName(named.join('/'), taken));
  }
  return folders;
}
