import type { BarEnding } from './bar-endings.ts';

/** What the order of bars needs to know of each. */
export interface OrderedBar {
  readonly opens: boolean;
  readonly closes: boolean;
  /** `:| x3` */
  readonly times?: number;
  readonly ending?: BarEnding;
}

/** A bar in its turn: its place in the written order, and which time round its repeat it is, from 1. */
export interface PlayedBar {
  readonly index: number;
  readonly round: number;
}

/** Most times that a repeat is played out; who writes more means for as long as you like. */
const MOST_TIMES = 50;

/** The bars as they are played: what stands between repeat signs twice, or as often as `x3` or the endings say, each ending in its turn. */
export function unfoldedOrder(bars: readonly OrderedBar[]): readonly PlayedBar[] {
  const order: PlayedBar[] = [];
  const play = (from: number, to: number, round: number): void => {
    for (let index = from; index < to; index += 1) order.push({ index, round });
  };
  let at = 0;
  for (const { from, bodyEnd, endings, end, times } of repeatsIn(bars)) {
    play(at, from, 1);
    const rounds = Math.max(times, ...endings.flatMap(({ numbers }) => numbers));
    for (let round = 1; round <= Math.min(rounds, MOST_TIMES); round += 1) {
      play(from, bodyEnd, round);
      const ending = endings.find(({ numbers }) => numbers.includes(round));
      if (ending !== undefined) play(ending.from, ending.to + 1, round);
    }
    at = end + 1;
  }
  play(at, bars.length, 1);
  return order;
}

/**
 * The bars as the fretting hand meets them, as places in the written order: a third time through the same bars brings no change of
 * chords that the second did not, so that `x4` is played as twice, and each ending once.
 */
export function playedOrder(bars: readonly OrderedBar[]): readonly number[] {
  const order: number[] = [];
  const play = (from: number, to: number): void => {
    for (let index = from; index < to; index += 1) order.push(index);
  };
  let at = 0;
  for (const { from, bodyEnd, endings, end } of repeatsIn(bars)) {
    play(at, bodyEnd);
    const [first, ...others] = endings;
    if (first !== undefined) play(first.from, first.to + 1);
    for (const ending of others.length > 0 ? others : [undefined]) {
      play(from, bodyEnd);
      if (ending !== undefined) play(ending.from, ending.to + 1);
    }
    at = end + 1;
  }
  play(at, bars.length);
  return order;
}

/** By each bar that closes a repeat, the bar that it goes back to, both as places in the written order. */
export function returnsOf(bars: readonly OrderedBar[]): ReadonlyMap<number, number> {
  const returns = new Map<number, number>();
  for (const { from, end } of repeatsIn(bars)) {
    for (let at = from; at <= end; at += 1) if (bars[at]?.closes === true) returns.set(at, from);
  }
  return returns;
}

interface WrittenEnding {
  readonly numbers: readonly number[];
  /** First and last bar. */
  readonly from: number;
  readonly to: number;
}

/** A stretch that is played more than once: from its first bar up to `bodyEnd`, then one of the endings. */
interface Repeat {
  readonly from: number;
  readonly bodyEnd: number;
  readonly endings: readonly WrittenEnding[];
  /** Its last bar. */
  readonly end: number;
  /** At least so often; endings may ask for more. */
  readonly times: number;
}

function repeatsIn(bars: readonly OrderedBar[]): readonly Repeat[] {
  const repeats: Repeat[] = [];
  let from = 0;
  for (let at = 0; at < bars.length; at += 1) {
    const bar = bars[at];
    if (bar?.opens === true) from = at;
    if (bar?.closes !== true) continue;
    const end = lastEnding(bars, at);
    const body = bars.slice(from, at + 1).findIndex(({ ending }) => ending !== undefined);
    const bodyEnd = body < 0 ? at + 1 : from + body;
    const endings = body < 0 ? [] : endingsIn(bars, bodyEnd, end);
    repeats.push({ from, bodyEnd, endings, end, times: bar.times ?? (endings.length > 1 ? 1 : 2) });
    at = end;
    from = end + 1;
  }
  return repeats;
}

/** The last bar of the endings that follow the one that closes at this bar; the bar itself where none follows. */
function lastEnding(bars: readonly OrderedBar[], closing: number): number {
  let end = closing;
  if (bars[closing]?.ending === undefined) return end;
  while (bars[end + 1]?.ending !== undefined && bars[end + 1]?.opens !== true) end += 1;
  return end;
}

function endingsIn(bars: readonly OrderedBar[], first: number, last: number): readonly WrittenEnding[] {
  const found: { numbers: readonly number[]; from: number; to: number }[] = [];
  for (let at = first; at <= last; at += 1) {
    const open = found.at(-1);
    const ending = bars[at]?.ending;
    if (ending !== undefined && (ending.begins || open === undefined))
      found.push({ numbers: ending.numbers, from: at, to: at });
    else if (open !== undefined) open.to = at;
  }
  return found;
}
