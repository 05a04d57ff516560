import type { PlacedText, TextBar } from './text-bar.ts';

/** Lines of text that sound together. */
export interface SystemRequest {
  /** Names of the open strings, string 1 first, all equally wide. */
  readonly labels: readonly string[];
  readonly bars: readonly TextBar[];
}

/** Bars that share a line of so many columns. A repeat that is played more than twice ends its line, where the text says how often. */
export function barsInLines(
  bars: readonly TextBar[],
  labelWidth: number,
  columns: number,
): readonly (readonly TextBar[])[] {
  const lines: TextBar[][] = [];
  let width = 0;
  for (const bar of bars) {
    const line = lines.at(-1);
    const before = line?.at(-1);
    const mustBreak = before?.times !== undefined;
    const wanted = bar.width + (bar.double ? 2 : 1) + (bar.times === undefined ? 0 : 5);
    if (line === undefined || mustBreak || width + wanted > columns) {
      lines.push([bar]);
      width = labelWidth + 1 + wanted;
    } else {
      line.push(bar);
      width += wanted;
    }
  }
  return lines;
}

/** One system: endings, chords, strings, the count, and what the hands and the voice do. Lines that say nothing are left out. */
export function systemLines({ labels, bars }: SystemRequest): readonly string[] {
  const left = (labels[0]?.length ?? 0) + 1;
  const starts: number[] = [];
  let at = left;
  for (const bar of bars) {
    starts.push(at);
    at += bar.width + (bar.double ? 2 : 1);
  }
  const row = (textsOf: (bar: TextBar) => readonly PlacedText[]): string => {
    let line = '';
    bars.forEach((bar, index) => {
      for (const { column, text } of textsOf(bar)) {
        // Words that found no room in their bar stand on behind it.
        const place = Math.max((starts[index] ?? 0) + column, line === '' ? 0 : line.length + 1);
        line = line.padEnd(place) + text;
      }
    });
    return line;
  };
  const verses = [...new Set(bars.flatMap(({ words }) => [...words.keys()]))].sort((a, b) => a - b);
  const lines = [
    row(({ ending }) => (ending === undefined ? [] : [{ column: 0, text: ending }])),
    row(({ chords }) => chords),
    ...labels.map((label, index) => stringLine(label, index + 1, bars)),
    row(({ count }) => count),
    row(({ hand }) => hand),
    row(({ knocks }) => knocks),
    ...verses.map((verse) => row(({ words }) => words.get(verse) ?? [])),
    row(({ calls }) => calls),
  ];
  return lines.filter((line) => line !== '');
}

function stringLine(label: string, string: number, bars: readonly TextBar[]): string {
  let line = `${label}|`;
  bars.forEach((bar) => {
    const cells = Array.from({ length: bar.width }, () => '-');
    if (bar.opens) cells[0] = ':';
    if (bar.closes) cells[bar.width - 1] = ':';
    for (const { column, text } of bar.strings.get(string) ?? [])
      [...text].forEach((sign, offset) => {
        cells[column + offset] = sign;
      });
    line += cells.join('') + (bar.isEnd ? (bar.double ? '||' : '|') : '-');
  });
  const times = bars.at(-1)?.times;
  return string === 1 && times !== undefined ? `${line} x${times}` : line;
}
