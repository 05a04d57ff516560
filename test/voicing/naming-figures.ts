import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordSymbol } from '../../shared/theory/chord-symbol.ts';
import { spellPitchClass } from '../../shared/theory/key.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import type { ChordName, NamingContext } from '../../shared/voicing/naming.ts';
import { nameSounding } from '../../shared/voicing/naming.ts';
import type { LabelledShape } from './data-set.ts';
import { soundsOf } from './data-set.ts';

/** One figure: of how many shapes it holds, how many it should be, and which fall short. */
export interface Measure {
  readonly what: string;
  readonly of: number;
  readonly held: number;
  /** The share that the product promises; absent for a figure that is only told. */
  readonly least?: number;
  readonly short: readonly LabelledShape[];
}

/** How the names of a file of labelled shapes agree with its labels. */
export interface NamingFigures {
  readonly shapes: number;
  /** Shapes that sound a note which their label does not have: errors of the set. */
  readonly contradicting: readonly LabelledShape[];
  /** How many of the others sound the root of their label, and how many do not. */
  readonly rooted: number;
  readonly rootless: number;
  readonly measures: readonly Measure[];
}

/** Measures all shapes of a file. */
export function namingFigures(shapes: readonly LabelledShape[]): NamingFigures {
  const contradicting = shapes.filter(({ label, midi }) => midi.some((note) => !soundsOf(label).has(note % 12)));
  const clean = shapes.filter((shape) => !contradicting.includes(shape));
  const rooted = clean.filter(({ label, midi }) => midi.some((note) => note % 12 === pitchClass(label.root)));
  const rootless = clean.filter((shape) => !rooted.includes(shape));
  const dominants = rootless.filter(({ label }) => [4, 10].every((above) => soundsAbove(label).has(above)));
  const inPlace = (shape: LabelledShape) => firstIn(shape, placeOf(shape.label));
  const overBass = (shape: LabelledShape) => firstIn(shape, { bassElsewhere: shape.label.root });
  return {
    shapes: shapes.length,
    contradicting,
    rooted: rooted.length,
    rootless: rootless.length,
    measures: [
      measure('root sounds: the label or a complete name of the same notes is first', 0.99, rooted, (shape) => {
        const [best] = nameSounding(shape.midi);
        return best !== undefined && (isLabel(best, shape.label) || best.omits.length === 0);
      }),
      measure('root sounds: the label is among the first three (dim7: four)', 0.99, rooted, ({ label, midi }) => {
        const most = label.kind === 'diminished-seventh' ? 4 : 3;
        return nameSounding(midi)
          .slice(0, most)
          .some((name) => isLabel(name, label));
      }),
      measure(
        'root sounds: in the key or cadence that decides, a name on the label’s root is first',
        0.98,
        rooted,
        (shape) => isOnRoot(inPlace(shape), shape.label),
      ),
      measure('the same, and it is the label to the letter', undefined, rooted, (shape) =>
        isLabel(inPlace(shape), shape.label),
      ),
      measure('root silent: the label is offered and marked rootless', 0.99, rootless, ({ label, midi }) =>
        nameSounding(midi).some((name) => name.rootless && isLabel(name, label)),
      ),
      measure(
        'root silent, but in another player’s bass: a name on the label’s root is first',
        0.95,
        rootless,
        (shape) => isOnRoot(overBass(shape), shape.label),
      ),
      measure('the same, and it is the label to the letter', undefined, rootless, (shape) =>
        isLabel(overBass(shape), shape.label),
      ),
      measure(
        'root of a dominant silent: before a chord a fifth below, a name on its root is first',
        undefined,
        dominants,
        (shape) => isOnRoot(inPlace(shape), shape.label),
      ),
    ],
  };
}

function measure(
  what: string,
  least: number | undefined,
  shapes: readonly LabelledShape[],
  holds: (shape: LabelledShape) => boolean,
): Measure {
  const short = shapes.filter((shape) => !holds(shape));
  const counted = { what, of: shapes.length, held: shapes.length - short.length, short };
  return least === undefined ? counted : { ...counted, least };
}

function firstIn({ midi }: LabelledShape, context: NamingContext): ChordName | undefined {
  return nameSounding(midi, context)[0];
}

/**
 * True when the name is the label, or is on the label's root with all its tones sounding, the root perhaps aside: then it differs only
 * by what the label promises and the shape lacks, or by calling a tone ♭5 or ♯11, ♯5 or ♭13. No place in a song decides that.
 */
function isOnRoot(name: ChordName | undefined, label: ChordSymbol): boolean {
  if (name === undefined || isLabel(name, label)) return name !== undefined;
  return pitchClass(name.symbol.root) === pitchClass(label.root) && name.omits.every(({ degree }) => degree === 1);
}

/** True when the name is on the label's root and means the same tones, however they are written: 13b5b9 and 13b9b5. */
function isLabel(name: ChordName | undefined, label: ChordSymbol): boolean {
  if (name === undefined) return false;
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
