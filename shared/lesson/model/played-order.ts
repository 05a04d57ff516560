import type { BarEnding } from './bar-endings.ts';

/** What the order of bars needs to know of each. */
export interface OrderedBar {
  readonly opens: boolean;
  readonly closes: boolean;
  readonly ending?: BarEnding;
}

/**
 * The bars as they are played, as places in the written order: what stands between repeat signs twice, or once for each ending.
 * A third time through the same bars brings no change of chords that the second did not, so that `x4` is played as twice.
 */
export function playedOrder(bars: readonly OrderedBar[]): readonly number[] {
  const order: number[] = [];
  let from = 0;
  let at = 0;
  while (at < bars.length) {
    const bar = bars[at];
    if (bar?.opens === true) from = at;
    if (bar?.closes !== true) {
      order.push(at);
      at += 1;
      continue;
    }
    order.push(at);
    const end = lastEnding(bars, at);
    const body = bars.slice(from, at + 1).findIndex(({ ending }) => ending !== undefined);
    const bodyEnd = body < 0 ? at + 1 : from + body;
    const others = endingStarts(bars, at + 1, end);
    for (const start of others.length > 0 ? others : [undefined]) {
      for (let again = from; again < bodyEnd; again += 1) order.push(again);
      if (start !== undefined) for (let inside = start.from; inside <= start.to; inside += 1) order.push(inside);
    }
    at = end + 1;
    from = at;
  }
  return order;
}

/** The last bar of the endings that follow the one that closes at this bar; the bar itself where none follows. */
function lastEnding(bars: readonly OrderedBar[], closing: number): number {
  let end = closing;
  if (bars[closing]?.ending === undefined) return end;
  while (bars[end + 1]?.ending !== undefined) end += 1;
  return end;
}

function endingStarts(
  bars: readonly OrderedBar[],
  first: number,
  last: number,
): readonly { readonly from: number; readonly to: number }[] {
  const found: { from: number; to: number }[] = [];
  for (let at = first; at <= last; at += 1) {
    const open = found.at(-1);
    if (bars[at]?.ending?.begins === true || open === undefined) found.push({ from: at, to: at });
    else open.to = at;
  }
  return found;
}
