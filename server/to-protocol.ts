import type { Position, Range, TextEdit as WireEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Span, TextEdit } from '../shared/text/span.ts';

// Offsets become lines and columns here and nowhere else; `from-protocol.ts` is the way back.

export function toPosition(text: TextDocument, offset: number): Position {
  return text.positionAt(offset);
}

export function toRange(text: TextDocument, span: Span): Range {
  return { start: text.positionAt(span.start), end: text.positionAt(span.end) };
}

export function toWireEdit(text: TextDocument, edit: TextEdit): WireEdit {
  return { range: toRange(text, edit.span), newText: edit.text };
}
