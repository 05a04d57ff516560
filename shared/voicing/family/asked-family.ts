import { USUAL_HAND } from '../../hand/hand.ts';
import { type NeckInMm, neckInMm } from '../../hand/neck-in-mm.ts';
import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import { chordTones, printChordSymbol } from '../../theory/chord-symbol.ts';
import { scaleNotes } from '../../theory/key.ts';
import { pitchClass } from '../../theory/note.ts';
import { NOTHING_ALLOWED } from './allowance.ts';
import type { FamilyLimits } from './candidates.ts';
import type { FamilyRequest } from './request.ts';
import { type WantedChord, wantedChord } from './sounding.ts';

/** The request with what follows from it. */
export interface AskedFamily {
  readonly request: FamilyRequest;
  /** The neck above the capo. */
  readonly held: Instrument;
  readonly neck: NeckInMm;
  /** The different chords, in the order in which they first come. */
  readonly wanted: readonly WantedChord[];
  /** By different chord, the shape that it is pinned to. */
  readonly pins: readonly (Shape | undefined)[];
  /** By chord of the progression, which of the different chords it is. */
  readonly chordOf: readonly number[];
  readonly limits: FamilyLimits;
}

export function askedFamily(request: FamilyRequest): AskedFamily {
  const { instrument, chords, ring = [], within, hand = USUAL_HAND, hardest, allow = NOTHING_ALLOWED } = request;
  const held = neckAboveCapo(instrument);
  const names = chords.map((chord) => printChordSymbol(chord));
  const different = [...new Set(names)];
  const home = homeOf(request);
  const wanted = different.flatMap((name) => {
    const chord = chords[names.indexOf(name)];
    return chord === undefined
      ? []
      : [
          wantedChord(
            chord,
            allow,
            home,
            chords.filter((_, at) => names[at] !== name),
          ),
        ];
  });
  const pinOf = (name: string) => request.pins?.find(({ chord }) => printChordSymbol(chord) === name)?.shape;
  return {
    request,
    held,
    neck: neckInMm(held),
    wanted,
    pins: different.map(pinOf),
    chordOf: names.map((name) => different.indexOf(name)),
    limits: { ring, within, hand, hardest },
  };
}

/** The tones that are at home: those of the key, or without one those of all chords of the progression. Bit n for pitch class n. */
function homeOf({ key, chords }: FamilyRequest): number {
  const notes =
    key === undefined ? chords.flatMap((chord) => chordTones(chord).map(({ note }) => note)) : scaleNotes(key);
  return notes.reduce((mask, note) => mask | (1 << pitchClass(note)), 0);
}
