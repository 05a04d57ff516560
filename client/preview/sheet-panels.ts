import {
  Disposable,
  Position,
  Selection,
  type TextDocument,
  type TextEditor,
  type TextEditorSelectionChangeEvent,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { readQuestionPlace } from '../../server/protocol/commands.ts';
import { PREVIEW_METHOD } from '../../server/protocol/preview.ts';
import { readFields, readText } from '../../server/protocol/read.ts';
import { readUpdate } from './messages.ts';
import { SheetPanel } from './sheet-panel.ts';

const VIEW_TYPE = 'handspan.preview';
const LANGUAGE = 'handspan';

/**
 * All sheets of this window, at most one for each lesson. When another lesson is opened that has no sheet, a sheet that is in view
 * and not pinned goes on to it.
 */
export class SheetPanels {
  readonly #extensionUri: Uri;
  readonly #client: BaseLanguageClient;
  readonly #started: Promise<void>;
  readonly #sheets = new Set<SheetPanel>();
  /** Panels that came back without knowing their lesson. */
  readonly #lost = new Set<WebviewPanel>();
  readonly #registrations: Disposable;
  /** The version that a lesson had when its cursor was last seen: if it has changed, the cursor moved by typing. */
  readonly #versionAtCursor = new WeakMap<TextDocument, number>();
  #opened = 0;

  constructor(extensionUri: Uri, client: BaseLanguageClient, started: Promise<void>) {
    this.#extensionUri = extensionUri;
    this.#client = client;
    this.#started = started;
    for (const { document } of window.visibleTextEditors) this.#versionAtCursor.set(document, document.version);
    this.#registrations = Disposable.from(
      window.registerWebviewPanelSerializer(VIEW_TYPE, {
        deserializeWebviewPanel: async (panel, state: unknown) => this.#restore(panel, state),
      }),
      window.onDidChangeTextEditorSelection((event) => this.#selectionChanged(event)),
      window.onDidChangeActiveTextEditor((editor) => this.#editorShown(editor)),
      window.onDidChangeVisibleTextEditors(() => this.#adoptLost()),
      workspace.onDidChangeConfiguration((event) => {
        for (const sheet of this.#sheets) {
          if (event.affectsConfiguration('handspan.sheet', sheet.lesson)) sheet.settingChanged();
        }
      }),
      client.onNotification(PREVIEW_METHOD.update, (message: unknown) => this.#updated(message)),
      client.onDidChangeState(({ oldState, newState }) => {
        // A service that comes up again knows nothing of the sheets; those that are open ask anew.
        if (newState !== State.Running || oldState === State.Running) return;
        for (const sheet of this.#sheets) void sheet.subscribeAnew();
      }),
    );
  }

  /** Shows the sheet of the lesson being edited, beside it; the keyboard stays where it is. */
  showForActiveEditor(): void {
    const document = window.activeTextEditor?.document;
    if (document?.languageId === LANGUAGE) this.#show(document.uri);
    else void window.showInformationMessage('Open a lesson first: its sheet is shown beside it.');
  }

  /** Shows on the sheet what was found for a question of a lesson; where none is named, for the one that the cursor stands in. */
  async showCandidates(place: unknown): Promise<void> {
    const asked = readQuestionPlace(place);
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === asked?.uri);
    const shown = editor ?? window.activeTextEditor;
    if (shown === undefined || shown.document.languageId !== LANGUAGE) return;
    if (asked !== undefined) {
      const start = new Position(asked.line, 0);
      shown.selection = new Selection(start, start);
    }
    await this.#show(shown.document.uri).revealQuestion(shown);
  }

  #show(lesson: Uri): SheetPanel {
    const shown = this.#sheetOf(lesson);
    if (shown !== undefined) {
      shown.panel.reveal(undefined, true);
      return shown;
    }
    const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    return this.#adopt(window.createWebviewPanel(VIEW_TYPE, 'Sheet', place), lesson);
  }

  /** Plays what the cursor stands in, in the sheet of its lesson; the keyboard stays where it is. */
  playFromCursor(): void {
    const editor = window.activeTextEditor;
    if (editor?.document.languageId !== LANGUAGE) {
      void window.showInformationMessage('Put the cursor into a lesson first: what stands there is played.');
      return;
    }
    this.showForActiveEditor();
    void this.#sheetOf(editor.document.uri)?.playFrom(editor);
  }

  stopPlaying(): void {
    for (const sheet of this.#sheets) sheet.stopPlaying();
  }

  dispose(): void {
    this.#registrations.dispose();
    for (const { panel } of this.#sheets) panel.dispose();
    for (const panel of this.#lost) panel.dispose();
  }

  /** A panel that the editor brings back after a reload, with the state that its page had saved. */
  #restore(panel: WebviewPanel, state: unknown): void {
    const uri = readText(readFields(state)?.uri);
    if (uri === undefined) this.#restoreLost(panel);
    else if (this.#sheetOf(Uri.parse(uri)) !== undefined) panel.dispose();
    else this.#adopt(panel, Uri.parse(uri));
  }

  /**
   * A window that is reloaded before the page has run has no state of it. The sheet then belongs to the lesson in view, or to the
   * first one that comes into view.
   */
  #restoreLost(panel: WebviewPanel): void {
    this.#lost.add(panel);
    panel.onDidDispose(() => this.#lost.delete(panel));
    this.#adoptLost();
  }

  #adoptLost(): void {
    for (const panel of this.#lost) {
      const editor = window.visibleTextEditors.find(
        ({ document }) => document.languageId === LANGUAGE && this.#sheetOf(document.uri) === undefined,
      );
      if (editor === undefined) return;
      this.#lost.delete(panel);
      this.#adopt(panel, editor.document.uri);
    }
  }

  #adopt(panel: WebviewPanel, lesson: Uri): SheetPanel {
    this.#opened += 1;
    const service = { id: `sheet ${this.#opened}`, client: this.#client, started: this.#started };
    const sheet = new SheetPanel(this.#extensionUri, panel, lesson, service);
    this.#sheets.add(sheet);
    panel.onDidDispose(() => this.#sheets.delete(sheet));
    panel.onDidChangeViewState(() => {
      if (panel.visible) this.#follow(window.activeTextEditor);
    });
    return sheet;
  }

  #sheetOf(lesson: Uri): SheetPanel | undefined {
    const key = lesson.toString();
    return [...this.#sheets].find((sheet) => sheet.lesson.toString() === key);
  }

  /** A lesson without a sheet is being edited: a sheet that is free to goes on to it. */
  #follow(editor: TextEditor | undefined): void {
    const document = editor?.document;
    if (document?.languageId !== LANGUAGE || this.#sheetOf(document.uri) !== undefined) return;
    const { uri } = document;
    const free = [...this.#sheets].find(({ panel, pinned, lesson }) => {
      // The older form of a file in a comparison is no lesson of its own.
      const alike = uri.scheme === lesson.scheme || uri.scheme === 'untitled' || lesson.scheme === 'untitled';
      return panel.visible && !pinned && alike;
    });
    free?.turnTo(uri);
  }

  #updated(message: unknown): void {
    const fields = readFields(message);
    const update = readUpdate(fields?.update);
    if (update === undefined) return;
    for (const sheet of this.#sheets) {
      if (sheet.id === fields?.id) sheet.update(update);
    }
  }

  #selectionChanged({ textEditor }: TextEditorSelectionChangeEvent): void {
    const { document } = textEditor;
    const before = this.#versionAtCursor.get(document);
    const typed = before !== undefined && before !== document.version;
    this.#versionAtCursor.set(document, document.version);
    // The sheet scrolls for a gesture only, not for a letter typed. The kind of the event is no help: the editor gives none
    // for its own jumps to a line or a name, which are gestures as well.
    this.#mark(textEditor, { reveal: !typed });
  }

  #editorShown(editor: TextEditor | undefined): void {
    if (editor === undefined) return;
    this.#versionAtCursor.set(editor.document, editor.document.version);
    this.#adoptLost();
    this.#follow(editor);
    this.#mark(editor, { reveal: false });
  }

  #mark(editor: TextEditor, options: { readonly reveal: boolean }): void {
    void this.#sheetOf(editor.document.uri)?.markCursor(editor, options);
  }
}
