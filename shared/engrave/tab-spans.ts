import { closesRepeat } from '../score/repeat-ties.ts';
import type { RhythmEntry, RhythmLine } from '../score/rhythm-line.ts';
import { group, type Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { ReadyBar, ReadyRhythm } from './tab-bar.ts';
import type { Row } from './tab-piece.ts';
import { beamItems, rhythmRow, TIE_ARRIVES_MM, tieItem, tieLeaves, tupletItems } from './tab-rhythm.ts';

// What reaches from one moment to another: beams, tuplets and ties. It can be drawn when the moments have their places.

/** A bar of a line of music and where its things are. */
export interface PlacedBar {
  readonly ready: ReadyBar;
  /** Where a slot of the bar stands. Unit: mm. */
  readonly at: (slot: number) => number;
  /** Its bar lines. Unit: mm. */
  readonly left: number;
  readonly right: number;
}

/** Beams, tuplets and ties within a bar. */
export function spansInBar(bar: PlacedBar, y: (row: Row) => number): readonly Item[] {
  return bar.ready.rhythm.flatMap(({ line, slots }): readonly Item[] => {
    const { side, entries, beams, tuplets } = line;
    const at = (entry: number): number => bar.at(slots[entry] ?? 0);
    const ties = entries.flatMap((entry, index) =>
      entry.tiedOn && entries[index + 1] !== undefined
        ? [tieItem(side, at(index) + tieLeaves(side, entry, isBeamed(line, index)), at(index + 1) + TIE_ARRIVES_MM)]
        : [],
    );
    const items = [...beamItems(side, beams, at), ...tupletItems(side, tuplets, at), ...ties];
    return items.length === 0 ? [] : [group(0, y(rhythmRow(side)), items)];
  });
}

function isBeamed({ beams }: RhythmLine, entry: number): boolean {
  return beams.some(({ first, last }) => entry >= first && entry <= last);
}

/**
 * Ties over bar lines. One that comes from the line before, or from the end of a repeat that begins here, or that goes on in the next
 * line, is drawn up to the bar line; so are one that leads into a later ending and one that leads back to a repeat.
 */
export function tiesOverBars(bars: readonly PlacedBar[], y: (row: Row) => number): readonly Item[] {
  return bars.flatMap((bar, index) => [...leaving(bar, bars[index + 1], y), ...arriving(bar, bars[index - 1], y)]);
}

/** A later ending is come to from the bar before the first one, and not from the ending that stands before it. */
function isReachedFrom(bar: PlacedBar, before: PlacedBar | undefined): boolean {
  return bar.ready.bar.ending?.begins !== true || !closesRepeat(before?.ready.bar);
}

function leaving(bar: PlacedBar, next: PlacedBar | undefined, y: (row: Row) => number): readonly Item[] {
  return bar.ready.rhythm.flatMap(({ line, slots }): readonly Item[] => {
    const last = line.entries.at(-1);
    const slot = slots.at(-1);
    if (last?.tiedOn !== true || slot === undefined) return [];
    const from = bar.at(slot) + tieLeaves(line.side, last, isBeamed(line, line.entries.length - 1));
    const first = next === undefined || !isReachedFrom(next, bar) ? undefined : tiedStart(next, line.side);
    const to = next !== undefined && first !== undefined ? next.at(first) + TIE_ARRIVES_MM : bar.right - 0.4;
    return [group(0, y(rhythmRow(line.side)), [tieItem(line.side, from, Math.max(to, from + SHORTEST_TIE_MM))])];
  });
}

function arriving(bar: PlacedBar, before: PlacedBar | undefined, y: (row: Row) => number): readonly Item[] {
  return bar.ready.rhythm.flatMap(({ line, slots }): readonly Item[] => {
    const [slot] = slots;
    if (slot === undefined || line.entries[0]?.kind !== 'tied') return [];
    const isMet = isTiedOn(before, line.side);
    if (isMet && isReachedFrom(bar, before)) return [];
    const to = bar.at(slot) + TIE_ARRIVES_MM;
    const room = Math.max(bar.left + 0.3, to - SIZES.rhythm.tieFromBefore);
    // Above and below the staff a tie may begin over the bar line, where none ends there.
    const from = before === undefined || isMet ? room : Math.min(room, to - SHORTEST_TIE_MM);
    return [group(0, y(rhythmRow(line.side)), [tieItem(line.side, from, to)])];
  });
}

function isTiedOn(bar: PlacedBar | undefined, side: RhythmLine['side']): boolean {
  return bar?.ready.rhythm.find(({ line }) => line.side === side)?.line.entries.at(-1)?.tiedOn === true;
}

/** The slot of the first entry, where it is tied to the bar before. */
function tiedStart(bar: PlacedBar, side: RhythmLine['side']): number | undefined {
  const rhythm: ReadyRhythm | undefined = bar.ready.rhythm.find(({ line }) => line.side === side);
  const first: RhythmEntry | undefined = rhythm?.line.entries[0];
  return first?.kind === 'tied' ? rhythm?.slots[0] : undefined;
}

const SHORTEST_TIE_MM = 2;
