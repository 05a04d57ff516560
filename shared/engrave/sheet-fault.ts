import { asksSomething, tellOpen } from '../lesson/asked/question.ts';
import { faultOfFretCount } from '../lesson/check/fret-count.ts';
import { chordsIn } from '../lesson/model/chords-in.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { isNoChord, readChordName } from '../lesson/syntax/read-names.ts';
import type {
  ChordStatement,
  ExerciseStatement,
  GridStatement,
  ProgressionStatement,
} from '../lesson/syntax/statement.ts';
import { namesIn } from '../lesson/syntax/words.ts';

/** The first error of an entry's own text, which is then not drawn anew. */
export function errorOf(entry: Entry): string | undefined {
  return entry.problems.find((problem) => problem.severity === 'error')?.message;
}

/** Why the exercise cannot be drawn now: its own text, a name that the lesson lacks, or the text of what it plays. */
export function faultOf(scope: Scope, entry: Entry, statement: ExerciseStatement): string | undefined {
  const own = errorOf(entry);
  if (own !== undefined) return own;
  const patterns = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  for (const word of patterns.flatMap((list) => list.members.flatMap((member) => member.names))) {
    const grid = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text);
    if (grid === undefined) return `No pattern or melody is called “${word.text}” now.`;
    const fault = asksSomething(grid) ? tellOpen(word.text, 'tunes') : faultOfUsed(scope, grid);
    if (fault !== undefined) return fault;
    const base =
      grid.like === undefined
        ? undefined
        : (scope.grid('pattern', grid.like.text) ?? scope.grid('melody', grid.like.text));
    const baseFault = base === undefined ? undefined : faultOfUsed(scope, base);
    if (baseFault !== undefined) return baseFault;
  }
  for (const word of namesIn(statement.play?.members)) {
    const progression = scope.progression(word.text);
    if (scope.family(word.text) !== undefined) return tellOpen(word.text, 'families');
    if (progression === undefined) return `No progression is called “${word.text}” now.`;
    const fault = faultOfProgression(scope, progression);
    if (fault !== undefined) return fault;
  }
  for (const word of namesIn(statement.over?.members)) {
    const progression = scope.progression(word.text);
    if (progression !== undefined) {
      const fault = faultOfProgression(scope, progression);
      if (fault !== undefined) return fault;
    } else if (scope.chord(word.text) !== undefined) {
      const fault = faultOfChords(scope, [word.text]);
      if (fault !== undefined) return fault;
    } else if (!isNoChord(word.text) && readChordName(word).symbol === undefined) {
      return `“${word.text}” is neither a chord nor a progression of this lesson.`;
    }
  }
  return undefined;
}

/** A progression's own fault, or that of a chord in it. */
export function faultOfProgression(scope: Scope, progression: ProgressionStatement): string | undefined {
  return (
    faultOfUsed(scope, progression) ??
    faultOfChords(
      scope,
      chordsIn(progression).map(({ text }) => text),
    )
  );
}

/** The first of the chords whose line is half written or cannot be read: no other frets may stand in for it. */
export function faultOfChords(scope: Scope, names: readonly string[]): string | undefined {
  for (const name of new Set(names)) {
    const chord = scope.chord(name);
    const fault = chord && (faultOfUsed(scope, chord) ?? faultOfFretCount(scope, chord)?.message);
    if (fault !== undefined) return `The line of ${name}: ${fault}`;
  }
  return undefined;
}

function faultOfUsed(scope: Scope, used: ChordStatement | GridStatement | ProgressionStatement): string | undefined {
  const entry = scope.entryOf(used);
  return entry === undefined ? undefined : errorOf(entry);
}
