import type { Instrument } from '../../neck/instrument.ts';
import { compare, type Rational } from '../../theory/rational.ts';
import { stringOfNote } from '../model/plant.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import { sameLabel, type TimedGrid, type TimedMark, type TimedRow } from '../model/timed-grid.ts';
import type { NoteMark } from '../syntax/marks.ts';

/** A string and the frets that a mark asks for on it beside those of the shape, one after another. */
export interface StepNote {
  readonly string: number;
  readonly frets: readonly number[];
}

/** A mark that asks for frets which the shape does not give, from when it is played until its sound ends. Times count in the grid. */
export interface AddedStep {
  readonly mark: TimedMark;
  readonly at: Rational;
  readonly end: Rational;
  readonly notes: readonly StepNote[];
  /** The mark of a `fingers` row that says who plays it. */
  readonly finger?: TimedMark;
}

/** The steps of a `pick` or tune row, on the chords that `chordAt` gives for times of the grid. */
export function addedSteps(
  grid: TimedGrid,
  row: TimedRow,
  chordAt: (at: Rational) => ResolvedChord | undefined,
  instrument: Instrument,
): readonly AddedStep[] {
  if (row.kind !== 'pick' && row.kind !== 'tune') return [];
  const plant = grid.plant?.strings;
  const fingerRows = grid.rows.filter(({ fingersOf }) => fingersOf !== undefined && sameLabel(fingersOf, row));
  const steps: AddedStep[] = [];
  let last: number | undefined;
  for (const [index, mark] of row.marks.entries()) {
    const notes = notesIn(mark, (note) => stringOfNote(note, chordAt(mark.at), plant, instrument), last);
    last = notes.at(-1)?.string ?? last;
    const added = notes.filter(({ frets }) => frets.length > 0);
    if (added.length === 0) continue;
    const end = row.kind === 'tune' ? endInRow(grid, row, index) : endOnStrings(grid, row, index, added);
    const finger = fingerRows
      .flatMap(({ marks }) => marks)
      .find((other) => other.mark.kind === 'finger' && compare(other.at, mark.at) === 0);
    steps.push({ mark, at: mark.at, end, notes: added, ...(finger === undefined ? {} : { finger }) });
  }
  return steps;
}

/** The strings of a mark with the frets that are written; none for a note that takes its fret from the shape. */
function notesIn(
  { mark }: TimedMark,
  stringOf: (note: NoteMark) => number | undefined,
  last: number | undefined,
): readonly StepNote[] {
  if (mark.kind === 'technique') {
    const { technique } = mark;
    return last === undefined || !('fret' in technique) ? [] : [{ string: last, frets: [technique.fret] }];
  }
  if (mark.kind !== 'notes') return [];
  return mark.notes.flatMap((note) => {
    const string = stringOf(note);
    if (string === undefined) return [];
    // A harmonic is touched, by whichever hand is free, and not held down.
    const touched = note.techniques.some(({ kind }) => kind === 'harmonic');
    const struck = note.fret === undefined || touched ? [] : [note.fret];
    return [{ string, frets: [...struck, ...note.techniques.flatMap((each) => ('fret' in each ? [each.fret] : []))] }];
  });
}

/** A tune's note sounds until the next mark of its row. */
function endInRow(grid: TimedGrid, row: TimedRow, index: number): Rational {
  return row.marks.slice(index + 1).find(({ mark }) => mark.kind !== 'hold')?.at ?? grid.length;
}

/** What is picked rings until its string is struck again, or silenced. */
function endOnStrings(grid: TimedGrid, row: TimedRow, index: number, notes: readonly StepNote[]): Rational {
  const ends = ({ mark }: TimedMark): boolean => {
    if (mark.kind === 'stop') return true;
    return mark.kind === 'notes' && mark.notes.some((note) => notes.some(({ string }) => string === note.string));
  };
  return row.marks.slice(index + 1).find(ends)?.at ?? grid.length;
}
