import { type ChordKind, chordKindFacts } from './chord-kinds.ts';
import type { ChordParts } from './chord-parts.ts';
import { hasSeventh } from './chord-parts.ts';
import type { AccidentalStyle } from './note.ts';
import type { Role } from './role.ts';
import { printRole } from './role.ts';

/** How the names of chords are written. Every style reads back as the same chord. */
export interface ChordStyle {
  readonly accidentals: AccidentalStyle;
  readonly minor: 'm' | 'min' | '-' | 'MI';
  /** What stands before the number of a chord with a major seventh. */
  readonly major: 'maj' | 'M' | '△' | 'MA';
  /** With `minor-flat-five` the circle is kept for the diminished seventh, and the triad is a minor one with a bent fifth. */
  readonly diminished: 'dim' | '°' | 'minor-flat-five';
  readonly halfDiminished: 'minor-flat-five' | 'ø';
  readonly augmented: 'aug' | '+';
  /** `C7b9#11` or `C7(b9,#11)`. */
  readonly alterations: 'bare' | 'bracketed';
}

export type ChordStyleName = 'plain' | 'short' | 'words' | 'symbols' | 'capitals';

/**
 * The styles with a name. Source: common practice, no source; `capitals` follows C. Brandt and C. Roemer, Standardized Chord Symbol
 * Notation, 1976, as it is reported (MA and MI, alterations in brackets, the circle for the diminished seventh only).
 */
export const CHORD_STYLES: Readonly<Record<ChordStyleName, ChordStyle>> = {
  /** Cm Cmaj7 Cm7b5 Cdim7 Caug7 */
  plain: {
    accidentals: 'letters',
    minor: 'm',
    major: 'maj',
    diminished: 'dim',
    halfDiminished: 'minor-flat-five',
    augmented: 'aug',
    alterations: 'bare',
  },
  /** Cm CM7 Cm7b5 Cdim7 C+7 */
  short: {
    accidentals: 'letters',
    minor: 'm',
    major: 'M',
    diminished: 'dim',
    halfDiminished: 'minor-flat-five',
    augmented: '+',
    alterations: 'bare',
  },
  /** Cmin Cmaj7 Cmin7b5 Cdim7 Caug7 */
  words: {
    accidentals: 'letters',
    minor: 'min',
    major: 'maj',
    diminished: 'dim',
    halfDiminished: 'minor-flat-five',
    augmented: 'aug',
    alterations: 'bare',
  },
  /** C- C△7 Cø7 C°7 C+7 */
  symbols: {
    accidentals: 'signs',
    minor: '-',
    major: '△',
    diminished: '°',
    halfDiminished: 'ø',
    augmented: '+',
    alterations: 'bare',
  },
  /** CMI CMA7 CMI7(b5) C°7 C+7 */
  capitals: {
    accidentals: 'letters',
    minor: 'MI',
    major: 'MA',
    diminished: 'minor-flat-five',
    halfDiminished: 'minor-flat-five',
    augmented: '+',
    alterations: 'bracketed',
  },
};

const FLAT_FIFTH: Role = { degree: 5, alter: -1 };

/** Chords that a style may write as their minor sister with a flat fifth. */
const MINOR_SISTERS: ReadonlyMap<ChordKind, ChordKind> = new Map([
  ['diminished', 'minor'],
  ['diminished-major-seventh', 'minor-major-seventh'],
  ['half-diminished', 'minor-seventh'],
]);

/** The half-diminished chords that have no kind of their own. */
const HALF_DIMINISHED_ABOVE: ReadonlyMap<ChordKind, string> = new Map([
  ['minor-ninth', 'ø9'],
  ['minor-11th', 'ø11'],
  ['minor-13th', 'ø13'],
]);

/** What stands between the root and the bass: `m7b5`, `-△7`, `7(b9,#11)`. */
export function printSuffix(parts: ChordParts, style: ChordStyle): string {
  const { suffix, alterations } = headOf(parts, style);
  const printed = alterations.map((role) => printRole(role, style.accidentals));
  // "C(b5)" needs its brackets in every style: "Cb5" is the power chord on C flat.
  const bracketed = style.alterations === 'bracketed' || !hasSeventh(parts.kind);
  const altered = bracketed
    ? printed
        .map((role) => `(${role})`)
        .join('')
        .replaceAll(')(', ',')
    : printed.join('');
  // A bare "add7" would be heard as the flat seventh.
  const added = parts.additions.map(
    (role) => `(add${role.degree === 7 ? style.major : ''}${printRole(role, style.accidentals)})`,
  );
  const omitted = parts.omissions.map((role) => `(no${role.degree})`);
  return [suffix, altered, ...added, ...omitted].join('');
}

/** The kind in the words of the style, and the alterations that it does not say itself. */
function headOf(parts: ChordParts, style: ChordStyle): { suffix: string; alterations: readonly Role[] } {
  const { kind, alterations } = parts;
  const sister = MINOR_SISTERS.get(kind);
  const spelledOut =
    kind === 'half-diminished'
      ? style.halfDiminished === 'minor-flat-five' && style.alterations === 'bracketed'
      : style.diminished === 'minor-flat-five';
  if (sister !== undefined && spelledOut) {
    return { suffix: suffixOf(sister, style), alterations: [FLAT_FIFTH, ...alterations] };
  }
  const above = style.halfDiminished === 'ø' ? HALF_DIMINISHED_ABOVE.get(kind) : undefined;
  const fifths = alterations.filter((role) => role.degree === 5);
  if (above !== undefined && fifths.length === 1 && fifths[0]?.alter === -1) {
    return { suffix: above, alterations: alterations.filter((role) => role.degree !== 5) };
  }
  return { suffix: suffixOf(kind, style), alterations };
}

/** The suffix of the kind with each of its words as the style has it. */
function suffixOf(kind: ChordKind, style: ChordStyle): string {
  const { suffix } = chordKindFacts(kind);
  if (style === CHORD_STYLES.plain) return suffix;
  const half = style.halfDiminished === 'ø' ? 'ø7' : `${style.minor}7b5`;
  const diminished = style.diminished === 'minor-flat-five' ? '°' : style.diminished;
  const words: Readonly<Record<string, string>> = {
    m7b5: style.accidentals === 'signs' ? half.replace('b', '♭') : half,
    m: style.minor,
    maj: style.major,
    dim: diminished,
    aug: style.augmented,
  };
  const worded = suffix.replace(/m7b5|maj|dim|aug|m/g, (word) => words[word] ?? word);
  // The triangle cannot be taken for a part of the word before it, so it needs no brackets.
  return style.major === '△' ? worded.replace(/\((△\d+)\)/, '$1') : worded;
}
