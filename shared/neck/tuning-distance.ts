import { midiNumber, pitchClass } from '../theory/note.ts';
import type { Instrument } from './instrument.ts';

/**
 * Semitones upward from one instrument's strings to the other's, 0 to 11, octaves and capos left out: by so much the same shapes
 * change their names, which are those of the shapes in the hand. Undefined where the strings differ in number or in distance.
 */
export function namesMoveBy(from: Instrument, to: Instrument): number | undefined {
  if (from.openStrings.length !== to.openStrings.length) return undefined;
  const distances = new Set(
    from.openStrings.map((pitch, index) => {
      const other = to.openStrings[index];
      return other === undefined ? undefined : (pitchClass(other) - pitchClass(pitch) + 12) % 12;
    }),
  );
  const [distance] = distances;
  return distances.size === 1 ? distance : undefined;
}

/** How far string 1 of the other instrument lies above that of the first. Unit: semitones, capos left out. */
export function firstStringMovesBy(from: Instrument, to: Instrument): number {
  const [own, other] = [from.openStrings.at(-1), to.openStrings.at(-1)];
  return own === undefined || other === undefined ? 0 : midiNumber(other) - midiNumber(own);
}
