import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordSymbol } from '../../shared/theory/chord-symbol.ts';
import { spellPitchClass } from '../../shared/theory/key.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import type { ChordName, NamingContext } from '../../shared/voicing/naming.ts';
import { nameSounding } from '../../shared/voicing/naming.ts';
import type { LabelledShape } from './data-set.ts';
import { soundsOf } from './data-set.ts';

/** How the names of a file of labelled shapes agree with its labels. Every figure is a count of shapes. */
export interface NamingFigures {
  readonly shapes: number;
  /** Shapes that sound a note which their label does not have: errors of the set. */
  readonly contradicting: readonly LabelledShape[];
  /** Shapes with all notes of their label's and the root among them. */
  readonly rooted: number;
  /** Of these: the label, or another complete name of exactly the same notes, comes first. */
  readonly rightFirst: number;
  /** The label is among the first three names, the first four for a diminished seventh. */
  readonly labelAmongFirst: number;
  /** In the key or before the chord that decides it, the label comes first. */
  readonly labelFirstInPlace: number;
  /** Shapes with all notes of their label's, but not the root. */
  readonly rootless: number;
  /** Of these: the label is among the names, marked rootless. */
  readonly rootlessOffered: number;
  /** The label comes first before the chord it leads to. */
  readonly rootlessFirstInPlace: number;
  /** The label comes first when another player sounds its root in the bass. */
  readonly rootlessFirstOverBass: number;
  /** What falls short, for reading. */
  readonly short: Readonly<Record<string, readonly string[]>>;
}

/** Measures all shapes of a file. */
export function namingFigures(shapes: readonly LabelledShape[]): NamingFigures {
  const contradicting = shapes.filter(({ label, midi }) => midi.some((note) => !soundsOf(label).has(note % 12)));
  const clean = shapes.filter((shape) => !contradicting.includes(shape));
  const rooted = clean.filter(({ label, midi }) => midi.some((note) => note % 12 === pitchClass(label.root)));
  const rootless = clean.filter((shape) => !rooted.includes(shape));
  const short: Record<string, string[]> = {};
  const count = (what: string, of: readonly LabelledShape[], holds: (shape: LabelledShape) => boolean) =>
    of.filter((shape) => {
      const right = holds(shape);
      if (!right) {
        short[what] ??= [];
        short[what].push(shape.entry);
      }
      return right;
    }).length;
  return {
    shapes: shapes.length,
    contradicting,
    rooted: rooted.length,
    rightFirst: count('rightFirst', rooted, ({ label, midi }) => {
      const [best] = nameSounding(midi);
      return best !== undefined && (isLabel(best, label) || best.omits.length === 0);
    }),
    labelAmongFirst: count('labelAmongFirst', rooted, ({ label, midi }) => {
      const most = label.kind === 'diminished-seventh' ? 4 : 3;
      return nameSounding(midi)
        .slice(0, most)
        .some((name) => isLabel(name, label));
    }),
    labelFirstInPlace: count('labelFirstInPlace', rooted, (shape) => comesFirst(shape, placeOf(shape.label))),
    rootless: rootless.length,
    rootlessOffered: count('rootlessOffered', rootless, ({ label, midi }) =>
      nameSounding(midi).some((name) => name.rootless && isLabel(name, label)),
    ),
    rootlessFirstInPlace: count('rootlessFirstInPlace', rootless, (shape) => comesFirst(shape, placeOf(shape.label))),
    rootlessFirstOverBass: count('rootlessFirstOverBass', rootless, (shape) =>
      comesFirst(shape, { bassElsewhere: shape.label.root }),
    ),
    short,
  };
}

function comesFirst({ label, midi }: LabelledShape, context: NamingContext): boolean {
  const [best] = nameSounding(midi, context);
  return best !== undefined && (isLabel(best, label) || isOnRoot(best, label));
}

/**
 * True when the name is on the label's root and all its tones sound, the root perhaps aside: then it differs from the label only by
 * what the label promises and the shape lacks, or by calling a tone ♭5 or ♯11, ♯5 or ♭13. No place in a song decides that.
 */
function isOnRoot(name: ChordName, label: ChordSymbol): boolean {
  return pitchClass(name.symbol.root) === pitchClass(label.root) && name.omits.every(({ degree }) => degree === 1);
}

/** True when the name is on the label's root and means the same tones, however they are written: 13b5b9 and 13b9b5. */
function isLabel(name: ChordName, label: ChordSymbol): boolean {
  const above = (of: Omit<ChordSymbol, 'text'>) =>
    [...soundsOf(of)]
      .map((sound) => (sound - pitchClass(of.root) + 12) % 12)
      .sort((a, b) => a - b)
      .join();
  return pitchClass(name.symbol.root) === pitchClass(label.root) && above(name.symbol) === above(label);
}

/**
 * Where a musician would expect the chord, which decides between the names of its notes: at home a major chord without minor seventh,
 * or a minor one without; before a chord a fifth below everything with a minor seventh, and an augmented chord; before a chord a
 * semitone above a diminished one; before its own triad a suspension. Source: common practice, no source.
 */
export const placeOfX = (l: ChordSymbol) => placeOf(l);
function placeOf(label: ChordSymbol): NamingContext {
  const above = soundsAbove(label);
  const minor = above.has(3) && !above.has(4);
  const on = (semitones: number, kind: 'major' | 'minor' | 'dominant') =>
    chordSymbol(spellPitchClass((pitchClass(label.root) + semitones) % 12), { kind });
  if (label.bass !== undefined)
    return { previous: on(0, minor ? 'minor' : 'major'), next: on(0, minor ? 'minor' : 'major') };
  if (label.kind === 'diminished-seventh' || label.kind === 'diminished') return { next: on(1, 'minor') };
  if (label.kind.includes('suspended') || label.kind === 'power') {
    return { next: chordSymbol(label.root, { kind: above.has(10) ? 'dominant' : 'major' }) };
  }
  // A minor eleventh before a chord a fifth below is heard as the suspension of that chord.
  if (above.has(10) && !(minor && above.has(5))) return { next: on(5, minor ? 'dominant' : 'major') };
  if (label.kind === 'augmented') return { next: on(5, 'major') };
  return { key: { tonic: label.root, mode: minor ? 'minor' : 'major' } };
}

function soundsAbove(label: ChordSymbol): ReadonlySet<number> {
  return new Set([...soundsOf({ ...label })].map((sound) => (sound - pitchClass(label.root) + 12) % 12));
}
