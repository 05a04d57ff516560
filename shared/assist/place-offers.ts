import { resolveChord } from '../lesson/model/chords.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { ChordName } from '../lesson/syntax/words.ts';
import { midiAt } from '../neck/pitches.ts';
import { chordTones } from '../theory/chord-symbol.ts';
import { inKey, spellMidi } from '../theory/key.ts';
import { pitchClass, printPitch } from '../theory/note.ts';
import type { Offer } from './offer.ts';

/** Frets beyond the shape that a tune reaches while the shape is held. Common practice, no source. */
const AROUND_SHAPE = 4;

/** Places on the neck for a row of tune: notes of the key near the shape, tones of the chord first, then `.` and `stop`. */
export function placeOffers(scope: Scope, chord: ChordName | undefined): readonly Offer[] {
  const { instrument } = scope.edition();
  const key = scope.setting('key');
  const resolved = chord === undefined ? undefined : resolveChord(scope, chord);
  const stopped = resolved?.shape.filter((fret): fret is number => fret !== 'muted' && fret > 0) ?? [];
  const lowest = stopped.length === 0 ? 0 : Math.max(0, Math.min(...stopped) - 1);
  const highest = Math.min(
    instrument.frets - instrument.capoFret,
    stopped.length === 0 ? AROUND_SHAPE + 1 : Math.max(...stopped) + AROUND_SHAPE,
  );
  const tones = new Set(resolved === undefined ? [] : chordTones(resolved.symbol).map(({ note }) => pitchClass(note)));
  const strings = instrument.openStrings.length;
  const places = instrument.openStrings.flatMap((_, index) =>
    [0, ...Array.from({ length: Math.max(0, highest - lowest + 1) }, (_, step) => lowest + step)].flatMap((fret) => {
      const midi = midiAt(instrument, index, fret);
      if (midi === undefined) return [];
      // Key and chord are those of the shapes in the hand; a capo moves the sound only.
      const pitch = spellMidi(midi - instrument.capoFret, key);
      const isTone = tones.has(pitchClass(pitch));
      if (!isTone && key !== undefined && !inKey(pitch, key)) return [];
      return [
        {
          isTone,
          midi,
          offer: {
            kind: 'place' as const,
            label: `${strings - index}:${fret}`,
            detail: `${printPitch(pitch)}${isTone ? ', in the chord' : ''}`,
          },
        },
      ];
    }),
  );
  places.sort((a, b) => Number(b.isTone) - Number(a.isTone) || a.midi - b.midi);
  return [
    ...places.map(({ offer }) => offer),
    { kind: 'mark', label: '.', detail: 'the sound goes on' },
    { kind: 'mark', label: 'stop', detail: 'silence' },
  ];
}
