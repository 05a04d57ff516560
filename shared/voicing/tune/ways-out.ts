import type { Instrument } from '../../neck/instrument.ts';
import { INSTRUMENTS } from '../../neck/instrument-table.ts';
import { stringNumber } from '../../neck/shape.ts';
import { spellPitchClass } from '../../theory/key.ts';
import {
  midiNumber,
  type Pitch,
  parsePitch,
  pitchClass,
  pitchNamed,
  printNote,
  printPitch,
} from '../../theory/note.ts';
import type { GivenNote } from './given-notes.ts';
import { lastFret, openMidi, placesOf } from './neck-range.ts';
import type { Scale } from './scale.ts';

/** Why the neck does not have a note, whatever the hand does. */
export function whyNotOnNeck(instrument: Instrument, { pitch, midi }: GivenNote): string {
  const open = openMidi(instrument);
  const [low, high] = [Math.min(...open), Math.max(...open) + lastFret(instrument)];
  const name = printPitch(pitch);
  if (midi < low) return `${name} is lower than any note of the ${instrument.name}: its lowest is ${told(low)}.`;
  if (midi > high) return `${name} is higher than any note of the ${instrument.name}: its highest is ${told(high)}.`;
  return `No string of the ${instrument.name} has ${name}.`;
}

/** Another tuning that has the note, another key that has all notes, another octave: what a teacher would offer. */
export function waysOut(
  instrument: Instrument,
  scale: Scale,
  note: GivenNote,
  tune: readonly GivenNote[],
): readonly string[] {
  return [...otherTuning(instrument, note), ...otherKey(instrument, scale, tune), ...otherOctave(instrument, note)];
}

/** The tuning of the same kind of instrument that has the note and changes fewest strings. */
function otherTuning(instrument: Instrument, { pitch, midi }: GivenNote): readonly string[] {
  const facts = INSTRUMENTS.find(({ kind }) => kind === instrument.kind);
  const tunings = (facts?.tunings ?? []).flatMap(({ name, strings }) => {
    const openStrings = strings.split(' ').flatMap((word): readonly Pitch[] => {
      const read = parsePitch(word);
      return read.ok ? [read.value] : [];
    });
    const retuned = { ...instrument, openStrings };
    const [place] = placesOf(retuned, midi).toSorted((one, other) => one.fret - other.fret);
    if (place === undefined || openStrings.length !== instrument.openStrings.length) return [];
    const changed = openStrings.filter((open, at) => {
      const before = instrument.openStrings[at];
      return before === undefined || midiNumber(open) !== midiNumber(before);
    });
    return [{ name, place, changed: changed.length }];
  });
  const [best] = tunings.sort((one, other) => one.changed - other.changed);
  if (best === undefined) return [];
  const where = tellPlace(instrument, best.place.stringIndex, best.place.fret);
  return [`With the strings tuned ${best.name}, ${printPitch(pitch)} is on ${where}.`];
}

/** The nearest key in which the neck has every note of the tune. */
function otherKey(instrument: Instrument, scale: Scale, tune: readonly GivenNote[]): readonly string[] {
  for (let semitones = 1; semitones < 12; semitones += 1) {
    for (const by of [semitones, -semitones]) {
      if (!tune.every(({ midi }) => placesOf(instrument, midi + by).length > 0)) continue;
      const tonic = spellPitchClass((pitchClass(scale.tonic) + by + 12) % 12);
      const moved = tune.slice(0, FEW).map(({ midi }) => told(midi + by));
      const more = tune.length > FEW ? ' …' : '';
      const way = `${semitones} ${semitones === 1 ? 'fret' : 'frets'} ${by > 0 ? 'up' : 'down'}`;
      return [
        `Moved ${way}, with ${printNote(tonic)} for its home note, all of it is there: ${moved.join(' ')}${more}; the chords move with it.`,
      ];
    }
  }
  return [];
}

/** So many notes are enough to know a tune by. */
const FEW = 6;

function otherOctave(instrument: Instrument, { pitch, midi }: GivenNote): readonly string[] {
  for (const octaves of [1, -1, 2, -2]) {
    const [place] = placesOf(instrument, midi + 12 * octaves).toSorted((one, other) => one.fret - other.fret);
    if (place === undefined) continue;
    const way = `${Math.abs(octaves) === 1 ? 'An octave' : 'Two octaves'} ${octaves > 0 ? 'up' : 'down'}`;
    const name = printPitch(pitchNamed(pitch, midi + 12 * octaves));
    return [`${way} it is ${name}, ${tellPlace(instrument, place.stringIndex, place.fret)}; that changes the tune.`];
  }
  return [];
}

function tellPlace({ openStrings }: Instrument, stringIndex: number, fret: number): string {
  return `string ${stringNumber(stringIndex, openStrings.length)} ${fret === 0 ? 'open' : `fret ${fret}`}`;
}

function told(midi: number): string {
  return printPitch(pitchNamed(spellPitchClass(midi % 12), midi));
}
