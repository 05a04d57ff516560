import { type OrderedBar, type PlayedBar, unfoldedOrder } from '../lesson/model/played-order.ts';
import type { ScoreBar } from './timeline.ts';

/**
 * The bars of a pass in the order in which they are played, as places among the written ones: repeats come round as often as they
 * say, each ending in its turn. Written order is what the sheet shows.
 */
export function playedBars(bars: readonly ScoreBar[]): readonly PlayedBar[] {
  return unfoldedOrder(orderedBars(bars));
}

/** A bar with all that its repeat goes by. */
type SignedBar = Pick<ScoreBar, 'opens' | 'closes' | 'times' | 'ending' | 'source'>;

/** What the signs of bars say of their order. */
export function orderedBars(bars: readonly SignedBar[]): readonly OrderedBar[] {
  return bars.map(
    (bar, index): OrderedBar => ({
      opens: bar.opens?.endsWith(':') === true || beginsProgression(bars[index - 1], bar),
      closes: bar.closes.startsWith(':'),
      ...(bar.times === undefined ? {} : { times: bar.times }),
      ...(bar.ending === undefined ? {} : { ending: bar.ending }),
    }),
  );
}

/** A repeat without an opening sign goes back to the start of its own progression, which may follow another, or itself. */
function beginsProgression(before: SignedBar | undefined, { source }: SignedBar): boolean {
  return before === undefined || before.source.entry !== source.entry || before.source.span.start >= source.span.start;
}
