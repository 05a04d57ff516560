import { barLength } from '../../theory/meter.ts';
import { compare, plus, type Rational, ZERO } from '../../theory/rational.ts';
import { type ChordChange, withChanges } from '../model/chord-track.ts';
import { resolveChord } from '../model/chords.ts';
import { changesOf, fillBars, type Placement, startsOf } from '../model/placements.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedMark } from '../model/timed-grid.ts';
import { playedProgressions, type WrittenBar, writtenBars } from '../model/written-bars.ts';
import type { ExerciseStatement, Members } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';

/** A bar of the progressions that an exercise plays, each written bar once. */
export interface LaidBar extends WrittenBar {
  readonly start: Rational;
}

/** One time through an exercise that plays progressions: its patterns over its bars. Times count from the start of the first bar. */
export interface LaidOut {
  readonly bars: readonly LaidBar[];
  readonly placements: readonly Placement[];
  /** In order of time; those that a pattern makes are among them. */
  readonly changes: readonly ChordChange[];
  /** The list that fills the bars. */
  readonly members: Members;
}

/** Every time through, in order; none for an exercise that takes chords one by one. */
export function layOut(scope: Scope, statement: ExerciseStatement): readonly LaidOut[] {
  if (statement.play === undefined || statement.with.length === 0) return [];
  const bars = laidBars(scope, statement);
  const written = bars.flatMap(({ start, chords }) =>
    chords.map(({ at, chord }): ChordChange => ({ at: plus(start, at), chord })),
  );
  const resolve = ({ mark }: TimedMark) => (mark.kind === 'chord' ? resolveChord(scope, mark.chord) : undefined);
  return statement.with.map((members) => {
    const placements = fillBars(scope, statement, bars, members.members);
    const added = placements.flatMap((placement) => changesOf(placement, resolve));
    return { bars, placements, changes: withChanges(written, added), members };
  });
}

function laidBars(scope: Scope, statement: ExerciseStatement): readonly LaidBar[] {
  const bars = writtenBars(
    scope,
    playedProgressions(scope, statement),
    statement.meter?.meter ?? scope.setting('meter'),
  );
  const starts = startsOf(bars);
  return bars.map((bar, at) => ({ ...bar, start: starts[at] ?? ZERO }));
}

/** The bar that a time lies in. */
export function barAt(bars: readonly LaidBar[], time: Rational): LaidBar | undefined {
  return bars.findLast(({ start }) => compare(start, time) <= 0);
}

/** Where the exercise names the pattern that a placement plays. */
export function useOf(statement: ExerciseStatement, { grid }: Placement): Word | undefined {
  const lists = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  const name = grid.statement.name?.text;
  return lists.flatMap(({ members }) => members.flatMap(({ names }) => names)).find(({ text }) => text === name);
}

/** `bar 3`, `the pickup` */
export function tellBar({ number }: LaidBar): string {
  return number === undefined ? 'the pickup' : `bar ${number}`;
}

/** A full bar of the exercise's meter. */
export function usualBar(scope: Scope, statement: ExerciseStatement): Rational {
  return barLength(statement.meter?.meter ?? scope.setting('meter'));
}
