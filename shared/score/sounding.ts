import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import { compare, earlier, plus, type Rational, ZERO } from '../theory/rational.ts';
import { playedBars } from './played-bars.ts';
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
  const strings = new Strings();
  let start: Rational = ZERO;
  for (const { index } of playedBars(bars)) {
    const bar = bars[index];
    if (bar === undefined) continue;
    for (const { at, chord, events } of momentsOf(bar)) {
      const time = plus(start, at);
      if (chord !== undefined) strings.take(chord, time);
      for (const event of events) strings.play(event, time);
    }
    start = plus(start, bar.length);
  }
  return strings.finish(start);
}

/** What sounds at the moment, string by string, and what has sounded. */
class Strings {
  readonly #open = new Map<number, OpenNote>();
  readonly #done: SoundingNote[] = [];
  #chord: ResolvedChord | undefined;

  /** Another chord is taken: what it does not hold ends. Without a chord what accompanies ends. */
  take({ chord }: ScoreChord, time: Rational): void {
    const before = this.#chord;
    this.#chord = chord;
    if (chord === undefined) this.#silence(time, ({ layer }) => layer === 'accompaniment');
    else if (before === undefined || !isSameShape(before, chord))
      this.#silence(time, ({ string, fret, until }) => until === undefined && fretOn(chord, string) !== fret);
  }

  play(event: ScoreEvent, time: Rational): void {
    switch (event.kind) {
      case 'notes':
        for (const { string, fret } of event.notes) {
          const written = rings(event, string) ? {} : { until: plus(time, event.length) };
          this.#begin({
            start: time,
            string,
            fret,
            layer: event.layer,
            voice: event.voice,
            source: event.source,
            ...written,
          });
        }
        return;
      case 'held':
        this.#holdOn(event, time);
        return;
      case 'strum':
        if (event.damped) this.#silence(time, ({ layer }) => layer === 'accompaniment');
        else this.#strike(event.notes, event.source, time);
        return;
      case 'roll':
      case 'shape-slide':
        this.#strike(stringsOf(this.#chord), event.source, time);
        return;
      case 'chunk':
        this.#silence(time, ({ layer }) => layer === 'accompaniment');
        return;
      case 'hit':
        if (event.place === 'palm') this.#silence(time, () => true);
        if (event.place === 'thumb') this.#silence(time, ({ layer }) => layer === 'accompaniment');
        return;
      case 'stop': {
        const { layer, voice, strings } = event;
        this.#silence(time, (note) =>
          strings.length > 0
            ? note.layer === layer && strings.includes(note.string)
            : note.layer === layer && (voice === undefined || voice === note.voice),
        );
      }
    }
  }

  finish(time: Rational): readonly SoundingNote[] {
    this.#silence(time, () => true);
    return this.#done.sort((a, b) => compare(a.start, b.start) || b.string - a.string);
  }

  #strike(notes: readonly { readonly string: number; readonly fret: number }[], source: Source, time: Rational): void {
    for (const { string, fret } of notes) {
      const sounding = this.#open.get(string);
      const isTune = sounding?.layer === 'tune' && (sounding.until === undefined || compare(sounding.until, time) > 0);
      if (!isTune) this.#begin({ start: time, string, fret, layer: 'accompaniment', voice: 1, source });
      // The tune's own string sounds anew, at the tune's fret and for as long as the tune has it.
      else if (compare(sounding.start, time) < 0) this.#begin({ ...sounding, start: time, source });
    }
  }

  #begin(note: OpenNote): void {
    this.#silence(note.start, ({ string }) => string === note.string);
    this.#open.set(note.string, note);
  }

  /** A written length that goes on over the bar line. */
  #holdOn(event: Extract<ScoreEvent, { kind: 'held' }>, time: Rational): void {
    for (const [string, note] of this.#open) {
      const isSame = note.source.entry === event.source.entry && note.source.span.start === event.source.span.start;
      if (isSame && note.until !== undefined && compare(note.until, time) === 0)
        this.#open.set(string, { ...note, until: plus(time, event.length) });
    }
  }

  #silence(time: Rational, concerns: (note: OpenNote) => boolean): void {
    for (const [string, note] of this.#open) {
      if (!concerns(note)) continue;
      this.#open.delete(string);
      const { until, voice: _, ...rest } = note;
      const end = until === undefined ? time : earlier(until, time);
      if (compare(end, note.start) > 0) this.#done.push({ ...rest, end });
    }
  }
}

function rings(event: Extract<ScoreEvent, { kind: 'notes' }>, string: number): boolean {
  const ring = event.ring ?? { kind: event.layer === 'tune' ? ('none' as const) : ('all' as const) };
  return ring.kind === 'strings' ? ring.strings.includes(string) : ring.kind === 'all';
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
