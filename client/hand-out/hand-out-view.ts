import {
  commands,
  type Disposable,
  EventEmitter,
  env,
  ProgressLocation,
  type TextDocument,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { HandOutKind, HandOutOffer, ListedInFolder } from '../../server/protocol/hand-out.ts';
import { USUAL_CHOICE } from './ask-what.ts';
import { FileMaker } from './file-maker.ts';
import { readLessons, reasonOf } from './find-lessons.ts';
import { mayWrite } from './hand-out.ts';
import type { HandOutDesk } from './hand-out-desk.ts';
import { writeBelow } from './write-file.ts';

/** The scheme of texts that are shown before they are written anywhere. */
const PREVIEW_SCHEME = 'handspan-hand-out';

/** Kinds that are text, and can be looked at in the editor itself. */
const READABLE: ReadonlySet<HandOutKind> = new Set(['musicxml', 'text', 'json', 'chapters']);

/** Says to the editor when the view is of use. */
const CONTEXT = 'handspan.lessonShown';

interface Kind {
  readonly of: 'kind';
  readonly kind: HandOutKind;
  readonly label: string;
}

/** A file that a lesson yields, not made yet. */
export interface HandOutItem {
  readonly of: 'file';
  readonly lesson: Uri;
  readonly kind: HandOutKind;
  readonly name: string;
  readonly edition: string;
  /** The choice that yields it. */
  readonly editions: 'own' | 'all';
}

/** The list beside the explorer: what the lesson in front yields, kind by kind. */
export class HandOutView implements TreeDataProvider<Kind | HandOutItem> {
  readonly #desk: HandOutDesk;
  readonly #extensionUri: Uri;
  readonly #changed = new EventEmitter<undefined>();
  readonly onDidChangeTreeData = this.#changed.event;
  readonly #disposables: readonly Disposable[];
  #shown: TextDocument | undefined;

  constructor(desk: HandOutDesk, extensionUri: Uri) {
    this.#desk = desk;
    this.#extensionUri = extensionUri;
    const view = window.createTreeView('handspan.handOut', { treeDataProvider: this });
    const follow = (): void => {
      const document = window.activeTextEditor?.document;
      // The list stays while a sheet, a picture or a list has the focus.
      if (document?.languageId !== 'handspan' || document === this.#shown) return;
      this.#shown = document;
      view.description = workspace.asRelativePath(document.uri);
      void commands.executeCommand('setContext', CONTEXT, true);
      this.#changed.fire(undefined);
    };
    this.#disposables = [
      view,
      this.#changed,
      window.onDidChangeActiveTextEditor(follow),
      workspace.onDidSaveTextDocument((document) => {
        if (document === this.#shown) this.#changed.fire(undefined);
      }),
      workspace.registerTextDocumentContentProvider(PREVIEW_SCHEME, {
        provideTextDocumentContent: (uri) => this.#textOf(uri),
      }),
      commands.registerCommand('handspan.handOutFile', (item: unknown) => this.#open(item as HandOutItem)),
      commands.registerCommand('handspan.saveHandOutFile', (item: unknown) => this.#save(item as HandOutItem)),
      commands.registerCommand('handspan.refreshHandOut', () => this.#changed.fire(undefined)),
    ];
    follow();
  }

  dispose(): void {
    for (const one of this.#disposables) one.dispose();
  }

  async getChildren(parent?: Kind | HandOutItem): Promise<(Kind | HandOutItem)[]> {
    const document = this.#shown;
    if (document === undefined || parent?.of === 'file') return [];
    const lesson = { uri: document.uri, text: document.getText() };
    if (parent === undefined) {
      const { kinds }: HandOutOffer = await this.#desk.offer(lesson);
      return kinds.map(({ kind, label }): Kind => ({ of: 'kind', kind, label }));
    }
    // A page of the lesson's own edition is another file than the page of all.
    const choices = [choiceFor(parent.kind, 'all'), ...(parent.kind === 'page' ? [choiceFor('page', 'own')] : [])];
    const listed = await Promise.all(choices.map((choice) => this.#desk.list(lesson, choice)));
    const files = listed.flatMap((one: ListedInFolder | null) => one?.files ?? []);
    const named = new Map(files.map((file) => [file.name, file]));
    return [...named.values()].map(
      ({ kind, name, edition, several }): HandOutItem => ({
        of: 'file',
        lesson: document.uri,
        kind,
        name,
        edition: several === true ? 'all editions' : edition,
        editions: kind === 'page' && several !== true ? 'own' : 'all',
      }),
    );
  }

  getTreeItem(one: Kind | HandOutItem): TreeItem {
    if (one.of === 'kind') return new TreeItem(one.label, TreeItemCollapsibleState.Collapsed);
    const [name = '', ...folders] = one.name.split('/').reverse();
    const item = new TreeItem(name, TreeItemCollapsibleState.None);
    // Of the folders of pictures the inner one says which frame they are for.
    item.description = [...folders.slice(0, 1), one.edition].join(', ');
    item.contextValue = 'file';
    item.tooltip = READABLE.has(one.kind) ? `${one.name}: click to look at it` : `${one.name}: click to save it`;
    item.command = { command: 'handspan.handOutFile', title: 'Make and Open', arguments: [one] };
    return item;
  }

  async #open(item: HandOutItem): Promise<void> {
    if (!READABLE.has(item.kind)) return this.#save(item);
    const query = JSON.stringify({ ...item, lesson: item.lesson.toString() });
    const uri = Uri.from({ scheme: PREVIEW_SCHEME, path: `/${item.name}`, query });
    await commands.executeCommand('vscode.open', uri, { preview: true });
  }

  async #textOf(uri: Uri): Promise<string> {
    const item = JSON.parse(uri.query) as Omit<HandOutItem, 'lesson'> & { readonly lesson: string };
    const made = await this.#make({ ...item, lesson: Uri.parse(item.lesson) });
    return made === undefined ? '' : new TextDecoder().decode(made);
  }

  async #save(item: HandOutItem): Promise<void> {
    if (!(await mayWrite())) return;
    const own = item.name.slice(item.name.lastIndexOf('/') + 1);
    // A lesson that was never saved is in no folder; one of the window is better than none.
    const folder =
      item.lesson.scheme === 'untitled' ? workspace.workspaceFolders?.[0]?.uri : Uri.joinPath(item.lesson, '..');
    const target = await window.showSaveDialog(
      folder === undefined ? {} : { defaultUri: Uri.joinPath(folder, own), title: `Save ${own}` },
    );
    if (target === undefined) return;
    try {
      const made = await window.withProgress({ location: ProgressLocation.Notification, title: `Making ${own}` }, () =>
        this.#make(item),
      );
      if (made === undefined) {
        await window.showInformationMessage(`The lesson does not yield ${own} any more; nothing was written.`);
        return;
      }
      const name = target.path.slice(target.path.lastIndexOf('/') + 1);
      await writeBelow(Uri.joinPath(target, '..'), name, made);
      await tellSaved(target, name);
    } catch (reason) {
      await window.showErrorMessage(`${own} could not be written: ${reasonOf(reason)}`);
    }
  }

  async #make({ lesson: uri, kind, editions, name }: HandOutItem): Promise<Uint8Array | undefined> {
    const {
      lessons: [lesson],
      complaints,
    } = await readLessons([uri]);
    if (lesson === undefined) throw new Error(complaints[0]);
    const maker = new FileMaker(this.#desk, this.#extensionUri);
    try {
      return (await maker.make(lesson, choiceFor(kind, editions), name))?.bytes;
    } finally {
      maker.dispose();
    }
  }
}

/** Sheets and pages are shown by what the system has for them, where the file is on a disk; an editor shows their bytes at best. */
async function tellSaved(target: Uri, name: string): Promise<void> {
  const open = 'Open';
  const answers = target.scheme === 'file' ? [open] : [];
  if ((await window.showInformationMessage(`${name} is written.`, ...answers)) === open) await env.openExternal(target);
}

function choiceFor(kind: HandOutKind, editions: HandOutItem['editions']): typeof USUAL_CHOICE {
  return { ...USUAL_CHOICE, kinds: [kind], editions };
}
