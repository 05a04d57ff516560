import { entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { scopeOf } from '../lesson/model/scope.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import { readFrets } from '../neck/shape-reader.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Picture, Suggestion } from './answers.ts';
import { offersFor } from './offers.ts';
import { shapeCard } from './shape-card.ts';
import { placeOf } from './typing-place.ts';

/** What may stand at the offset, best first; nothing in comments, and in prose only behind `@`. Spans in file offsets. */
export function suggestionsAt(document: LessonDocument, offset: number): readonly Suggestion[] {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  if (entry === undefined || start === undefined) return [];
  const place = placeOf(entry, offset - start);
  if (place === undefined) return [];
  const scope = scopeOf(lessonOf(document));
  const seen = new Set<string>();
  return offersFor(scope, entry, place).flatMap((offer) => {
    if (seen.has(offer.label)) return [];
    seen.add(offer.label);
    const { wholeValue, ...suggestion } = offer;
    const replaces: Span = shifted(wholeValue === true ? place.value : place.word, start);
    return [{ ...suggestion, insert: suggestion.insert ?? suggestion.label, replaces }];
  });
}

/** The card beside a chosen suggestion: chords and shapes have one. */
export function suggestionCard(
  document: LessonDocument,
  suggestion: Pick<Suggestion, 'kind' | 'label'>,
): { readonly markdown: string; readonly picture?: Picture } | undefined {
  const scope = scopeOf(lessonOf(document));
  const { instrument } = scope.edition();
  const ground = { instrument, hand: scope.setting('hand'), key: scope.setting('key') };
  if (suggestion.kind === 'chord') {
    const chord = resolveChord(
      scope,
      readChordName({ text: suggestion.label, span: { start: 0, end: suggestion.label.length } }),
    );
    return chord === undefined ? undefined : shapeCard({ ...ground, shape: chord.shape, chord });
  }
  if (suggestion.kind === 'shape') {
    const frets = readFrets(suggestion.label, instrument.openStrings.length);
    return frets.ok ? shapeCard({ ...ground, shape: frets.value.shape }) : undefined;
  }
  return undefined;
}
