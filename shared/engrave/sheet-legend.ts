import type { Source } from '../score/timeline.ts';
import { type LegendSign, legendOf } from './legend.ts';
import { type Draft, draft } from './sheet-draft.ts';

/** What the signs of this sheet mean, at its end; nothing where there are none. */
export function legendDrafts(signs: ReadonlySet<LegendSign>, stringCount: number, source: Source): readonly Draft[] {
  const lines = legendOf(signs, stringCount);
  if (lines.length === 0) return [];
  // The legend has no line of its own in the lesson; it belongs to the last thing printed, and no click leads there.
  const place: Source = { entry: source.entry, span: { start: source.span.end, end: source.span.end } };
  return [draft('facts', { kind: 'legend', title: 'Signs on this sheet', signs: lines }, place, [])];
}
