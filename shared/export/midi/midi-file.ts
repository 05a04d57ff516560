import type { MidiEvent } from 'midi-file';
import { millisecondsOf } from '../../score/clock.ts';
import type { Performance } from '../../score/performance.ts';
import { playedInBar } from '../../score/performance-clock.ts';
import { performanceOf } from '../../score/performance-of.ts';
import type { Layer, ScoreBar } from '../../score/timeline.ts';
import { type Key, keySignature } from '../../theory/key.ts';
import { barLength, COMMON_TIME, isCompound, type Meter } from '../../theory/meter.ts';
import { compare, plus, type Rational, rational } from '../../theory/rational.ts';
import type { ExportedExercise } from '../exported-exercise.ts';
import { instrumentSound } from '../instrument-sound.ts';
import { midiBytes } from './midi-bytes.ts';
import { knockNotes, type MidiNote, oneForEachKey, playedMoment, stringNotes } from './midi-notes.ts';
import { bytesOfText, eventsOfNote, type TimedEvent, trackOf } from './midi-track.ts';
import { fileTick, TICKS_PER_QUARTER } from './ticks.ts';

/**
 * An exercise as a Standard MIDI File, format 1: a track of tempo, meter, key, chords and markers; a track each for what accompanies
 * and for the tune; one of percussion. It holds what the sheet's own playback plays: repeats played out, swing in the times, strokes
 * spread. It is played once through, at the tempo that the practice begins with.
 */
export function midiFileOf(exercise: ExportedExercise): Uint8Array {
  const performance = performanceOf(exercise.score, exercise);
  const { perWhole } = performance;
  const bars = performance.bars.map(({ at, pass, written }): BarInTurn => {
    const place = exercise.score.passes.findIndex(({ number }, index) => (number ?? index + 1) === pass);
    const bar = exercise.score.passes[place]?.bars[written];
    if (bar === undefined) throw new Error('A bar is performed that is not written.');
    return { bar, pass: place, at: rational(playedMoment(at), perWhole) };
  });
  const begins = bars[0]?.bar.meter ?? COMMON_TIME;
  const notes = stringNotes(performance, { pace: exercise.pace, begins });
  const knocks = oneForEachKey(knockNotes(performance));
  const inLayer = (layer: Layer): readonly MidiNote[] => oneForEachKey(notes.filter((note) => note.layer === layer));
  const tune = inLayer('tune');
  const accompaniment = inLayer('accompaniment');
  const words = lyricsOf(exercise, bars);
  const tracks = [
    trackOf(conductorEvents(exercise, performance, bars)),
    ...(accompaniment.length === 0
      ? []
      : [layerTrack(exercise, 'Accompaniment', accompaniment, tune.length === 0 ? words : [])]),
    ...(tune.length === 0 ? [] : [layerTrack(exercise, 'Tune', tune, words)]),
    ...(knocks.length === 0 ? [] : [trackOf([named('Percussion'), ...knocks.flatMap(eventsOfNote)])]),
  ];
  const end = fileTick(playedMoment(performance.end), perWhole);
  const header = { format: 1, numTracks: tracks.length, ticksPerBeat: TICKS_PER_QUARTER } as const;
  return midiBytes(
    header,
    tracks.map((track) => lastingUntil(track, end)),
  );
}

/** A written bar when it is its turn. `at` from the start of the music, in whole notes. */
interface BarInTurn {
  readonly bar: ScoreBar;
  /** Index of its pass. */
  readonly pass: number;
  readonly at: Rational;
}

/** Every track ends with the music, so that a last rest is not lost. */
function lastingUntil(track: MidiEvent[], end: number): MidiEvent[] {
  const length = track.reduce((sum, { deltaTime }) => sum + deltaTime, 0);
  const last = track.at(-1);
  if (last !== undefined) last.deltaTime = Math.max(0, end - length);
  return track;
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
function conductorEvents(
  { title, soundingKey, pace, score }: ExportedExercise,
  { chords, perWhole }: Performance,
  bars: readonly BarInTurn[],
): readonly TimedEvent[] {
  const events: TimedEvent[] = [named(title)];
  const add = (tick: number, event: MidiEvent): void => {
    events.push({ tick, event });
  };
  if (soundingKey !== undefined) add(0, signatureOf(soundingKey));
  const begins = bars[0]?.bar.meter ?? COMMON_TIME;
  add(0, {
    deltaTime: 0,
    type: 'setTempo',
    microsecondsPerBeat: Math.round(millisecondsOf(rational(1, 4), pace, begins) * 1000),
  });
  let meter: Meter | undefined;
  for (const { bar, pass, at } of bars) {
    const tick = tickOf(at);
    const measured = measureOf(bar);
    if (meter?.counts !== measured.counts || meter.unit !== measured.unit) add(tick, meterEvent(measured));
    meter = measured;
    const head = score.passes.length > 1 ? `Time ${pass + 1}, ` : '';
    const place = bar.number === undefined ? 'Pickup' : `Bar ${bar.number}`;
    add(tick, { deltaTime: 0, type: 'marker', text: bytesOfText(head + place) });
  }
  for (const { at, name = 'N.C.' } of chords)
    add(fileTick(playedMoment(at), perWhole), { deltaTime: 0, type: 'text', text: bytesOfText(name) });
  return events;
}

/** `at` in whole notes. */
function tickOf({ numerator, denominator }: Rational): number {
  return fileTick(numerator, denominator);
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

/** What is sung: the second time that a bar comes the second verse, where there is one. */
function lyricsOf({ feel, score }: ExportedExercise, bars: readonly BarInTurn[]): readonly TimedEvent[] {
  const times = new Map<ScoreBar, number>();
  const versesOf = score.passes.map(
    (pass) => new Set(pass.bars.flatMap(({ syllables }) => syllables.map(({ verse }) => verse))),
  );
  return bars.flatMap(({ bar, pass, at: start }) => {
    const time = (times.get(bar) ?? 0) + 1;
    times.set(bar, time);
    return bar.syllables
      .filter(({ verse }) => verse === (versesOf[pass]?.has(time) === true ? time : 1))
      .map(({ at, text }): TimedEvent => {
        const tick = tickOf(plus(start, playedInBar(bar, feel, at)));
        return { tick, event: { deltaTime: 0, type: 'lyrics', text: bytesOfText(text) } };
      });
  });
}
