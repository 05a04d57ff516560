import type { Source } from '../score/timeline.ts';
import { Remembered } from '../text/remembered.ts';
import { type LegendSign, legendOf } from './legend.ts';
import type { SheetContent } from './sheet-content.ts';
import { type Draft, draft } from './sheet-draft.ts';

/** What the signs of this sheet mean, at its end; nothing where there are none. `kept` has what was said before of the same signs. */
export function legendDrafts(
  signs: ReadonlySet<LegendSign>,
  stringCount: number,
  source: Source,
  kept: LegendMemory,
): readonly Draft[] {
  if (signs.size === 0) return [];
  const key = [stringCount, ...[...signs].sort()].join(' ');
  const content = kept.get(key, () => ({
    kind: 'legend',
    title: 'Signs on this sheet',
    signs: legendOf(signs, stringCount),
  }));
  // The legend has no line of its own in the lesson; it belongs to the last thing printed, and no click leads there.
  const place: Source = { entry: source.entry, span: { start: source.span.end, end: source.span.end } };
  return [draft('facts', content, place, [])];
}

/** A lesson that is being written has a few sets of signs. */
export function createLegendMemory(): LegendMemory {
  return new Remembered(20);
}

export type LegendMemory = Remembered<string, SheetContent>;
