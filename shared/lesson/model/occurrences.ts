import type { Span } from '../../text/span.ts';
import { isNoChord, readChordName } from '../syntax/read-names.ts';
import type { ChordStatement, GridStatement, Prose, Statement } from '../syntax/statement.ts';
import type { ChordName, ListMember, Word } from '../syntax/words.ts';
import { longestMention } from './mentions.ts';
import type { NameKind, Scope } from './scope.ts';

/** A place where a name is defined or used. Spans count from the start of the entry. */
export interface Occurrence {
  readonly kind: NameKind;
  readonly text: string;
  readonly span: Span;
  readonly defines: boolean;
  /** For chords. */
  readonly chord?: ChordName;
  /** A sentence for the student speaks of it. */
  readonly mentioned?: true;
}

/** Every name in a statement that means something of the lesson or, for chords, of the trade. */
export function occurrencesIn(scope: Scope, statement: Statement): readonly Occurrence[] {
  switch (statement.kind) {
    case 'chord':
      return chordLine(statement, true);
    case 'progression': {
      const chords = statement.lines.flatMap((line) =>
        line.bars.flatMap((bar) => bar.items.flatMap((item) => (item.kind === 'chord' ? [use(item.chord)] : []))),
      );
      return [...name('progression', statement.name, true), ...chords, ...inProse(scope, statement.prose)];
    }
    case 'pattern':
    case 'melody':
      return [...grid(scope, statement, true), ...inProse(scope, statement.prose)];
    case 'exercise': {
      const lists = [...statement.with, ...(statement.each ? [statement.each] : []), ...statement.at];
      return [
        ...any(scope, statement.play?.members ?? [], ['progression']),
        ...any(scope, statement.over?.members ?? [], ['progression', 'chord']),
        ...lists.flatMap((list) => any(scope, list.members, ['pattern', 'melody'])),
        ...inProse(scope, statement.prose),
      ];
    }
    case 'family':
      return [
        ...name('family', statement.name, true),
        ...name('progression', statement.from, false),
        ...statement.keep.map((keep) => use(keep.chord)),
        ...inProse(scope, statement.prose),
      ];
    case 'edition':
      return [
        ...statement.chords.flatMap((chord) => chordLine(chord, false)),
        ...statement.grids.flatMap((inner) => grid(scope, inner, false)),
        ...inProse(scope, statement.prose),
      ];
    case 'show':
      return any(scope, statement.names, ['pattern', 'melody', 'progression', 'chord']);
    case 'prose':
      return inProse(scope, statement.paragraphs);
    default:
      return [];
  }
}

function chordLine(statement: ChordStatement, defines: boolean): readonly Occurrence[] {
  return statement.chord === undefined ? [] : [{ ...use(statement.chord), defines }];
}

function grid(scope: Scope, statement: GridStatement, defines: boolean): readonly Occurrence[] {
  const rows = statement.lines.flatMap((line) => line.rows);
  return [
    ...name(statement.kind, statement.name, defines),
    ...(statement.like === undefined ? [] : anyWord(scope, statement.like, ['pattern', 'melody'])),
    ...name('progression', statement.inside, false),
    ...rows.flatMap((row) => [
      ...(row.chord === undefined ? [] : [use(row.chord)]),
      ...row.cells.flatMap((cell) => (cell.mark.kind === 'chord' ? [use(cell.mark.chord)] : [])),
    ]),
  ];
}

function use(chord: ChordName): Occurrence {
  return { kind: 'chord', text: chord.text, span: chord.span, defines: false, chord };
}

function name(kind: NameKind, word: Word | undefined, defines: boolean): readonly Occurrence[] {
  return word === undefined ? [] : [{ kind, text: word.text, span: word.span, defines }];
}

function any(scope: Scope, members: readonly ListMember[], kinds: readonly NameKind[]): readonly Occurrence[] {
  return members.flatMap((member) => member.names.flatMap((word) => anyWord(scope, word, kinds)));
}

/** The word as the first kind of name that it is known as. */
function anyWord(scope: Scope, word: Word, kinds: readonly NameKind[]): readonly Occurrence[] {
  for (const kind of kinds) {
    if (kind === 'chord') {
      const chord = readChordName(word);
      if (!isNoChord(word.text) && (chord.symbol !== undefined || scope.chord(word.text) !== undefined))
        return [use(chord)];
    } else if (isDefined(scope, kind, word.text)) return name(kind, word, false);
  }
  return [];
}

function isDefined(scope: Scope, kind: Exclude<NameKind, 'chord'>, text: string): boolean {
  if (kind === 'progression') return scope.progression(text) !== undefined;
  if (kind === 'family') return scope.family(text) !== undefined;
  return scope.grid(kind, text) !== undefined;
}

function inProse(scope: Scope, prose: readonly Prose[]): readonly Occurrence[] {
  return prose.flatMap(({ mentions }) =>
    mentions.flatMap((word): readonly Occurrence[] => {
      const mention = longestMention(scope, word);
      if (mention === undefined || mention.kind === 'shape') return [];
      if (mention.kind === 'chord') return [{ ...use(mention.chord), mentioned: true }];
      return [
        {
          kind: mention.kind,
          text: mention.name,
          span: { start: word.span.start, end: word.span.start + mention.length },
          defines: false,
          mentioned: true,
        },
      ];
    }),
  );
}
