import { minus, plus, type Rational, ZERO } from '../../theory/rational.ts';
import { isNoChord, readChordName } from '../syntax/read-names.ts';
import type { ExerciseStatement, GridStatement } from '../syntax/statement.ts';
import type { ChordChange } from './chord-track.ts';
import { resolveChord } from './chords.ts';
import { chordsIn } from './chords-in.ts';
import { fillBars, startsOf } from './placements.ts';
import type { Scope } from './scope.ts';
import { playedProgressions, writtenBars } from './written-bars.ts';

/**
 * The chords that a grid goes over where an exercise first plays it, at times of the grid. None where no exercise plays it, and for a
 * grid that only others are like.
 */
export function chordsUnder(scope: Scope, grid: GridStatement): readonly ChordChange[] {
  const exercise = grid.name === undefined ? undefined : scope.firstPlayedIn(grid.name.text);
  if (exercise === undefined) return [];
  if (exercise.play !== undefined) return changesWhere(scope, exercise, grid);
  const chord = firstOver(scope, exercise);
  return chord === undefined ? [] : [chord];
}

/** `over … each`: the first chord stands for all of them. */
function firstOver(scope: Scope, { over }: ExerciseStatement): ChordChange | undefined {
  for (const word of over?.members.flatMap(({ names }) => names) ?? []) {
    const progression = scope.progression(word.text);
    const name = progression === undefined ? readChordName(word) : chordsIn(progression)[0];
    const chord = name === undefined || isNoChord(name.text) ? undefined : resolveChord(scope, name);
    if (chord !== undefined) return { at: ZERO, chord };
  }
  return undefined;
}

function changesWhere(scope: Scope, exercise: ExerciseStatement, grid: GridStatement): readonly ChordChange[] {
  const meter = exercise.meter?.meter ?? scope.setting('meter');
  const bars = writtenBars(scope, playedProgressions(scope, exercise), meter);
  const lists = exercise.with.length === 0 ? [[]] : exercise.with.map(({ members }) => members);
  for (const members of lists) {
    const placed = fillBars(scope, exercise, bars, members).find(({ grid: played }) => played.statement === grid);
    if (placed === undefined) continue;
    const starts = startsOf(bars);
    const inGrid = (time: Rational) => minus(time, placed.start);
    return bars.flatMap(({ chords }, index) =>
      chords.map(({ at, chord }): ChordChange => ({ at: inGrid(plus(starts[index] ?? ZERO, at)), chord })),
    );
  }
  return [];
}
