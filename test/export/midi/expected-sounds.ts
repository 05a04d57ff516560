import type { ExportedExercise } from '../../../shared/export/exported-exercise.ts';
import { playedBars } from '../../../shared/score/played-bars.ts';
import { soundingNotes } from '../../../shared/score/sounding.ts';
import { playedAt } from '../../../shared/score/swing.ts';
import type { ScoreBar, ScoreEvent } from '../../../shared/score/timeline.ts';
import { barLength } from '../../../shared/theory/meter.ts';
import { midiNumber } from '../../../shared/theory/note.ts';
import { type Rational, toNumber } from '../../../shared/theory/rational.ts';

// When and how high everything sounds, told from the timeline with plain numbers and without the exporter.

export interface ExpectedSound {
  /** Unit: quarters from the start of the file. */
  readonly start: number;
  readonly end: number;
  readonly key: number;
  readonly layer: 'accompaniment' | 'tune';
  readonly event: ScoreEvent;
}

interface Turn {
  readonly bar: ScoreBar;
  readonly written: number;
  readonly played: number;
}

/** Sounds of all passes, repeats played out. */
export function expectedSounds(exercise: ExportedExercise): readonly ExpectedSound[] {
  const { openStrings, capoFret } = exercise.instrument;
  let passStart = 0;
  return exercise.score.passes.flatMap(({ bars }) => {
    const turns = turnsOf(exercise, bars);
    const offset = passStart;
    passStart += playedAtTime(exercise, turns, Number.POSITIVE_INFINITY);
    return soundingNotes(bars).map(({ start, end, string, fret, layer, source }): ExpectedSound => {
      const at = inQuarters(start);
      const turn = turnAt(turns, at);
      const event = turn?.bar.events.find(
        (one) => one.source === source && Math.abs(inQuarters(one.at) - (at - turn.written)) < 1e-9,
      );
      const open = openStrings[openStrings.length - string];
      if (event === undefined || open === undefined) throw new Error('A sound comes from nowhere.');
      return {
        start: offset + playedAtTime(exercise, turns, at),
        end: offset + playedAtTime(exercise, turns, inQuarters(end)),
        key: midiNumber(open) + capoFret + fret,
        layer,
        event,
      };
    });
  });
}

/** Knocks with their time in quarters. */
export function expectedKnocks(exercise: ExportedExercise): readonly { readonly at: number; readonly kind: string }[] {
  let passStart = 0;
  return exercise.score.passes.flatMap(({ bars }) => {
    const turns = turnsOf(exercise, bars);
    const offset = passStart;
    passStart += playedAtTime(exercise, turns, Number.POSITIVE_INFINITY);
    return turns.flatMap(({ bar, written }) =>
      bar.events.flatMap((event) => {
        const kind =
          event.kind === 'hit'
            ? event.place
            : event.kind === 'chunk'
              ? 'chunk'
              : event.kind === 'strum' && event.damped
                ? 'damped'
                : undefined;
        if (kind === undefined) return [];
        return [{ at: offset + playedAtTime(exercise, turns, written + inQuarters(event.at)), kind }];
      }),
    );
  });
}

/** Length of the whole file. Unit: quarters. */
export function expectedLength(exercise: ExportedExercise): number {
  return exercise.score.passes.reduce(
    (sum, { bars }) => sum + playedAtTime(exercise, turnsOf(exercise, bars), Number.POSITIVE_INFINITY),
    0,
  );
}

function turnsOf(exercise: ExportedExercise, bars: readonly ScoreBar[]): readonly Turn[] {
  let written = 0;
  let played = 0;
  return playedBars(bars).flatMap(({ index }) => {
    const bar = bars[index];
    if (bar === undefined) return [];
    const turn = { bar, written, played };
    written += inQuarters(bar.length);
    played += inBar(exercise, bar, inQuarters(bar.length));
    return [turn];
  });
}

function turnAt(turns: readonly Turn[], written: number): Turn | undefined {
  return turns.findLast((turn) => turn.written <= written + 1e-9);
}

function playedAtTime(exercise: ExportedExercise, turns: readonly Turn[], written: number): number {
  const turn = turnAt(turns, written);
  if (turn === undefined) return 0;
  return turn.played + inBar(exercise, turn.bar, Math.min(written - turn.written, inQuarters(turn.bar.length)));
}

/** A pickup is the end of a bar. */
function inBar({ feel }: ExportedExercise, bar: ScoreBar, quarters: number): number {
  const full = inQuarters(barLength(bar.meter));
  const before = bar.number === undefined ? full - inQuarters(bar.length) : 0;
  const swung = (at: number): number => inQuarters(playedAt(feel, bar.meter, fraction(at / 4)));
  return swung(before + quarters) - swung(before);
}

function inQuarters(time: Rational): number {
  return toNumber(time) * 4;
}

/** The fraction with the smallest denominator that is this near; lessons have none above 4096. */
function fraction(value: number): Rational {
  for (let denominator = 1; denominator <= 4096; denominator += 1) {
    const numerator = Math.round(value * denominator);
    if (Math.abs(numerator / denominator - value) < 1e-9) return { numerator, denominator };
  }
  throw new Error(`${value} is no time of a lesson.`);
}
