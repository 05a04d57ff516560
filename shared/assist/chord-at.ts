import { resolveChord } from '../lesson/model/chords.ts';
import { occurrencesIn } from '../lesson/model/occurrences.ts';
import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { ChordStatement, Statement } from '../lesson/syntax/statement.ts';
import type { ChordName } from '../lesson/syntax/words.ts';
import { type Span, touches } from '../text/span.ts';

/** A chord under the cursor. Spans count from the start of the entry. */
export interface ChordAt {
  readonly chord: ChordName;
  /** The name, or the frets of its line. */
  readonly span: Span;
  /** The `chord` line that the cursor is in. */
  readonly line?: ChordStatement;
}

/** The chord whose name stands at the place, or whose frets do; undefined where there is none. */
export function chordAt(scope: Scope, statement: Statement, at: number): ChordAt | undefined {
  const line = chordLinesOf(statement).find(
    ({ chord, frets }) => (chord && touches(chord.span, at)) || (frets && touches(frets.span, at)),
  );
  if (line?.chord !== undefined) {
    const { chord, frets } = line;
    return { chord, line, span: frets !== undefined && touches(frets.span, at) ? frets.span : chord.span };
  }
  const use = occurrencesIn(scope, statement).find(({ span }) => touches(span, at));
  return use?.chord === undefined ? undefined : { chord: use.chord, span: use.span };
}

function chordLinesOf(statement: Statement): readonly ChordStatement[] {
  if (statement.kind === 'chord') return [statement];
  return statement.kind === 'edition' ? statement.chords : [];
}

/** The chord as it is held there. On its own line it has the shape of that line, though another line may be the one that counts. */
export function heldAt(scope: Scope, { chord, line }: ChordAt): ResolvedChord | undefined {
  const symbol = (line?.as ?? line?.chord)?.symbol;
  const shape = line?.shape;
  if (line === undefined || symbol === undefined || shape?.length !== scope.edition().instrument.openStrings.length)
    return resolveChord(scope, chord);
  const { text } = chord;
  const fingers = line.fingers === undefined ? {} : { fingers: line.fingers };
  return { text, name: symbol.text, symbol, shape, assumed: false, statement: line, ...fingers };
}
