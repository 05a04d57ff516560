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
const RISE_EM = {
  capital: 0.67,
  tall: 0.76,
  accented: 0.8,
  accentedTwice: 0.93,
  accentedCapital: 0.95,
  accentedCapitalTwice: 1.03,
};
const DESCENT_EM = { plain: 0.25, signBelow: 0.28 };

/** No letter of these bears a sign. */
const PLAIN_LATIN = /^[\0-\x7f]*$/;
/** Letters with a stem or a dot over them, brackets, quotes. */
const TALL = /[bdfhijklt()[\]{}|/$*"'‘’“”†ªºѢ]|[^\P{Ll}a-z]/u;
const DESCENDING = /[gjpqyJQ,;()[\]{}|_@$]|[µŊŋþƒȷɡˌβγζημξρςφχψϕϗϙϛϝϡЂЈЎУДЦЩЏдруфцщђјўџ\u0492-\u04ff]/u;
const DESCENDING_SLANTED = /[fßſ]/u;

// How many signs letters bear is told by their parts. Source: Unicode, combining diacritical marks (U+0300 to U+036F).
const OVER = '[\\u0316-\\u0333]*[\\u0300-\\u0315]';
const ACCENTED_CAPITAL = new RegExp(`[\\p{Lu}bdfhklt]${OVER}`, 'u');
const ACCENTED_CAPITAL_TWICE = new RegExp(`\\p{Lu}${OVER}${OVER}`, 'u');
/** With the horn at a shoulder, and the one small letter that has its cedilla over it. */
const ACCENTED = new RegExp(`${OVER}|\\u031b|g\\u0327|Ґ`, 'u');
const ACCENTED_TWICE = new RegExp(`${OVER}${OVER}|\\p{Lm}`, 'u');
/** All below the letter but the horn at its shoulder. */
const SIGN_BELOW = /[\u0316-\u031a\u031c-\u0333]/;

/** A sign that may make one letter with the one before it. Source: Unicode, combining diacritical marks. */
const SIGN_APART = /[\u0300-\u036f]/;

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
    const known = widths[code];
    if (known !== undefined && known >= 0) {
      thousandths += known;
      continue;
    }
    if (SIGN_APART.test(text.charAt(index))) {
      const composed = text.normalize('NFC');
      if (composed.length < text.length) return faceWidth(composed, face, size);
    }
    const point = text.codePointAt(index) ?? code;
    if (point > 0xffff) index += 1;
    thousandths += strangerWidth(String.fromCodePoint(point));
  }
  return (thousandths * size) / 1000;
}

/** Widths by code: the table's ranges laid out flat, because every letter of every line is looked up. */
function byCode(ranges: FaceWidths): Int16Array {
  const last = Math.max(...ranges.map(({ first, widths }) => first + widths.length));
  const flat = new Int16Array(last).fill(-1);
  for (const { first, widths } of ranges) flat.set(widths, first);
  // Signs over and under letters are looked up with their letter.
  flat.fill(-1, 0x300, 0x370);
  return flat;
}

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
  if (/[\p{Mn}\p{Cf}]/u.test(letter)) return 0;
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
    ...runs.map(({ text, size, lift }) => {
      const descent = descentOf(text, item.role);
      return descent === 0 ? 0 : descent * size - lift;
    }),
  );
  return { x: item.x - before, y: item.y - height, width, height: height + below };
}

function riseOf(text: string): number {
  const apart = inParts(text);
  if (!PLAIN_LATIN.test(text)) {
    if (ACCENTED_CAPITAL_TWICE.test(apart)) return RISE_EM.accentedCapitalTwice;
    if (ACCENTED_CAPITAL.test(apart)) return RISE_EM.accentedCapital;
    if (ACCENTED_TWICE.test(apart)) return RISE_EM.accentedTwice;
    if (ACCENTED.test(apart)) return RISE_EM.accented;
  }
  return TALL.test(apart) ? RISE_EM.tall : RISE_EM.capital;
}

/** 0 where nothing reaches below the line. */
function descentOf(text: string, role: TextRole): number {
  const apart = inParts(text);
  if (SIGN_BELOW.test(apart)) return DESCENT_EM.signBelow;
  return DESCENDING.test(apart) || (role === 'count' && DESCENDING_SLANTED.test(apart)) ? DESCENT_EM.plain : 0;
}

/** Letters, and the signs that they bear behind them. */
function inParts(text: string): string {
  return PLAIN_LATIN.test(text) ? text : text.normalize('NFD');
}
