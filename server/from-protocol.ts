import type { Position, Range } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Span } from '../shared/text/span.ts';

// Lines and columns become offsets here and nowhere else; `to-protocol.ts` is the way back.

/** The offset of a position; behind the end of a line it is the line's end, behind the last line the text's end. */
export function toOffset(text: TextDocument, position: Position): number {
  return text.offsetAt(position);
}

/** The span of a range, its ends put in order if they came the wrong way round. */
export function toSpan(text: TextDocument, range: Range): Span {
  const first = text.offsetAt(range.start);
  const second = text.offsetAt(range.end);
  return { start: Math.min(first, second), end: Math.max(first, second) };
}
