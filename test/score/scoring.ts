import { openDocument } from '../../shared/lesson/document.ts';
import { type Lesson, lessonOf } from '../../shared/lesson/model/lesson.ts';
import type { Scope } from '../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { exerciseScore, progressionScore } from '../../shared/score/exercise-score.ts';
import type { ExerciseScore, ScoreBar, ScoreEvent } from '../../shared/score/timeline.ts';
import { type Rational, rational, times, toNumber } from '../../shared/theory/rational.ts';

/** A lesson as one of its editions sees it; the lesson's own is number 0. */
export function scopeIn(lesson: string, edition = 0): Scope {
  const bound = lessonOf(openDocument(lesson));
  return scopeOf(bound, editionOf(bound, edition));
}

function editionOf(lesson: Lesson, index: number): Lesson['editions'][number] {
  const edition = lesson.editions[index];
  if (edition === undefined) throw new Error(`The snippet has no edition ${index}.`);
  return edition;
}

/** What the last exercise of a lesson plays. */
export function scoreOf(lesson: string, edition = 0): ExerciseScore {
  const bound = lessonOf(openDocument(lesson));
  const exercise = bound.definitions.exercises.at(-1);
  if (exercise === undefined) throw new Error('The snippet has no exercise.');
  return exerciseScore(scopeOf(bound, editionOf(bound, edition)), exercise.entry, exercise.statement);
}

/** The bars of a progression by itself. */
export function progressionBars(lesson: string): readonly ScoreBar[] {
  const scope = scopeIn(lesson);
  const [name] = scope.names('progression').split('\n');
  const progression = scope.progression(name ?? '');
  if (progression === undefined) throw new Error('The snippet has no progression.');
  return progressionScore(scope, progression).passes[0]?.bars ?? [];
}

/** The bars of one time through. */
export function barsOf(lesson: string, pass = 0, edition = 0): readonly ScoreBar[] {
  return scoreOf(lesson, edition).passes[pass]?.bars ?? [];
}

/**
 * Every bar on one line, as a teacher would read it out: `0 4:0 | 1/2 D 4321 …`. Places are in counts of a quarter from the
 * start of the bar; notes are `string:fret`.
 */
export function played(lesson: string, pass = 0, edition = 0): readonly string[] {
  return barsOf(lesson, pass, edition).map((bar) =>
    bar.events.map((event) => `${inQuarters(event.at)} ${told(event)}`).join(', '),
  );
}

/** The same for one number a bar: when each event begins and how long it is, in quarters. */
export function timesIn(lesson: string): readonly string[] {
  return barsOf(lesson).map((bar) =>
    bar.events.map(({ at, length }) => `${inQuarters(at)}+${inQuarters(length)}`).join(' '),
  );
}

/** `NC` or the printed name of each chord, with where it begins. */
export function chordsIn(bars: readonly ScoreBar[]): readonly string[] {
  return bars.map((bar) => bar.chords.map(({ at, chord }) => `${inQuarters(at)} ${chord?.name ?? 'NC'}`).join(', '));
}

/** A length or place in quarters, as a whole number or a fraction: `1`, `3/2`. */
export function inQuarters(time: Rational): string {
  const quarters = times(time, rational(4));
  return quarters.denominator === 1 ? `${quarters.numerator}` : `${quarters.numerator}/${quarters.denominator}`;
}

function told(event: ScoreEvent): string {
  switch (event.kind) {
    case 'notes':
      return event.notes.map(({ string, fret, arrivesBy }) => `${arrivesBy ? '~' : ''}${string}:${fret}`).join('+');
    case 'strum':
      return `${event.direction === 'down' ? 'D' : 'U'}${event.notes.map(({ string }) => string).join('')}`;
    case 'hit':
      return `${event.place}${event.string ?? ''}`;
    case 'stop':
      return `stop${event.strings.join('')}`;
    default:
      return event.kind;
  }
}

/** Milliseconds of a length at so many beats a minute, where a beat has this length. */
export function milliseconds(length: Rational, beat: Rational, tempo: number): number {
  return (toNumber(length) / toNumber(beat)) * (60_000 / tempo);
}
