import type { LessonDocument } from '../lesson/document.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { scopeOf } from '../lesson/model/scope-of-lesson.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';

/** What the entry may ask about its lesson: what stands in an edition block is held on that edition's instrument. */
export function scopeIn(document: LessonDocument, entry: Entry): Scope {
  const lesson = lessonOf(document);
  return scopeOf(
    lesson,
    lesson.editions.find(({ block }) => block?.entry === entry),
  );
}

/** The same for an edition that is known by its name; the lesson's own where there is none of that name. */
export function scopeCalled(document: LessonDocument, edition: string | undefined): Scope {
  const lesson = lessonOf(document);
  return scopeOf(
    lesson,
    lesson.editions.find(({ name }) => name === edition),
  );
}
