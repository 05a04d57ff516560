import type { LessonDocument } from '../lesson/document.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { millisecondsOf } from '../score/clock.ts';
import { countInTo } from '../score/count-in.ts';
import { temposOf } from '../score/performance-tempos.ts';
import { playedBars } from '../score/played-bars.ts';
import type { Rational } from '../theory/rational.ts';
import type { ExportedExercise } from './exported-exercise.ts';
import { exportedExercise } from './exported-exercise.ts';

/** Where an exercise begins in a film of the lesson. */
export interface Chapter {
  /** Unit: seconds, whole. */
  readonly start: number;
  readonly title: string;
}

/**
 * The exercises of a lesson as chapters of a film, a line each: `0:00 Title`. An exercise lasts as long as its practice at tempo; where
 * the lesson says with `video` when the film shows it, it begins then, and those after it follow. The first chapter is at 0:00, with the
 * lesson's title where no exercise begins there: programs ask for it (common practice, no source). Nothing where there is no exercise.
 */
export function chaptersText(document: LessonDocument, editionName: string): string {
  return chaptersOf(document, editionName)
    .map(({ start, title }) => `${clockTime(start)} ${title}\n`)
    .join('');
}

function chaptersOf(document: LessonDocument, editionName: string): readonly Chapter[] {
  const { definitions, settings } = lessonOf(document);
  const chapters: Chapter[] = [];
  let now = 0;
  for (const definition of definitions.exercises) {
    const exercise = exportedExercise(document, editionName, definition);
    if (exercise === undefined) continue;
    const start = secondsOf(exercise.score.video) ?? now;
    chapters.push({ start: Math.round(start), title: exercise.title });
    now = start + runningSeconds(exercise);
  }
  chapters.sort((a, b) => a.start - b.start);
  const [first] = chapters;
  if (first === undefined || first.start === 0) return chapters;
  return [{ start: 0, title: settings.title ?? 'Beginning' }, ...chapters];
}

/**
 * How long an exercise runs as it is to be practised: counted in once, then all its times through. As many as `repeat` says, a step of
 * tempo after each or after as many as `every` says; without `repeat` until the last tempo is reached. Unit: seconds.
 */
function runningSeconds({ score, tempo }: ExportedExercise): number {
  const ladder = temposOf(tempo);
  const times = score.repeat ?? ladder.length;
  const bars = score.passes.flatMap((pass) => playedBars(pass.bars).flatMap(({ index }) => pass.bars[index] ?? []));
  const unit = tempo?.unit;
  const [first] = bars;
  if (first === undefined) return 0;
  const msOf = (perMinute: number, length: Rational): number =>
    millisecondsOf(length, { perMinute, ...(unit === undefined ? {} : { unit }) }, first.meter);
  const tempoOf = (time: number): number => ladder[Math.min(time, ladder.length - 1)] ?? 0;
  let ms = msOf(tempoOf(0), countInTo(first).length);
  for (let time = 0; time < times; time += 1) for (const bar of bars) ms += msOf(tempoOf(time), bar.length);
  return ms / 1000;
}

/** `3:25` and `1:02:00` as seconds; nothing where the text is no time. */
function secondsOf(text: string | undefined): number | undefined {
  const match = /^(?:(\d+):)?(\d+):([0-5]\d)$/.exec(text?.trim() ?? '');
  if (match === null) return undefined;
  return Number(match[1] ?? 0) * 3600 + Number(match[2]) * 60 + Number(match[3]);
}

/** `0:00`, `12:05`, `1:02:00`. */
function clockTime(seconds: number): string {
  const two = (part: number): string => String(part).padStart(2, '0');
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor(seconds / 60) % 60;
  const rest = two(seconds % 60);
  return hours === 0 ? `${minutes}:${rest}` : `${hours}:${two(minutes)}:${rest}`;
}
