// placeholder: replaced by the core
import type { TextEdit } from '../text/span.ts';
import type { LessonDocument } from './document.ts';

export function formatDocument(_document: LessonDocument): readonly TextEdit[] {
  return [];
}

export function formatEntryAt(_document: LessonDocument, _offset: number): readonly TextEdit[] {
  return [];
}
