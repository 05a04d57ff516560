import type { TextPosition } from './preview.ts';

/**
 * Request to the server: `EntryFormatting` to `TextEdit[] | null`. Aligns the columns of the one statement that was edited, once
 * the cursor has left it: columns that shift under the typing hand would be worse than uneven ones.
 */
export const ENTRY_FORMATTING_METHOD = 'handspan/entryFormatting';

export interface EntryFormatting {
  readonly textDocument: { readonly uri: string };
  /** A place in the statement that was edited. */
  readonly position: TextPosition;
  /** Where the cursor is now. The answer is null while it is in the same statement. */
  readonly cursor: TextPosition;
}
