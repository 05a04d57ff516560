import { barLength, beatLength } from '../theory/meter.ts';
import {
  compare,
  earlier,
  later,
  minus,
  over,
  plus,
  type Rational,
  rational,
  times,
  ZERO,
} from '../theory/rational.ts';
import { noteLineOf } from './rhythm-sides.ts';
import { ringingAt } from './ringing.ts';
import type { ScoreBar, ScoreEvent } from './timeline.ts';

/** A stretch of a line of rhythm: a sound until the next one, or silence. Times from the start of the bar, in whole notes. */
export interface LineSound {
  readonly at: Rational;
  readonly length: Rational;
  /** `tied`: a sound of the bar before goes on. */
  readonly kind: 'attack' | 'tied' | 'rest';
  /** The sound goes on over the bar line. */
  readonly goesOn: boolean;
  /** Nothing is struck: the left hand makes the sound from the one before. */
  readonly slurred: boolean;
}

/** Everything that happens at one moment of a line. */
interface Moment {
  readonly at: Rational;
  readonly events: readonly ScoreEvent[];
}

/** The sounds and silences of one side of a bar, which fill it. A sound lasts until the next attack, a stop, or the end of what plays it. */
export function soundsOfLine(bar: ScoreBar, side: 'above' | 'below'): readonly LineSound[] {
  const lineOf = noteLineOf(bar);
  const events = bar.events.filter((event) => lineOf(event) === side);
  const moments = momentsOf(events);
  const sounds: LineSound[] = [];
  let open: Moment | undefined;
  // Until when anything of the line sounds.
  let soundsUntil: Rational = ZERO;
  let written: Rational = ZERO;

  const closeAt = (end: Rational): void => {
    if (open !== undefined) {
      const stop = earlier(soundsUntil, end);
      const isEnd = compare(stop, bar.length) === 0;
      const goesOn = isEnd && open.events.some((event) => event.goesOn === true);
      const kind = open.events.every((event) => event.kind === 'held') ? 'tied' : 'attack';
      sounds.push({ at: open.at, length: minus(stop, open.at), kind, goesOn, slurred: isSlurred(open.events) });
      written = stop;
      open = undefined;
    }
    if (compare(written, end) < 0) {
      sounds.push({ at: written, length: minus(end, written), kind: 'rest', goesOn: false, slurred: false });
      written = end;
    }
  };

  for (const moment of moments) {
    const attacks = moment.events.filter((event) => event.kind !== 'stop');
    if (attacks.length > 0) {
      closeAt(moment.at);
      open = { at: moment.at, events: attacks };
      const ends = attacks.map((event) => plus(event.at, event.length));
      // A slap or a chop puts out what sounded and is itself over at once: it is written as a note of its beat, then silence.
      soundsUntil = attacks.every(damps)
        ? earlier(ends.reduce(later, ZERO), beatEnd(bar, moment.at))
        : ends.reduce(later, soundsUntil);
    } else if (open !== undefined) {
      const ringing = ringingAt(bar, events, moment.at);
      if (moment.events.some((event) => silences(event, open?.events ?? [], ringing))) {
        soundsUntil = moment.at;
        closeAt(moment.at);
      } else if (!moment.events.some((event) => stopsAll(event, ringing))) {
        // What still rings is the sound that goes on.
        soundsUntil = bar.length;
      }
    }
  }
  closeAt(bar.length);
  return sounds;
}

function momentsOf(events: readonly ScoreEvent[]): readonly Moment[] {
  const moments: { at: Rational; events: ScoreEvent[] }[] = [];
  for (const event of events) {
    const last = moments.at(-1);
    if (last !== undefined && compare(last.at, event.at) === 0) last.events.push(event);
    else moments.push({ at: event.at, events: [event] });
  }
  return moments;
}

/** A stop of single strings leaves a rest only where nothing else sounds: neither what was struck last nor what rings on from before. */
function silences(stop: ScoreEvent, struck: readonly ScoreEvent[], ringing: ReadonlySet<number>): boolean {
  if (stop.kind !== 'stop') return false;
  if (stop.strings.length === 0) return true;
  const last = struck.flatMap((event) =>
    event.kind === 'notes' || event.kind === 'strum' ? event.notes.map(({ string }) => string) : [NO_STRING],
  );
  return stopsAll(stop, ringing) && last.every((string) => stop.strings.includes(string));
}

/** What is struck without a string of its own is stopped by no string's stop. */
const NO_STRING = 0;

function stopsAll(stop: ScoreEvent, ringing: ReadonlySet<number>): boolean {
  return (
    stop.kind === 'stop' && (stop.strings.length === 0 || [...ringing].every((string) => stop.strings.includes(string)))
  );
}

function damps(event: ScoreEvent): boolean {
  return event.kind === 'chunk' || (event.kind === 'hit' && (event.place === 'thumb' || event.place === 'palm'));
}

/** Where the beat ends in which a time of the bar lies. */
function beatEnd(bar: ScoreBar, at: Rational): Rational {
  const beat = beatLength(bar.meter);
  const full = barLength(bar.meter);
  // A pickup is the end of a bar.
  const before = bar.number === undefined && compare(bar.length, full) < 0 ? minus(full, bar.length) : ZERO;
  const beats = over(plus(at, before), beat);
  return minus(times(beat, rational(Math.floor(beats.numerator / beats.denominator) + 1)), before);
}

function isSlurred(events: readonly ScoreEvent[]): boolean {
  return events.every((event) => event.kind === 'notes' && event.notes.every((note) => note.arrivesBy !== undefined));
}
