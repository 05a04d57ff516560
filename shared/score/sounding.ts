import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import { compare, earlier, plus, type Rational, ZERO } from '../theory/rational.ts';
import { playedBars } from './played-bars.ts';
import { withRepeatTies } from './repeat-ties.ts';
import { ringsOn } from './ringing.ts';
import type { Layer, ScoreBar, ScoreChord, ScoreEvent, Source } from './timeline.ts';

/** One string from when it is struck, or reached by the left hand, until it is silent. Times from the start of the music, in whole notes. */
export interface SoundingNote {
  readonly start: Rational;
  readonly end: Rational;
  readonly string: number;
  /** As struck; a quick hammer-on or slide moves it after that. */
  readonly fret: number;
  readonly layer: Layer;
  readonly source: Source;
  /** What strikes it: for the string of a tune it may be a strum that meets it. */
  readonly event: ScoreEvent;
}

interface OpenNote extends Omit<SoundingNote, 'end'> {
  readonly voice: number;
  /** The end of its written length, where it does not ring on. */
  readonly until?: Rational;
}

/**
 * Every note of a pass as it sounds, in playing order with its repeats, by its start.
 *
 * A string rings until it is struck again, stopped or damped, or until a chord is taken that does not hold its fret; one that is not
 * to ring ends with its written length, ties counted. A chunk, a damped stroke and a thumb slap silence what accompanies, a palm
 * everything; nails and body silence nothing.
 */
export function soundingNotes(bars: readonly ScoreBar[]): readonly SoundingNote[] {
  const strings: Strings = { open: new Map(), done: [] };
  let chord: ScoreChord | undefined;
  let start: Rational = ZERO;
  const tied = withRepeatTies(bars);
  for (const { index } of playedBars(bars)) {
    const bar = tied[index];
    if (bar === undefined) continue;
    for (const { at, chord: taken, events } of momentsOf(bar)) {
      const time = plus(start, at);
      if (taken !== undefined) {
        take(strings, chord?.chord, taken.chord, time);
        chord = taken;
      }
      for (const event of events) play(strings, event, chord?.chord, time);
    }
    start = plus(start, bar.length);
  }
  silence(strings, start, () => true);
  return strings.done.sort((a, b) => compare(a.start, b.start) || b.string - a.string);
}

/** What sounds at the moment, string by string, and what has sounded. */
interface Strings {
  readonly open: Map<number, OpenNote>;
  readonly done: SoundingNote[];
}

/** Another chord is taken: what it does not hold ends. Without a chord what accompanies ends. */
function take(
  strings: Strings,
  before: ResolvedChord | undefined,
  chord: ResolvedChord | undefined,
  time: Rational,
): void {
  if (chord === undefined) silence(strings, time, accompanies);
  else if (before === undefined || !isSameShape(before, chord))
    silence(strings, time, ({ string, fret, until }) => until === undefined && fretOn(chord, string) !== fret);
}

function play(strings: Strings, event: ScoreEvent, chord: ResolvedChord | undefined, time: Rational): void {
  switch (event.kind) {
    case 'notes':
      for (const { string, fret } of event.notes) {
        const written = ringsOn(event, string) ? {} : { until: plus(time, event.length) };
        const { layer, voice, source } = event;
        begin(strings, { start: time, string, fret, layer, voice, source, event, ...written });
      }
      return;
    case 'held':
      holdOn(strings, event, time);
      return;
    case 'strum':
      if (event.damped) silence(strings, time, accompanies);
      else strike(strings, event.notes, event, time);
      return;
    case 'roll':
    case 'shape-slide':
      strike(strings, stringsOf(chord), event, time);
      return;
    case 'chunk':
      silence(strings, time, accompanies);
      return;
    case 'hit':
      if (event.place === 'palm') silence(strings, time, () => true);
      if (event.place === 'thumb') silence(strings, time, accompanies);
      return;
    case 'stop':
      silence(
        strings,
        time,
        ({ layer, voice, string }) =>
          layer === event.layer &&
          (event.strings.length > 0
            ? event.strings.includes(string)
            : event.voice === undefined || event.voice === voice),
      );
  }
}

function strike(
  strings: Strings,
  notes: readonly { readonly string: number; readonly fret: number }[],
  event: ScoreEvent,
  time: Rational,
): void {
  const { source } = event;
  for (const { string, fret } of notes) {
    const sounding = strings.open.get(string);
    const isTune = sounding?.layer === 'tune' && (sounding.until === undefined || compare(sounding.until, time) > 0);
    if (!isTune) begin(strings, { start: time, string, fret, layer: 'accompaniment', voice: 1, source, event });
    // The tune's own string sounds anew, at the tune's fret and for as long as the tune has it.
    else if (compare(sounding.start, time) < 0) begin(strings, { ...sounding, start: time, source, event });
  }
}

function begin(strings: Strings, note: OpenNote): void {
  silence(strings, note.start, ({ string }) => string === note.string);
  strings.open.set(note.string, note);
}

/** A written length that goes on over the bar line. */
function holdOn({ open }: Strings, event: Extract<ScoreEvent, { kind: 'held' }>, time: Rational): void {
  for (const [string, note] of open) {
    const isSame = note.source.entry === event.source.entry && note.source.span.start === event.source.span.start;
    if (isSame && note.until !== undefined && compare(note.until, time) === 0)
      open.set(string, { ...note, until: plus(time, event.length) });
  }
}

function silence({ open, done }: Strings, time: Rational, concerns: (note: OpenNote) => boolean): void {
  for (const [string, note] of open) {
    if (!concerns(note)) continue;
    open.delete(string);
    const { until, voice: _, ...rest } = note;
    const end = until === undefined ? time : earlier(until, time);
    if (compare(end, note.start) > 0) done.push({ ...rest, end });
  }
}

function accompanies({ layer }: OpenNote): boolean {
  return layer === 'accompaniment';
}

interface Moment {
  readonly at: Rational;
  readonly chord?: ScoreChord;
  readonly events: readonly ScoreEvent[];
}

/** At one moment the hand changes first, then what stops, then what is struck, the tune before the rest. */
function momentsOf(bar: ScoreBar): readonly Moment[] {
  const moments = new Map<string, { at: Rational; chord?: ScoreChord; events: ScoreEvent[] }>();
  const momentAt = (at: Rational): { at: Rational; chord?: ScoreChord; events: ScoreEvent[] } => {
    const key = `${at.numerator}/${at.denominator}`;
    const known = moments.get(key);
    if (known !== undefined) return known;
    const made = { at, events: [] };
    moments.set(key, made);
    return made;
  };
  for (const chord of bar.chords) momentAt(chord.at).chord = chord;
  for (const event of bar.events) momentAt(event.at).events.push(event);
  const sorted = [...moments.values()].sort((a, b) => compare(a.at, b.at));
  for (const { events } of sorted) events.sort((a, b) => rank(a) - rank(b));
  return sorted;
}

function rank(event: ScoreEvent): number {
  if (event.kind === 'held') return 0;
  if (event.kind === 'stop' || event.kind === 'hit' || event.kind === 'chunk') return 1;
  return event.kind === 'notes' && event.layer === 'tune' ? 2 : 3;
}

function fretOn({ shape }: ResolvedChord, string: number): number | 'muted' | undefined {
  return shape[shape.length - string];
}

function isSameShape(a: ResolvedChord, b: ResolvedChord): boolean {
  return a.shape.length === b.shape.length && a.shape.every((fret, index) => fret === b.shape[index]);
}

function stringsOf(chord: ResolvedChord | undefined): readonly { readonly string: number; readonly fret: number }[] {
  if (chord === undefined) return [];
  return chord.shape.flatMap((fret, index) => (fret === 'muted' ? [] : [{ string: chord.shape.length - index, fret }]));
}
