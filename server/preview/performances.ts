import type { Connection } from 'vscode-languageserver';
import { scopeIn } from '../../shared/assist/entry-scope.ts';
import type { Answers } from '../../shared/lesson/asked/answer.ts';
import { heardCandidate } from '../../shared/lesson/asked/heard-candidate.ts';
import { editDocument, entryIndexAt, spanInFile } from '../../shared/lesson/document.ts';
import { type Edition, type Lesson, lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import type { Entry } from '../../shared/lesson/syntax/read-entry.ts';
import { exerciseScore } from '../../shared/score/exercise-score.ts';
import type { Performance } from '../../shared/score/performance.ts';
import { performanceOf } from '../../shared/score/performance-of.ts';
import type { ExerciseScore, ScoreBar, Source } from '../../shared/score/timeline.ts';
import { type Span, touches } from '../../shared/text/span.ts';
import { questionAt } from '../features/found-writings.ts';
import { toOffset } from '../from-protocol.ts';
import { guarded } from '../guard.ts';
import type { OpenLesson, OpenLessons } from '../open-lessons.ts';
import {
  PERFORMANCE_METHOD,
  type PerformanceAnswer,
  type PerformanceQuestion,
  readPerformanceQuestion,
} from '../protocol/playing.ts';
import { questionOffset, type Subscription } from './subscription.ts';

/** Answers pages that ask what an exercise or a candidate sounds like. `subscription` finds what a page was sent. */
export function listenForPerformances(
  connection: Connection,
  lessons: OpenLessons,
  answers: Answers,
  subscription: (id: string) => Subscription | undefined,
): void {
  connection.onRequest<PerformanceAnswer, void>(PERFORMANCE_METHOD, (message: unknown) => {
    const question = readPerformanceQuestion(message);
    const asking = question === undefined ? undefined : subscription(question.id);
    const lesson = asking === undefined ? undefined : lessons.get(asking.uri);
    if (question === undefined || asking === undefined || lesson === undefined) return { kind: 'unknown' };
    return guarded<PerformanceAnswer>(connection.console, 'playing', lesson, { kind: 'unknown' }, () =>
      question.kind === 'candidate'
        ? candidateFor(asking, lesson, answers, question)
        : performanceFor(asking, lesson, question),
    );
  });
}

/** An exercise as it is played on one edition. */
interface Played {
  readonly score: ExerciseScore;
  readonly performance: Performance;
}

/** By lesson as bound, edition and entry: an exercise is played many times between two edits. */
const kept = new WeakMap<Lesson, Map<string, WeakMap<Entry, Played>>>();

type Exercise = Lesson['definitions']['exercises'][number];

type CandidateQuestion = Extract<PerformanceQuestion, { readonly kind: 'candidate' }>;

/** What was found is played on the lesson's own instrument, with its lines behind those of the lesson. */
function candidateFor(
  asking: Subscription,
  lesson: OpenLesson,
  answers: Answers,
  { revision, slot, place }: CandidateQuestion,
): PerformanceAnswer {
  const offset = questionOffset(asking, lesson, { revision, slot });
  const question = offset === undefined ? undefined : questionAt(lesson, offset);
  const answer = question && answers.get(question);
  // Another form of the question is about to be answered.
  if (offset === undefined || answer === undefined) return { kind: 'outdated' };
  const { document } = lesson;
  const entry = document.entries[entryIndexAt(document, offset)];
  const lines = entry && heardCandidate(scopeIn(document, entry), entry, answer, place);
  if (lines === undefined) return { kind: 'unknown' };
  const end = document.text.length;
  const bound = lessonOf(editDocument(document, { span: { start: end, end }, text: lines }));
  const exercise = bound.definitions.exercises.at(-1);
  if (exercise === undefined) return { kind: 'unknown' };
  const { performance } = play(bound, bound.editions[0], exercise);
  return heard({ performance, revision, slot, place, from: 0, to: performance.bars.length, selected: false });
}

function performanceFor(
  asking: Subscription,
  lesson: OpenLesson,
  question: Exclude<PerformanceQuestion, CandidateQuestion>,
): PerformanceAnswer {
  const { sent } = asking;
  if (sent === undefined) return { kind: 'unknown' };
  if (sent.version !== lesson.version) return { kind: 'outdated' };
  const bound = lessonOf(lesson.document);
  const edition = bound.editions.find(({ name }) => name === asking.view.edition) ?? bound.editions[0];
  const { exercises } = bound.definitions;
  const wholeOf = ({ entry, statement }: Exercise): Span | undefined =>
    spanInFile(lesson.document, entry, statement.span);
  if (question.kind === 'title') {
    if (sent.revision !== question.revision) return { kind: 'outdated' };
    const span = sent.sheet.blocks[question.slot]?.places[question.place];
    const exercise = exercises.find((one) => isSame(wholeOf(one), span));
    if (exercise === undefined) return { kind: 'unknown' };
    const { performance } = play(bound, edition, exercise);
    const { revision, slot, place } = question;
    return heard({ performance, revision, slot, place, from: 0, to: performance.bars.length, selected: false });
  }
  const span: Span = { start: toOffset(lesson.text, question.start), end: toOffset(lesson.text, question.end) };
  const meant =
    exercises.find((one) => meets(wholeOf(one), span)) ??
    exercises.find((one) => barsMeeting(lesson, play(bound, edition, one), span).length > 0);
  if (meant === undefined)
    return {
      kind: 'nothing',
      sentence: 'No exercise plays what stands at the cursor. Put it into an exercise, or into what an exercise plays.',
    };
  const played = play(bound, edition, meant);
  const title = titleOf(asking, wholeOf(meant));
  if (title === undefined) return { kind: 'unknown' };
  const met = barsMeeting(lesson, played, span);
  const from = met[0] ?? 0;
  const to = lastOfRun(played.performance, met, from) + 1;
  const selected = span.end > span.start && to - from > 1;
  return heard({ performance: played.performance, revision: sent.revision, ...title, from, to, selected });
}

function heard(found: Omit<Extract<PerformanceAnswer, { kind: 'found' }>, 'kind'>): PerformanceAnswer {
  if (found.performance.sounds.length > 0) return { kind: 'found', ...found };
  return {
    kind: 'nothing',
    sentence: `“${found.performance.title}” has nothing to be heard yet: it needs bars and a pattern or a melody.`,
  };
}

function play(lesson: Lesson, edition: Edition, { entry, statement }: Exercise): Played {
  const byEdition = kept.get(lesson) ?? new Map<string, WeakMap<Entry, Played>>();
  kept.set(lesson, byEdition);
  const byEntry = byEdition.get(edition.name) ?? new WeakMap<Entry, Played>();
  byEdition.set(edition.name, byEntry);
  const known = byEntry.get(entry);
  if (known !== undefined) return known;
  const scope = scopeOf(lesson, edition);
  const score = exerciseScore(scope, entry, statement);
  const tempo = scope.setting('tempo');
  const performance = performanceOf(score, {
    instrument: scope.edition().instrument,
    feel: scope.setting('feel'),
    ...(tempo === undefined ? {} : { tempo }),
  });
  const played = { score, performance };
  byEntry.set(entry, played);
  return played;
}

/** Places of performed bars, in their turn, that are written where the span is, or in which something is. */
function barsMeeting({ document }: OpenLesson, { score, performance }: Played, span: Span): readonly number[] {
  const here = ({ entry, span: own }: Source): boolean => meets(spanInFile(document, entry, own), span);
  const isMet = (bar: ScoreBar | undefined): boolean =>
    bar !== undefined &&
    (here(bar.source) ||
      bar.chords.some(({ source }) => here(source)) ||
      bar.events.some(({ source }) => here(source)));
  // Written bars come round again: each is looked at once.
  const met = score.passes.map(({ bars }) => bars.map(isMet));
  return performance.bars.flatMap(({ pass, written }, index) => (met[pass - 1]?.[written] === true ? [index] : []));
}

/** The last of the bars that follow each other from the first one on. */
function lastOfRun({ bars }: Performance, met: readonly number[], first: number): number {
  let last = first;
  while (met.includes(last + 1) && (bars[last + 1]?.written ?? -1) > (bars[last]?.written ?? 0)) last += 1;
  return last;
}

/** Where the title of an exercise stands on the newest sheet: the place that leads to the whole of it. */
function titleOf(
  { sent }: Subscription,
  whole: Span | undefined,
): { readonly slot: number; readonly place: number } | undefined {
  for (const [slot, { places }] of (sent?.sheet.blocks ?? []).entries()) {
    const place = places.findIndex((span) => isSame(span, whole));
    if (place >= 0) return { slot, place };
  }
  return undefined;
}

function isSame(a: Span | undefined, b: Span | undefined): boolean {
  return a !== undefined && a.start === b?.start && a.end === b.end;
}

function meets(own: Span | undefined, span: Span): boolean {
  if (own === undefined) return false;
  return span.start === span.end ? touches(own, span.start) : own.start < span.end && span.start < own.end;
}
