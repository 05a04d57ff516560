import type { Ink, Item, TextRun } from './drawing.ts';
import { FLAT_WIDTH, flat, SHARP_WIDTH, sharp } from './outlines.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

/** A line of signs set by hand: what to draw, counted from its left end and baseline, and how wide it is. */
export interface SetLine {
  readonly items: readonly Item[];
  readonly width: number;
}

/** Root, accidental, minor sign, all that is raised, bass. */
const NAME = /^([A-G])([b#♭♯]{0,2})(m(?!aj)|min|-)?(.*?)(?:\/([A-G])([b#♭♯]{0,2}))?$/u;

/** Of the name's size. Raised parts stay readable: never below two thirds. */
const RAISED = { size: 0.7, lift: 0.3 };

/**
 * A chord name as a book sets it: real accidentals, extensions raised, the bass behind its stroke. `size` is that of the root
 * letter. What is no chord name is set as it stands.
 */
export function setChordName(name: string, size: number, ink: Ink = 'strong'): SetLine {
  const parts = NAME.exec(name);
  if (parts === null) return join([textPiece(name, size, 0)], ink);
  const [, root = '', accidental = '', minor = '', extension = '', bass = '', bassAccidental = ''] = parts;
  const pieces = [textPiece(root, size, 0), ...accidentalPieces(accidental, size, 0)];
  if (minor !== '') pieces.push(textPiece(minor === '-' ? 'm' : minor, size * 0.9, 0));
  pieces.push(...extensionPieces(extension, size * RAISED.size, size * RAISED.lift));
  if (bass !== '') pieces.push(textPiece(`/${bass}`, size, 0), ...accidentalPieces(bassAccidental, size, 0));
  return join(pieces, ink);
}

/** The role of a tone: `1`, `♭3`, `♯11`. */
export function setRole(role: string, size: number, ink: Ink): SetLine {
  return join(extensionPieces(role, size, 0), ink);
}

/** The chord's name to be read aloud: `B flat 7`, `F sharp minor 7 flat 5`. */
export function spokenChordName(name: string): string {
  const parts = NAME.exec(name);
  if (parts === null) return name;
  const [, root = '', accidental = '', minor = '', extension = '', bass = '', bassAccidental = ''] = parts;
  const kind = minor === '' ? '' : ' minor';
  const rest = extension === '' ? '' : ` ${spokenSigns(extension).trim()}`;
  const under = bass === '' ? '' : ` over ${bass}${spokenSigns(bassAccidental)}`;
  return `${root}${spokenSigns(accidental)}${kind}${rest}${under}`.replace(/ +/g, ' ').trim();
}

function spokenSigns(text: string): string {
  return text
    .replace(/[#♯]/gu, ' sharp ')
    .replace(/♭|b(?=\d|b|$)/gu, ' flat ')
    .replace(/[()]/g, ' ')
    .replace(/maj/g, 'major ')
    .replace(/dim/g, 'diminished ')
    .replace(/aug/g, 'augmented ')
    .replace(/sus/g, 'suspended ')
    .replace(/add/g, 'added ')
    .replace(/no(?=\d)/g, 'without ')
    .replace(/\//g, ' ')
    .replace(/ +/g, ' ')
    .trimEnd();
}

type Piece =
  | (TextRun & { readonly kind: 'text' })
  | { readonly kind: 'sharp' | 'flat'; readonly size: number; readonly lift: number };

function textPiece(text: string, size: number, lift: number): Piece {
  return { kind: 'text', text, size, lift };
}

function accidentalPieces(signs: string, size: number, lift: number): readonly Piece[] {
  return [...signs].map((sign) => ({ kind: sign === '#' || sign === '♯' ? 'sharp' : 'flat', size, lift }));
}

/** Accidentals inside stand before a number: the b of `m7b5`, not that of a word. */
function extensionPieces(extension: string, size: number, lift: number): readonly Piece[] {
  return extension
    .split(/([b#♭♯]+(?=\d))/u)
    .filter((part) => part !== '')
    .flatMap((part) => (/^[b#♭♯]+$/u.test(part) ? accidentalPieces(part, size, lift) : [textPiece(part, size, lift)]));
}

/**
 * Sets the pieces in a row. Neighbouring texts are one text, and the root before its accidental is anchored at its end, so that
 * the sign stands close to the letter in every face, however wide it is.
 */
function join(pieces: readonly Piece[], ink: Ink): SetLine {
  const items: Item[] = [];
  let x = 0;
  for (let index = 0; index < pieces.length; ) {
    const piece = pieces[index];
    if (piece === undefined) break;
    if (piece.kind !== 'text') {
      const height = piece.size * FIGURE_HEIGHT_EM * 0.86;
      const left = x + piece.size * 0.03;
      items.push(
        ...(piece.kind === 'sharp'
          ? sharp(left, -piece.lift - piece.size * 0.15, height, ink)
          : flat(left, -piece.lift - piece.size * 0.1, height, ink)),
      );
      x += (piece.kind === 'sharp' ? SHARP_WIDTH : FLAT_WIDTH) * height + piece.size * 0.07;
      index++;
      continue;
    }
    const runs: TextRun[] = [];
    for (let next = pieces[index]; next?.kind === 'text'; next = pieces[++index]) {
      runs.push({ text: next.text, size: next.size, lift: next.lift });
    }
    const width = runs.reduce((sum, run) => sum + textWidth(run.text, 'name', run.size), 0);
    const anchor = items.length === 0 && index < pieces.length ? 'end' : 'start';
    const text = runs.map((run) => run.text).join('');
    const [only] = runs;
    const plain = runs.length === 1 && only !== undefined && only.lift === 0;
    const base = { kind: 'text', x: anchor === 'end' ? x + width : x, y: 0, text, anchor, role: 'name', ink } as const;
    items.push(plain ? { ...base, size: only.size } : { ...base, size: piece.size, runs });
    x += width;
  }
  return { items, width: x };
}
