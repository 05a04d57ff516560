import { fretReached } from '../lesson/model/fret-reached.ts';
import type { Technique } from '../lesson/syntax/marks.ts';
import type { Instrument } from '../neck/instrument.ts';
import { compare, earlier, minus, plus, type Rational, rational, times, ZERO } from '../theory/rational.ts';
import type { PerformedSound, StrokeTurn } from './performance.ts';
import type { PerformedPass } from './performance-bars.ts';
import type { ExactMoment } from './performance-clock.ts';
import { LOUDNESS, loudnessOf } from './performance-loudness.ts';
import { BEND_SEMITONES, harmonicMidi, has, midiOn } from './performance-pitch.ts';
import { type SoundingNote, soundingNotes } from './sounding.ts';
import type { ScoreBar, ScoreEvent, ScoreNote } from './timeline.ts';

/** A sound before its times are counted in ticks. */
export interface ExactSound extends Omit<PerformedSound, 'at' | 'end' | 'stroke'> {
  readonly at: ExactMoment;
  readonly end: ExactMoment;
  readonly stroke?: Stroke;
}

interface Stroke extends Omit<StrokeTurn, 'length'> {
  readonly length: Rational;
}

/** A sound with its times as written, from the start of the pass. */
interface WrittenSound extends Omit<ExactSound, 'at' | 'end' | 'bar'> {
  readonly start: Rational;
  readonly end: Rational;
}

/** Everything that is heard in one time through, by its moment. `before` counts the bars performed before it. */
export function performedSounds(
  bars: readonly ScoreBar[],
  pass: PerformedPass,
  instrument: Instrument,
  before: number,
): readonly ExactSound[] {
  const notes = soundingNotes(bars).flatMap(withSlides(instrument));
  const written = [...notes, ...unpitched(bars, pass, instrument)];
  return written
    .map(({ start, end, ...sound }): ExactSound => {
      const bar = before + pass.barAt(start);
      return { at: pass.momentAt(start), end: pass.momentAt(end), bar, ...sound };
    })
    .sort((a, b) => compare(a.at.played, b.at.played) || (a.stroke?.nth ?? 0) - (b.stroke?.nth ?? 0));
}

/** Notes in order of time; a shape that slides begins on each string where that string sounded last. */
function withSlides(instrument: Instrument): (note: SoundingNote) => readonly WrittenSound[] {
  const lastMidi = new Map<number, number>();
  return (note) => {
    const sounds = soundsOfNote(note, instrument, lastMidi.get(note.string));
    const reached = sounds.at(-1)?.midi;
    if (reached !== undefined) lastMidi.set(note.string, reached);
    return sounds;
  };
}

/** How long a quick hammer-on, pull-off or slide leaves the note it comes from: a 32nd, and never more than its share of the note. */
const QUICK = rational(1, 32);
const TWICE_QUICK = rational(1, 16);

function soundsOfNote(note: SoundingNote, instrument: Instrument, last: number | undefined): readonly WrittenSound[] {
  const { event, string, fret, layer, start, end } = note;
  const midi = midiOn(instrument, string, fret);
  if (midi === undefined) return [];
  const base = { string, layer, start, end, loudness: loudnessOf(event, string) };
  switch (event.kind) {
    case 'strum': {
      const nth = event.notes.findIndex((one) => one.string === string);
      const up = event.direction === 'up' ? { up: true as const } : {};
      const slow = event.slow ? { slow: true as const } : {};
      const stroke = { nth, of: event.notes.length, ...up, ...slow, length: event.length };
      return [{ ...base, kind: 'strum', midi, stroke }];
    }
    case 'roll':
      return rolled({ ...base, kind: 'strum', midi }, instrument.openStrings.length, event.length);
    case 'shape-slide':
      return [{ ...base, kind: 'slide', midi, ...(last === undefined || last === midi ? {} : { from: last }) }];
    case 'notes': {
      const struck = event.notes.find((one) => one.string === string);
      return struck === undefined ? [{ ...base, kind: 'pluck', midi }] : ornamented(base, struck, event, instrument);
    }
    default:
      return [{ ...base, kind: 'pluck', midi }];
  }
}

type Bare = Pick<WrittenSound, 'string' | 'layer' | 'start' | 'end' | 'loudness'> & { readonly string: number };

/** A struck note and what the left hand adds to it at once. */
function ornamented(base: Bare, note: ScoreNote, event: ScoreEvent, instrument: Instrument): readonly WrittenSound[] {
  const { string } = base;
  const { techniques } = note;
  const midiOf = (fret: number): number => midiOn(instrument, string, fret) ?? 0;
  const moves = techniques.filter((technique) => 'fret' in technique && technique.kind !== 'trill');
  // What is bent or shaken is the note that is reached.
  const shape = shapeOf(note);
  const sounds: WrittenSound[] = [{ ...arrival(base, note, instrument), ...(moves.length === 0 ? shape : {}) }];
  const share = times(minus(base.end, base.start), rational(1, moves.length + 1));
  const step = earlier(QUICK, share);
  let at = base.start;
  let fret = note.fret;
  for (const technique of moves) {
    if (!('fret' in technique)) continue;
    at = plus(at, step);
    const from = technique.kind === 'slide' ? { from: midiOf(fret) } : {};
    fret = technique.fret;
    cutLast(sounds, at);
    const loudness = LOUDNESS.slurred(base.loudness);
    const shaped = technique === moves.at(-1) ? shape : {};
    sounds.push({ ...base, start: at, kind: kindOf(technique), midi: midiOf(fret), loudness, ...from, ...shaped });
  }
  const trill = techniques.find((technique) => technique.kind === 'trill');
  if (trill !== undefined && 'fret' in trill)
    sounds.push(
      ...trilled(sounds, {
        base,
        from: at,
        event,
        home: midiOf(fretReached(note.fret, techniques)),
        away: midiOf(trill.fret),
      }),
    );
  return sounds;
}

function shapeOf({ techniques, arrivesBy }: ScoreNote): Pick<WrittenSound, 'bend' | 'vibrato'> {
  const bent = has(techniques, 'bend') || arrivesBy === 'bend' ? { bend: BEND_SEMITONES } : {};
  const trembles = has(techniques, 'vibrato') || arrivesBy === 'vibrato' ? { vibrato: true as const } : {};
  return { ...bent, ...trembles };
}

/** The note itself: struck, reached by the left hand from the one before or kept on by it, or touched. */
function arrival(base: Bare, note: ScoreNote, instrument: Instrument): WrittenSound {
  const { string } = base;
  const midi = midiOn(instrument, string, note.fret) ?? 0;
  if (has(note.techniques, 'harmonic') || note.arrivesBy === 'harmonic')
    return { ...base, kind: 'harmonic', midi: harmonicMidi(instrument, string, note.fret) ?? midi };
  switch (note.arrivesBy) {
    case 'hammer-on':
    case 'pull-off':
    case 'slide': {
      const origin = note.arrivesFrom === undefined ? undefined : midiOn(instrument, string, note.arrivesFrom);
      const from = note.arrivesBy === 'slide' && origin !== undefined ? { from: origin } : {};
      return { ...base, kind: note.arrivesBy, midi, loudness: LOUDNESS.slurred(base.loudness), ...from };
    }
    case 'bend':
    case 'vibrato':
    case 'trill':
      // Nothing is struck: the sound before goes on under the finger.
      return { ...base, kind: 'slide', midi, loudness: LOUDNESS.slurred(base.loudness) };
    default:
      return { ...base, kind: 'pluck', midi };
  }
}

interface Trill {
  readonly base: Bare;
  readonly from: Rational;
  readonly event: ScoreEvent;
  readonly home: number;
  readonly away: number;
}

/** To and fro in 32nds for as long as the note is written, ending at home. */
function trilled(sounds: WrittenSound[], { base, from, event, home, away }: Trill): readonly WrittenSound[] {
  const until = earlier(base.end, plus(base.start, event.length));
  const added: WrittenSound[] = [];
  let isAway = true;
  // It goes away only where there is time to come back.
  for (let at = plus(from, QUICK); compare(plus(at, isAway ? TWICE_QUICK : QUICK), until) <= 0; at = plus(at, QUICK)) {
    cutLast(added.length > 0 ? added : sounds, at);
    const loudness = LOUDNESS.slurred(base.loudness);
    added.push({ ...base, start: at, kind: isAway ? 'hammer-on' : 'pull-off', midi: isAway ? away : home, loudness });
    isAway = !isAway;
  }
  return added;
}

/** The string has one sound at a time. */
function cutLast(sounds: WrittenSound[], end: Rational): void {
  const last = sounds.at(-1);
  if (last !== undefined) sounds[sounds.length - 1] = { ...last, end };
}

function kindOf({ kind }: Technique): WrittenSound['kind'] {
  return kind === 'pull-off' || kind === 'slide' ? kind : 'hammer-on';
}

/** Fingers of a roll that cross the strings one after another. Common practice, no source. */
const ROLL_FINGERS = 3;

/** All of a roll's strokes over one string; each next one stops the one before. */
function rolled(
  sound: WrittenSound & { readonly string: number },
  strings: number,
  length: Rational,
): readonly WrittenSound[] {
  const of = ROLL_FINGERS * strings;
  return Array.from({ length: ROLL_FINGERS }, (_, finger) => ({
    ...sound,
    ...(finger === ROLL_FINGERS - 1 ? {} : { end: sound.start, loudness: LOUDNESS.slurred(sound.loudness) }),
    stroke: { nth: finger * strings + strings - sound.string, of, length },
  }));
}

/** What has no pitch of its own: damped strokes, chops and hits. */
function unpitched(bars: readonly ScoreBar[], pass: PerformedPass, instrument: Instrument): readonly WrittenSound[] {
  let start: Rational = ZERO;
  return pass.bars.flatMap(({ written }): readonly WrittenSound[] => {
    const bar = bars[written];
    if (bar === undefined) return [];
    const from = start;
    start = plus(start, bar.length);
    return bar.events.flatMap((event) => knocksOf(event, plus(from, event.at), instrument));
  });
}

function knocksOf(event: ScoreEvent, start: Rational, instrument: Instrument): readonly WrittenSound[] {
  const end = plus(start, event.length);
  const base = { start, end, layer: 'accompaniment', loudness: loudnessOf(event, 0) } as const;
  if (event.kind === 'chunk') return [{ ...base, kind: 'chunk' }];
  if (event.kind === 'hit') {
    const string = event.string === undefined ? {} : { string: event.string };
    return [{ ...base, kind: event.place === 'thumb' ? 'slap' : event.place, ...string }];
  }
  if (event.kind !== 'strum' || !event.damped) return [];
  return event.notes.map(({ string, fret }, nth): WrittenSound => {
    const up = event.direction === 'up' ? { up: true as const } : {};
    const slow = event.slow ? { slow: true as const } : {};
    const stroke = { nth, of: event.notes.length, ...up, ...slow, length: event.length };
    const midi = midiOn(instrument, string, fret);
    return { ...base, kind: 'muted', string, ...(midi === undefined ? {} : { midi }), stroke };
  });
}
