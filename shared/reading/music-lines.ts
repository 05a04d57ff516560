import type { GridBar } from './grid-columns.ts';

/** Columns of a line of music that can still be taken in at a glance. */
const WIDEST_LINE = 24;

/** A bar of a piece, and the number of the system in the text that it comes from. */
export interface PlacedBar {
  readonly bar: GridBar;
  readonly system: number;
}

/**
 * The bars of a piece in lines of music. A line ends where a system of the text ends or where it grows wide, but never inside a
 * repeat, for a count is repeated within its own line. Repeats that the text opens without closing are none, and those that it only
 * closes go back to the last one, or to the beginning.
 */
export function musicLines(bars: readonly PlacedBar[]): readonly (readonly PlacedBar[])[] {
  const lines: PlacedBar[][] = [];
  let width = 0;
  for (const unit of unitsOf(bars)) {
    const columns = unit.reduce((sum, { bar }) => sum + bar.columns.length, 0);
    const open = lines.at(-1);
    const isSame = open?.at(-1)?.system === unit[0]?.system;
    // A pickup does not stand alone.
    const isFirst = lines.length === 1 && open?.length === 1;
    if (open !== undefined && ((isSame && width + columns <= WIDEST_LINE) || (isFirst && isPickup(open[0])))) {
      open.push(...unit);
      width += columns;
    } else {
      lines.push([...unit]);
      width = columns;
    }
  }
  return lines;
}

function isPickup(placed: PlacedBar | undefined): boolean {
  return placed?.bar.columns[0]?.said !== '1';
}

function unitsOf(bars: readonly PlacedBar[]): readonly (readonly PlacedBar[])[] {
  const units: PlacedBar[][] = [];
  let open: number | undefined;
  let after = 0;
  const plain = (placed: PlacedBar): PlacedBar => ({ ...placed, bar: { ...placed.bar, opens: false } });
  bars.forEach((placed, index) => {
    if (placed.bar.opens) open = index;
    if (!placed.bar.closes) return;
    const from = open ?? after;
    for (const single of bars.slice(after, from)) units.push([plain(single)]);
    units.push(
      bars.slice(from, index + 1).map(({ bar, system }, at) => ({ system, bar: { ...bar, opens: at === 0 } })),
    );
    after = index + 1;
    open = undefined;
  });
  for (const single of bars.slice(after)) units.push([plain(single)]);
  return units;
}

/** The count of a line of music with its bar lines and repeats. */
export function countText(bars: readonly GridBar[]): string {
  return bars
    .map((bar, index) => {
      const next = bars[index + 1];
      const head = index === 0 && bar.opens ? '|: ' : '';
      const said = bar.columns.map((column) => column.said).join('  ');
      const closing = bar.closes
        ? next?.opens === true
          ? ':|:'
          : ':|'
        : next === undefined
          ? ''
          : next.opens
            ? '|:'
            : '|';
      const times = bar.closes && bar.times !== undefined && bar.times > 2 ? ` x${bar.times}` : '';
      return `${head}${said}  ${closing}${times}`;
    })
    .join('  ')
    .trimEnd();
}
