import type { Key } from '../theory/key.ts';
import { spellMidi } from '../theory/key.ts';
import type { Pitch } from '../theory/note.ts';
import { midiNumber } from '../theory/note.ts';
import type { Instrument } from './instrument.ts';
import type { Shape } from './shape.ts';

/**
 * MIDI number of what a string sounds when it is stopped at a fret as the hand counts it; the capo is added here.
 * Nothing where the instrument has no such string.
 */
export function midiAt(instrument: Instrument, stringIndex: number, fret: number): number | undefined {
  const open = instrument.openStrings[stringIndex];
  return open === undefined ? undefined : midiNumber(open) + instrument.capoFret + fret;
}

/** MIDI numbers in chart order; nothing stands for a muted string, and for a fret that has no string. */
export function soundingMidi(instrument: Instrument, shape: Shape): readonly (number | undefined)[] {
  return shape.map((fret, stringIndex) => (fret === 'muted' ? undefined : midiAt(instrument, stringIndex, fret)));
}

/** The same as pitches, spelled as the key spells them, or by their usual names. */
export function soundingPitches(instrument: Instrument, shape: Shape, key?: Key): readonly (Pitch | undefined)[] {
  return soundingMidi(instrument, shape).map((midi) => (midi === undefined ? undefined : spellMidi(midi, key)));
}

/**
 * The string that sounds lowest, by pitch and not by its place: with a re-entrant fourth string it is seldom the first of the chart.
 * Of two strings in unison the first in chart order. Nothing when every string is muted.
 */
export function lowestSounding(
  instrument: Instrument,
  shape: Shape,
): { readonly stringIndex: number; readonly midi: number } | undefined {
  let lowest: { readonly stringIndex: number; readonly midi: number } | undefined;
  for (const [stringIndex, midi] of soundingMidi(instrument, shape).entries()) {
    if (midi !== undefined && (lowest === undefined || midi < lowest.midi)) lowest = { stringIndex, midi };
  }
  return lowest;
}

/** True where no string is lower than the one before it in chart order: not re-entrant, so that a bass is heard as one. */
export function stringsInOrder({ openStrings }: Instrument): boolean {
  const midi = openStrings.map(midiNumber);
  return midi.every((one, at) => one >= (midi[at - 1] ?? 0));
}
