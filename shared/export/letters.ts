import type { PathStep } from '../engrave/drawing.ts';
import { type FaceName, faceWidth } from '../engrave/text-width.ts';
import { type MusicSignName, sizedSign } from '../engrave/type/music-sign.ts';
import type { FlatPath, FlatText } from './flat-items.ts';

/** Which of a face's files has a letter: 0 for the first, or `only` where that is asked for; undefined where none has it. */
export type FileWith = (face: FaceName, codePoint: number, only?: number) => number | undefined;

/**
 * A stretch of a text: letters of one file of the face, or what is drawn in the place of a letter that the face lacks. `text` is what
 * a reader gets who copies it.
 */
export type Stretch =
  | { readonly kind: 'letters'; readonly text: string; readonly x: number; readonly file: number }
  | {
      readonly kind: 'sign' | 'missing';
      readonly text: string;
      readonly x: number;
      readonly width: number;
      readonly outline: FlatPath;
    };

/**
 * Signs of music that stand in running text, drawn in the music face: how large, and how far its line is above that of the letters.
 * Unit: em. The same as in chord names.
 */
const SIGNS_IN_TEXT: Readonly<
  Record<string, { readonly name: MusicSignName; readonly size: number; readonly lift: number }>
> = {
  '♭': { name: 'accidentalFlat', size: 1.22, lift: 0.2 },
  '♯': { name: 'accidentalSharp', size: 1.1, lift: 0.34 },
  '𝄫': { name: 'accidentalDoubleFlat', size: 1.22, lift: 0.2 },
  '𝄪': { name: 'accidentalDoubleSharp', size: 1.22, lift: 0.3 },
  '△': { name: 'csymMajorSeventh', size: 1.3, lift: 0 },
};

/** Spaces of a staff in the em of the music face. Source: SMuFL 1.4, metrics. */
const SPACES_IN_EM = 4;

/** The text in stretches, letter beside letter as wide as they were reckoned. */
export function stretchesOf(text: FlatText, fileWith: FileWith): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let { x } = text;
  let open: { text: string; x: number; file: number } | undefined;
  const close = (): void => {
    if (open !== undefined) stretches.push({ kind: 'letters', ...open });
    open = undefined;
  };
  /** A sign over a letter is set from the file of that letter, where the face says how the two stand. */
  const fileOf = (letter: string, before: typeof open): number | undefined => {
    const code = letter.codePointAt(0) ?? 0;
    return before !== undefined && /^\p{Mn}$/u.test(letter) && fileWith(text.face, code, before.file) !== undefined
      ? before.file
      : fileWith(text.face, code);
  };
  for (const typed of text.text.normalize('NFC')) {
    // Both blanks are one glyph in the faces; a reader who copies it wants the plain one.
    const letter = typed === '\u00a0' ? ' ' : typed;
    // A place where a word may be parted, a joiner and the like are not seen.
    if (/^\p{Cf}$/u.test(letter)) continue;
    const width = faceWidth(letter, text.face, text.size);
    const file = fileOf(letter, open);
    if (file !== undefined) {
      if (open?.file !== file) {
        close();
        open = { text: '', x, file };
      }
      open.text += letter;
    } else if (!/^\s$/u.test(letter)) {
      close();
      stretches.push(strangerOf(letter, x, width, text));
    }
    x += width;
  }
  close();
  return stretches;
}

function strangerOf(letter: string, x: number, width: number, { y, size, ink }: FlatText): Stretch {
  const sign = SIGNS_IN_TEXT[letter];
  if (sign === undefined)
    return { kind: 'missing', text: letter, x, width, outline: { ...emptyBox(x, y, width, size), ink } };
  const set = sizedSign(sign.name, (sign.size * size) / SPACES_IN_EM, ink);
  const left = x + (width - (set.right - set.left)) / 2 - set.left;
  const steps = set.item.steps.map((step) => moved(step, left, y - sign.lift * size));
  return { kind: 'sign', text: letter, x, width, outline: { kind: 'path', steps, ink } };
}

function moved(step: PathStep, x: number, y: number): PathStep {
  switch (step[0]) {
    case 'Z':
      return step;
    case 'C':
      return ['C', x + step[1], y + step[2], x + step[3], y + step[4], x + step[5], y + step[6]];
    default:
      return [step[0], x + step[1], y + step[2]];
  }
}

/** What stands where a letter is lacking. Common practice, no source. Unit: em. */
const BOX = { beside: 0.08, rise: 0.66, thickness: 0.05 };

function emptyBox(x: number, y: number, width: number, size: number): Omit<FlatPath, 'ink'> {
  // A sign over another letter has no room of its own.
  if (width === 0) return { kind: 'path', steps: [] };
  const [left, right] = [x + BOX.beside * size, x + width - BOX.beside * size];
  const top = y - BOX.rise * size;
  const steps: readonly PathStep[] = [['M', left, y], ['L', left, top], ['L', right, top], ['L', right, y], ['Z']];
  return { kind: 'path', steps, thickness: BOX.thickness * size };
}
