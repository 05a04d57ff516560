import { SIZES } from './sizes.ts';
import { NAME_HEIGHT_MM } from './tab-name.ts';
import type { Piece, Row, Staff } from './tab-piece.ts';

/** Height of a row and where its baseline lies below its top. Unit: mm. Source: the sizes of what stands in it, tried by eye. */
const ROWS: Readonly<
  Record<
    | 'tempo'
    | 'ending'
    | 'diagram'
    | 'name'
    | 'mark'
    | 'accent'
    | 'rhythm-above'
    | 'rhythm-below'
    | 'left-hand'
    | 'finger'
    | 'pattern'
    | 'count'
    | 'word'
    | 'call',
    { readonly height: number; readonly baseline: number }
  >
> = {
  tempo: { height: 5.2, baseline: 3.8 },
  ending: { height: 4.6, baseline: 3.2 },
  name: { height: NAME_HEIGHT_MM, baseline: 4 },
  mark: { height: 3.4, baseline: 2.4 },
  accent: { height: 2, baseline: 1 },
  // Their heights come from the pieces; the baseline is the edge turned to the staff, or a diagram's foot.
  diagram: { height: 0, baseline: 0 },
  'rhythm-above': { height: 0, baseline: 0 },
  'rhythm-below': { height: 0, baseline: 0 },
  'left-hand': { height: 2.9, baseline: 2.1 },
  finger: { height: 3.5, baseline: 2.4 },
  pattern: { height: 3.4, baseline: 2.4 },
  count: { height: 4.1, baseline: 2.8 },
  word: { height: 4.4, baseline: 3.1 },
  call: { height: 4.3, baseline: 2.9 },
};

/** Where each row of one line of music lies. */
export interface RowPlan {
  /** The baseline of each row in use; for the staff, its first string. */
  readonly y: (row: Row) => number;
  readonly staffTop: number;
  readonly height: number;
}

/** Stacks the rows that are in use, the staff with room around it in the middle. */
export function planRows(pieces: readonly Piece[], extraRows: readonly Row[], staff: Staff): RowPlan {
  const used = new Set<Row>([...pieces.map((piece) => piece.row), ...extraRows]);
  const heights = new Map<Row, number>();
  for (const piece of pieces)
    if (piece.height !== undefined) heights.set(piece.row, Math.max(piece.height, heights.get(piece.row) ?? 0));
  const verses = [...used]
    .filter((row): row is `word-${number}` => row.startsWith('word-'))
    .sort((a, b) => verseOf(a) - verseOf(b));
  const baselines = new Map<Row, number>();
  let top = 0.2;
  // A row that is higher than usual grows away from the staff.
  const stack = (rows: readonly Row[], above: boolean): void => {
    for (const row of rows) {
      if (!used.has(row)) continue;
      const facts = ROWS[kindOf(row)];
      const height = Math.max(facts.height, heights.get(row) ?? 0);
      baselines.set(row, top + facts.baseline + (above ? height - facts.height : 0));
      top += height;
    }
  };
  // Names have all the room they need where no diagrams stand over them.
  if (!used.has('diagram')) heights.delete('name');
  stack(['tempo', 'ending', 'diagram', 'name', 'mark', 'accent', 'rhythm-above'], true);
  const staffTop = top + SIZES.staffMargin;
  baselines.set('staff', staffTop);
  top = staffTop + staff.height + SIZES.staffMargin;
  stack(['rhythm-below', 'left-hand', 'finger', 'pattern', 'count', ...verses, 'call'], false);
  return { y: (row) => baselines.get(row) ?? staffTop, staffTop, height: top + 0.3 };
}

function kindOf(row: Row): keyof typeof ROWS {
  if (row === 'staff') return 'count';
  return row.startsWith('word-') ? 'word' : (row as keyof typeof ROWS);
}

function verseOf(row: `word-${number}`): number {
  return Number(row.slice('word-'.length));
}
