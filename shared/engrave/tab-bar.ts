import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import { rhythmOf } from '../score/rhythm.ts';
import type { RhythmLine } from '../score/rhythm-line.ts';
import type { ScoreBar, ScoreChord, Source } from '../score/timeline.ts';
import { type Rational, toNumber } from '../theory/rational.ts';
import { group, type Item } from './drawing.ts';
import { SIZES, SPACING_EXPONENT } from './sizes.ts';
import { smallDiagram } from './small-diagram.ts';
import { meterPiece, sameBarPiece } from './tab-bar-line.ts';
import { type Column, type ColumnLook, columnsOf, key } from './tab-column.ts';
import { NAME_LEAD_MM, namePiece } from './tab-name.ts';
import type { Piece } from './tab-piece.ts';
import type { Slot } from './tab-spacing.ts';

/** A chord name at its moment, which is a place of its own in the lesson. */
export interface PlacedName {
  readonly slot: number;
  readonly items: readonly Item[];
  readonly left: number;
  readonly right: number;
  readonly chord: ScoreChord;
  /** The shape, where the chord is met for the first time; counted from the moment and from the foot of the row of diagrams. */
  readonly diagram?: readonly Item[];
}

/** A bar made ready to be put into a line: its slots without the bar lines around it. */
export interface ReadyBar {
  readonly bar: ScoreBar;
  readonly slots: readonly Slot[];
  readonly names: readonly PlacedName[];
  /** Stretching room before the bar line that closes it. */
  readonly closingSpring: number;
  readonly source: Source;
  readonly rhythm: readonly ReadyRhythm[];
  /** Where something begins, in order. */
  readonly moments: readonly ReadyMoment[];
  /** Its place among the bars of its pass, also where it is only a part of one. */
  readonly written: number;
  /** Where the bar is only a part of one that is too wide for the page: whether more of it lies before and after. */
  readonly cut?: BarCut;
}

export interface BarCut {
  readonly before: boolean;
  readonly after: boolean;
}

export interface ReadyMoment {
  readonly at: Rational;
  readonly slot: number;
}

/** A line of rhythm and where each of its entries stands among the bar's slots. */
export interface ReadyRhythm {
  readonly line: RhythmLine;
  readonly slots: readonly number[];
}

export interface BarLook extends ColumnLook {
  /** False where nothing is played at all, as in a progression by itself: then no rest says so in every bar. */
  readonly rhythm: boolean;
  readonly leftHanded: boolean;
}

/** `met`: texts of the chords that come in here for the first time, whose shapes are shown over their names. */
export function readyBar(bar: ScoreBar, look: BarLook, met: ReadonlySet<string>, written = 0): ReadyBar {
  const slots: Slot[] = [];
  const names: PlacedName[] = [];
  if (bar.showsMeter) slots.push({ rigid: 1.2, spring: 0, pieces: [meterPiece(look.staff, bar.meter)] });
  const silent = bar.same && bar.events.length === 0;
  const lines = silent || !look.rhythm ? [] : rhythmOf(bar);
  const columns = columnsOf(bar, lines, look);
  const slotOf = new Map<number, number>();
  const springs = springsOf(columns);
  columns.forEach((column, index) => {
    const chord = silent ? undefined : bar.chords.find(({ at }) => key(at) === key(column.at));
    const name = chord === undefined ? undefined : keptName(chord, look);
    const diagram =
      chord?.chord !== undefined && met.has(chord.chord.text) ? keptDiagram(chord.chord, look) : undefined;
    if (chord !== undefined && name !== undefined)
      names.push({
        slot: slots.length,
        items: name.items,
        left: name.left,
        right: name.right,
        chord,
        ...(diagram === undefined ? {} : { diagram: diagram.items }),
      });
    const before = columns[index - 1];
    slotOf.set(key(column.at), slots.length);
    const same = silent && index === 0 ? [sameBarPiece(look.staff)] : [];
    slots.push({
      rigid: before !== undefined ? 0 : bar.showsMeter ? SIZES.afterMeter : SIZES.afterBarLine,
      spring: before === undefined ? (silent ? SIZES.eighth : 0) : (springs[index - 1] ?? 0),
      pieces: [
        ...column.pieces,
        ...same,
        ...(name === undefined ? [] : [name]),
        ...(diagram === undefined ? [] : [diagram]),
      ],
    });
  });
  const rhythm = lines.map((line) => ({ line, slots: line.entries.map(({ at }) => slotOf.get(key(at)) ?? 0) }));
  const closingSpring = springs.at(-1) ?? springOf(toNumber(bar.length));
  const moments = columns.flatMap(({ at, rhythmic }) => (rhythmic ? [{ at, slot: slotOf.get(key(at)) ?? 0 }] : []));
  return { bar, slots, names, closingSpring, source: bar.source, rhythm, moments, written };
}

/** Room behind each column. Columns of words alone share the room of the beat they stand in. */
function springsOf(columns: readonly Column[]): readonly number[] {
  const springs: number[] = [];
  for (let first = 0; first < columns.length; ) {
    let next = first + 1;
    while (columns[next]?.rhythmic === false) next++;
    const beat = columns.slice(first, next);
    const length = beat.reduce((sum, column) => sum + column.length, 0);
    springs.push(...beat.map((column) => (length === 0 ? 0 : (springOf(length) * column.length) / length)));
    first = next;
  }
  return springs;
}

/** Natural room after a moment of this length in whole notes. */
function springOf(length: number): number {
  return SIZES.eighth * (length * 8) ** SPACING_EXPONENT;
}

function keptName(scored: ScoreChord, { kept }: BarLook): Piece | undefined {
  const { chord } = scored;
  return kept.get(`name ${chord?.name} ${chord?.assumed}`, () => [namePiece(chord)])[0];
}

function keptDiagram(chord: ResolvedChord, look: BarLook): Piece | undefined {
  const name = `diagram ${chord.shape.join(' ')} ${chord.fingers?.join(' ')} ${look.leftHanded}`;
  return look.kept.get(name, () => [diagramPiece(chord, look)])[0];
}

/** Its left edge stands over that of the name. */
function diagramPiece(chord: ResolvedChord, { leftHanded }: BarLook): Piece {
  const { items, left, right, height } = smallDiagram(chord, leftHanded);
  const x = left - NAME_LEAD_MM;
  return { row: 'diagram', left: NAME_LEAD_MM, right: x + right, items: [group(x, 0, items)], height: height + 0.9 };
}
