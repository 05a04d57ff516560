import { group, type Item } from '../drawing.ts';
import { PAGE_SIZES, type PageLayout, type TypeSize, WHITE } from './page-sizes.ts';
import type { Piece, White } from './piece.ts';
import { type Inline, type SetLine, setLines } from './set-lines.ts';

/**
 * White that grows and gives as far as white may on a page of this layout: little between things that belong together, more where
 * something new begins. `natural` is that of the usual size. Unit: mm.
 */
export function white(natural: number, layout: PageLayout, most: number = WHITE.most): White {
  const own = natural * layout.white;
  const least = natural <= WHITE.together ? WHITE.leastTogether : WHITE.least;
  return { natural: own, stretch: own * most, shrink: own * least };
}

interface SetOptions {
  /** How far it stands in. Unit: mm. */
  readonly indent?: number;
  readonly measure?: number;
  readonly leading?: number;
  /** Tag of the language of words that are not ours. */
  readonly language?: string | undefined;
}

/** A line of text, and how far it reaches from the left edge. */
export interface LinePiece extends Piece {
  readonly width: number;
}

/**
 * Running text as lines, each a piece; the first two and the last two stay together. Where a drawing needs more than the leading,
 * its line stands further from its neighbours; the other lines keep their leading, or the paragraph would fall apart.
 */
export function paragraph(
  inlines: readonly Inline[],
  size: TypeSize,
  above: White,
  layout: PageLayout,
  { indent = 0, measure = layout.text.width, leading = PAGE_SIZES.leading, language }: SetOptions = {},
): readonly LinePiece[] {
  const type = layout.type[size];
  // Facts are looked up, not read through: they may use the whole width.
  const longest = Math.min(measure - indent, (size === 'facts' ? PAGE_SIZES.factsMeasure : PAGE_SIZES.measure) * type);
  const lines = setLines(inlines, { measure: longest, size: type, leading: leading * type });
  return lines.map((set, index): LinePiece => {
    const loose = index === 0 || (index >= 2 && index <= lines.length - 2);
    const turn = index === 0 ? {} : { turn: loose ? ('unwanted' as const) : ('never' as const) };
    const before = lines[index - 1];
    const between =
      before === undefined ? above : rigid(stepOf(before, set, leading * type) - before.descent - set.ascent);
    const row = group(indent, set.ascent, set.items);
    const items: readonly Item[] =
      index === 0 ? [{ ...row, begins: 'paragraph', ...(language === undefined ? {} : { language }) }] : [row];
    return { height: set.ascent + set.descent, width: indent + set.width, items, above: between, ...turn };
  });
}

/** White that neither grows nor gives. */
export function rigid(natural: number): White {
  return { natural, stretch: 0, shrink: 0 };
}

/** From baseline to baseline: the leading, or what the two lines need with a little white between them. */
function stepOf(upper: SetLine, lower: SetLine, leading: number): number {
  return Math.max(leading, upper.descent + lower.ascent + leading * LEAST_GAP);
}

/** White between two lines at least, against the leading. */
const LEAST_GAP = 0.08;

/** Lines that stay together, as one piece. */
export function whole(pieces: readonly Piece[], above: White): Piece {
  const items: Item[] = [];
  let y = 0;
  pieces.forEach((piece, index) => {
    if (index > 0) y += piece.above.natural;
    items.push(group(0, y, piece.items));
    y += piece.height;
  });
  return { height: y, above, items };
}
