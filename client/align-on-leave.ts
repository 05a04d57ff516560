import {
  Disposable,
  type Position,
  type TextDocument,
  type TextDocumentChangeEvent,
  TextDocumentChangeReason,
  type TextEditor,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient, TextEdit } from 'vscode-languageclient';
import { ENTRY_FORMATTING_METHOD, type EntryFormatting } from '../server/protocol/entry-formatting.ts';

/**
 * Aligns the columns of a statement when the cursor leaves it after an edit, in one step of undo, and never under the
 * typing hand. What is aligned with what is the server's to say; here it is only noted where something was typed.
 */
export class AlignOnLeave {
  readonly #client: BaseLanguageClient;
  readonly #registrations: Disposable;
  /** Where each lesson was typed in and has not been left since. */
  readonly #edited = new Map<TextDocument, Position>();

  constructor(client: BaseLanguageClient) {
    this.#client = client;
    this.#registrations = Disposable.from(
      workspace.onDidChangeTextDocument((event) => this.#noteEdit(event)),
      workspace.onDidCloseTextDocument((document) => this.#edited.delete(document)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#cursorMoved(textEditor)),
    );
  }

  dispose(): void {
    this.#registrations.dispose();
  }

  #noteEdit({ document, contentChanges, reason }: TextDocumentChangeEvent): void {
    const change = contentChanges.at(-1);
    if (document.languageId !== 'handspan' || change === undefined) return;
    // Who takes an alignment back wants it gone, and who edits in several places at once is not leaving any of them.
    if (reason === TextDocumentChangeReason.Undo || reason === TextDocumentChangeReason.Redo) {
      this.#edited.delete(document);
    } else if (window.activeTextEditor?.document === document && window.activeTextEditor.selections.length === 1) {
      this.#edited.set(document, change.range.start);
    }
  }

  async #cursorMoved(editor: TextEditor): Promise<void> {
    const { document } = editor;
    const edited = this.#edited.get(document);
    if (edited === undefined || edited.line === editor.selection.active.line || !this.#client.isRunning()) return;
    if (!workspace.getConfiguration('handspan', document).get('alignColumns', true)) return;
    const { version } = document;
    const converter = this.#client.code2ProtocolConverter;
    const question: EntryFormatting = {
      textDocument: { uri: converter.asUri(document.uri) },
      position: converter.asPosition(edited),
      cursor: converter.asPosition(editor.selection.active),
    };
    const edits = await this.#client.sendRequest<readonly TextEdit[] | null>(ENTRY_FORMATTING_METHOD, question);
    // The cursor has not left yet, or the hand is typing again: it will come by another time.
    if (edits === null || document.version !== version) return;
    this.#edited.delete(document);
    if (edits.length === 0) return;
    await editor.edit((builder) => {
      for (const { range, newText } of edits) {
        builder.replace(this.#client.protocol2CodeConverter.asRange(range), newText);
      }
    });
    // The alignment is an edit too, but nothing that was typed.
    this.#edited.delete(document);
  }
}
