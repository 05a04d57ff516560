import type { Fault, Outcome } from '../text/problem.ts';
import type { Meter } from '../theory/meter.ts';
import { readCountLine } from './count-line.ts';
import type { RhythmWish } from './passage.ts';
import { TICKS_OF_COUNT } from './tick.ts';

/**
 * Reads how a tab's rhythm is wished: `equal`, `columns`, or the counts of a bar that have a note, as in `1 & 2 & 3 & 4`. A count
 * that stops early goes on in the same way to the end of the bar: `1 & 2 &` are eighths in 4/4, too.
 */
export function parseRhythmWish(text: string, meter: Meter): Outcome<RhythmWish> {
  const said = text.trim();
  if (said === 'equal' || said === 'columns') return { ok: true, value: { kind: said } };
  const count = readCountLine(said) ?? (/^1$/.test(said) ? ONE : undefined);
  const whole: Fault['span'] = { start: 0, end: text.length };
  if (count === undefined || count.bars > 1) {
    const message = `"${text}" is no rhythm: say equal, columns, or the counts of one bar that have a note, as in 1 & 2 & 3 & 4 &.`;
    return { ok: false, problem: { code: 'rhythm.unreadable', message, span: whole } };
  }
  const ticks = count.said.map(({ tick }) => tick);
  const isWhole = meter.counts > count.counts && meter.counts % count.counts === 0 && ticks[0] === 0;
  if (!isWhole) return { ok: true, value: { kind: 'count', ticks, counts: count.counts } };
  const rounds = Array.from({ length: meter.counts / count.counts }, (_, round) =>
    ticks.map((tick) => tick + round * count.counts * TICKS_OF_COUNT),
  );
  return { ok: true, value: { kind: 'count', ticks: rounds.flat(), counts: meter.counts } };
}

const ONE = { said: [{ column: 0, bar: 0, tick: 0, length: TICKS_OF_COUNT }], counts: 1, bars: 1 };
