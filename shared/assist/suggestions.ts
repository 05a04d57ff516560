import { entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { fingeringFor } from '../lesson/model/fingerings.ts';
import { namingContext } from '../lesson/model/naming-context.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import type { ChordStatement } from '../lesson/syntax/statement.ts';
import type { ChordName } from '../lesson/syntax/words.ts';
import { readFrets } from '../neck/shape-reader.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Picture, Suggestion } from './answers.ts';
import { scopeCalled, scopeIn } from './entry-scope.ts';
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
  const scope = scopeIn(document, entry);
  const { keeps, name } = scope.edition();
  const seen = new Set<string>();
  return offersFor(scope, entry, place, chordLineAbove(document, index, offset - start)).flatMap((offer) => {
    if (seen.has(offer.label)) return [];
    seen.add(offer.label);
    const { wholeValue, ...suggestion } = offer;
    const replaces: Span = shifted(wholeValue === true ? place.value : place.word, start);
    const edition = keeps === 'own' || (offer.kind !== 'chord' && offer.kind !== 'shape') ? {} : { edition: name };
    return [{ ...suggestion, ...edition, insert: suggestion.insert ?? suggestion.label, replaces }];
  });
}

/** The nearest line above the place that gives a chord its shape; in an edition block of those in the block. */
function chordLineAbove(document: LessonDocument, index: number, at: number): ChordStatement | undefined {
  const block = document.entries[index]?.statement;
  if (block?.kind === 'edition')
    return block.chords.findLast(({ shape, span }) => shape !== undefined && span.end < at);
  for (let above = index - 1; above >= 0; above--) {
    const statement = document.entries[above]?.statement;
    if (statement?.kind === 'chord' && statement.shape !== undefined) return statement;
  }
  return undefined;
}

/** The card beside a chosen suggestion: chords and shapes have one. */
export function suggestionCard(
  document: LessonDocument,
  suggestion: Pick<Suggestion, 'kind' | 'label' | 'chord' | 'edition'>,
): { readonly markdown: string; readonly picture?: Picture } | undefined {
  const scope = scopeCalled(document, suggestion.edition);
  const { instrument } = scope.edition();
  const ground = { instrument, hand: scope.setting('hand'), key: scope.setting('key') };
  if (suggestion.kind === 'chord') {
    const chord = resolveChord(scope, chordNamed(suggestion.label));
    return chord === undefined
      ? undefined
      : shapeCard({ ...ground, shape: chord.shape, chord, fingering: fingeringFor(scope, chord) });
  }
  if (suggestion.kind === 'shape') {
    const frets = readFrets(suggestion.label, instrument.openStrings.length);
    if (!frets.ok) return undefined;
    const { shape } = frets.value;
    if (suggestion.chord === undefined) return shapeCard({ ...ground, shape });
    // A shape is offered for the name that was typed; others that the same notes may have come after it.
    const chord = chordNamed(suggestion.chord);
    const { symbol } = chord;
    const held = symbol === undefined ? {} : { chord: { name: symbol.text, symbol, assumed: false } };
    return shapeCard({ ...ground, shape, context: namingContext(scope, chord), ...held });
  }
  return undefined;
}

function chordNamed(text: string): ChordName {
  return readChordName({ text, span: { start: 0, end: text.length } });
}
