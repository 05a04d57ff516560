import type { StringLine } from './string-line.ts';

/** What is to be told of a place in a tab, and the bar it stands in, counted from 0. */
export interface BarRemark {
  readonly bar: number;
  readonly message: string;
}

/** How a line of a system is called: `line 3 (C)`. */
function lineName({ label }: StringLine, index: number): string {
  return `line ${index + 1}${label === undefined ? '' : ` (${label.written})`}`;
}

/** What is to be said where the bar lines of a system do not stand below each other, from the columns of each line's. */
export function otherBarLines(
  lines: readonly StringLine[],
  barLines: readonly (readonly number[])[],
  agreed: readonly number[],
): readonly BarRemark[] {
  const usual = new Set(agreed);
  return lines.flatMap((line, index) => {
    const own = barLines[index] ?? [];
    const drawn = new Set(own);
    const apart = [...own.filter((at) => !usual.has(at)), ...agreed.filter((at) => !drawn.has(at))];
    if (apart.length === 0) return [];
    const first = apart.reduce((least, at) => Math.min(least, at));
    const bar = Math.max(0, agreed.filter((at) => at < first && at > (agreed[0] ?? 0)).length);
    const many = own.length === agreed.length ? '' : ` (${own.length}, not ${agreed.length})`;
    return [{ bar, message: `${lineName(line, index)} has its bar lines at other places than the others${many}` }];
  });
}

/** What is to be said where lines of a bar are longer or shorter than most. Unit of widths: columns. */
export function otherWidths(
  lines: readonly StringLine[],
  widths: readonly number[],
  bar: number,
): readonly BarRemark[] {
  const usual = usualOf(widths);
  return lines.flatMap((line, index) => {
    const more = (widths[index] ?? 0) - usual;
    if (more === 0) return [];
    const columns = `${Math.abs(more)} ${Math.abs(more) === 1 ? 'column' : 'columns'}`;
    return [
      { bar, message: `${lineName(line, index)} is ${columns} ${more > 0 ? 'longer' : 'shorter'} than the others` },
    ];
  });
}

/** The number that occurs most often; of several the highest. */
export function usualOf(numbers: readonly number[]): number {
  const times = new Map<number, number>();
  for (const number of numbers) times.set(number, (times.get(number) ?? 0) + 1);
  const [most] = [...times].sort((one, other) => other[1] - one[1] || other[0] - one[0]);
  return most?.[0] ?? 0;
}
