/** A stretch of text: UTF-16 offsets, `end` exclusive. What it is counted from (file or entry) is said by whoever holds it. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The span moved by a number of characters: from an entry's own counting to the file's. */
export function shifted(span: Span, by: number): Span {
  return { start: span.start + by, end: span.end + by };
}

/** True when the offset lies in the span or just behind it, where a cursor that has typed it stands. */
export function touches(span: Span, offset: number): boolean {
  return offset >= span.start && offset <= span.end;
}

export interface TextEdit {
  readonly span: Span;
  readonly text: string;
}
