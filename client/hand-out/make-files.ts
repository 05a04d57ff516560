import { type CancellationToken, type Uri, workspace } from 'vscode';
import type { HandOutChoice, ListedInFolder } from '../../server/protocol/hand-out.ts';
import type { FileMaker } from './file-maker.ts';
import { type LessonToHandOut, reasonOf } from './find-lessons.ts';
import type { HandOutDesk } from './hand-out-desk.ts';
import { isThere, writeBelow } from './write-file.ts';

/** What came of it. */
export interface HandedOut {
  /** Names below the folder. */
  readonly written: readonly string[];
  readonly asBefore: number;
  /** What is to be known of it, a sentence each; what went wrong first. */
  readonly notes: readonly string[];
  /** False where it was stopped, or something went wrong. */
  readonly finished: boolean;
  /** What ended it early, in a sentence. */
  readonly failure?: string;
}

/** What is made of which lessons, and where it goes. */
export interface ToMake {
  readonly lessons: readonly LessonToHandOut[];
  readonly choice: HandOutChoice;
  readonly to: Uri;
}

export interface Listening {
  told(message: string, increment: number): void;
  /** Asked once, where so many of the files are there already. */
  mayReplace(count: number): Promise<boolean>;
}

interface Planned {
  readonly lesson: LessonToHandOut;
  readonly listed: ListedInFolder;
  readonly folder: string;
}

/** Makes the files and writes each in one step, so that whatever is there when it is stopped is whole. */
export async function makeFiles(
  { desk, maker }: { readonly desk: HandOutDesk; readonly maker: FileMaker },
  { lessons, choice, to }: ToMake,
  stop: CancellationToken,
  listening: Listening,
): Promise<HandedOut> {
  const written: string[] = [];
  const notes: string[] = [];
  let asBefore = 0;
  let at = '';
  const ended = (finished: boolean): HandedOut => ({ written, asBefore, notes, finished });
  const stopped = new Promise<undefined>((resolve) => stop.onCancellationRequested(() => resolve(undefined)));
  try {
    const planned = await plan(desk, lessons, choice, stop);
    for (const { lesson, listed } of planned) notes.push(...faultsOf(lesson, listed));
    const names = planned.flatMap(({ folder, listed }) => listed.files.map(({ name }) => `${folder}/${name}`));
    const there = await Promise.all(names.map((name) => isThere(to, name)));
    const count = there.filter((one) => one).length;
    if (stop.isCancellationRequested || (count > 0 && !(await listening.mayReplace(count)))) return ended(false);
    for (const { lesson, listed, folder } of planned) {
      for (const { name } of listed.files) {
        if (stop.isCancellationRequested) return ended(false);
        at = `${folder}/${name}`;
        listening.told(at, 100 / names.length);
        // A sheet may take a while: who stops is not kept waiting for what is thrown away.
        const made = await Promise.race([maker.make(lesson, choice, name), stopped]);
        if (made === undefined || stop.isCancellationRequested) continue;
        notes.push(...made.remarks.map((remark) => `${name}: ${remark}`));
        if ((await writeBelow(to, at, made.bytes)) === 'written') written.push(at);
        else asBefore += 1;
      }
    }
    return ended(!stop.isCancellationRequested);
  } catch (reason) {
    // What the folder's own system says: full, not to be written to, gone.
    const failure = `${at === '' ? 'The files' : at} could not be made or written: ${reasonOf(reason)}`;
    return { ...ended(false), notes: [failure, ...notes], failure };
  }
}

async function plan(
  desk: HandOutDesk,
  lessons: readonly LessonToHandOut[],
  choice: HandOutChoice,
  stop: CancellationToken,
): Promise<readonly Planned[]> {
  const planned: Planned[] = [];
  const taken = new Set<string>();
  for (const lesson of lessons) {
    if (stop.isCancellationRequested) break;
    const listed = await desk.list(lesson, choice);
    if (listed === null) continue;
    let folder = listed.folder;
    for (let number = 2; taken.has(folder.toUpperCase()); number += 1) folder = `${listed.folder} ${number}`;
    taken.add(folder.toUpperCase());
    planned.push({ lesson, listed, folder });
  }
  return planned;
}

/** That there are errors, and what is left out for them. */
function faultsOf({ uri }: LessonToHandOut, { errors, leftOut }: ListedInFolder): readonly string[] {
  if (errors.length === 0) return [];
  const file = workspace.asRelativePath(uri);
  const [first] = errors;
  const count = errors.length === 1 ? 'an error' : `${errors.length} errors`;
  return [
    `${file} has ${count}, and what rests on it is left out. Line ${first?.line}: ${first?.message}`,
    ...leftOut.map(
      ({ line, title, edition, because }) =>
        `${file}, line ${line}: ${title} was left out on ${edition} because of line ${because.line}: ${because.message}`,
    ),
  ];
}
