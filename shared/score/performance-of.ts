import { CAUTION_ON_STRETCH } from '../hand/reach.ts';
import type { Feel, Tempo } from '../lesson/syntax/words.ts';
import type { Instrument } from '../neck/instrument.ts';
import { midiAt } from '../neck/pitches.ts';
import { COMMON_TIME, countedBy } from '../theory/meter.ts';
import { type Rational, ZERO } from '../theory/rational.ts';
import type { Performance, PerformedBar, PerformedMeter, StringMaterial } from './performance.ts';
import { type ExactBar, performedBars } from './performance-bars.ts';
import { type ExactChord, performedChords } from './performance-chords.ts';
import type { ExactMoment } from './performance-clock.ts';
import { type ExactSound, performedSounds } from './performance-sounds.ts';
import { temposOf } from './performance-tempos.ts';
import { createTicks, type Ticks } from './performance-ticks.ts';
import { barsAsHeard } from './struck-chords.ts';
import type { ExerciseScore } from './timeline.ts';

/** What an exercise is played on and how, beside what it says itself. */
export interface PerformanceSetting {
  readonly instrument: Instrument;
  readonly feel: Feel;
  /** Absent where the lesson says nothing. */
  readonly tempo?: Tempo;
}

/** All times through an exercise, one after another, in the order in which their bars are played. */
export function performanceOf(score: ExerciseScore, { instrument, feel, tempo }: PerformanceSetting): Performance {
  const counted = score.tempo ?? tempo;
  const beat = countedBy(counted ?? {}, score.passes[0]?.bars[0]?.meter ?? COMMON_TIME);
  const bars: ExactBar[] = [];
  const chords: ExactChord[] = [];
  const sounds: ExactSound[] = [];
  let start: ExactMoment = { played: ZERO, even: ZERO };
  score.passes.forEach((pass, index) => {
    const heard = barsAsHeard(pass);
    const played = performedBars(heard, pass.number ?? index + 1, feel, beat, start);
    chords.push(...performedChords(heard, played, bars.length));
    sounds.push(...performedSounds(heard, played, instrument, bars.length));
    bars.push(...played.bars);
    start = played.end;
  });
  const ticks = createTicks([
    start,
    ...bars.flatMap(timesOfBar),
    ...chords.map(({ at }) => at),
    ...sounds.flatMap(timesOfSound),
  ]);
  return {
    title: score.title,
    perWhole: ticks.perWhole,
    end: ticks.moment(start),
    swings:
      bars.some(({ at, countIn }) => ticks.differs(at) || ticks.differs(countIn.length)) ||
      sounds.some(({ at }) => ticks.differs(at)),
    hasTune: score.hasTune,
    tempos: temposOf(counted),
    times: score.repeat ?? 1,
    caution: CAUTION_ON_STRETCH,
    material: materialOf(instrument),
    open: openMidi(instrument),
    ...inTicks(bars, ticks),
    chords: chords.map(({ at, ...chord }) => ({ at: ticks.moment(at), ...chord })),
    sounds: sounds.map(({ at, end, stroke, ...sound }) => ({
      at: ticks.moment(at),
      end: ticks.moment(end),
      ...sound,
      ...(stroke === undefined ? {} : { stroke: { ...stroke, length: ticks.ticks(stroke.length) } }),
    })),
  };
}

/** Bars, and the meters that they share. */
function inTicks(bars: readonly ExactBar[], ticks: Ticks): Pick<Performance, 'bars' | 'meters'> {
  const meters: PerformedMeter[] = [];
  const known = new Map<string, number>();
  const written = bars.map(({ at, beat, clicks, countIn, ...bar }): PerformedBar => {
    const meter: PerformedMeter = {
      beat: ticks.ticks(beat),
      clicks: clicks.map((click) => [ticks.ticks(click.at), click.strong]),
      countIn: {
        clicks: countIn.clicks.map((click) => [ticks.ticks(click.at), click.strong]),
        length: ticks.moment(countIn.length),
      },
    };
    const key = JSON.stringify(meter);
    let index = known.get(key);
    if (index === undefined) {
      index = meters.length;
      known.set(key, index);
      meters.push(meter);
    }
    return { at: ticks.moment(at), ...bar, meter: index };
  });
  return { bars: written, meters };
}

function timesOfBar({ at, beat, clicks, countIn }: ExactBar): readonly (ExactMoment | Rational)[] {
  return [at, beat, countIn.length, ...clicks.map((click) => click.at), ...countIn.clicks.map((click) => click.at)];
}

function timesOfSound({ at, end, stroke }: ExactSound): readonly (ExactMoment | Rational)[] {
  return stroke === undefined ? [at, end] : [at, end, stroke.length];
}

function openMidi(instrument: Instrument): readonly number[] {
  return instrument.openStrings.flatMap((_, index) => midiAt(instrument, index, 0) ?? []).reverse();
}

/** Common practice, no source: ukuleles and their kin and the plain guitar have nylon, what is called by its steel, and the mandolin, have steel. */
function materialOf({ kind }: Instrument): StringMaterial {
  return /steel|electric|mandolin|tenor guitar|banjo/.test(kind) ? 'steel' : 'nylon';
}
