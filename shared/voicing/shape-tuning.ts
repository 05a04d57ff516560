import type { Instrument } from '../neck/instrument.ts';
import { midiAt, stringsInOrder } from '../neck/pitches.ts';
import type { NeckEffort } from './shape-effort.ts';
import { neckEffort } from './shape-effort.ts';

/** What the finder of shapes knows of an instrument before it is asked for a chord. */
export interface TuningIndex {
  /** MIDI numbers of the open strings, with the capo, in chart order. */
  readonly openMidi: readonly number[];
  /** For each string the lowest of it and those after it. */
  readonly lowestAhead: readonly number[];
  /** True when no string is lower than the one before it: not re-entrant. */
  readonly inOrder: boolean;
  /** As the hand counts, from the capo. */
  readonly highestFret: number;
  readonly neck: NeckEffort;
}

export function tuningIndex(instrument: Instrument): TuningIndex {
  const openMidi = instrument.openStrings.flatMap((_, stringIndex) => midiAt(instrument, stringIndex, 0) ?? []);
  return {
    openMidi,
    lowestAhead: openMidi.map((_, at) => Math.min(...openMidi.slice(at))),
    inOrder: stringsInOrder(instrument),
    highestFret: instrument.frets - instrument.capoFret,
    neck: neckEffort(instrument),
  };
}
