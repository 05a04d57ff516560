import { barLength, beatLength, beatsPerBar, countLength, isCompound, type Meter } from '../../theory/meter.ts';
import { compare, isWhole, minus, over, type Rational, rational, times, ZERO } from '../../theory/rational.ts';
import type { BarItem, ProgressionStatement, WrittenBar } from '../syntax/statement.ts';
import { endingsOf } from './bar-endings.ts';
import { type OrderedBar, returnsOf } from './played-order.ts';

/** A chord, or silence, with its time in the bar. `chord` may go on from the bar before: then the item is a lone beat. */
export interface PlannedItem {
  readonly item: BarItem;
  readonly at: Rational;
  readonly length: Rational;
}

/**
 * `fits`: adds up. `pickup-short`: short by the pickup, which is right at the end and before a repeat that goes back to the pickup.
 * `repeat-short`: short by the pickup before a repeat that goes back to a full bar, whose first beat would come too early.
 */
export type BarSum = 'fits' | 'pickup-short' | 'repeat-short' | 'too-short' | 'too-long' | 'uneven';

export interface PlannedBar {
  readonly bar: WrittenBar;
  readonly meter: Meter;
  /** Index of the line of bars that the bar stands in, and of the bar in its line. */
  readonly line: number;
  readonly indexInLine: number;
  /** Absent for the pickup. */
  readonly number?: number;
  readonly length: Rational;
  readonly items: readonly PlannedItem[];
  /** Length that the marks add up to, where each is a beat of its own. */
  readonly written: Rational;
  readonly sum: BarSum;
}

/** Every written bar of a progression with its meter, number and the times of its chords. `usual` is the lesson's meter. */
export function planBars(statement: ProgressionStatement, usual: Meter): readonly PlannedBar[] {
  const planned: PlannedBar[] = [];
  let meter = usual;
  let number = 1;
  const pickup = pickupLength(statement, usual);
  const all = statement.lines.flatMap((line, index) =>
    line.bars.map((bar, indexInLine) => ({ bar, line: index, indexInLine })),
  );
  const returns = pickup === undefined ? new Map<number, number>() : returnsOf(orderedBars(all));
  all.forEach(({ bar, line, indexInLine }, index) => {
    meter = bar.meter?.meter ?? meter;
    const isPickup = index === 0 && pickup !== undefined;
    const goesTo = returns.get(index);
    const mayBeShort = goesTo !== undefined || index === all.length - 1;
    const plan = planBar(bar, meter, isPickup ? pickup : undefined, mayBeShort ? pickup : undefined);
    const isEarly = plan.sum === 'pickup-short' && goesTo !== undefined && goesTo > 0;
    const sum = isEarly ? { sum: 'repeat-short' as const } : {};
    planned.push({ bar, meter, line, indexInLine, ...(isPickup ? {} : { number: number++ }), ...plan, ...sum });
  });
  return planned;
}

function orderedBars(all: readonly { readonly bar: WrittenBar }[]): readonly OrderedBar[] {
  const endings = endingsOf(all);
  return all.map(({ bar: { opens, closes } }, index): OrderedBar => {
    const ending = endings[index];
    return {
      opens: opens?.text.endsWith(':') === true,
      closes: closes?.text.startsWith(':') === true,
      ...(ending === undefined ? {} : { ending }),
    };
  });
}

/** Length of the bar before the first full one, where the count starts later than 1. */
export function pickupLength(statement: ProgressionStatement, meter: Meter): Rational | undefined {
  const count = statement.pickupCount?.count;
  if (count === undefined || count <= 1) return undefined;
  const unit = isCompound(meter) && count <= beatsPerBar(meter) ? beatLength(meter) : countLength(meter);
  const length = minus(barLength(meter), times(unit, rational(count - 1)));
  return compare(length, ZERO) > 0 ? length : undefined;
}

function planBar(bar: WrittenBar, meter: Meter, pickup: Rational | undefined, shortBy: Rational | undefined) {
  const full = pickup ?? barLength(meter);
  const count = bar.items.length;
  const beat = beatLength(meter);
  if (count === 0) return { length: full, items: [], written: ZERO, sum: 'too-short' as const };
  if (!bar.items.some((item) => item.kind === 'beat')) {
    const share = over(full, rational(count));
    const whole = count === 1 || pickup !== undefined || isWhole(over(share, beat));
    return {
      length: full,
      items: timed(bar.items, share),
      written: full,
      sum: whole ? ('fits' as const) : ('uneven' as const),
    };
  }
  const written = times(beat, rational(count));
  const difference = compare(written, full);
  const isPickupShort = shortBy !== undefined && compare(written, minus(full, shortBy)) === 0;
  const sum: BarSum =
    difference === 0 ? 'fits' : isPickupShort ? 'pickup-short' : difference > 0 ? 'too-long' : 'too-short';
  return { length: isPickupShort || difference > 0 ? written : full, items: timed(bar.items, beat), written, sum };
}

/** Items of equal length; a lone beat makes the one before it longer. */
function timed(items: readonly BarItem[], share: Rational): readonly PlannedItem[] {
  const planned: PlannedItem[] = [];
  items.forEach((item, index) => {
    const last = planned.at(-1);
    if (item.kind === 'beat' && last !== undefined) {
      planned[planned.length - 1] = { ...last, length: minus(times(share, rational(index + 1)), last.at) };
    } else planned.push({ item, at: times(share, rational(index)), length: share });
  });
  return planned;
}
