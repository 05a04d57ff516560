import type { Scope } from '../lesson/model/scope.ts';
import { CHORD_STYLES } from '../theory/chord-style.ts';
import { type ChordSymbol, parseChordSymbol, printChordSymbol } from '../theory/chord-symbol.ts';
import { diatonicChords, type Key } from '../theory/key.ts';
import type { Offer } from './offer.ts';

/** Endings of chord names in the order of use. Common practice, no source. */
const SUFFIXES: readonly string[] = [
  '',
  'm',
  '7',
  'm7',
  'maj7',
  '6',
  'm6',
  '9',
  '(add9)',
  'sus4',
  'sus2',
  'dim',
  'dim7',
  'm7b5',
  'aug',
  '7sus4',
  'm9',
  'maj9',
  '6/9',
  '13',
  '7b9',
  '5',
];

/** What is said beside a name that the lesson itself gives. */
export const IN_LESSON = 'in this lesson';

/** Roots to offer where none is typed and no key is given. Common practice, no source. */
const USUAL_ROOTS: readonly string[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B', 'Bb', 'Eb', 'F#'];

/**
 * Chord names: those of the lesson, then the key's, then any on the root that is being typed. Names in a lesson are those of its own
 * instrument, on whatever edition they are typed; `key` says otherwise.
 */
export function chordOffers(
  scope: Scope,
  typed: string,
  key: Key | undefined = (scope.editions()[0] ?? scope).setting('key'),
): readonly Offer[] {
  const own = scope
    .names('chord')
    .split('\n')
    .filter((name) => name !== '')
    .map((label): Offer => ({ kind: 'chord', label, detail: IN_LESSON }));
  const diatonic =
    key === undefined ? [] : diatonicChords(key).map((symbol) => ({ ...offerOf(scope, symbol), detail: 'in the key' }));
  const root = /^[A-G](?:#|b|♯|♭)?/.exec(typed)?.[0];
  const roots = root !== undefined ? [root] : key === undefined ? USUAL_ROOTS : [];
  const suffixes = root !== undefined ? SUFFIXES : SUFFIXES.slice(0, 3);
  const any = roots.flatMap((name) =>
    suffixes.flatMap((suffix) => {
      const read = parseChordSymbol(name + suffix);
      return read.ok ? [offerOf(scope, read.value, read.value.text)] : [];
    }),
  );
  return [...own, ...diatonic, ...any];
}

/** Written in the teacher's style, and found by the letters that are typed. */
function offerOf(scope: Scope, symbol: ChordSymbol, letters = printChordSymbol(symbol)): Offer {
  const label = printChordSymbol(symbol, CHORD_STYLES[scope.setting('chordStyle')]);
  return label === letters ? { kind: 'chord', label } : { kind: 'chord', label, filter: letters };
}
