import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { editDocument, type LessonDocument, openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { createMemo, type Memo } from '../../../shared/lesson/model/memo.ts';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import type { Entry } from '../../../shared/lesson/syntax/read-entry.ts';
import type { Problem } from '../../../shared/text/problem.ts';

/** Reads a lesson through a memo of its own and says which entries had to be worked out. */
export interface Reader {
  /** First words of the statements that were worked out anew, in the order of the text. */
  readonly workedOut: (document: LessonDocument) => readonly string[];
}

/** `work` is what is computed for each entry; it may ask the scope whatever it likes. */
export function createReader(work: (scope: Scope, entry: Entry) => unknown): Reader {
  const memo: Memo<unknown> = createMemo();
  return {
    workedOut: (document) => {
      const scope = scopeOf(lessonOf(document));
      return document.entries.flatMap((entry) => {
        let computed = false;
        memo.get(entry, scope, '', (asked) => {
          computed = true;
          return work(asked, entry);
        });
        return computed ? [entry.text.trim().split(/\s+/).slice(0, 2).join(' ')] : [];
      });
    },
  };
}

/** The document with one word of it replaced. */
export function replaced(document: LessonDocument, old: string, text: string): LessonDocument {
  const start = document.text.indexOf(old);
  if (start < 0) throw new Error(`The lesson has no ${old}.`);
  return editDocument(document, { span: { start, end: start + old.length }, text });
}

/** Problems as a lesson that was never edited has them. */
export function freshProblems(text: string): readonly Problem[] {
  return problemsOf(openDocument(text));
}
