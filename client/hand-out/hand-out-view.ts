import {
  commands,
  type Disposable,
  EventEmitter,
  env,
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
import { mayWrite } from './hand-out.ts';
import { type HandOutDesk, type LessonToHandOut, lessonAt } from './hand-out-desk.ts';
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
}

/** The list beside the explorer: what the lesson in front yields, kind by kind. */
export class HandOutView implements TreeDataProvider<Kind | HandOutItem> {
  readonly #desk: HandOutDesk;
  readonly #changed = new EventEmitter<undefined>();
  readonly onDidChangeTreeData = this.#changed.event;
  readonly #disposables: readonly Disposable[];
  #shown: TextDocument | undefined;

  constructor(desk: HandOutDesk) {
    this.#desk = desk;
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
    const listed: ListedInFolder | null = await this.#desk.list(lesson, choiceFor(parent.kind));
    return (listed?.files ?? []).map(
      ({ kind, name, edition }): HandOutItem => ({ of: 'file', lesson: document.uri, kind, name, edition }),
    );
  }

  getTreeItem(one: Kind | HandOutItem): TreeItem {
    if (one.of === 'kind') return new TreeItem(one.label, TreeItemCollapsibleState.Collapsed);
    const item = new TreeItem(one.name, TreeItemCollapsibleState.None);
    item.description = one.edition;
    item.contextValue = 'file';
    item.tooltip = READABLE.has(one.kind) ? `${one.name}: click to look at it` : `${one.name}: click to make it`;
    item.command = { command: 'handspan.handOutFile', title: 'Make and Open', arguments: [one] };
    return item;
  }

  async #open(item: HandOutItem): Promise<void> {
    if (!READABLE.has(item.kind)) return this.#save(item);
    const query = JSON.stringify({ lesson: item.lesson.toString(), kind: item.kind, name: item.name });
    const uri = Uri.from({ scheme: PREVIEW_SCHEME, path: `/${item.name}`, query });
    await commands.executeCommand('vscode.open', uri, { preview: true });
  }

  async #textOf(uri: Uri): Promise<string> {
    const { lesson, kind, name } = JSON.parse(uri.query) as { lesson: string; kind: HandOutKind; name: string };
    const made = await this.#make(Uri.parse(lesson), kind, name);
    return made === undefined ? '' : new TextDecoder().decode(made);
  }

  async #save(item: HandOutItem): Promise<void> {
    if (!(await mayWrite())) return;
    const own = item.name.slice(item.name.lastIndexOf('/') + 1);
    const near = item.lesson.scheme === 'untitled' ? undefined : Uri.joinPath(item.lesson, '..', own);
    const target = await window.showSaveDialog(near === undefined ? {} : { defaultUri: near });
    if (target === undefined) return;
    try {
      const made = await this.#make(item.lesson, item.kind, item.name);
      if (made === undefined) {
        await window.showInformationMessage(`The lesson does not yield ${own} any more; nothing was written.`);
        return;
      }
      await writeBelow(Uri.joinPath(target, '..'), target.path.slice(target.path.lastIndexOf('/') + 1), made);
      // Sheets and pages are shown by what the system has for them; an editor shows their bytes at best.
      if (target.scheme === 'file') await env.openExternal(target);
      else await window.showInformationMessage(`${own} is written.`);
    } catch (reason) {
      await window.showErrorMessage(
        `${own} could not be written: ${reason instanceof Error ? reason.message : reason}`,
      );
    }
  }

  async #make(uri: Uri, kind: HandOutKind, name: string): Promise<Uint8Array | undefined> {
    const lesson: LessonToHandOut | undefined = await lessonAt(uri);
    return lesson === undefined ? undefined : (await this.#desk.make(lesson, choiceFor(kind), name))?.bytes;
  }
}

function choiceFor(kind: HandOutKind): typeof USUAL_CHOICE {
  return { ...USUAL_CHOICE, kinds: [kind], editions: 'all' };
}
