import type { GroupItem, Item, PlaceMark } from '../drawing.ts';

/** White above a piece. Dropped at the head of a page. Unit: mm. */
export interface White {
  readonly natural: number;
  readonly stretch: number;
  readonly shrink: number;
}

/**
 * What a page cannot part: a line of bars, a row of diagrams, a heading, a line of prose. Its items count from its top and the
 * left edge of the text.
 */
export interface Piece {
  readonly height: number;
  readonly above: White;
  readonly items: readonly Item[];
  /** Where a page may end before this piece; where nothing is said, what it is decides. `never` holds it to the piece before. */
  readonly turn?: 'never' | 'unwanted';
  /** Pieces that follow one another with the same mark are read and picked as one. */
  readonly mark?: PlaceMark;
  readonly heading?: Heading;
  /** True where the next piece must stand on the same page. */
  readonly holdsNext?: boolean;
}

export interface Heading {
  readonly level: 1 | 2 | 3 | 4;
  readonly text: string;
}

/** The same items, with places counted from another start. */
export function countedFrom(items: readonly Item[], first: number): readonly Item[] {
  return first === 0 ? items : items.map((item) => shift(item, first));
}

function shift(item: Item, first: number): Item {
  if (item.kind !== 'group') return item;
  const inner = countedFrom(item.items, first);
  const group: GroupItem = { ...item, items: inner };
  return item.mark === undefined ? group : { ...group, mark: markFrom(item.mark, first) };
}

/** The mark, its place counted from another start. */
export function markFrom(mark: PlaceMark, first: number): PlaceMark {
  return mark.place === undefined ? mark : { ...mark, place: mark.place + first };
}
