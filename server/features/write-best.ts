import type { ApplyWorkspaceEditParams } from 'vscode-languageserver';
import { writingsOf } from '../../shared/assist/write-answer.ts';
import type { Answer } from '../../shared/lesson/asked/answer.ts';
import type { EditorCan } from '../editor-can.ts';
import { toOffset } from '../from-protocol.ts';
import type { KeptAnswers } from '../kept-answers.ts';
import type { OpenLessons } from '../open-lessons.ts';
import type { QuestionPlace } from '../protocol/commands.ts';
import { workspaceEdit } from '../workspace-edit.ts';
import { questionAt } from './found-writings.ts';

/** What came of it: an edit, or a sentence that says why there is none. */
export type BestWriting =
  | { readonly kind: 'edit'; readonly params: ApplyWorkspaceEditParams }
  | { readonly kind: 'none'; readonly message: string };

/** The edit that writes the best answer to the question at a place, once it is found. */
export async function writeBest(
  lessons: OpenLessons,
  answers: KeptAnswers,
  { uri, line }: QuestionPlace,
  can: EditorCan,
): Promise<BestWriting> {
  const asked = lessons.get(uri);
  const question = asked && questionAt(asked, toOffset(asked.text, { line, character: 0 }));
  if (question === undefined) return { kind: 'none', message: NO_QUESTION };
  const answer = await answers.answerTo(question);
  const lesson = lessons.get(uri);
  if (lesson === undefined || answer === undefined) return { kind: 'none', message: NO_QUESTION };
  const offset = toOffset(lesson.text, { line, character: 0 });
  // Something may have been typed while it was looked for.
  if (questionAt(lesson, offset)?.key !== question.key) return { kind: 'none', message: NO_QUESTION };
  const [best] = writingsOf(lesson.document, offset, answer);
  if (best === undefined) return { kind: 'none', message: whyNone(answer) };
  return { kind: 'edit', params: { label: best.title, edit: workspaceEdit(lesson, best.edits, can) } };
}

const NO_QUESTION = 'Nothing is asked at this place any more.';

function whyNone({ found }: Answer): string {
  if ('reasons' in found) return found.reasons.join(' ');
  return 'message' in found ? found.message : NO_QUESTION;
}
