import { LSPErrorCodes, type Position, type Range, ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { renameAt, renameSpanAt } from '../../shared/assist/definition.ts';
import type { EditorCan } from '../editor-can.ts';
import { toOffset } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toRange } from '../to-protocol.ts';
import { workspaceEdit } from '../workspace-edit.ts';

/** The name under the cursor; null where nothing can be renamed. */
export function prepareRename(lesson: OpenLesson, position: Position): { range: Range; placeholder: string } | null {
  const span = renameSpanAt(lesson.document, toOffset(lesson.text, position));
  if (span === undefined) return null;
  return { range: toRange(lesson.text, span), placeholder: lesson.document.text.slice(span.start, span.end) };
}

/** The edits, or why the new name will not do, in words that the editor shows to the teacher. */
export function rename(
  lesson: OpenLesson,
  position: Position,
  name: string,
  can: EditorCan,
): WorkspaceEdit | ResponseError {
  const outcome = renameAt(lesson.document, toOffset(lesson.text, position), name);
  if (!outcome.ok) return new ResponseError(LSPErrorCodes.RequestFailed, outcome.problem.message);
  return workspaceEdit(lesson, outcome.value, can);
}
