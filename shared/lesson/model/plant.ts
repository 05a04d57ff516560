import type { Instrument } from '../../neck/instrument.ts';
import { midiAt } from '../../neck/pitches.ts';
import { stringNumber } from '../../neck/shape.ts';
import { pitchClass } from '../../theory/note.ts';
import type { NoteMark, PickFinger } from '../syntax/marks.ts';
import type { ResolvedChord } from './resolved-chord.ts';

/**
 * Which string each finger rests on where the lesson does not say: on four strings p i m a lie on 4 3 2 1; on more, i m a
 * lie on 3 2 1 and the thumb takes the chord's root. Source: Carcassi's and later methods' usual rest; common practice.
 */
export const USUAL_PLANT: Readonly<Record<Exclude<PickFinger, 'p'>, number>> = { i: 3, m: 2, a: 1 };

/** Strings that the thumb looks for a root on: the two or three farthest from the floor. */
export function bassStrings(stringCount: number): readonly number[] {
  return stringCount <= 4 ? [4, 3] : Array.from({ length: stringCount - 3 }, (_, index) => stringCount - index);
}

/**
 * The string that a note is played on: as written, as planted, or the chord's root string for `R` and the other bass string for `A`.
 * Where the chord lets only one bass string sound, as D on a guitar, the thumb takes that one again, so that no beat of it is lost.
 */
export function stringOfNote(
  note: Pick<NoteMark, 'string' | 'finger' | 'bass'>,
  chord: ResolvedChord | undefined,
  plant: Readonly<Partial<Record<PickFinger, number>>> | undefined,
  instrument: Instrument,
): number | undefined {
  if (note.string !== undefined) return note.string;
  const strings = instrument.openStrings.length;
  if (note.bass !== undefined) {
    const root = chord === undefined ? undefined : rootString(chord, instrument);
    if (root === undefined || note.bass === 'root') return root;
    return bassStrings(strings).find((string) => string !== root && chord?.shape[strings - string] !== 'muted') ?? root;
  }
  if (note.finger === undefined) return undefined;
  const planted = plant?.[note.finger];
  if (planted !== undefined) return planted;
  if (note.finger !== 'p') return USUAL_PLANT[note.finger];
  return strings <= 4 ? strings : chord === undefined ? strings : rootString(chord, instrument);
}

/**
 * The lowest sounding bass string that holds the root; without one, the lowest bass string that sounds at all. Where the chord mutes
 * every bass string, all the others are bass strings.
 */
function rootString(chord: ResolvedChord, instrument: Instrument): number | undefined {
  const bass = soundingOn(bassStrings(instrument.openStrings.length), chord, instrument);
  const all = chord.shape.map((_, index) => stringNumber(index, chord.shape.length));
  const sounding = bass.length > 0 ? bass : soundingOn(all, chord, instrument);
  const root = pitchClass(chord.symbol.bass ?? chord.symbol.root);
  // The root of the shape as named: a capo moves the sound, not the name.
  return (sounding.find(({ midi }) => (midi - instrument.capoFret) % 12 === root) ?? sounding[0])?.string;
}

/** Those of the strings that the chord lets sound, the lowest first. */
function soundingOn(
  strings: readonly number[],
  { shape }: ResolvedChord,
  instrument: Instrument,
): readonly { readonly string: number; readonly midi: number }[] {
  const count = instrument.openStrings.length;
  return strings
    .flatMap((string) => {
      const fret = shape[count - string];
      const midi = fret === undefined || fret === 'muted' ? undefined : midiAt(instrument, count - string, fret);
      return midi === undefined ? [] : [{ string, midi }];
    })
    .sort((one, other) => one.midi - other.midi);
}
