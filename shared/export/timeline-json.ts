import { spanInFile } from '../lesson/document.ts';
import { performanceOf } from '../score/performance-of.ts';
import { midiOn } from '../score/performance-pitch.ts';
import type { ScoreBar, ScoreChord, ScoreEvent, ScoreNote, Source } from '../score/timeline.ts';
import { printKey } from '../theory/key.ts';
import { printMeter } from '../theory/meter.ts';
import { midiNumber, printPitch } from '../theory/note.ts';
import { type Rational, rational } from '../theory/rational.ts';
import type { ExportedExercise } from './exported-exercise.ts';
import { lineFinder } from './line-finder.ts';
import type {
  TimelineBar,
  TimelineChord,
  TimelineEvent,
  TimelineFile,
  TimelineNote,
  TimelinePlayed,
} from './timeline-file.ts';

/**
 * An exercise as JSON for scripts: what is written, bar by bar, and what is heard, in the order in which it is played. Its fields are
 * described in `timeline-file.ts`.
 */
export function timelineJsonOf(exercise: ExportedExercise): string {
  return `${JSON.stringify(timelineFile(exercise), null, 2)}\n`;
}

type LineOf = (source: Source) => number;

function timelineFile(exercise: ExportedExercise): TimelineFile {
  const { lesson, edition, score, instrument, feel, tempo, soundingKey, by } = exercise;
  const { document } = lesson;
  const lineAt = lineFinder(document.text);
  const lineOf: LineOf = ({ entry, span }) => lineAt(spanInFile(document, entry, span)?.start ?? 0);
  const { openStrings, capoFret } = instrument;
  return {
    format: 'handspan-timeline',
    version: 1,
    lesson: { title: exercise.lessonTitle, ...(by === undefined ? {} : { by }) },
    edition: edition.name,
    exercise: {
      number: exercise.number,
      title: exercise.title,
      ...(score.aim === undefined ? {} : { aim: score.aim }),
    },
    instrument: {
      name: instrument.name,
      capo: capoFret,
      strings: openStrings
        .map((pitch, index) => ({
          string: openStrings.length - index,
          pitch: printPitch(pitch),
          midi: midiNumber(pitch) + capoFret,
        }))
        .reverse(),
    },
    ...(edition.key === undefined || soundingKey === undefined
      ? {}
      : { key: { held: printKey(edition.key), sounding: printKey(soundingKey) } }),
    feel: feel.kind === 'straight' ? { long: 1, short: 1 } : { long: feel.long, short: feel.short, unit: feel.unit },
    tempo:
      tempo === undefined
        ? null
        : {
            from: tempo.from,
            to: tempo.to,
            ...(tempo.by === undefined ? {} : { by: tempo.by }),
            ...(tempo.everyPasses === undefined ? {} : { everyTimes: tempo.everyPasses }),
            ...(tempo.unit === undefined ? {} : { unit: tempo.unit }),
          },
    passes: score.passes.map((pass, index) => ({
      pass: pass.number ?? index + 1,
      patterns: pass.with,
      bars: pass.bars.map((bar) => barOf(bar, exercise, lineOf)),
    })),
    played: playedOf(exercise),
  };
}

function barOf(bar: ScoreBar, exercise: ExportedExercise, lineOf: LineOf): TimelineBar {
  return {
    number: bar.number ?? null,
    meter: printMeter(bar.meter),
    length: time(bar.length),
    opensRepeat: bar.opens !== undefined,
    closes: bar.closes,
    ...(bar.times === undefined ? {} : { times: bar.times }),
    ...(bar.ending === undefined ? {} : { ending: bar.ending.numbers }),
    line: lineOf(bar.source),
    chords: bar.chords.map((chord) => chordOf(chord, lineOf)),
    count: bar.counts.map(({ at, text }) => ({ at: time(at), text })),
    events: bar.events.map((event) => eventOf(event, exercise, lineOf)),
    words: bar.syllables.map(({ at, text, verse }) => ({ at: time(at), text, verse })),
    calls: bar.calls.map(({ at, text }) => ({ at: time(at), text })),
  };
}

function chordOf({ at, length, chord, source }: ScoreChord, lineOf: LineOf): TimelineChord {
  return {
    at: time(at),
    length: time(length),
    line: lineOf(source),
    ...(chord === undefined
      ? { name: null, frets: null }
      : {
          name: chord.name,
          frets: chord.shape.map((fret) => (fret === 'muted' ? null : fret)),
          ...(chord.fingers === undefined ? {} : { fingers: chord.fingers }),
        }),
  };
}

function eventOf(event: ScoreEvent, exercise: ExportedExercise, lineOf: LineOf): TimelineEvent {
  const { at, length, goesOn, source, ...what } = event;
  const timed = {
    at: time(at),
    length: time(length),
    ...(goesOn === undefined ? {} : { goesOn }),
    line: lineOf(source),
  };
  if (what.kind === 'notes') {
    const { notes, ring: _, ...rest } = what;
    return { ...timed, ...rest, notes: notes.map((note) => noteOf(note, exercise)) };
  }
  if (what.kind === 'strum') {
    const { notes, ...rest } = what;
    return { ...timed, ...rest, notes: notes.map(({ string, fret }) => placeOf(string, fret, exercise)) };
  }
  return { ...timed, ...what };
}

function noteOf(note: ScoreNote, exercise: ExportedExercise): TimelineNote {
  const { string, fret, techniques, ...rest } = note;
  return { ...placeOf(string, fret, exercise), techniques, ...rest };
}

function placeOf(
  string: number,
  fret: number,
  { instrument }: ExportedExercise,
): Pick<TimelineNote, 'string' | 'fret' | 'midi'> {
  return { string, fret, midi: midiOn(instrument, string, fret) ?? null };
}

function playedOf(exercise: ExportedExercise): TimelinePlayed {
  const { perWhole, end, bars, sounds, caution } = performanceOf(exercise.score, exercise);
  const heard = (moment: number | readonly [number, number]): string =>
    time(rational(typeof moment === 'number' ? moment : moment[0], perWhole));
  return {
    length: heard(end),
    caution,
    bars: bars.map(({ at, pass, written, number }) => ({ at: heard(at), pass, bar: written, number: number ?? null })),
    sounds: sounds.map(({ at, end: until, bar, kind, loudness, layer, string, midi }) => ({
      at: heard(at),
      end: heard(until),
      bar,
      kind,
      layer,
      loudness,
      ...(string === undefined ? {} : { string }),
      ...(midi === undefined ? {} : { midi }),
    })),
  };
}

/** `3/8`, `2`: exact, which a decimal number is not. */
function time({ numerator, denominator }: Rational): string {
  return denominator === 1 ? String(numerator) : `${numerator}/${denominator}`;
}
