import { millisecondsOf } from '../../score/clock.ts';
import { type SoundingNote, soundingNotes } from '../../score/sounding.ts';
import { strumOffsets } from '../../score/strum-spread.ts';
import type { Layer, ScoreBar, ScoreEvent, ScoreNote } from '../../score/timeline.ts';
import { beatLength } from '../../theory/meter.ts';
import { compare, plus, type Rational, rational } from '../../theory/rational.ts';
import type { ExportedExercise } from '../exported-exercise.ts';
import { type BarInTurn, playedInBar, playedTime } from '../played-clock.ts';
import { TICKS_PER_QUARTER, tickAt } from './ticks.ts';

/** One string from when it is struck until it is silent, in ticks from the start of the pass. */
export interface PlayedSound {
  readonly start: number;
  readonly end: number;
  /** How long it is written. Unit: ticks. */
  readonly written: number;
  readonly string: number;
  readonly fret: number;
  readonly layer: Layer;
  /** What strikes it. */
  readonly event: ScoreEvent;
  /** The note of a picked or tune mark; absent for strokes. */
  readonly note?: ScoreNote;
}

interface Struck {
  readonly sounding: SoundingNote;
  readonly strike: Strike;
  readonly start: number;
}

/** Everything that sounds on strings in a pass, by its stroke, strokes spread in time. A string stops when it is struck anew. */
export function playedSounds(
  exercise: ExportedExercise,
  bars: readonly ScoreBar[],
  turns: readonly BarInTurn[],
): readonly PlayedSound[] {
  const { feel } = exercise;
  const strikes = strikesAt(turns);
  const struck: Struck[] = [];
  for (const sounding of soundingNotes(bars)) {
    const strike = strikes.get(keyOf(sounding.start))?.find(({ event }) => isFrom(sounding, event));
    if (strike === undefined) continue;
    const start = tickAt(playedTime(turns, feel, sounding.start)) + offsetOf(exercise, strike, sounding.string);
    struck.push({ sounding, strike, start });
  }
  const nextOn = new Map<number, Struck>();
  const sounds: PlayedSound[] = [];
  for (const one of struck.reverse()) {
    const { sounding, strike, start } = one;
    const { event, turn } = strike;
    const { string, fret, layer } = sounding;
    const next = nextOn.get(string);
    nextOn.set(string, one);
    // Where it is struck anew the moment that it was to end, it sounds until the hand has come to it.
    const isRestruck = next !== undefined && compare(next.sounding.start, sounding.end) === 0;
    const end = isRestruck ? next.start : tickAt(playedTime(turns, feel, sounding.end));
    const inBar = (at: Rational): number => tickAt(playedInBar(turn.bar, feel, at));
    const note = event.kind === 'notes' ? event.notes.find((candidate) => candidate.string === string) : undefined;
    sounds.push({
      start,
      end: Math.max(start + 1, end),
      written: inBar(plus(event.at, event.length)) - inBar(event.at),
      string,
      fret,
      layer,
      event,
      ...(note === undefined ? {} : { note }),
    });
  }
  return sounds.reverse();
}

/** An event in its turn. */
interface Strike {
  readonly event: ScoreEvent;
  readonly turn: BarInTurn;
}

function strikesAt(turns: readonly BarInTurn[]): ReadonlyMap<string, readonly Strike[]> {
  const strikes = new Map<string, Strike[]>();
  for (const turn of turns) {
    for (const event of turn.bar.events) {
      const key = keyOf(plus(turn.writtenStart, event.at));
      const known = strikes.get(key);
      if (known === undefined) strikes.set(key, [{ event, turn }]);
      else known.push({ event, turn });
    }
  }
  return strikes;
}

function keyOf({ numerator, denominator }: Rational): string {
  return `${numerator}/${denominator}`;
}

function isFrom({ source }: SoundingNote, event: ScoreEvent): boolean {
  return event.source.entry === source.entry && event.source.span.start === source.span.start;
}

/** How much later than its stroke a string is met. Unit: ticks. */
function offsetOf({ pace, instrument }: ExportedExercise, { event, turn }: Strike, string: number): number {
  const { meter } = turn.bar;
  const timing = {
    lengthMs: millisecondsOf(event.length, pace, meter),
    beatMs: millisecondsOf(beatLength(meter), pace, meter),
  };
  const inTicks = (ms = 0): number =>
    Math.round((ms * TICKS_PER_QUARTER) / millisecondsOf(rational(1, 4), pace, meter));
  switch (event.kind) {
    case 'strum': {
      const { notes, direction, slow } = event;
      const place = notes.findIndex((note) => note.string === string);
      return inTicks(strumOffsets({ strings: notes.length, direction, slow, ...timing })[place]);
    }
    case 'roll': {
      const strings = instrument.openStrings.length;
      return inTicks(strumOffsets({ strings, direction: 'down', slow: true, ...timing })[strings - string]);
    }
    default:
      return 0;
  }
}
