import type { Hover, Position } from 'vscode-languageserver';
import { hoverAt } from '../../shared/assist/hover.ts';
import type { EditorCan } from '../editor-can.ts';
import { toOffset } from '../from-protocol.ts';
import { cardMarkdown, cardPlainText } from '../markup.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toRange } from '../to-protocol.ts';

export function hover(lesson: OpenLesson, position: Position, can: EditorCan): Hover | null {
  const card = hoverAt(lesson.document, toOffset(lesson.text, position));
  if (card === undefined) return null;
  const contents = can.markdownHover ? cardMarkdown(card) : cardPlainText(card);
  return { contents, range: toRange(lesson.text, card.span) };
}
