import type { TextPosition } from './preview.ts';

/**
 * Request to the server: `TextToRead` to `ReadingsOfText | null`. Reads tab or chords over words as lines of a lesson. Nothing in
 * the lesson changes: the editor's side writes the reading that the teacher chooses.
 */
export const READ_TEXT_METHOD = 'handspan/read';

export interface TextToRead {
  readonly textDocument: { readonly uri: string };
  /** What was copied from a mail or a comment. */
  readonly text: string;
  /** Where the cursor is. */
  readonly position: TextPosition;
  /** The counts of a bar that have a note, as the teacher gave them: `1 & 2 &`. */
  readonly count?: string;
}

export interface ReadingOfText {
  /** In a few words how the rhythm is read. */
  readonly label: string;
  /** The first notes or chords, on one line, to choose by. */
  readonly preview: string;
  /** What goes into the lesson, with its line ends. */
  readonly text: string;
}

export interface ReadingsOfText {
  /** Several where the text does not say its rhythm; none where it holds neither tab nor chords, or the count is none. */
  readonly readings: readonly ReadingOfText[];
  /** Where they go in: at the cursor, or behind the statement that would be cut in two there. */
  readonly position: TextPosition;
  /** What a reading on a given count looks like, where the text does not say its rhythm. */
  readonly counted?: { readonly count: string; readonly label: string; readonly preview: string };
  /** What is wrong with the count that was given. */
  readonly fault?: string;
}
