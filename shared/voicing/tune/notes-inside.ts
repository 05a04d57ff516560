import { midiAt } from '../../neck/pitches.ts';
import { stringNumber } from '../../neck/shape.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { type Pitch, pitchNamed } from '../../theory/note.ts';
import { type HandOnShape, type InsideWay, waysInside } from './inside-way.ts';
import { lastFret } from './neck-range.ts';
import { type Scale, type ToneOver, tonesOver } from './scale.ts';

export interface InsideRequest extends HandOnShape {
  readonly chord: ChordSymbol;
  readonly scale: Scale;
  /** Nothing but the notes of the scale; else the chord's own tones as well. */
  readonly strictly?: boolean;
}

/** A note at its place. */
export interface NoteOnNeck {
  readonly stringIndex: number;
  /** Number of the string, 1 nearest the floor. */
  readonly string: number;
  readonly fret: number;
  readonly pitch: Pitch;
  readonly midi: number;
  /** What it is to the chord. */
  readonly tone: ToneOver;
}

/** A note that can be had while a shape is held. */
export interface InsideNote extends NoteOnNeck {
  /** Best first. */
  readonly ways: readonly [InsideWay, ...InsideWay[]];
}

/**
 * Every note of the scale that can be had while the shape is held or one finger of it is lifted: string 1 first, each string from the
 * nut up. A string can sound on several frets, and a pitch on several strings.
 */
export function notesInside(request: InsideRequest): readonly InsideNote[] {
  const { instrument, chord, scale } = request;
  const tones = tonesOver(scale, chord, request.strictly !== true);
  const strings = instrument.openStrings.length;
  const waysAt = waysInside(request);
  const notes: InsideNote[] = [];
  for (let stringIndex = strings - 1; stringIndex >= 0; stringIndex -= 1) {
    for (let fret = 0; fret <= lastFret(instrument); fret += 1) {
      const midi = midiAt(instrument, stringIndex, fret);
      const tone = midi === undefined ? undefined : tones[midi % 12];
      if (midi === undefined || tone === undefined) continue;
      const [first, ...others] = waysAt(stringIndex, fret);
      if (first === undefined) continue;
      const string = stringNumber(stringIndex, strings);
      notes.push({
        stringIndex,
        string,
        fret,
        midi,
        tone,
        pitch: pitchNamed(tone.note, midi),
        ways: [first, ...others],
      });
    }
  }
  return notes;
}
