import type { WorkspaceEdit } from 'vscode-languageserver';
import type { TextEdit } from '../shared/text/span.ts';
import type { EditorCan } from './editor-can.ts';
import type { OpenLesson } from './open-lessons.ts';
import { toWireEdit } from './to-protocol.ts';

/** Edits of one lesson; they name its version where the editor can refuse edits of an older text. */
export function workspaceEdit(lesson: OpenLesson, edits: readonly TextEdit[], can: EditorCan): WorkspaceEdit {
  const wireEdits = edits.map((edit) => toWireEdit(lesson.text, edit));
  if (!can.versionedEdits) return { changes: { [lesson.uri]: wireEdits } };
  return {
    documentChanges: [{ textDocument: { uri: lesson.uri, version: lesson.version }, edits: wireEdits }],
  };
}
