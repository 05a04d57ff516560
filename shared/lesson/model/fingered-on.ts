import { fingersOfSequence } from '../../hand/kept-fingerings.ts';
import type { ExerciseStatement, ProgressionStatement } from '../syntax/statement.ts';
import type { FingeredStatement } from './fingered-statement.ts';
import type { Edition } from './lesson.ts';
import { createMemo } from './memo.ts';
import { playedSequence } from './played-sequence.ts';
import { writtenChords } from './progression-sequence.ts';
import type { Scope } from './scope.ts';

type Played = ExerciseStatement | ProgressionStatement;

const memo = createMemo<FingeredStatement>();

// An edition belongs to one document, in which the answer is looked for only once.
const found = new WeakMap<Edition, Map<Played, FingeredStatement>>();

/** The fingers of an exercise or a progression at its greatest tempo. Worked out anew only when something it is made of has changed. */
export function fingeredOn(scope: Scope, statement: Played): FingeredStatement | undefined {
  const edition = scope.edition();
  const known = found.get(edition) ?? new Map<Played, FingeredStatement>();
  found.set(edition, known);
  const before = known.get(statement);
  if (before !== undefined) return before;
  const entry = scope.entryOf(statement);
  if (entry === undefined) return undefined;
  const played = memo.get(entry, scope, edition.name, (asked) => fingered(asked, statement));
  known.set(statement, played);
  return played;
}

function fingered(scope: Scope, statement: Played): FingeredStatement {
  const { chords, repeats } =
    statement.kind === 'exercise'
      ? playedSequence(scope, statement)
      : { chords: writtenChords(scope, statement), repeats: false };
  const { instrument } = scope.edition();
  const wanted = chords.map(({ sequence }) => sequence);
  const sequence = fingersOfSequence(instrument, wanted, scope.setting('hand'), repeats);
  const title = statement.kind === 'exercise' ? statement.title?.text : statement.name?.text;
  return { chords, fingered: sequence, ...(title === undefined ? {} : { title }) };
}
