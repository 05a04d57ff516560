// placeholder: replaced by the core
import type { LessonDocument } from '../lesson/document.ts';
import type { Card } from './answers.ts';

export function hoverAt(_document: LessonDocument, _offset: number): Card | undefined {
  return undefined;
}
