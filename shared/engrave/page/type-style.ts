import type { Item, TextRole } from '../drawing.ts';
import { FIGURE_HEIGHT_EM, textWidth } from '../text-width.ts';

/** How words of a page are set: a face and its weight. */
export interface TypeStyle {
  readonly role: TextRole;
  readonly bold: boolean;
  readonly soft?: boolean;
}

export const PLAIN: TypeStyle = { role: 'word', bold: false };
export const STRONG: TypeStyle = { role: 'word', bold: true };
export const ITALIC: TypeStyle = { role: 'count', bold: false };
export const SOFT: TypeStyle = { role: 'word', bold: false, soft: true };
export const SOFT_ITALIC: TypeStyle = { role: 'count', bold: false, soft: true };
/** Code and other text as it was typed. */
export const TYPED: TypeStyle = { role: 'number', bold: false, soft: true };

/** Width of one line of text. Unit: that of `size`. */
export function styledWidth(text: string, style: TypeStyle, size: number): number {
  return textWidth(text, style.role, size, style.bold ? 'bold' : 'plain');
}

export function styledText(
  text: string,
  style: TypeStyle,
  place: { readonly x: number; readonly y: number; readonly size: number; readonly anchor?: 'start' | 'end' },
): Item {
  const { x, y, size, anchor = 'start' } = place;
  const weight = style.bold ? { bold: true } : {};
  return {
    kind: 'text',
    x,
    y,
    text,
    size,
    anchor,
    role: style.role,
    ink: style.soft === true ? 'soft' : 'strong',
    ...weight,
  };
}

/** Room above and below the baseline that a line of type takes. Unit: em. */
export const ASCENT_EM = FIGURE_HEIGHT_EM + 0.04;
export const DESCENT_EM = 0.24;

/** The longest beginning of the text that fits, with a sign of omission where some is left out. */
export function fitted(text: string, style: TypeStyle, size: number, width: number): string {
  if (styledWidth(text, style, size) <= width) return text;
  const characters = [...text];
  while (characters.length > 0) {
    characters.pop();
    const shown = `${characters.join('').trimEnd()}…`;
    if (styledWidth(shown, style, size) <= width) return shown;
  }
  return '';
}
