// placeholder: replaced by the core
import type { Problem } from '../../text/problem.ts';
import type { LessonDocument } from '../document.ts';

export function problemsOf(_document: LessonDocument): readonly Problem[] {
  return [];
}
