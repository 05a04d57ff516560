import {
  type CancellationToken,
  commands,
  type Memento,
  ProgressLocation,
  RelativePattern,
  type Uri,
  window,
  workspace,
} from 'vscode';
import type { HandOutChoice, ListedInFolder } from '../../server/protocol/hand-out.ts';
import { askFolder, askWhat } from './ask-what.ts';
import { type HandOutDesk, type LessonToHandOut, lessonAt } from './hand-out-desk.ts';
import { isThere, writeBelow } from './write-file.ts';

/** Where the last choice is kept. */
const LAST_CHOICE = 'handspan.handOut.last';

/** What came of it, for who asked by a command of their own. */
export interface HandedOut {
  /** Names below the folder. */
  readonly written: readonly string[];
  readonly asBefore: number;
  /** What is to be known of it, a sentence each. */
  readonly notes: readonly string[];
  readonly finished: boolean;
}

/** A wish that leaves nothing to ask: for key bindings and for tests. */
export interface HandOutWish {
  readonly lessons: readonly Uri[];
  readonly choice: HandOutChoice;
  readonly to: Uri;
}

/** Hands out the lesson, or all lessons of the folder that it is in, where `all` says so. Asks what is to be made, and where. */
export async function handOut(
  desk: HandOutDesk,
  memory: Memento,
  { uri, all }: { readonly uri: Uri; readonly all: boolean },
): Promise<void> {
  if (!(await mayWrite())) return;
  const found = await lessonsAt(uri, all);
  const [first] = found;
  if (first === undefined) {
    await window.showInformationMessage('There is no lesson to hand out.');
    return;
  }
  const title = found.length === 1 ? 'Hand Out This Lesson' : `Hand Out ${found.length} Lessons`;
  const offers = await Promise.all(found.map((lesson) => desk.offer(lesson)));
  const editions = [...new Set(offers.flatMap((offer) => offer.editions))];
  const kinds = offers[0]?.kinds ?? [];
  const asked = await askWhat({ kinds, editions }, title, memory.get<readonly string[]>(LAST_CHOICE));
  if (asked === undefined) return;
  await memory.update(LAST_CHOICE, asked.picked);
  const to = await askFolder(first.uri);
  if (to === undefined) return;
  const result = await window.withProgress(
    { location: ProgressLocation.Notification, title, cancellable: true },
    (progress, stop) =>
      makeFiles(desk, { lessons: found, choice: asked.choice, to }, stop, {
        told: (message, increment) => progress.report({ message, increment }),
        mayReplace,
      }),
  );
  await tell(result, to);
}

/** The same without a question; what is there already is replaced. */
export async function handOutAsWished(
  desk: HandOutDesk,
  wish: HandOutWish,
  stop: CancellationToken,
): Promise<HandedOut> {
  if (!(await mayWrite())) return { written: [], asBefore: 0, notes: [NOT_TRUSTED], finished: false };
  const lessons = (await Promise.all(wish.lessons.map((uri) => lessonAt(uri)))).flatMap((one) => one ?? []);
  return makeFiles(desk, { ...wish, lessons }, stop, { told: () => undefined, mayReplace: async () => true });
}

const NOT_TRUSTED = 'This folder is not trusted, so Handspan writes no files. Everything else works.';

/** Writing is off where the folder is not trusted: said at once, with the way to change it. */
export async function mayWrite(): Promise<boolean> {
  if (workspace.isTrusted) return true;
  const manage = 'Manage Trust';
  void window.showWarningMessage(NOT_TRUSTED, manage).then((answer) => {
    if (answer === manage) void commands.executeCommand('workbench.trust.manage');
  });
  return false;
}

async function lessonsAt(uri: Uri, all: boolean): Promise<readonly LessonToHandOut[]> {
  if (!all) return [await lessonAt(uri)].flatMap((one) => one ?? []);
  const uris = await workspace.findFiles(new RelativePattern(uri, '**/*.lesson'));
  uris.sort((one, other) => (one.path < other.path ? -1 : 1));
  return (await Promise.all(uris.map((one) => lessonAt(one)))).flatMap((one) => one ?? []);
}

interface Listening {
  told(message: string, increment: number): void;
  mayReplace(count: number): Promise<boolean>;
}

interface Planned {
  readonly lesson: LessonToHandOut;
  readonly listed: ListedInFolder;
  readonly folder: string;
}

async function makeFiles(
  desk: HandOutDesk,
  { lessons, choice, to }: { lessons: readonly LessonToHandOut[]; choice: HandOutChoice; to: Uri },
  stop: CancellationToken,
  listening: Listening,
): Promise<HandedOut> {
  const written: string[] = [];
  const notes: string[] = [];
  let asBefore = 0;
  const ended = (finished: boolean): HandedOut => ({ written, asBefore, notes, finished });
  try {
    const planned = await plan(desk, lessons, choice, stop);
    for (const { lesson, listed } of planned) notes.push(...leftOutOf(lesson, listed));
    const names = planned.flatMap(({ folder, listed }) => listed.files.map(({ name }) => `${folder}/${name}`));
    const there = await Promise.all(names.map((name) => isThere(to, name)));
    const count = there.filter((one) => one).length;
    if (stop.isCancellationRequested || (count > 0 && !(await listening.mayReplace(count)))) return ended(false);
    for (const { lesson, listed, folder } of planned) {
      for (const { name } of listed.files) {
        if (stop.isCancellationRequested) return ended(false);
        listening.told(`${folder}/${name}`, 100 / names.length);
        const made = await desk.make(lesson, choice, name);
        if (made === undefined || stop.isCancellationRequested) continue;
        notes.push(...made.remarks.map((remark) => `${name}: ${remark}`));
        if ((await writeBelow(to, `${folder}/${name}`, made.bytes)) === 'written') written.push(`${folder}/${name}`);
        else asBefore += 1;
      }
    }
    return ended(!stop.isCancellationRequested);
  } catch (reason) {
    // What the folder's own system says: full, not to be written to, gone.
    notes.unshift(
      `The files could not be made or written: ${reason instanceof Error ? reason.message : String(reason)}`,
    );
    return ended(false);
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

function leftOutOf({ uri }: LessonToHandOut, { leftOut }: ListedInFolder): readonly string[] {
  const file = workspace.asRelativePath(uri);
  return leftOut.map(
    ({ line, title, edition, because }) =>
      `${file}, line ${line}: ${title} was left out on ${edition} because of line ${because.line}: ${because.message}`,
  );
}

async function mayReplace(count: number): Promise<boolean> {
  const replace = 'Replace';
  const what = count === 1 ? 'One of the files is' : `${count} of the files are`;
  return (
    (await window.showWarningMessage(
      `${what} there already.`,
      { modal: true, detail: 'What comes out the same is left alone; the rest is replaced.' },
      replace,
    )) === replace
  );
}

async function tell({ written, asBefore, notes, finished }: HandedOut, to: Uri): Promise<void> {
  const files = `${written.length} ${written.length === 1 ? 'file' : 'files'} written to ${to.path}, ${asBefore} as before.`;
  const sentence = finished ? files : `Stopped: ${files}`;
  const show = 'Show Folder';
  if (notes.length === 0) {
    if ((await window.showInformationMessage(sentence, show)) === show) await showFolder(to);
    return;
  }
  const more = 'What Was Left Out';
  if (
    (await window.showWarningMessage(`${sentence} ${notes[0] ?? ''}`, ...(notes.length > 1 ? [more] : []))) === more
  ) {
    const document = await workspace.openTextDocument({ content: `${notes.join('\n')}\n` });
    await window.showTextDocument(document);
  }
}

async function showFolder(folder: Uri): Promise<void> {
  await commands.executeCommand(folder.scheme === 'file' ? 'revealFileInOS' : 'revealInExplorer', folder);
}
