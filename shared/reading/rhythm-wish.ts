import type { Outcome } from '../text/problem.ts';
import type { Meter } from '../theory/meter.ts';
import { readRhythm, TICKS_OF_COUNT as TUNE_TICKS } from '../voicing/tune/rhythm.ts';
import { readCountLine } from './count-line.ts';
import type { RhythmWish } from './passage.ts';
import { TICKS_OF_COUNT } from './tick.ts';

/**
 * Reads how a tab's rhythm is wished: `equal`, `columns`, or the counts of a bar that have a note, as in `1 2 & 4`. An even count
 * that stops early goes on in the same way where the bar has room for it (`1 & 2 &` are eighths in 4/4, too), and makes bars of its
 * own where it has not (`1 2 3`).
 */
export function parseRhythmWish(text: string, meter: Meter): Outcome<RhythmWish> {
  const said = text.trim();
  if (said === 'equal' || said === 'columns') return { ok: true, value: { kind: said } };
  const even = evenCount(said, meter);
  if (even !== undefined) return { ok: true, value: even };
  const read = readRhythm(text, meter);
  if (!read.ok) {
    const message = `${read.problem.message} Or say equal, or columns.`;
    return { ok: false, problem: { ...read.problem, message } };
  }
  const ticks = read.value.map((tick) => (tick * TICKS_OF_COUNT) / TUNE_TICKS);
  return { ok: true, value: { kind: 'count', ticks, counts: meter.counts } };
}

/** A count from 1 on that splits every count alike; nothing for any other. */
function evenCount(text: string, meter: Meter): RhythmWish | undefined {
  const count = readCountLine(text) ?? (text === '1' ? ONE : undefined);
  if (count === undefined || count.bars > 1) return undefined;
  const ticks = count.said.map(({ tick }) => tick);
  const parts = ticks.length / count.counts;
  if (!Number.isInteger(parts) || ticks.some((tick, at) => tick !== (at * TICKS_OF_COUNT) / parts)) return undefined;
  if (count.counts > meter.counts || meter.counts % count.counts !== 0)
    return { kind: 'count', ticks, counts: count.counts };
  const rounds = Array.from({ length: meter.counts / count.counts }, (_, round) =>
    ticks.map((tick) => tick + round * count.counts * TICKS_OF_COUNT),
  );
  return { kind: 'count', ticks: rounds.flat(), counts: meter.counts };
}

const ONE = { said: [{ column: 0, bar: 0, tick: 0, length: TICKS_OF_COUNT }], counts: 1, bars: 1 };
