import { env, type TextEditor, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  READ_TEXT_METHOD,
  type ReadingOfText,
  type ReadingsOfText,
  type TextToRead,
} from '../server/protocol/read-text.ts';

/**
 * Writes what was copied from a mail, tab or chords over words, into the lesson at the cursor as lines of the lesson, in one step of
 * undo. Where the text does not say its rhythm the teacher chooses; who chooses nothing leaves everything as it was.
 */
export async function pasteText(client: BaseLanguageClient): Promise<void> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== 'handspan' || !client.isRunning()) return;
  const text = await env.clipboard.readText();
  const { version } = editor.document;
  const found = await ask(client, editor, text);
  if (found === null) return;
  if (found.readings.length === 0) {
    await window.showInformationMessage('The clipboard holds neither tab nor a line of chords; nothing was written.');
    return;
  }
  const chosen = await choose(client, editor, text, found);
  if (chosen === undefined) return;
  if (editor.document.version !== version) {
    await window.showWarningMessage('The lesson has changed meanwhile; nothing was written. Paste once more.');
    return;
  }
  const place = client.protocol2CodeConverter.asPosition(found.position);
  await editor.edit((builder) => builder.insert(place, chosen.text));
}

function ask(
  client: BaseLanguageClient,
  editor: TextEditor,
  text: string,
  count?: string,
): Promise<ReadingsOfText | null> {
  const converter = client.code2ProtocolConverter;
  const question: TextToRead = {
    textDocument: { uri: converter.asUri(editor.document.uri) },
    text,
    position: converter.asPosition(editor.selection.active),
    ...(count === undefined ? {} : { count }),
  };
  return client.sendRequest<ReadingsOfText | null>(READ_TEXT_METHOD, question);
}

/** The only reading, or the one that is picked; undefined where the teacher turns away. */
async function choose(
  client: BaseLanguageClient,
  editor: TextEditor,
  text: string,
  { readings, counted }: ReadingsOfText,
): Promise<ReadingOfText | undefined> {
  const [only] = readings;
  if (readings.length < 2) return only;
  const items = [
    ...readings.map((reading) => ({ label: reading.label, detail: reading.preview, reading })),
    ...(counted === undefined ? [] : [{ label: counted.label, detail: counted.preview, reading: undefined }]),
  ];
  const picked = await window.showQuickPick(items, {
    title: 'The text does not say its rhythm',
    placeHolder: 'How is it to be read? Strings and frets are the same in every way.',
  });
  if (picked === undefined || picked.reading !== undefined) return picked?.reading;
  return readOnCount(client, editor, text, counted?.count ?? '');
}

/** Asks for the counts that have a note, and says at once what is wrong with them. */
async function readOnCount(
  client: BaseLanguageClient,
  editor: TextEditor,
  text: string,
  begun: string,
): Promise<ReadingOfText | undefined> {
  const count = await window.showInputBox({
    title: 'Counts of a bar that have a note',
    value: begun,
    validateInput: async (typed) => (await ask(client, editor, text, typed))?.fault,
  });
  if (count === undefined) return undefined;
  return (await ask(client, editor, text, count))?.readings[0];
}
