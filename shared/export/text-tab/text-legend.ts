import type { HitPlace } from '../../lesson/syntax/marks.ts';
import { wrapped } from './wrapped.ts';

/** A sign of the text that a reader may not know. */
export type TextSign =
  | 'hammer-on'
  | 'pull-off'
  | 'slide'
  | 'bend'
  | 'vibrato'
  | 'trill'
  | 'harmonic'
  | 'dead'
  | 'stroke'
  | 'spread'
  | 'light'
  | 'chunk'
  | 'roll'
  | 'stop'
  | 'finger'
  | 'rest-stroke'
  | 'accent'
  | HitPlace;

/** Signs and what they mean, in the order in which they are told. Letters of techniques: common practice of text tab, no source. */
const MEANINGS: readonly (readonly [TextSign, string])[] = [
  ['hammer-on', 'h hammer-on'],
  ['pull-off', 'p pull-off'],
  ['slide', '/ \\ slide up, down'],
  ['bend', 'b bend'],
  ['vibrato', '~ vibrato'],
  ['trill', 'tr trill'],
  ['harmonic', '<12> harmonic'],
  ['dead', 'x damped string'],
  ['stroke', 'D U stroke down, up'],
  ['spread', 'D~ spread slowly'],
  ['light', '(U) barely touched'],
  ['chunk', 'C stroke stopped by the hand'],
  ['roll', 'R fingers one after another'],
  ['stop', 'stop silences all strings, stop4 string 4'],
  ['finger', 'p i m a thumb, index, middle, ring finger'],
  ['rest-stroke', '^ rest stroke'],
  ['accent', '! accent'],
  ['thumb', 'T4 thumb slaps string 4'],
  ['palm', 'P palm on the strings'],
  ['nails', 'N nails on the strings'],
  ['body', 'B knock on the body'],
];

/** The signs that the text uses, in lines of so many columns; a sign stays in a line with what it means. */
export function legendLines(signs: ReadonlySet<TextSign>, columns: number): readonly string[] {
  const used = MEANINGS.filter(([sign]) => signs.has(sign)).map(([, meaning]) => meaning.replaceAll(' ', HARD_BLANK));
  if (used.length === 0) return [];
  return wrapped(`Signs: ${used.join('; ')}.`, columns, '  ').map((line) => line.replaceAll(HARD_BLANK, ' '));
}

/** Stands for a blank at which no line ends. */
const HARD_BLANK = '\u{A0}';
