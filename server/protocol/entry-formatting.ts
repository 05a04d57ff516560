/**
 * Request to the server: `TextDocumentPositionParams` to `TextEdit[] | null`. Aligns the columns of the one statement that
 * the position lies in; the editor asks when the cursor has left a statement that was edited.
 */
export const ENTRY_FORMATTING_METHOD = 'handspan/entryFormatting';
