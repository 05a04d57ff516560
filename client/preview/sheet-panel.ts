import {
  Position,
  Range,
  Selection,
  type TextDocument,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  type WebviewPanel,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type LocateAnswer,
  type LocateQuestion,
  PREVIEW_METHOD,
  type SheetUpdate,
  type SourceAnswer,
  type SourceQuestion,
  type Subscribe,
  type Unsubscribe,
  type WriteAnswer,
  type WriteQuestion,
} from '../../server/protocol/preview.ts';
import { type FromPage, readFromPage, type ToPage } from './messages.ts';
import { pageHtml, pageResources } from './panel-html.ts';
import { PanelPlayer } from './panel-player.ts';
import { readPlayingFromPage } from './playing-messages.ts';

/** One sheet beside one lesson: the panel, its page, and its subscription at the server. */
export class SheetPanel {
  readonly panel: WebviewPanel;
  lesson: Uri;
  /** True where it stays with its lesson when another one is opened. */
  pinned = false;
  /** Names the subscription. */
  readonly id: string;
  readonly #client: BaseLanguageClient;
  readonly #started: Promise<void>;
  readonly #playing: PanelPlayer;
  /** The editor whose cursor is to be played from as soon as there is a sheet. */
  #playsFrom: TextEditor | undefined;
  /** What the page last asked for, to ask again when the server is a new one. */
  #look: Extract<FromPage, { kind: 'look' }> | undefined;
  /** Where a pick on the page has put the cursor, and from which block. */
  #followed:
    | { readonly position: Position; readonly revision: number; readonly slot: number; readonly place?: number }
    | undefined;
  /** The lesson's editor that the keyboard was handed to, until the reader touches the sheet again. */
  #handedOver: TextEditor | undefined;
  /** True where the first thing to be seen is what the cursor stands in. */
  #opensAtCursor = false;
  /** Counts cursor questions, so that only the newest one's answer is shown. */
  #cursorQuestions = 0;

  constructor(
    extensionUri: Uri,
    panel: WebviewPanel,
    lesson: Uri,
    service: { readonly id: string; readonly client: BaseLanguageClient; readonly started: Promise<void> },
  ) {
    this.panel = panel;
    this.lesson = lesson;
    this.id = service.id;
    this.#client = service.client;
    this.#started = service.started;
    this.#playing = new PanelPlayer(service, (message) => void panel.webview.postMessage(message));
    panel.title = `Sheet: ${lessonName(lesson)}`;
    // Both must be given anew to a panel that the editor has restored.
    panel.webview.options = { enableScripts: true, localResourceRoots: [pageResources(extensionUri)] };
    panel.webview.onDidReceiveMessage((message: unknown) => this.#receive(message));
    // A hidden page is thrown away with what it shows. When it comes back, it asks for a full sheet by itself.
    panel.onDidChangeViewState(() => {
      if (!panel.visible) this.#unsubscribe();
      if (panel.active) void this.#handOverAgain();
    });
    panel.onDidDispose(() => this.#unsubscribe());
    panel.webview.html = pageHtml(panel.webview, extensionUri, lesson, { leftHanded: this.#leftHandedSetting() });
  }

  /** A change of the sheet, from the server. */
  update(update: SheetUpdate): void {
    this.#post({ kind: 'sheet', update });
  }

  /** Goes on to another lesson, as its reader has. */
  turnTo(lesson: Uri): void {
    this.#unsubscribe();
    this.#followed = undefined;
    this.#handedOver = undefined;
    this.lesson = lesson;
    this.panel.title = `Sheet: ${lessonName(lesson)}`;
    // The page answers with how it wants to see the new lesson.
    this.#post({ kind: 'lesson', uri: lesson.toString() });
    this.settingChanged();
  }

  /** Asks the server for everything again: it is a new one and knows of no subscription. */
  async subscribeAnew(): Promise<void> {
    if (this.#look === undefined || !this.panel.visible) return;
    this.#look = { kind: 'look', view: this.#look.view };
    await this.#subscribe();
  }

  settingChanged(): void {
    this.#post({ kind: 'left-handed-setting', leftHanded: this.#leftHandedSetting() });
  }

  /** Brings the question that the editor's cursor stands in, and what was found for it, into view, as soon as there is a sheet of it. */
  async revealQuestion(editor: TextEditor): Promise<void> {
    const view = this.#look?.view;
    if (view !== undefined && view.edition === undefined && view.page === undefined) {
      await this.markCursor(editor, { reveal: true });
      return;
    }
    this.#opensAtCursor = true;
    if (view !== undefined) this.#post({ kind: 'own-sheet' });
  }

  /** Plays from the editor's cursor, or loops what is selected there. */
  async playFrom(editor: TextEditor): Promise<void> {
    if (this.#look === undefined) this.#playsFrom = editor;
    else await this.#playing.playFrom(editor);
  }

  stopPlaying(): void {
    this.#playing.stop();
  }

  /** Marks the block that the editor's cursor stands in. Only the newest question's answer counts. */
  async markCursor(editor: TextEditor, options: { readonly reveal: boolean }): Promise<void> {
    if (this.#look === undefined || !this.panel.visible) return;
    this.#cursorQuestions += 1;
    const asked = this.#cursorQuestions;
    const { active } = editor.selection;
    if (this.#followed?.position.isEqual(active)) {
      // The same words may be drawn in several places: the one that the reader has picked is the one to mark.
      const { position: _, ...drawn } = this.#followed;
      this.#post({ kind: 'cursor', ...drawn, reveal: false });
      return;
    }
    this.#followed = undefined;
    // The reader has gone on from there by the keyboard, so a sheet that becomes active now is meant to be.
    this.#handedOver = undefined;
    const { line, character } = active;
    const question: LocateQuestion = { id: this.id, position: { line, character } };
    await this.#started;
    const answer = await this.#client.sendRequest<LocateAnswer>(PREVIEW_METHOD.locate, question);
    if (asked !== this.#cursorQuestions || answer.kind === 'unknown') return;
    const { kind, ...where } = answer;
    this.#post({ kind: 'cursor', ...where, reveal: kind === 'block' && options.reveal });
  }

  #leftHandedSetting(): boolean {
    return workspace.getConfiguration('handspan.sheet', this.lesson).get('leftHanded', false);
  }

  #post(message: ToPage): void {
    void this.panel.webview.postMessage(message);
  }

  async #receive(value: unknown): Promise<void> {
    const wanted = readPlayingFromPage(value);
    if (wanted?.kind === 'perform') return this.#playing.perform(wanted);
    // The browser makes sound only after a gesture on the page: it gets the keyboard, and says so.
    if (wanted?.kind === 'held-back') return this.panel.reveal(undefined, false);
    const message = readFromPage(value);
    if (message?.kind === 'look') {
      this.#look = message;
      await this.#subscribe();
    } else if (message?.kind === 'follow') {
      await this.#follow(message);
    } else if (message?.kind === 'write') {
      await this.#write(message);
    } else if (message?.kind === 'touched') {
      this.#handedOver = undefined;
    } else if (message?.kind === 'pin') {
      this.pinned = message.pinned;
    }
  }

  async #subscribe(): Promise<void> {
    const look = this.#look;
    if (look === undefined) return;
    try {
      // Opening a document that no tab shows makes the editor hand it to the server: a restored sheet needs no open lesson.
      await workspace.openTextDocument(this.lesson);
    } catch {
      this.#post({ kind: 'notice', sentence: 'The lesson of this sheet cannot be opened. Was it moved or deleted?' });
      return;
    }
    await this.#started;
    const message: Subscribe = {
      id: this.id,
      uri: this.lesson.toString(),
      view: look.view,
      ...(look.holds === undefined ? {} : { holds: look.holds }),
    };
    await this.#client.sendNotification(PREVIEW_METHOD.subscribe, message);
    const playsFrom = this.#playsFrom;
    this.#playsFrom = undefined;
    if (playsFrom !== undefined) await this.#playing.playFrom(playsFrom);
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === message.uri);
    const reveal = this.#opensAtCursor;
    this.#opensAtCursor = false;
    if (editor !== undefined) await this.markCursor(editor, { reveal });
  }

  #unsubscribe(): void {
    if (this.#look === undefined) return;
    this.#look = undefined;
    const message: Unsubscribe = { id: this.id };
    if (this.#client.isRunning()) void this.#client.sendNotification(PREVIEW_METHOD.unsubscribe, message);
  }

  /** Shows in the lesson where a place on the sheet comes from, and puts the keyboard there. */
  async #follow(message: Extract<FromPage, { kind: 'follow' }>): Promise<void> {
    const { kind: _, ...place } = message;
    const question: SourceQuestion = { id: this.id, ...place };
    await this.#started;
    const answer = await this.#client.sendRequest<SourceAnswer>(PREVIEW_METHOD.source, question);
    // The text has moved on while the click was on its way; the reader sees the new picture and can pick again.
    if (answer.kind !== 'found') return;
    const start = new Position(answer.start.line, answer.start.character);
    const end = new Position(answer.end.line, answer.end.character);
    const document = await workspace.openTextDocument(Uri.parse(answer.uri));
    const { revision, slot, place: marked } = message;
    const paged = this.#look?.view.page !== undefined;
    this.#followed = { position: start, revision, slot, ...(paged && marked !== undefined ? { place: marked } : {}) };
    await this.#handOver(document, start, end);
  }

  /** Writes what was found into the lesson, in one step that one undo takes back, and puts the keyboard there. */
  async #write(message: Extract<FromPage, { kind: 'write' }>): Promise<void> {
    const { kind: _, ...choice } = message;
    const question: WriteQuestion = { id: this.id, ...choice };
    await this.#started;
    const answer = await this.#client.sendRequest<WriteAnswer>(PREVIEW_METHOD.write, question);
    // The text has moved on, or something else is being looked for: the reader sees it come and can choose again.
    if (answer.kind !== 'edits') return;
    const document = await workspace.openTextDocument(Uri.parse(answer.uri));
    if (document.version !== answer.version) return;
    const edit = new WorkspaceEdit();
    const ranges = answer.edits.map(({ range: { start, end }, newText }) => {
      const range = new Range(start.line, start.character, end.line, end.character);
      edit.replace(document.uri, range, newText);
      return range;
    });
    const [first] = ranges;
    if (!(await workspace.applyEdit(edit)) || first === undefined) return;
    await this.#handOver(document, first.start, first.start);
  }

  /** Shows a place in the lesson and puts the keyboard there. */
  async #handOver(document: TextDocument, start: Position, end: Position): Promise<void> {
    const shown = window.visibleTextEditors.find((editor) => editor.document === document);
    const viewColumn = shown?.viewColumn ?? this.#columnOfTab() ?? undefined;
    const editor = await window.showTextDocument(document, { ...(viewColumn === undefined ? {} : { viewColumn }) });
    // A bare cursor and no selection: the next key must not overwrite what was only pointed at.
    editor.selection = new Selection(start, start);
    editor.revealRange(new Range(start, end), TextEditorRevealType.InCenterIfOutsideViewport);
    this.#handedOver = editor;
  }

  /**
   * The editor learns late that a web view was clicked, and may then take the keyboard back to the sheet after it was handed to
   * the lesson. No click came since: the keyboard still belongs to the lesson.
   */
  async #handOverAgain(): Promise<void> {
    const editor = this.#handedOver;
    this.#handedOver = undefined;
    if (editor === undefined) return;
    const { viewColumn } = editor;
    await window.showTextDocument(editor.document, viewColumn === undefined ? {} : { viewColumn });
  }

  /** Where the lesson's own tab is, when another tab covers it. */
  #columnOfTab(): number | undefined {
    for (const group of window.tabGroups.all) {
      for (const { input } of group.tabs) {
        const uri = (input as { readonly uri?: unknown } | undefined)?.uri;
        if (uri instanceof Uri && uri.toString() === this.lesson.toString()) return group.viewColumn;
      }
    }
    // Never over the sheet itself: the first column is where lessons are written.
    return this.panel.viewColumn === 1 ? undefined : 1;
  }
}

/** The file's name without its ending. */
function lessonName(lesson: Uri): string {
  return (lesson.path.split('/').at(-1) ?? lesson.path).replace(/\.lesson$/, '');
}
