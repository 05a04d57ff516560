import type { Source } from '../score/timeline.ts';
import { escapeText } from './escape.ts';
import { type LegendSign, legendOf } from './legend.ts';
import { type Draft, draft } from './sheet-draft.ts';
import { svgOf } from './svg.ts';

/** What the signs of this sheet mean, at its end; nothing where there are none. */
export function legendDrafts(signs: ReadonlySet<LegendSign>, stringCount: number, source: Source): readonly Draft[] {
  const lines = legendOf(signs, stringCount);
  if (lines.length === 0) return [];
  const items = lines.map(({ sample, text }) => {
    const drawing = sample === undefined ? '' : `${svgOf(sample, 'themed')} `;
    return `<p class="legend-sign" role="listitem">${drawing}${escapeText(text)}</p>`;
  });
  // The legend has no line of its own in the lesson; it belongs to the last thing printed, and no click leads there.
  const place: Source = { entry: source.entry, span: { start: source.span.end, end: source.span.end } };
  return [
    draft(
      'facts',
      `<div class="sheet-legend"><p class="sheet-facts">Signs on this sheet</p><div role="list">${items.join('')}</div></div>`,
      place,
      [],
    ),
  ];
}
