import type { Meter } from '../../theory/meter.ts';
import { printMeter } from '../../theory/meter.ts';
import type { TuneBar, TuneGround } from './ground.ts';
import { TICKS_OF_COUNT, tellTick } from './rhythm.ts';

/** When a bar is played, and which part of its meter. */
export interface BarTime {
  readonly meter: Meter;
  /** What is played of the full bar, in its own ticks from the full bar's start; `to` is not included. */
  readonly from: number;
  readonly to: number;
  /** From the start of the music. Unit: ticks of the ground's meter. */
  readonly start: number;
  /** The length of one tick of this bar, in ticks of the ground's meter: 0.5 for eighths where quarters are counted. */
  readonly scale: number;
}

/** When each bar is played; a count of another meter may be longer or shorter than the ground's. */
export function barTimes({ meter: usual, bars }: Pick<TuneGround, 'meter' | 'bars'>): readonly BarTime[] {
  const times: BarTime[] = [];
  let start = 0;
  for (const bar of bars) {
    const meter = bar.meter ?? usual;
    const { from, to } = bar.part ?? { from: 0, to: ticksOf(meter) };
    const scale = usual.unit / meter.unit;
    times.push({ meter, from, to, start, scale });
    start += (to - from) * scale;
  }
  return times;
}

/** Where the music ends. Unit: ticks of the ground's meter. */
export function endOf(times: readonly BarTime[]): number {
  const last = times.at(-1);
  return last === undefined ? 0 : last.start + (last.to - last.from) * last.scale;
}

/** A place in a bar, from the start of the music. Unit: ticks of the ground's meter. */
export function onsetIn({ start, from, scale }: BarTime, tick: number): number {
  return start + (tick - from) * scale;
}

/** Length of a full bar. Unit: ticks. */
export function ticksOf({ counts }: Meter): number {
  return counts * TICKS_OF_COUNT;
}

/** How many bars stand before the first full one: one where the music starts inside a bar. */
export function pickupBars(bars: readonly TuneBar[]): 0 | 1 {
  return (bars[0]?.part?.from ?? 0) > 0 ? 1 : 0;
}

/** What a bar is called, as a lesson numbers it: from 1, the pickup 0. */
export function numberOfBar(bars: readonly TuneBar[], bar: number): number {
  return bar + 1 - pickupBars(bars);
}

/** `bar 3`, `the pickup` */
export function tellBar(bars: readonly TuneBar[], bar: number): string {
  const number = numberOfBar(bars, bar);
  return number === 0 ? 'the pickup' : `bar ${number}`;
}

/** `Bar 3, the & of 4`, `Pickup, count 4`: what is said of a note begins so. */
export function headOfNote(
  bars: readonly TuneBar[],
  { bar, tick }: { readonly bar: number; readonly tick: number },
): string {
  const number = numberOfBar(bars, bar);
  return `${number === 0 ? 'Pickup' : `Bar ${number}`}, ${tellTick(tick)}`;
}

/** True where every bar is full and in the same meter. */
export function areAlike(times: readonly BarTime[]): boolean {
  const [first] = times;
  return times.every(
    ({ meter, from, to }) =>
      first !== undefined && printMeter(meter) === printMeter(first.meter) && from === 0 && to === ticksOf(meter),
  );
}
