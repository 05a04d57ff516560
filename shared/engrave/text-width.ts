import type { Box, TextItem, TextRole } from './drawing.ts';
import { FACE_WIDTHS, type FaceWidths } from './type/letter-widths.ts';

export type FaceName = keyof typeof FACE_WIDTHS;

/** The faces of each role: its own, and the one for where it is set bold. */
const FACES: Readonly<Record<TextRole, { readonly plain: FaceName; readonly bold: FaceName }>> = {
  number: { plain: 'sans', bold: 'sansBold' },
  name: { plain: 'serifBold', bold: 'serifBold' },
  count: { plain: 'serifItalic', bold: 'serifBoldItalic' },
  word: { plain: 'serif', bold: 'serifBold' },
};

/** The face that a role is set in. */
export function faceOf(role: TextRole, weight: 'plain' | 'bold'): FaceName {
  return FACES[role][weight];
}

/** Height of figures and capitals above the baseline. Unit: em. Source: the faces, which differ by a hundredth. */
export const FIGURE_HEIGHT_EM = 0.66;

/** How far letters reach over the baseline, and how far below it those that do. Unit: em. Source: outlines of the faces. */
const RISE_EM = { capital: 0.67, tall: 0.76, accentedCapital: 0.94 };
const DESCENT_EM = 0.25;

const ACCENTED_CAPITAL = /[^\P{Lu}A-Z]/u;
/** Letters with a stem or a sign over them, brackets, quotes. */
const TALL = /[bdfhijklt()[\]{}|/$*"'‘’“”†ß-ÿ]|[^\P{Ll}a-z]/u;
const DESCENDING = /[gjpqyQ,;()[\]{}|_@$¸ÇçŊŋþ]|[ĄąĘęĮįŲųĢĶķĻļŅņŖŗŞşŢţ]/u;

/** A character of a script that sets each in a square of its own. */
const SQUARE = /[\u2E80-\u9FFF\uAC00-\uD7AF\uF900-\uFAFF\uFF00-\uFF60]|\p{Extended_Pictographic}/u;

/**
 * Width of one line of text, letters side by side without kerning, as the sheet sets them. Unit: that of `size`. Source: advance
 * widths of the faces; a letter that they lack is set in another face and reckoned wide.
 */
export function textWidth(text: string, role: TextRole, size: number, weight: 'plain' | 'bold' = 'plain'): number {
  return faceWidth(text, FACES[role][weight], size);
}

/** The same for a face. */
export function faceWidth(text: string, face: FaceName, size: number): number {
  const widths = WIDTHS[face];
  let thousandths = 0;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    const known = widths.latin[code];
    if (known !== undefined && known >= 0) {
      thousandths += known;
      continue;
    }
    const point = text.codePointAt(index) ?? code;
    if (point > 0xffff) index += 1;
    thousandths += widths.others.get(point) ?? strangerWidth(String.fromCodePoint(point));
  }
  return (thousandths * size) / 1000;
}

/** Widths by code: the table's ranges laid out flat, because every letter of every line is looked up. */
function byCode({ ranges, others }: FaceWidths): {
  readonly latin: readonly number[];
  readonly others: ReadonlyMap<number, number>;
} {
  const latin: number[] = new Array(LAST_LATIN + 1).fill(-1);
  for (const { first, widths } of ranges) for (const [index, width] of widths.entries()) latin[first + index] = width;
  return {
    latin,
    others: new Map(Object.entries(others).map(([letter, width]) => [letter.codePointAt(0) ?? 0, width])),
  };
}

const LAST_LATIN = 0x17f;
const WIDTHS = {
  serif: byCode(FACE_WIDTHS.serif),
  serifItalic: byCode(FACE_WIDTHS.serifItalic),
  serifBold: byCode(FACE_WIDTHS.serifBold),
  serifBoldItalic: byCode(FACE_WIDTHS.serifBoldItalic),
  sans: byCode(FACE_WIDTHS.sans),
  sansBold: byCode(FACE_WIDTHS.sansBold),
};

/** Thousandths of an em for a letter that no face of ours has: wide enough for the widest that may stand in. */
function strangerWidth(letter: string): number {
  if (SQUARE.test(letter)) return 1000;
  if (/\p{Mn}/u.test(letter)) return 0;
  return /\p{Lu}/u.test(letter) ? 740 : 600;
}

/** The area that a text takes up, baseline and anchor reckoned in. */
export function textBox(item: TextItem): Box {
  const weight = item.bold === true ? 'bold' : 'plain';
  const width =
    item.runs === undefined
      ? textWidth(item.text, item.role, item.size, weight)
      : item.runs.reduce((sum, run) => sum + textWidth(run.text, item.role, run.size, weight), 0);
  const before = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? width / 2 : width;
  const runs = item.runs ?? [{ text: item.text, size: item.size, lift: 0 }];
  const height = Math.max(...runs.map(({ text, size, lift }) => lift + riseOf(text) * size));
  // Figures and capitals have nothing below the line, so only other letters claim room there.
  const below = Math.max(
    0,
    ...runs.map(({ text, size, lift }) => (DESCENDING.test(text) ? DESCENT_EM * size - lift : 0)),
  );
  return { x: item.x - before, y: item.y - height, width, height: height + below };
}

function riseOf(text: string): number {
  if (ACCENTED_CAPITAL.test(text)) return RISE_EM.accentedCapital;
  return TALL.test(text) ? RISE_EM.tall : RISE_EM.capital;
}
