import { FEWEST_STRINGS, MOST_STRINGS } from '../neck/instruments.ts';
import type { PlainLine } from './plain-lines.ts';
import { readStringLine, type StringLine } from './string-line.ts';

/** Lines of tab that sound together, as they stand from the top down. */
export interface TabSystem {
  readonly lines: readonly StringLine[];
}

/**
 * All systems of a text, in order. Lines of tab that make no system (too few, or too many to divide) are in none.
 * `strings` is how many the lesson's instrument has: it parts a block of eight lines into two systems of four.
 */
export function tabSystems(lines: readonly PlainLine[], strings: number | undefined): readonly TabSystem[] {
  return runsOf(lines)
    .flatMap(withoutSigns)
    .flatMap((run) => {
      const size = sizeOf(run, strings);
      if (size === undefined) return [];
      return Array.from({ length: run.length / size }, (_, at) => ({ lines: run.slice(at * size, (at + 1) * size) }));
    });
}

/** Lines of tab that follow each other. Where each is parted from the next by one empty line, they belong together, too. */
function runsOf(lines: readonly PlainLine[]): readonly (readonly StringLine[])[] {
  const tabs = lines.map(readStringLine);
  const runs: StringLine[][] = [];
  let lastAt = Number.NEGATIVE_INFINITY;
  for (const [index, tab] of tabs.entries()) {
    if (tab === undefined) continue;
    const isAlone = tabs[index + 1] === undefined && tabs[index - 3] === undefined;
    const isSpaced = isAlone && index - lastAt === 2 && lines[index - 1]?.text === '';
    const open = runs.at(-1);
    if (open !== undefined && (isSpaced || index - lastAt === 1)) open.push(tab);
    else runs.push([tab]);
    lastAt = index;
  }
  return runs;
}

/** Lines without names above or below a whole system with names are signs, as in `pm-----|`; else a name was forgotten. */
function withoutSigns(run: readonly StringLine[]): readonly (readonly StringLine[])[] {
  const named = run.filter(({ label }) => label !== undefined);
  if (named.length < FEWEST_STRINGS || named.length === run.length) return [run];
  const parts: StringLine[][] = [];
  for (const tab of run) {
    const open = parts.at(-1);
    const isSame = open !== undefined && (open[0]?.label === undefined) === (tab.label === undefined);
    if (open !== undefined && isSame) open.push(tab);
    else parts.push([tab]);
  }
  return parts.every((part) => part[0]?.label === undefined || part.length >= FEWEST_STRINGS) ? parts : [run];
}

function sizeOf(run: readonly StringLine[], strings: number | undefined): number | undefined {
  const sizes = [4, 6, 5, 7, 8].filter((size) => run.length % size === 0);
  if (run.every(({ label }) => label !== undefined)) {
    const named = [...(strings === undefined ? [] : [strings]), 4, 5, 6, 7, 8].find(
      (size) => sizes.includes(size) && run.every((tab, at) => labelOf(tab) === labelOf(run[at % size] ?? tab)),
    );
    if (named !== undefined) return named;
    return run.length >= FEWEST_STRINGS && run.length <= MOST_STRINGS ? run.length : undefined;
  }
  if (strings !== undefined && sizes.includes(strings)) return strings;
  if (run.length === MOST_STRINGS && barsOf(run[0]) !== barsOf(run[4])) return 4;
  return run.length >= FEWEST_STRINGS && run.length <= MOST_STRINGS ? run.length : sizes[0];
}

function labelOf({ label }: StringLine): string {
  return label === undefined ? '' : label.kind === 'note' ? label.note : String(label.number);
}

/** Where the bar lines of a line stand. */
function barsOf(tab: StringLine | undefined): string {
  return [...(tab?.body ?? '')].map((sign) => (sign === '|' ? '|' : ' ')).join('');
}
