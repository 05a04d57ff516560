import { type MidiEvent, writeMidi } from 'midi-file';
import { millisecondsOf } from '../../score/clock.ts';
import type { Layer, Pass, ScoreBar } from '../../score/timeline.ts';
import { type Key, keySignature } from '../../theory/key.ts';
import { barLength, isCompound, type Meter } from '../../theory/meter.ts';
import { compare, plus, type Rational, rational, ZERO } from '../../theory/rational.ts';
import type { ExportedExercise } from '../exported-exercise.ts';
import { instrumentSound } from '../instrument-sound.ts';
import { KNOCKS, knockOf, PERCUSSION_CHANNEL } from '../percussion.ts';
import { type BarInTurn, barsInTurn, lengthOf, playedInBar } from '../played-clock.ts';
import { type MidiNote, midiNotesOf, oneForEachKey } from './midi-notes.ts';
import { bytesOfText, eventsOfNote, type TimedEvent, trackOf } from './midi-track.ts';
import { playedSounds } from './played-sounds.ts';
import { TICKS_PER_QUARTER, tickAt } from './ticks.ts';
import { KNOCK_TICKS, VELOCITY } from './touch.ts';

/** A time through the music, in the order in which it is played, and when it begins. */
interface PlayedPass {
  readonly pass: Pass;
  readonly turns: readonly BarInTurn[];
  readonly start: Rational;
}

/**
 * An exercise as a Standard MIDI File, format 1: a track of tempo, meter, key, chords and markers; a track each for what accompanies
 * and for the tune; one of percussion. Repeats are played out, swing is in the times, and strokes are spread. It is played once
 * through, at the tempo that the practice begins with.
 */
export function midiFileOf(exercise: ExportedExercise): Uint8Array {
  let start: Rational = ZERO;
  const passes = exercise.score.passes.map((pass): PlayedPass => {
    const played = { pass, turns: barsInTurn(pass.bars, exercise.feel), start };
    start = plus(start, lengthOf(played.turns));
    return played;
  });
  const end = tickAt(start);
  const notes = passes.flatMap((played) => notesOf(exercise, played));
  const knocks = oneForEachKey(passes.flatMap((played) => knocksOf(exercise, played)));
  const inLayer = (layer: Layer): readonly MidiNote[] =>
    oneForEachKey(notes.filter((note) => note.layer === layer).map(({ layer: _, ...note }) => note));
  const tune = inLayer('tune');
  const accompaniment = inLayer('accompaniment');
  const words = passes.flatMap((played) => lyricsOf(exercise, played));
  const tracks = [
    trackOf(conductorEvents(exercise, passes)),
    ...(accompaniment.length === 0
      ? []
      : [layerTrack(exercise, 'Accompaniment', accompaniment, tune.length === 0 ? words : [])]),
    ...(tune.length === 0 ? [] : [layerTrack(exercise, 'Tune', tune, words)]),
    ...(knocks.length === 0 ? [] : [trackOf([named('Percussion'), ...knocks.flatMap(eventsOfNote)])]),
  ];
  const header = { format: 1, numTracks: tracks.length, ticksPerBeat: TICKS_PER_QUARTER } as const;
  return Uint8Array.from(writeMidi({ header, tracks: tracks.map((track) => lastingUntil(track, end)) }));
}

/** Every track ends with the music, so that a last rest is not lost. */
function lastingUntil(track: MidiEvent[], end: number): MidiEvent[] {
  const length = track.reduce((sum, { deltaTime }) => sum + deltaTime, 0);
  const last = track.at(-1);
  if (last !== undefined) last.deltaTime = Math.max(0, end - length);
  return track;
}

function notesOf(
  exercise: ExportedExercise,
  { pass, turns, start }: PlayedPass,
): readonly (MidiNote & { readonly layer: Layer })[] {
  const from = tickAt(start);
  return playedSounds(exercise, pass.bars, turns).flatMap((sound) =>
    midiNotesOf(sound, exercise.instrument).map((note) => ({
      ...note,
      start: note.start + from,
      end: note.end + from,
      layer: sound.layer,
    })),
  );
}

function knocksOf({ feel }: ExportedExercise, { turns, start }: PlayedPass): readonly MidiNote[] {
  return turns.flatMap((turn) =>
    turn.bar.events.flatMap((event): readonly MidiNote[] => {
      const knock = knockOf(event);
      if (knock === undefined) return [];
      const tick = tickAt(plus(start, plus(turn.start, playedInBar(turn.bar, feel, event.at))));
      const accent = 'accent' in event && event.accent ? VELOCITY.accent : 0;
      return [
        {
          start: tick,
          end: tick + KNOCK_TICKS,
          key: KNOCKS[knock].midiKey,
          velocity: Math.min(127, VELOCITY.knock + accent),
          channel: PERCUSSION_CHANNEL,
        },
      ];
    }),
  );
}

function layerTrack(
  { instrument }: ExportedExercise,
  name: string,
  notes: readonly MidiNote[],
  words: readonly TimedEvent[],
): MidiEvent[] {
  const channels = [...new Set(notes.map(({ channel }) => channel))].sort((a, b) => a - b);
  const { midiProgram } = instrumentSound(instrument);
  return trackOf([
    named(name),
    ...channels.map(
      (channel): TimedEvent => ({
        tick: 0,
        event: { deltaTime: 0, type: 'programChange', channel, programNumber: midiProgram },
      }),
    ),
    ...words,
    ...notes.flatMap(eventsOfNote),
  ]);
}

function named(name: string): TimedEvent {
  return { tick: 0, event: { deltaTime: 0, type: 'trackName', text: bytesOfText(name) } };
}

/** Tempo, meter and key, with a marker at each bar and the chords by name. */
function conductorEvents(exercise: ExportedExercise, passes: readonly PlayedPass[]): readonly TimedEvent[] {
  const { title, soundingKey, pace, feel } = exercise;
  const events: TimedEvent[] = [named(title)];
  const add = (time: Rational, event: MidiEvent): void => {
    events.push({ tick: tickAt(time), event });
  };
  if (soundingKey !== undefined) add(ZERO, signatureOf(soundingKey));
  let meter: Meter | undefined;
  let perQuarter: number | undefined;
  for (const { pass, turns, start } of passes) {
    for (const { bar, start: inPass } of turns) {
      const at = plus(start, inPass);
      const microsecondsPerBeat = Math.round(millisecondsOf(rational(1, 4), pace, bar.meter) * 1000);
      if (microsecondsPerBeat !== perQuarter) add(at, { deltaTime: 0, type: 'setTempo', microsecondsPerBeat });
      perQuarter = microsecondsPerBeat;
      const measured = measureOf(bar);
      if (meter?.counts !== measured.counts || meter.unit !== measured.unit) add(at, meterEvent(measured));
      meter = measured;
      const head = pass.number === undefined ? '' : `Time ${pass.number}, `;
      const place = bar.number === undefined ? 'Pickup' : `Bar ${bar.number}`;
      add(at, { deltaTime: 0, type: 'marker', text: bytesOfText(head + place) });
      for (const chord of bar.chords)
        add(plus(at, playedInBar(bar, feel, chord.at)), {
          deltaTime: 0,
          type: 'text',
          text: bytesOfText(chord.chord?.name ?? 'N.C.'),
        });
    }
  }
  return events;
}

/** The meter by which a program draws bar lines: a pickup or another short bar has its own. */
function measureOf({ meter, length }: ScoreBar): Meter {
  if (compare(length, barLength(meter)) === 0) return meter;
  const unit = Math.max(meter.unit, length.denominator);
  const counts = (length.numerator * unit) / length.denominator;
  return Number.isInteger(counts) && Number.isInteger(Math.log2(unit)) ? { counts, unit } : meter;
}

/** A click for each beat: 24 clocks are a quarter. */
function meterEvent(meter: Meter): MidiEvent {
  const metronome = isCompound(meter) ? (3 * 96) / meter.unit : Math.max(1, 96 / meter.unit);
  return {
    deltaTime: 0,
    type: 'timeSignature',
    numerator: meter.counts,
    denominator: meter.unit,
    metronome,
    thirtyseconds: 8,
  };
}

const MINOR_MODES: ReadonlySet<Key['mode']> = new Set(['minor', 'dorian', 'phrygian', 'locrian']);

function signatureOf(key: Key): MidiEvent {
  const scale = MINOR_MODES.has(key.mode) ? 1 : 0;
  return { deltaTime: 0, type: 'keySignature', key: keySignature(key), scale };
}

/** What is sung: the second time round a repeat the second verse, where there is one. */
function lyricsOf({ feel }: ExportedExercise, { pass, turns, start }: PlayedPass): readonly TimedEvent[] {
  const verses = new Set(pass.bars.flatMap(({ syllables }) => syllables.map(({ verse }) => verse)));
  return turns.flatMap(({ bar, round, start: inPass }) =>
    bar.syllables
      .filter(({ verse }) => verse === (verses.has(round) ? round : 1))
      .map(({ at, text }): TimedEvent => {
        const time = plus(start, plus(inPass, playedInBar(bar, feel, at)));
        return { tick: tickAt(time), event: { deltaTime: 0, type: 'lyrics', text: bytesOfText(text) } };
      }),
  );
}
