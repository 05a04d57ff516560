import type { LessonDocument } from '../lesson/document.ts';
import type { Fix } from '../text/problem.ts';
import type { TextEdit } from '../text/span.ts';
import { renameAt } from './definition.ts';
import { shapeChangesAt } from './shape-changes.ts';

/**
 * The edits of a fix: its own, or those that concern the whole lesson, which the check of a single statement cannot know: a name
 * changed wherever it is used, a chord line written beside the others. `offset` is where its problem begins.
 */
export function editsOfFix(document: LessonDocument, offset: number, fix: Fix): readonly TextEdit[] {
  if (fix.rename !== undefined) {
    const renamed = renameAt(document, offset, fix.rename);
    return renamed.ok ? renamed.value : fix.edits;
  }
  if (fix.writesShape !== true) return fix.edits;
  return shapeChangesAt(document, offset).find(({ kind }) => kind === 'write')?.edits ?? fix.edits;
}
