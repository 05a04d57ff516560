import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { exerciseScore } from '../../shared/score/exercise-score.ts';
import type { Moment, Performance, PerformedSound } from '../../shared/score/performance.ts';
import { performanceOf } from '../../shared/score/performance-of.ts';

/** All exercises of a lesson as they are played on its own instrument. */
export function performancesIn(lesson: string): readonly Performance[] {
  const bound = lessonOf(openDocument(lesson));
  const [edition] = bound.editions;
  const scope = scopeOf(bound, edition);
  const tempo = scope.setting('tempo');
  return bound.definitions.exercises.map(({ entry, statement }) =>
    performanceOf(exerciseScore(scope, entry, statement), {
      instrument: edition.instrument,
      feel: scope.setting('feel'),
      ...(tempo === undefined ? {} : { tempo }),
    }),
  );
}

/** The last exercise of a lesson as it is played. */
export function performanceIn(lesson: string): Performance {
  const performance = performancesIn(lesson).at(-1);
  if (performance === undefined) throw new Error('The snippet has no exercise.');
  return performance;
}

export function played(moment: Moment): number {
  return typeof moment === 'number' ? moment : moment[0];
}

export function even(moment: Moment): number {
  return typeof moment === 'number' ? moment : moment[1];
}

/** Quarters from the start of the music, as played. */
export function quarters({ perWhole }: Performance, moment: Moment): number {
  return (played(moment) * 4) / perWhole;
}

/** `kind string:midi at–end` in quarters, of each sound. */
export function told(performance: Performance): readonly string[] {
  return performance.sounds.map((sound) => {
    const times = `${short(quarters(performance, sound.at))}–${short(quarters(performance, sound.end))}`;
    return `${sound.kind} ${where(sound)} ${times}`;
  });
}

function where({ string, midi }: PerformedSound): string {
  return `${string ?? ''}${midi === undefined ? '' : `:${midi}`}`;
}

function short(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
