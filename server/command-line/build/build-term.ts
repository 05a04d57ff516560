import { realpath } from 'node:fs/promises';
import { dirname, relative, resolve, sep } from 'node:path';
import type { HandOutChoice } from '../../../shared/export/hand-out/hand-out-choice.ts';
import type { Desk } from '../../hand-out/desk.ts';
import { readLesson, reasonOf } from '../lesson-file.ts';
import { type BuiltLesson, buildLesson, isOfFileSystem, NotWritten } from './build-lesson.ts';
import { NoteKeeper, readNotes } from './build-notes.ts';
import { type FoundLesson, findLessons } from './find-lessons.ts';
import { calledOf, lessonFolders } from './lesson-folders.ts';
import { type OutputFolder, Refused } from './output-folder.ts';

export interface TermBuild {
  readonly paths: readonly string[];
  readonly to: OutputFolder;
  readonly choice: HandOutChoice;
}

export interface TermTools {
  /** As many lessons are in hand at once as there are desks. */
  readonly desks: readonly Desk[];
  readonly stop: AbortSignal;
  /** Told after each lesson. */
  progress?(done: number, all: number, lesson: BuiltInTerm): void;
}

export interface BuiltInTerm extends BuiltLesson {
  /** The lesson as it is told to the teacher. */
  readonly file: string;
}

/** What became of a term. Names are those in the output folder. */
export interface BuiltTerm {
  /** In the order in which the lessons were found. */
  readonly lessons: readonly BuiltInTerm[];
  /** Files of lessons that are no more. */
  readonly removed: readonly string[];
  /** What could not be read or written, a sentence each. */
  readonly complaints: readonly string[];
  /** The folders that were searched. */
  readonly folders: readonly string[];
  /** False where it was stopped, or nothing more could be written. */
  readonly finished: boolean;
}

/** Hands out all lessons at these paths. Never throws for what files and folders are like. */
export async function buildTerm({ paths, to, choice }: TermBuild, tools: TermTools): Promise<BuiltTerm> {
  const complaints: string[] = [];
  const nothing = { lessons: [], removed: [], folders: [], finished: false };
  let found = await findLessons(paths, undefined);
  if (found.lessons.length === 0 && found.folders.length === 0) return { ...nothing, complaints: found.complaints };
  let keeper: NoteKeeper;
  let root: string;
  try {
    await to.prepare();
    root = await realpath(to.root);
    // What was handed out is not read as a lesson.
    found = await findLessons(paths, root);
    keeper = new NoteKeeper(to, await readNotes(to));
    const folders = Object.values(keeper.notes).flatMap(({ files }) => Object.keys(files).map((name) => dirname(name)));
    await to.sweep(new Set(['', ...folders]));
  } catch (thrown) {
    return { ...nothing, complaints: [sentenceOf(thrown, to.root)] };
  }
  complaints.push(...found.complaints);

  const sourceOf = ({ real }: FoundLesson): string => relative(root, real).split(sep).join('/');
  const named = found.lessons.map((lesson) => ({ lesson, source: sourceOf(lesson) }));
  const folders = lessonFolders(named, keeper.notes);
  const built: (BuiltInTerm | undefined)[] = [];
  const halt = new AbortController();
  const stop = AbortSignal.any([tools.stop, halt.signal]);
  let done = 0;
  let next = 0;
  const work = async (desk: Desk): Promise<void> => {
    while (next < named.length && !stop.aborted) {
      const at = next++;
      const { lesson, source } = named[at] ?? {};
      if (lesson === undefined || source === undefined) return;
      const read = await readLesson(lesson.file);
      if (!read.ok) {
        complaints.push(read.sentence);
        continue;
      }
      const { text } = read.file;
      const job = { file: lesson.file, called: calledOf(lesson.below), text, choice };
      try {
        const folder = folders.get(source) ?? '';
        const one = {
          file: lesson.file,
          ...(await buildLesson(desk, { job, source, folder }, { outputs: to, keeper, stop })),
        };
        built[at] = one;
        complaints.push(...one.complaints);
        done += 1;
        tools.progress?.(done, named.length, one);
      } catch (thrown) {
        if (tools.stop.aborted) return;
        if (thrown instanceof Refused) {
          complaints.push(thrown.message);
        } else if (thrown instanceof NotWritten || isOfFileSystem(thrown)) {
          // What one file is refused, the next will be too: nothing more is tried.
          if (!halt.signal.aborted) complaints.push(sentenceOf(thrown, to.root));
          halt.abort();
        } else {
          complaints.push(`${lesson.file}: a fault in Handspan itself: ${messageOf(thrown)}`);
        }
      }
    }
  };
  await Promise.all(tools.desks.map(work));
  const removed: string[] = [];
  if (!stop.aborted) {
    try {
      removed.push(
        ...(await removeGone(found.folders, root, { to, keeper, here: new Set(named.map((one) => one.source)) })),
      );
      await keeper.save();
    } catch (thrown) {
      complaints.push(sentenceOf(thrown, to.root));
    }
  }
  const lessons = built.flatMap((one) => one ?? []);
  return { lessons, removed, complaints, folders: found.folders, finished: !stop.aborted };
}

/** Takes away the files of lessons that stood in a folder that was searched, and are no more. */
async function removeGone(
  searched: readonly string[],
  root: string,
  { to, keeper, here }: { to: OutputFolder; keeper: NoteKeeper; here: ReadonlySet<string> },
): Promise<readonly string[]> {
  const removed: string[] = [];
  for (const [source, { files }] of Object.entries(keeper.notes)) {
    if (here.has(source) || !isBelow(resolve(root, source), searched)) continue;
    for (const name of Object.keys(files)) {
      try {
        if (await to.remove(name)) removed.push(name);
      } catch (thrown) {
        if (!(thrown instanceof Refused)) throw thrown;
      }
    }
    keeper.note(source, undefined);
  }
  return removed;
}

/** Folders inside others are gone with all that was in them. */
function isBelow(path: string, folders: readonly string[]): boolean {
  return folders.some((folder) => path.startsWith(folder.endsWith(sep) ? folder : folder + sep));
}

function sentenceOf(thrown: unknown, root: string): string {
  if (thrown instanceof Refused) return thrown.message;
  if (thrown instanceof NotWritten) return `${thrown.path}: ${reasonOf(thrown.cause)}`;
  return isOfFileSystem(thrown) ? `${root}: ${reasonOf(thrown)}` : `a fault in Handspan itself: ${messageOf(thrown)}`;
}

function messageOf(thrown: unknown): string {
  return thrown instanceof Error ? thrown.message : String(thrown);
}
