import type { Moment, Performance, PerformedBar, PerformedSound } from '../../shared/score/performance.ts';
import { strumOffsets } from '../../shared/score/strum-spread.ts';
import type { PlayOptions, Stretch } from './options.ts';

/** Something to be heard, in seconds from the start of its plan. */
export type PlannedSound =
  | {
      readonly kind: 'sound';
      readonly id: string;
      readonly at: number;
      readonly end: number;
      readonly sound: PerformedSound;
    }
  | { readonly kind: 'click'; readonly id: string; readonly at: number; readonly strong: boolean };

/** Something to be shown when it is heard. */
export interface PlannedMark {
  readonly at: number;
  /** Index into the bars of the performance. */
  readonly bar: number;
  /** What begins, counted as written from the start of the bar. Unit: ticks. Absent where only a chord is taken. */
  readonly moment?: number;
  /** Index into the chords of the performance, where another is taken. */
  readonly chord?: number;
}

/** One time through a stretch of bars at one tempo. */
export interface Plan {
  readonly stretch: Stretch;
  /** By the time that they begin. */
  readonly sounds: readonly PlannedSound[];
  readonly marks: readonly PlannedMark[];
  /** When each bar of the stretch begins. */
  readonly barStarts: readonly number[];
  /** Of the whole. Unit: s. */
  readonly length: number;
}

export function planOf(performance: Performance, stretch: Stretch, perMinute: number, options: PlayOptions): Plan {
  const clock = clockOf(performance, stretch, perMinute, options.swing);
  const { barStarts, length } = clock;
  const canMute = hasBothLayers(performance);
  const heard = performance.sounds
    .map((sound, index) => ({ sound, index }))
    .filter(({ sound }) => sound.bar >= stretch.from && sound.bar < stretch.to)
    .filter(({ sound }) => !canMute || (sound.layer === 'tune' ? options.tune : options.accompaniment));
  const sounds = heard.map(({ sound, index }) => {
    const at = clock.seconds(sound.at);
    return {
      id: `sound ${index}`,
      sound,
      struck: at,
      at: at + offsetOf(sound, perMinute, clock),
      end: clock.seconds(sound.end),
    };
  });
  const clicks = options.metronome ? clicksIn(performance, stretch, perMinute, barStarts) : [];
  return {
    stretch,
    sounds: [...ringingOn(sounds), ...clicks].sort((a, b) => a.at - b.at),
    marks: marksIn(
      performance,
      stretch,
      heard.map(({ sound }) => sound),
      clock,
    ),
    barStarts,
    length,
  };
}

/** Whether there is a tune and something that goes with it: one that is alone is never muted, or nothing would be heard. */
export function hasBothLayers({ sounds }: Performance): boolean {
  return new Set(sounds.map(({ layer }) => layer)).size > 1;
}

/** The clicks before the music, and when it begins. */
export function planCountIn(
  performance: Performance,
  bar: number,
  perMinute: number,
  swing: boolean,
): Pick<Plan, 'sounds' | 'length'> {
  const first = performance.bars[bar];
  const meter = first === undefined ? undefined : performance.meters[first.meter];
  if (meter === undefined) return { sounds: [], length: 0 };
  const tick = 60 / (perMinute * meter.beat);
  return {
    sounds: meter.countIn.clicks.map(([at, strong], index) => ({
      kind: 'click',
      id: `count ${index}`,
      at: at * tick,
      strong,
    })),
    length: ticksOf(meter.countIn.length, swing) * tick,
  };
}

function ticksOf(moment: Moment, swing: boolean): number {
  return typeof moment === 'number' ? moment : moment[swing ? 0 : 1];
}

/** As written, whatever the feel. */
function evenTicks(moment: Moment): number {
  return ticksOf(moment, false);
}

interface Clock {
  readonly barStarts: readonly number[];
  readonly length: number;
  /** Seconds from the start of the stretch; what goes on behind it ends with it. */
  readonly seconds: (moment: Moment) => number;
  /** Of one tick in a bar. Unit: s. */
  readonly tickIn: (bar: number) => number;
}

function clockOf(performance: Performance, { from, to }: Stretch, perMinute: number, swing: boolean): Clock {
  const { bars, meters, end } = performance;
  const startOf = (bar: number): number => ticksOf(bars[bar]?.at ?? end, swing);
  const tickIn = (bar: number): number => {
    const meter = meters[bars[bar]?.meter ?? 0];
    return meter === undefined ? 0 : 60 / (perMinute * meter.beat);
  };
  const barStarts: number[] = [];
  let length = 0;
  for (let bar = from; bar < to; bar += 1) {
    barStarts.push(length);
    length += (startOf(bar + 1) - startOf(bar)) * tickIn(bar);
  }
  const seconds = (moment: Moment): number => {
    const ticks = ticksOf(moment, swing);
    let low = from;
    let high = Math.max(from, to - 1);
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (startOf(middle) <= ticks) low = middle;
      else high = middle - 1;
    }
    return Math.min(length, (barStarts[low - from] ?? 0) + (ticks - startOf(low)) * tickIn(low));
  };
  return { barStarts, length, seconds, tickIn };
}

/** How much later a string is met than its stroke begins. Unit: s. */
function offsetOf({ bar, stroke }: PerformedSound, perMinute: number, clock: Clock): number {
  if (stroke === undefined) return 0;
  const offsets = strumOffsets({
    strings: stroke.of,
    direction: stroke.up === true ? 'up' : 'down',
    slow: stroke.slow === true,
    lengthMs: stroke.length * clock.tickIn(bar) * 1000,
    beatMs: 60_000 / perMinute,
  });
  return (offsets[stroke.nth] ?? 0) / 1000;
}

type Struck = Omit<Extract<PlannedSound, { kind: 'sound' }>, 'kind'> & { readonly struck: number };

/** A string that is struck again rings until the hand meets it, which in a stroke is later than the stroke begins. */
function ringingOn(sounds: readonly Struck[]): readonly PlannedSound[] {
  const nextOn = new Map<number, Struck>();
  const ringing: PlannedSound[] = [];
  for (const { struck, ...sound } of [...sounds].sort((a, b) => b.at - a.at)) {
    const { string } = sound.sound;
    const next = string === undefined ? undefined : nextOn.get(string);
    const again = next !== undefined && next.at > sound.at && Math.abs(next.struck - sound.end) < 1e-6;
    ringing.push({ kind: 'sound', ...sound, end: Math.max(again ? next.at : sound.end, sound.at) });
    if (string !== undefined && sound.sound.midi !== undefined) nextOn.set(string, { struck, ...sound });
  }
  return ringing;
}

function clicksIn(
  { bars, meters }: Performance,
  { from, to }: Stretch,
  perMinute: number,
  barStarts: readonly number[],
): readonly PlannedSound[] {
  return bars.slice(from, to).flatMap((bar: PerformedBar, index): readonly PlannedSound[] => {
    const meter = meters[bar.meter];
    if (meter === undefined) return [];
    const tick = 60 / (perMinute * meter.beat);
    return meter.clicks.map(([at, strong], click) => ({
      kind: 'click',
      id: `click ${from + index}.${click}`,
      at: (barStarts[index] ?? 0) + at * tick,
      strong,
    }));
  });
}

/** Every bar, every moment at which something begins, every chord; the chord that is held when the stretch begins comes first. */
function marksIn(
  { bars, chords }: Performance,
  { from, to }: Stretch,
  heard: readonly PerformedSound[],
  clock: Clock,
): readonly PlannedMark[] {
  const marks: PlannedMark[] = bars
    .slice(from, to)
    .map((_, index) => ({ at: clock.barStarts[index] ?? 0, bar: from + index }));
  const seen = new Set<string>();
  for (const { at, bar } of heard) {
    const moment = evenTicks(at) - evenTicks(bars[bar]?.at ?? 0);
    const key = `${bar} ${moment}`;
    if (seen.has(key)) continue;
    seen.add(key);
    marks.push({ at: clock.seconds(at), bar, moment });
  }
  const held = chords.findLastIndex(({ bar }) => bar < from);
  const first = chords.some(({ bar, at }) => bar === from && evenTicks(at) === evenTicks(bars[from]?.at ?? 0));
  if (held >= 0 && !first) marks.push({ at: 0, bar: from, chord: held });
  chords.forEach(({ at, bar }, chord) => {
    if (bar >= from && bar < to) marks.push({ at: clock.seconds(at), bar, chord });
  });
  return marks.sort((a, b) => a.at - b.at);
}

/** The same place of the same bar in another plan of the same bars. Unit: s from the start. */
export function samePlace(from: Plan, to: Plan, at: number): number {
  const bar = Math.max(
    0,
    from.barStarts.findLastIndex((start) => start <= at),
  );
  const length = (plan: Plan): number => (plan.barStarts[bar + 1] ?? plan.length) - (plan.barStarts[bar] ?? 0);
  const share = length(from) === 0 ? 0 : (at - (from.barStarts[bar] ?? 0)) / length(from);
  return (to.barStarts[bar] ?? 0) + share * length(to);
}
