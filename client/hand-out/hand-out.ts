import {
  type CancellationToken,
  commands,
  type Disposable,
  type Memento,
  ProgressLocation,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { HandOutChoice } from '../../server/protocol/hand-out.ts';
import { askFolder, askWhat } from './ask-what.ts';
import { FileMaker } from './file-maker.ts';
import { findLessons, readLessons } from './find-lessons.ts';
import type { HandOutDesk } from './hand-out-desk.ts';
import { type HandedOut, makeFiles } from './make-files.ts';

/** Where the last choice is kept. */
const LAST_CHOICE = 'handspan.handOut.last';

/** A wish that leaves nothing to ask: for key bindings and for tests. */
export interface HandOutWish {
  readonly lessons: readonly Uri[];
  readonly choice: HandOutChoice;
  readonly to: Uri;
}

/** What handing out needs of the extension. */
export interface HandOutMeans {
  readonly desk: HandOutDesk;
  readonly memory: Memento;
  readonly extensionUri: Uri;
}

/** Hands out the lesson, or all lessons of a folder where `all` says so. Asks what is to be made, and where. */
export async function handOut(
  { desk, memory, extensionUri }: HandOutMeans,
  { uri, all }: { readonly uri: Uri; readonly all: boolean },
): Promise<void> {
  if (!(await mayWrite())) return;
  const { lessons, complaints } = all ? await findLessons(uri) : await readLessons([uri]);
  const [first] = lessons;
  if (first === undefined) {
    await window.showInformationMessage(complaints[0] ?? `There is no lesson in ${workspace.asRelativePath(uri)}.`);
    return;
  }
  const title = all ? `Hand Out ${counted(lessons.length, 'Lesson')}` : 'Hand Out This Lesson';
  const offers = await Promise.all(lessons.map((lesson) => desk.offer(lesson)));
  const editions = [...new Set(offers.flatMap((offer) => offer.editions))];
  const hasSeveral = offers.some((offer) => offer.editions.length > 1);
  const kinds = offers[0]?.kinds ?? [];
  const further = !hasSeveral ? undefined : all ? 'of each lesson' : editions.join('; ');
  const asked = await askWhat(kinds, further, title, memory.get<readonly string[]>(LAST_CHOICE));
  if (asked === undefined) return;
  await memory.update(LAST_CHOICE, asked.picked);
  const to = await askPlace(uri, all);
  if (to === undefined) return;
  const maker = new FileMaker(desk, extensionUri);
  let result: HandedOut;
  try {
    result = await window.withProgress(
      { location: ProgressLocation.Notification, title, cancellable: true },
      (progress, stop) =>
        makeFiles({ desk, maker }, { lessons, choice: asked.choice, to }, stop, {
          told: (message, increment) => progress.report({ message, increment }),
          mayReplace,
        }),
    );
  } finally {
    maker.dispose();
  }
  await tell({ ...result, notes: [...result.notes, ...complaints] }, to);
}

/** A lesson that was never saved is in no folder: the one that is open is as good as any. */
function askPlace(uri: Uri, all: boolean): Promise<Uri | undefined> {
  if (all) return askFolder(uri, 'beside the lessons');
  if (uri.scheme !== 'untitled') return askFolder(Uri.joinPath(uri, '..'), 'beside the lesson');
  const open = workspace.workspaceFolders?.[0];
  return askFolder(open?.uri, `in ${open?.name ?? ''}`);
}

/** The same without a question; what is there already is replaced. */
export async function handOutAsWished(
  { desk, extensionUri }: Omit<HandOutMeans, 'memory'>,
  wish: HandOutWish,
  stop: CancellationToken,
): Promise<HandedOut> {
  if (!(await mayWrite())) return { written: [], asBefore: 0, notes: [NOT_TRUSTED], finished: false };
  const { lessons, complaints } = await readLessons(wish.lessons);
  const maker = new FileMaker(desk, extensionUri);
  try {
    const listening = { told: () => undefined, mayReplace: async () => true };
    const result = await makeFiles({ desk, maker }, { ...wish, lessons }, stop, listening);
    return { ...result, notes: [...result.notes, ...complaints] };
  } finally {
    maker.dispose();
  }
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

/** The scheme of texts that are shown and never saved: all is in the address. */
const REMARKS_SCHEME = 'handspan-remarks';

/** Lets remarks be shown as a text that nobody is asked to save. */
export function showRemarks(): Disposable {
  return workspace.registerTextDocumentContentProvider(REMARKS_SCHEME, {
    provideTextDocumentContent: ({ query }) => `${query}\n`,
  });
}

const SHOW_FOLDER = 'Show Folder';
const SHOW_ALL = 'Show All Remarks';

async function tell(result: HandedOut, to: Uri): Promise<void> {
  const { notes, failure } = result;
  const [first, ...further] = notes;
  const isSomething = result.written.length + result.asBefore > 0;
  const done = failure !== undefined && !isSomething ? [] : [doneSentence(result, to)];
  const told = first === undefined ? [] : [further.length === 0 ? first : `${first} (${further.length} more)`];
  // What went wrong stands first: a short window shows no more.
  const sentence = (failure === undefined ? [...done, ...told] : [...told, ...done]).join(' ');
  const answers = [...(further.length > 0 ? [SHOW_ALL] : []), ...(isSomething ? [SHOW_FOLDER] : [])];
  const show =
    failure !== undefined
      ? window.showErrorMessage
      : first !== undefined
        ? window.showWarningMessage
        : window.showInformationMessage;
  const answer = await show(sentence, ...answers);
  if (answer === SHOW_FOLDER)
    await commands.executeCommand(to.scheme === 'file' ? 'revealFileInOS' : 'revealInExplorer', to);
  if (answer !== SHOW_ALL) return;
  await window.showTextDocument(Uri.from({ scheme: REMARKS_SCHEME, path: '/Remarks.txt', query: notes.join('\n') }));
}

function doneSentence({ written, asBefore, finished, failure }: HandedOut, to: Uri): string {
  const place = to.scheme === 'file' ? to.fsPath : to.path;
  if (finished && written.length + asBefore === 0)
    return 'Nothing of what was chosen is in the lesson, so no file was written.';
  const before = asBefore === 0 ? '' : `, ${asBefore} as before`;
  const files = `${counted(written.length, 'file')} written to ${place}${before}.`;
  return finished || failure !== undefined ? files : `Stopped: ${files}`;
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
