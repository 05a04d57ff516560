import type { Fault, Outcome } from '../../text/problem.ts';
import { isCompound, type Meter, printMeter } from '../../theory/meter.ts';

/** A count is cut into so many pieces, so that halves, thirds and quarters of it are whole numbers of them. */
export const TICKS_OF_COUNT = 12;

/** Where in a bar a tune has its notes, in ticks from the bar's start, rising; the first is 0 or later. */
export type BarRhythm = readonly number[];

/**
 * What a bar sounds like where nobody says: a note for each count, and two on the last, the second of which leads into the next
 * chord. A hand that learns has time for every note, and the ear hears the change coming. Compound meters swing: long and short.
 * Source: common practice, no source.
 */
export function usualRhythm(meter: Meter): BarRhythm {
  const counts = Array.from({ length: meter.counts }, (_, count) => count * TICKS_OF_COUNT);
  if (isCompound(meter)) return counts.filter((_, count) => count % 3 !== 1);
  return [...counts, (meter.counts - 1) * TICKS_OF_COUNT + TICKS_OF_COUNT / 2];
}

/** The same at the end of a phrase, where the tune breathes: its last note, on a strong beat, is held through the rest of the bar. */
export function restingRhythm(meter: Meter, rhythm: BarRhythm): BarRhythm {
  const last = strongTicks(meter).at(-1) ?? 0;
  const kept = rhythm.filter((tick) => tick <= last);
  return kept.includes(last) ? kept : [...kept, last];
}

/** The strong beats of a bar: the first, and the middle one where the bar has two halves. Source: definition of the meters. */
export function strongTicks(meter: Meter): BarRhythm {
  const beats = isCompound(meter) ? meter.counts / 3 : meter.counts;
  const countsOfBeat = meter.counts / beats;
  const halves = beats >= 4 && beats % 2 === 0 ? beats / 2 : isCompound(meter) ? 1 : beats;
  return Array.from({ length: beats }, (_, beat) => beat)
    .filter((beat) => beat % halves === 0)
    .map((beat) => beat * countsOfBeat * TICKS_OF_COUNT);
}

/** What is said between two counts, and where. Source: common practice, no source. */
const BETWEEN: Readonly<Record<string, number>> = { '&': 6, and: 6, '+': 6, e: 3, a: 9, la: 4, li: 8 };

/**
 * Reads the counts that have a note, as they are said aloud: `1 2 & 4`, `1 la li 3`. `&` is halfway to the next count, `e` and `a` are
 * a quarter before and after it, `la li` the thirds. Spans count from the start of `text`.
 */
export function readRhythm(text: string, meter: Meter): Outcome<BarRhythm> {
  const ticks: number[] = [];
  let count: number | undefined;
  for (const { 0: word, index } of text.matchAll(/\S+/g)) {
    const span = { start: index, end: index + word.length };
    const number = /^\d{1,2}$/.test(word) ? Number(word) : undefined;
    const between = BETWEEN[word];
    if (number !== undefined && (number < 1 || number > meter.counts)) {
      return fails(`A bar of ${printMeter(meter)} has the counts 1 to ${meter.counts}; there is no ${number}.`, span);
    }
    if (number === undefined && (between === undefined || count === undefined)) {
      return fails(
        `Say the counts that have a note, as in 1 2 & 4; "${word}" is none${count === undefined ? ' to begin with' : ''}.`,
        span,
      );
    }
    count = number ?? count;
    const tick = ((count ?? 1) - 1) * TICKS_OF_COUNT + (number === undefined ? (between ?? 0) : 0);
    if (tick <= (ticks.at(-1) ?? -1)) return fails(`Counts go up; ${word} comes too late here.`, span);
    ticks.push(tick);
    const parts = ticks.filter((other) => Math.floor(other / TICKS_OF_COUNT) === Math.floor(tick / TICKS_OF_COUNT));
    if (parts.some(isThird) && parts.some(isQuarter)) {
      return fails(
        `A count is cut in halves and in thirds here; ${word} and what stands before it do not go together.`,
        span,
      );
    }
  }
  if (ticks.length === 0)
    return fails('Say the counts that have a note, as in 1 2 & 4.', { start: 0, end: text.length });
  return { ok: true, value: ticks };
}

function isThird(tick: number): boolean {
  return tick % TICKS_OF_COUNT !== 0 && tick % (TICKS_OF_COUNT / 3) === 0;
}

function isQuarter(tick: number): boolean {
  return tick % TICKS_OF_COUNT !== 0 && tick % (TICKS_OF_COUNT / 4) === 0;
}

/** A column of a count line: what is said, and when. */
export interface CountColumn {
  readonly word: string;
  readonly tick: number;
}

const SAID: Readonly<Record<number, readonly string[]>> = { 2: ['&'], 3: ['la', 'li'], 4: ['e', '&', 'a'] };

/** The count line on which all these notes have a column: each count in one, two, three or four, evenly. */
export function countColumns(meter: Meter, ticks: Iterable<number>): readonly CountColumn[] {
  const pieces = new Array<number>(meter.counts).fill(1);
  for (const tick of ticks) {
    const count = Math.floor(tick / TICKS_OF_COUNT);
    const within = tick % TICKS_OF_COUNT;
    const needs = within === 0 ? 1 : within === 6 ? 2 : within % 4 === 0 ? 3 : 4;
    pieces[count] = Math.max(pieces[count] ?? 1, needs);
  }
  // Halves are counted through the whole bar, as a class does.
  if (pieces.includes(2)) for (const [count, piece] of pieces.entries()) if (piece === 1) pieces[count] = 2;
  return pieces.flatMap((piece, count) =>
    Array.from({ length: piece }, (_, at): CountColumn => {
      const word = at === 0 ? String(count + 1) : (SAID[piece]?.[at - 1] ?? '&');
      return { word, tick: count * TICKS_OF_COUNT + (at * TICKS_OF_COUNT) / piece };
    }),
  );
}

/** `beat 3`, `the & of 4`: a place in a bar, for sentences. */
export function tellTick(tick: number): string {
  const count = Math.floor(tick / TICKS_OF_COUNT) + 1;
  const within = tick % TICKS_OF_COUNT;
  const word = Object.entries(BETWEEN).find(([, ticks]) => ticks === within)?.[0];
  return word === undefined ? `count ${count}` : `the ${word} of ${count}`;
}

function fails(message: string, span: Fault['span']): { readonly ok: false; readonly problem: Fault } {
  return { ok: false, problem: { code: 'rhythm.unreadable', message, span } };
}
