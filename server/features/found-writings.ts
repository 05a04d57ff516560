import type { Writing } from '../../shared/assist/answers.ts';
import { scopeIn } from '../../shared/assist/entry-scope.ts';
import { writingsOf } from '../../shared/assist/write-answer.ts';
import type { Answers } from '../../shared/lesson/asked/answer.ts';
import { type Question, questionIn } from '../../shared/lesson/asked/question.ts';
import { entryIndexAt } from '../../shared/lesson/document.ts';
import type { OpenLesson } from '../open-lessons.ts';

/** What the lesson asks at the offset; nothing where it asks nothing there that could be answered. */
export function questionAt({ document }: OpenLesson, offset: number): Question | undefined {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  // Behind a statement stand its blank lines and the remarks of the next one.
  if (entry === undefined || start === undefined || offset > start + entry.statement.span.end) return undefined;
  const asked = questionIn(scopeIn(document, entry), entry);
  return asked?.kind === 'question' ? asked.question : undefined;
}

/** Writing down what is known of the answer to the question at the offset, best first. */
export function knownWritings(lesson: OpenLesson, offset: number, answers: Answers): readonly Writing[] {
  const question = questionAt(lesson, offset);
  const answer = question && answers.get(question);
  return answer === undefined ? [] : writingsOf(lesson.document, offset, answer);
}
