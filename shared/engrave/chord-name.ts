import { Remembered } from '../text/remembered.ts';
import { group, type Ink, type Item, type TextRun } from './drawing.ts';
import { textWidth } from './text-width.ts';
import { type MusicSignName, sizedSign } from './type/music-sign.ts';

/** A line of signs set by hand: what to draw, counted from its left end and baseline, and how wide it is. */
export interface SetLine {
  readonly items: readonly Item[];
  readonly width: number;
  /** True where some of it stands over the letters. */
  readonly raised: boolean;
}

/** Root, accidental, minor sign, all that is raised, bass. */
const NAME = /^([A-G])([b#♭♯]{0,2})(m(?!aj)|min|-)?(.*?)(?:\/([A-G])([b#♭♯]{0,2}))?$/u;

/** Of the name's size. Raised parts stay readable: never below two thirds. */
const RAISED = { size: 0.7, lift: 0.3 };

/** White before and behind a sign of the music face, of the size of the letters beside it. */
const BESIDE_SIGN = { before: 0.03, behind: 0.05 };

/**
 * How large a sign is drawn and how far its own line stands above that of the letters, both against the size of the letters: a flat
 * stands on their line, a sharp has its middle at theirs. Accidentals are those of the staff, which are as heavy as bold letters.
 */
const NAME_SIGNS = {
  accidentalFlat: { size: 1.22, lift: 0.2 },
  accidentalDoubleFlat: { size: 1.22, lift: 0.2 },
  accidentalSharp: { size: 1.1, lift: 0.34 },
  accidentalDoubleSharp: { size: 1.22, lift: 0.3 },
  csymDiminished: { size: 1.3, lift: 0.02 },
  csymHalfDiminished: { size: 1.3, lift: 0.02 },
  csymMajorSeventh: { size: 1.3, lift: 0 },
} as const satisfies Partial<Record<MusicSignName, { readonly size: number; readonly lift: number }>>;

type NameSign = keyof typeof NAME_SIGNS;

/** Lines of a staff that the music face reckons to its size. Source: SMuFL 1.4, metrics: the em is four staff spaces. */
const SPACES_IN_EM = 4;

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

/** The chord's name within a line of text: as it is written, with real accidentals. `Bb7` is `B♭7`, `D/F#` is `D/F♯`. */
export function chordNameInText(name: string): string {
  const parts = NAME.exec(name);
  if (parts === null) return name;
  const [, root = '', accidental = '', minor = '', extension = '', bass = '', bassAccidental = ''] = parts;
  const raised = extension.replace(/b(?=\d)/gu, '♭').replaceAll('#', '♯');
  const under = bass === '' ? '' : `/${bass}${signed(bassAccidental)}`;
  return `${root}${signed(accidental)}${minor}${raised}${under}`;
}

function signed(accidental: string): string {
  return accidental.replaceAll('b', '♭').replaceAll('#', '♯');
}

/** The chord's name to be read aloud: `B flat 7`, `F sharp minor 7 flat 5`. */
export function spokenChordName(name: string): string {
  return spoken.get(name, () => sayName(name));
}

// A lesson has few names and says them in every bar.
const spoken = new Remembered<string, string>(1000);

function sayName(name: string): string {
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
    .replace(/[△Δ∆▵▲^]/gu, ' major ')
    .replace(/°|^o(?![a-z])/gu, ' diminished ')
    .replace(/[øØ∅⌀]/gu, ' half-diminished ')
    .replace(/^\+/, ' augmented ')
    .replace(/\//g, ' ')
    .replace(/ +/g, ' ')
    .trimEnd();
}

type Piece =
  | (TextRun & { readonly kind: 'text' })
  | { readonly kind: 'sign'; readonly name: NameSign; readonly size: number; readonly lift: number };

function textPiece(text: string, size: number, lift: number): Piece {
  return { kind: 'text', text, size, lift };
}

function accidentalPieces(signs: string, size: number, lift: number): readonly Piece[] {
  const sharps = signs.replace(/♯/gu, '#');
  const flats = signs.replace(/♭/gu, 'b');
  if (sharps === '##') return [{ kind: 'sign', name: 'accidentalDoubleSharp', size, lift }];
  if (flats === 'bb') return [{ kind: 'sign', name: 'accidentalDoubleFlat', size, lift }];
  return [...sharps].map((sign) => ({
    kind: 'sign',
    name: sign === '#' ? 'accidentalSharp' : 'accidentalFlat',
    size,
    lift,
  }));
}

/** Accidentals inside stand before a number: the b of `m7b5`, not that of a word. An o that begins the rest is the ring of `Co7`. */
const EXTENSION_SIGNS = /([b#♭♯]+(?=\d)|[△Δ∆▵▲^]|°|^o(?![a-z])|[øØ∅⌀])/u;

function extensionPieces(extension: string, size: number, lift: number): readonly Piece[] {
  return extension.split(EXTENSION_SIGNS).flatMap((part, index): readonly Piece[] => {
    if (part === '') return [];
    // What the pattern has caught stands at the odd places.
    if (index % 2 === 0) return [textPiece(part, size, lift)];
    if (/[b#♭♯]/u.test(part)) return accidentalPieces(part, size, lift);
    const name = /[°o]/u.test(part)
      ? 'csymDiminished'
      : /[øØ∅⌀]/u.test(part)
        ? 'csymHalfDiminished'
        : 'csymMajorSeventh';
    return [{ kind: 'sign', name, size, lift }];
  });
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
      const { size, lift } = NAME_SIGNS[piece.name];
      const sign = sizedSign(piece.name, (piece.size * size) / SPACES_IN_EM, ink);
      x += piece.size * BESIDE_SIGN.before;
      items.push(group(x - sign.left, -piece.lift - piece.size * lift, [sign.item]));
      x += sign.right - sign.left + piece.size * BESIDE_SIGN.behind;
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
  return { items, width: x, raised: pieces.some(({ lift }) => lift > 0) };
}
