import { HAND_NAMES } from '../hand/hand.ts';
import type { NameKind, Scope } from '../lesson/model/scope.ts';
import { blockOf, KEYWORDS } from '../lesson/syntax/keywords.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { readMark } from '../lesson/syntax/read-marks.ts';
import { isNoChord, readChordName } from '../lesson/syntax/read-names.ts';
import type { ChordStatement, Statement } from '../lesson/syntax/statement.ts';
import { instrumentSuggestions } from '../neck/instruments.ts';
import { isCompound } from '../theory/meter.ts';
import type { SuggestionKind } from './answers.ts';
import { chordLineOffers, lineShapes, usualShapes } from './chord-line-offers.ts';
import { chordOffers, IN_LESSON } from './chord-offers.ts';
import type { Offer } from './offer.ts';
import { placeOffers } from './place-offers.ts';
import type { TypingPlace } from './typing-place.ts';

/** What may stand at the place, best first. `above` is the chord line above it, which the hand may come from. */
export function offersFor(
  scope: Scope,
  entry: Entry,
  place: TypingPlace,
  above: ChordStatement | undefined,
): readonly Offer[] {
  if (place.kind === 'mention')
    return [...named(scope, ['pattern', 'melody', 'progression', 'family']), ...chordOffers(scope, place.typed)];
  const { statement } = entry;
  if (place.kind === 'head') return headOffers(scope, statement, place);
  const keyword = place.before[0]?.toLowerCase() ?? '';
  const offers =
    place.line.indent === 0
      ? headerOffers(scope, keyword, place, above)
      : bodyOffers(scope, statement, keyword, place, above);
  return offers.filter((offer) => !isItself(scope, statement, offer));
}

/** True for the name that the statement itself gives: a pattern is not like itself, and a chord line does not repeat its own. */
function isItself(scope: Scope, statement: Statement, { kind, label, detail }: Offer): boolean {
  if (statement.kind === 'chord') return detail === IN_LESSON && scope.chord(label) === statement;
  return kind === statement.kind && 'name' in statement && statement.name?.text === label;
}

function headOffers(scope: Scope, statement: Statement, place: TypingPlace): readonly Offer[] {
  if (place.atMargin) return keywordOffers('lesson');
  const block = blockOf(statement);
  if (block === 'lesson') return [];
  const keywords = keywordOffers(block);
  if (block === 'melody') return [...keywords, ...chordOffers(scope, place.typed)];
  if (block === 'edition')
    return [
      ...keywords,
      ...keywordOffers('melody').filter((offer) => !keywords.some((known) => known.label === offer.label)),
    ];
  return keywords;
}

function keywordOffers(block: keyof typeof KEYWORDS): readonly Offer[] {
  return KEYWORDS[block].map(({ word, says }) => ({ kind: 'keyword', label: word, detail: says, insert: `${word}  ` }));
}

function headerOffers(
  scope: Scope,
  keyword: string,
  place: TypingPlace,
  above: ChordStatement | undefined,
): readonly Offer[] {
  switch (keyword) {
    case 'for':
    case 'also':
      return instrumentSuggestions().flatMap(({ label, detail }): readonly Offer[] =>
        keyword === 'for'
          ? [{ kind: 'instrument', label, detail, wholeValue: true }]
          : (['same shapes', 'same key'] as const).map((keeps) => ({
              kind: 'instrument',
              label: `${label}, ${keeps}`,
              detail,
              wholeValue: true,
            })),
      );
    case 'key':
      return KEYS.map((label) => ({ kind: 'value', label, wholeValue: true }));
    case 'meter':
      return values(['4/4', '3/4', '2/4', '6/8', '12/8', '9/8', '5/4']);
    case 'feel':
      return values(['straight', 'swing', 'swing 3 to 2', 'swing sixteenths']);
    case 'tempo':
      return values(['60 to 92 by 4', '80', '60 to 80']);
    case 'hand':
      return values(HAND_NAMES);
    case 'level':
      return values(['1', '2', '3', '4', '5', '6', '7', '8', '9', '10']);
    case 'language':
      return values(LANGUAGES);
    case 'chord':
      return chordLineOffers(scope, place, (chord) => lineShapes(scope, chord, above));
    case 'show':
      return [...named(scope, ['pattern', 'melody', 'progression']), ...chordOffers(scope, place.typed)];
    case 'progression':
      return place.before.length > 1 ? barOffers(scope, place) : [];
    default:
      return [];
  }
}

const KEYS: readonly string[] = ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb']
  .map((tonic) => `${tonic} major`)
  .concat(
    ['A', 'E', 'D', 'B', 'G', 'C', 'F#', 'F'].map((tonic) => `${tonic} minor`),
    ['D dorian', 'G mixolydian', 'A dorian', 'E phrygian'],
  );

/** Tags of widely written languages, in the order of the alphabet; any other may be written too. */
const LANGUAGES = ['de', 'el', 'en', 'es', 'fr', 'it', 'ja', 'nl', 'pl', 'pt-BR', 'ru', 'uk', 'vi'] as const;

function values(labels: readonly string[]): readonly Offer[] {
  return labels.map((label) => ({ kind: 'value', label, wholeValue: true }));
}

function bodyOffers(
  scope: Scope,
  statement: Statement,
  keyword: string,
  place: TypingPlace,
  above: ChordStatement | undefined,
): readonly Offer[] {
  switch (statement.kind) {
    case 'progression':
      return keyword === 'words' || keyword === 'count' ? [] : barOffers(scope, place);
    case 'exercise':
      return exerciseOffers(scope, keyword, place);
    case 'family':
      return familyOffers(scope, keyword, place);
    case 'edition':
      return keyword === 'chord'
        ? chordLineOffers(scope, place, (chord) => lineShapes(scope, chord, above))
        : keyword === 'pattern' || keyword === 'melody'
          ? named(scope, [keyword])
          : gridOffers(scope, keyword, place);
    case 'pattern':
    case 'melody':
      return gridOffers(scope, keyword, place);
    default:
      return [];
  }
}

function barOffers(scope: Scope, place: TypingPlace): readonly Offer[] {
  return [
    ...chordOffers(scope, place.typed),
    { kind: 'mark', label: '%', detail: 'The bar before once more.' },
    { kind: 'mark', label: 'NC', detail: 'No chord.' },
  ];
}

function exerciseOffers(scope: Scope, keyword: string, place: TypingPlace): readonly Offer[] {
  switch (keyword) {
    case 'play':
      return named(scope, ['progression']);
    case 'with':
    case 'each':
      return named(scope, ['pattern', 'melody']);
    case 'at':
      return place.before.length === 1
        ? [{ kind: 'keyword', label: 'bar', insert: 'bar ' }, ...words(['1st', '2nd'])]
        : named(scope, ['pattern', 'melody']);
    case 'over':
      return [...definedChords(scope), ...named(scope, ['progression']), ...chordOffers(scope, place.typed)];
    case 'restart':
      return words(['chord', 'bar']);
    case 'ring':
      return words(['all', 'none', '1 2']);
    case 'tempo':
      return values(['60 to 92 by 4', '60 to 80', '80']);
    case 'meter':
      return values(['4/4', '3/4', '6/8']);
    default:
      return [];
  }
}

function familyOffers(scope: Scope, keyword: string, place: TypingPlace): readonly Offer[] {
  switch (keyword) {
    case 'from':
      return named(scope, ['progression']);
    case 'ring':
      return words(['1', '2', '1 2', 'all', 'none']);
    case 'within':
      return values(['0 to 10', '0 to 7', '5 to 12']);
    case 'allow':
      return words(['add9', '6', '6/9', 'maj7', 'm7', 'sus2', 'sus4', 'no5']);
    case 'keep':
      return chordLineOffers(scope, place, ({ symbol }) => usualShapes(scope, symbol));
    default:
      return [];
  }
}

function gridOffers(scope: Scope, keyword: string, place: TypingPlace): readonly Offer[] {
  const strings = scope.edition().instrument.openStrings.length;
  if (isWholeMark(keyword, place)) return [];
  switch (keyword) {
    case 'like':
      return named(scope, ['pattern', 'melody']);
    case 'inside':
      return named(scope, ['progression']);
    case 'ring':
      return words(['all', 'none', '1 2']);
    case 'plant':
      return values(['p4 i3 m2 a1']);
    case 'count':
      return values(
        isCompound(scope.setting('meter'))
          ? ['1 2 3 4 5 6', '1 & a 2 & a']
          : ['1 & 2 & 3 & 4 &', '1 2 3 4', '1 e & a 2 e & a 3 e & a 4 e & a', '1 la li 2 la li'],
      );
    case 'pick':
      return marks([
        ...Array.from({ length: strings }, (_, index) => `${strings - index}`).flatMap((string) => [
          `${string}p`,
          `${string}i`,
          `${string}m`,
        ]),
        'Rp',
        'Ap',
        '.',
        'stop',
      ]);
    case 'strum':
      return marks(['D', 'U', '.', 'D~', 'Dx', 'chunk', '(U)', 'roll', 's', 'stop']);
    case 'hit':
      return marks([`thumb${strings}`, 'palm', 'nails', 'body', '.']);
    case 'fingers':
      return marks(['1', '2', '3', '4', '0', 'T', '.']);
    case 'chord':
      return chordOffers(scope, place.typed);
    case 'tune':
      return placeOffers(scope, undefined);
    default: {
      const chord = readChordName({ text: place.before[0] ?? '', span: { start: 0, end: keyword.length } });
      return chord.symbol !== undefined || scope.chord(chord.text) !== undefined ? placeOffers(scope, chord) : [];
    }
  }
}

/** A mark that is typed out needs no offer: Enter behind it begins the next line and writes nothing else in its place. */
function isWholeMark(keyword: string, { typed, word }: TypingPlace): boolean {
  if (keyword !== 'pick' && keyword !== 'strum' && keyword !== 'hit' && keyword !== 'fingers') return false;
  return typed !== '' && 'mark' in readMark({ text: typed, span: word }, keyword);
}

function words(labels: readonly string[]): readonly Offer[] {
  return labels.map((label) => ({ kind: 'value', label }));
}

function marks(labels: readonly string[]): readonly Offer[] {
  return labels.map((label) => ({ kind: 'mark', label }));
}

function definedChords(scope: Scope): readonly Offer[] {
  return scope
    .names('chord')
    .split('\n')
    .filter((name) => name !== '' && !isNoChord(name))
    .map((label) => ({ kind: 'chord', label, detail: IN_LESSON }));
}

function named(scope: Scope, kinds: readonly Exclude<NameKind, 'chord'>[]): readonly Offer[] {
  return kinds.flatMap((kind) =>
    scope
      .names(kind)
      .split('\n')
      .filter((name) => name !== '')
      .map(
        (label): Offer => ({
          kind: (kind === 'family' ? 'value' : kind) satisfies SuggestionKind,
          label,
          detail: kind,
        }),
      ),
  );
}
