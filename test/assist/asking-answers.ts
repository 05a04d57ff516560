import type { Writing } from '../../shared/assist/answers.ts';
import { writingsOf } from '../../shared/assist/write-answer.ts';
import { type Answer, type Answers, answerInSteps } from '../../shared/lesson/asked/answer.ts';
import { asksSomething, type Question, questionIn } from '../../shared/lesson/asked/question.ts';
import { type LessonDocument, openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { atOnce } from '../../shared/voicing/in-steps.ts';

const known = new Map<string, Answer>();

/** Answers that are found when they are asked for. */
export const AT_ONCE: Answers = {
  get(question) {
    const answer = known.get(question.key) ?? atOnce(answerInSteps(question));
    known.set(question.key, answer);
    return answer;
  },
};

/** What was asked first in a lesson, what was found, and what would write it. */
export interface Found {
  readonly question: Question;
  readonly answer: Answer;
  readonly writings: readonly Writing[];
}

export function foundIn(text: string): Found {
  const document = openDocument(text);
  const index = document.entries.findIndex(({ statement }) => asksSomething(statement));
  const entry = document.entries[index];
  if (entry === undefined) throw new Error('the lesson asks nothing');
  const asked = questionIn(scopeOf(lessonOf(document)), entry);
  if (asked?.kind !== 'question') throw new Error(asked?.message ?? 'the entry asks nothing');
  const answer = AT_ONCE.get(asked.question);
  if (answer === undefined) throw new Error('there is no answer');
  const offset = document.starts[index] ?? 0;
  return { question: asked.question, answer, writings: writingsOf(document, offset, answer) };
}

/** The lesson after the edits of one step. */
export function written({ edits }: Writing, text: string): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((done, { span, text: part }) => done.slice(0, span.start) + part + done.slice(span.end), text);
}

export function openWritten(writing: Writing, text: string): LessonDocument {
  return openDocument(written(writing, text));
}
