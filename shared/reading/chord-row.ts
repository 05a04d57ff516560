import type { ChordLine } from './chord-line.ts';
import type { GridBar } from './grid-columns.ts';

/** Columns that a chord's name may stand before the note that it begins with. */
const SLACK = 1;

/**
 * The bars of one system with the chords that stand over them, each in the column of the note under it, or of the first that
 * follows. Each column takes one chord; more are left out and returned.
 */
export function withChords(
  bars: readonly GridBar[],
  { tokens }: ChordLine,
): { readonly bars: readonly GridBar[]; readonly leftOut: readonly string[] } {
  const rows = bars.map(({ columns }) => columns.map((): string | undefined => undefined));
  const leftOut: string[] = [];
  let bar = 0;
  for (const token of tokens) {
    if (token.kind !== 'chord') continue;
    while (bar + 1 < bars.length && (bars[bar + 1]?.at ?? 0) <= token.column + SLACK + 1) bar += 1;
    const columns = bars[bar]?.columns ?? [];
    const row = rows[bar] ?? [];
    const first = columns.findIndex(({ at }) => at !== undefined);
    const under = columns.findIndex(({ at }) => at !== undefined && at >= token.column - SLACK);
    const startsBar = under <= first && token.column <= (bars[bar]?.at ?? 0) + 2;
    const wanted = startsBar ? 0 : under < 0 ? columns.length - 1 : under;
    const free = row.findIndex((name, index) => index >= wanted && name === undefined);
    if (free < 0) leftOut.push(token.name);
    else row[free] = token.name;
  }
  const set = bars.map((one, index) => ({
    ...one,
    columns: one.columns.map((column, place) => {
      const chord = rows[index]?.[place];
      return chord === undefined ? column : { ...column, chord };
    }),
  }));
  return { bars: set, leftOut };
}
