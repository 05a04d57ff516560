import { readCount, readFields, readText } from './read.ts';

/** Command of the server: writes the best answer to the question at a place of a lesson. Its one argument is a `QuestionPlace`. */
export const WRITE_BEST = 'handspan.writeBest';

/** Command of the editor's side: shows all answers to the question at a place of a lesson on its sheet. */
export const SHOW_CANDIDATES = 'handspan.showCandidates';

/** Where a lesson asks something. */
export interface QuestionPlace {
  readonly uri: string;
  /** The line of its keyword, from 0. */
  readonly line: number;
}

/** Undefined when it is anything else. */
export function readQuestionPlace(value: unknown): QuestionPlace | undefined {
  const fields = readFields(value);
  const uri = readText(fields?.uri);
  const line = readCount(fields?.line);
  return uri === undefined || line === undefined ? undefined : { uri, line };
}
