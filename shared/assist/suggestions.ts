// placeholder: replaced by the core
import type { LessonDocument } from '../lesson/document.ts';
import type { Picture, Suggestion } from './answers.ts';

export function suggestionsAt(_document: LessonDocument, _offset: number): readonly Suggestion[] {
  return [];
}

export function suggestionCard(
  _document: LessonDocument,
  _suggestion: Pick<Suggestion, 'kind' | 'label'>,
): { readonly markdown: string; readonly picture?: Picture } | undefined {
  return undefined;
}
