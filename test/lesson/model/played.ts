import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';

export function scopeOfText(lesson: string): Scope {
  return scopeOf(lessonOf(openDocument(lesson)));
}

/** `C 0.50, G 1.00`: the chords of the lesson's first exercise as they are played, and the seconds there are to go on from each. */
export function playedIn(lesson: string): string {
  const scope = scopeOfText(lesson);
  const [exercise] = scope.exercises();
  const played = exercise && scope.fingered(exercise);
  return (played?.chords ?? [])
    .map(({ chord, sequence }) => `${chord.text} ${sequence.seconds === undefined ? '-' : sequence.seconds.toFixed(2)}`)
    .join(', ');
}

/** `C 3/0 0/1.5`: what each string of the same chords gives beyond that time, before and after, in chart order; `C -` where none does. */
export function spareIn(lesson: string): string {
  const scope = scopeOfText(lesson);
  const [exercise] = scope.exercises();
  const played = exercise && scope.fingered(exercise);
  const seconds = (time: number) => String(Math.round(time * 100) / 100);
  return (played?.chords ?? [])
    .map(({ chord, sequence: { strings } }) =>
      [chord.text, ...(strings?.map(({ before, after }) => `${seconds(before)}/${seconds(after)}`) ?? ['-'])].join(' '),
    )
    .join(', ');
}
