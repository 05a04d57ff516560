import type { PlainLine } from './plain-lines.ts';

/** What stands at the left of a line of tab: the note of its open string, or the string's number. */
export type StringLabel =
  | { readonly kind: 'note'; readonly note: string; readonly written: string }
  | { readonly kind: 'number'; readonly number: number; readonly written: string };

/** One string of a system of tab, as far as the line alone can tell. */
export interface StringLine {
  readonly line: PlainLine;
  readonly label?: StringLabel;
  /** Where the body begins in the line. */
  readonly column: number;
  /** Frets, dashes and bar lines. */
  readonly body: string;
  /** `x2` behind the line. */
  readonly times?: number;
  /** Words behind the line that are no part of the tab. */
  readonly after: string;
}

/** `A|`, `Bb |`, `G4|`, `e:`, `EE|`, `A---`. Doubled strings are named twice. */
const NOTE_LABEL = /^\s*([A-Ga-g])([#b♯♭]?)([A-Ga-g]?)[#b♯♭]?(?:\d(?=\s*[|:\])]))?\s*(?=[-|:\])=])[:\])]?/;
const NUMBER_LABEL = /^\s*([1-9])\s*(?:[:)\]]|(?=\|))/;
const TIMES = /^[([]?\s*(?:x\s*(\d{1,2})|(\d{1,2})\s*x|(?:repeat|play)\s+(\d{1,2})\s*(?:x|times))\s*[)\]]?[.!]?$/i;

/** Fewest dashes of a line of tab; a heading underlined by less is none. */
const FEWEST_DASHES = 2;
/** Share of a line's signs that are dashes, bars and figures. Letters for techniques are few. */
const LEAST_SHARE = 0.6;

/** True for `x2`, `(3x)`, `repeat 2 times`. */
export function isTimes(text: string): boolean {
  return TIMES.test(text.trim());
}

/** The line as one string of a tab, or nothing where it is something else. */
export function readStringLine(line: PlainLine): StringLine | undefined {
  const { text } = line;
  const labelled = readLabel(text);
  const column = behindBlankBar(text, skipBlanks(text, labelled?.end ?? 0));
  const label = labelled === undefined ? {} : { label: labelled.label };
  // Frets may stand on a string of dashes, or of blanks where bar lines frame it.
  const drawn = /^\S+(?: (?=[-|\d~][^\s]*[-|])\S+)*/.exec(text.slice(column))?.[0] ?? '';
  if (isTab(drawn)) return { line, ...label, column, ...cutEnd(drawn, text.slice(column + drawn.length).trim()) };
  const blank = text.slice(column);
  if (labelled !== undefined && /^\|[-\s\d|hpsx~/\\.()]*\|$/.test(blank) && blank.length > 4) {
    return { line, ...label, column, body: blank.replaceAll(' ', '-'), after: '' };
  }
  return undefined;
}

function readLabel(text: string): { readonly label: StringLabel; readonly end: number } | undefined {
  const number = NUMBER_LABEL.exec(text);
  if (number?.[1] !== undefined) {
    return { label: { kind: 'number', number: Number(number[1]), written: number[1] }, end: number[0].length };
  }
  const note = NOTE_LABEL.exec(text);
  const [whole, letter, accidental = '', doubled] = note ?? [];
  if (whole === undefined || letter === undefined) return undefined;
  const name = letter.toUpperCase();
  if (doubled !== '' && doubled?.toUpperCase() !== name) return undefined;
  const plain = accidental.replace('♭', 'b').replace('♯', '#');
  const written = whole
    .trim()
    .replace(/[:\])]$/, '')
    .trimEnd();
  return { label: { kind: 'note', note: name + plain, written }, end: whole.length };
}

function isTab(body: string): boolean {
  let dashes = 0;
  let others = 0;
  for (const sign of body) {
    if (sign === '-' || sign === '=' || sign === '_') dashes += 1;
    else if (!/[|\d]/.test(sign)) others += 1;
  }
  if (dashes < FEWEST_DASHES || /^[^-|\d(<[xXo*~:=_/\\pima]/.test(body)) return false;
  return (body.length - others) / body.length >= LEAST_SHARE && !/[a-z]{5,}/i.test(body);
}

/** `x2` may touch the last bar line; other words behind it are kept apart. */
function cutEnd(drawn: string, after: string): Pick<StringLine, 'body' | 'times' | 'after'> {
  const touching = /^(.*\|)([([]?(?:x\d{1,2}|\d{1,2}x)[)\]]?)$/i.exec(drawn);
  if (touching?.[1] !== undefined && touching[2] !== undefined && after === '') return cutEnd(touching[1], touching[2]);
  const times = TIMES.exec(after);
  const number = times?.[1] ?? times?.[2] ?? times?.[3];
  if (number !== undefined && Number(number) >= 1) return { body: drawn, times: Number(number), after: '' };
  return { body: drawn, after };
}

/** Blanks between the first bar line and the dashes only set the dashes below each other: `A|   ---0---|`. */
function behindBlankBar(text: string, from: number): number {
  const blanks = /^\|+ +(?=[-=]{2}|[-=]?\d+[-=])/.exec(text.slice(from));
  return from + (blanks?.[0].length ?? 0);
}

function skipBlanks(text: string, from: number): number {
  let at = from;
  while (text[at] === ' ') at += 1;
  return at;
}
