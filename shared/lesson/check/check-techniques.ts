import type { Fix, Severity } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import type { MergedCell } from '../model/grid.ts';
import type { Mark, NoteMark, Technique } from '../syntax/marks.ts';
import type { RowKind } from '../syntax/statement.ts';
import { write } from './finding.ts';

/** Something that the fretting hand cannot do to a note, and the cell in which it is asked for. */
export interface TechniqueFault {
  readonly cell: MergedCell;
  readonly severity: Severity;
  readonly code: string;
  readonly span: Span;
  readonly message: string;
  readonly fixes: readonly Fix[];
  /** What is wrong, the same at whichever frets. */
  readonly about: string;
}

/**
 * What is wrong with the techniques of a row, from its first cell to its last. `fretOf` gives the fret that a note is struck at;
 * nothing where only a chord can say it, and then nothing is said of it.
 */
export function techniqueFaults(
  kind: RowKind,
  cells: readonly MergedCell[],
  fretOf: (note: NoteMark) => number | undefined,
): readonly TechniqueFault[] {
  const faults: TechniqueFault[] = [];
  let before: Sounding = 'nothing';
  for (const cell of cells) {
    const { mark, word } = cell;
    if (mark.kind === 'notes') {
      for (const note of mark.notes) before = { fret: alongNote(faults, cell, note, fretOf(note)) };
    } else if (mark.kind === 'technique') {
      const { technique } = mark;
      if (before === 'nothing' || before === 'stopped') faults.push(fromNowhere(cell, before));
      else if (before.fret !== undefined) {
        const told = judgeTechnique(before.fret, technique);
        const fixes = told === undefined ? [] : fixesAlone(kind, cell, technique, told.instead);
        if (told !== undefined) faults.push({ ...told, cell, span: word.span, fixes, about: aboutOf(told, 0) });
      }
      before = { fret: arrivesAt(technique) ?? (typeof before === 'string' ? undefined : before.fret) };
    } else if (isFullStop(mark) && before !== 'nothing') before = 'stopped';
  }
  return faults;
}

/** The note that a technique in a column of its own goes on from, where there is one. */
type Sounding = { readonly fret: number | undefined } | 'nothing' | 'stopped';

function isFullStop(mark: Mark): boolean {
  return mark.kind === 'stop' && mark.strings.length === 0;
}

function fromNowhere(cell: MergedCell, before: 'nothing' | 'stopped'): TechniqueFault {
  const why = before === 'nothing' ? 'there is none before it in this row' : 'the one before it is stopped';
  return {
    cell,
    severity: 'error',
    code: 'technique.nothing-before',
    span: cell.word.span,
    message: `${cell.word.text} goes on from a note; ${why}.`,
    fixes: [],
    about: before,
  };
}

/** The technique by its place behind the note, and how it would be written. */
function aboutOf({ instead }: Told, place: number): string {
  return `${place} ${instead ?? ''}`.trim();
}

/** Follows what stands behind a note; the fret at which it ends up. */
function alongNote(
  faults: TechniqueFault[],
  cell: MergedCell,
  note: NoteMark,
  struckAt: number | undefined,
): number | undefined {
  let fret = struckAt;
  for (const [place, technique] of note.techniques.entries()) {
    const told = fret === undefined ? undefined : judgeTechnique(fret, technique);
    if (told !== undefined) {
      const fixes = fixesBehind(cell, note, place, technique, told.instead);
      faults.push({ ...told, cell, span: note.span, fixes, about: aboutOf(told, place) });
    }
    fret = arrivesAt(technique) ?? fret;
  }
  return fret;
}

/** Where the finger stays afterwards. A trill goes to its fret and back again and again, and ends where it began. */
function arrivesAt(technique: Technique): number | undefined {
  return 'fret' in technique && technique.kind !== 'trill' ? technique.fret : undefined;
}

/** What is to be said, and how the technique would be written that does go from one fret to the other. */
interface Told {
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly instead: 'hammer-on' | 'pull-off' | 'hold' | undefined;
}

/** A hammer-on goes up, a pull-off goes down, what slides or bends needs a finger on its string. Common practice, no source. */
function judgeTechnique(from: number, technique: Technique): Told | undefined {
  const wrong = (message: string, instead: Told['instead']): Told => ({
    severity: 'error',
    code: 'technique.direction',
    message,
    instead,
  });
  switch (technique.kind) {
    case 'hammer-on':
    case 'pull-off': {
      const { kind, fret } = technique;
      if (kind === 'hammer-on' ? fret > from : fret < from) return undefined;
      const other = kind === 'hammer-on' ? 'pull-off' : 'hammer-on';
      const what = fret === from ? 'nothing moves' : `is a ${other}`;
      const message = `A hammer-on goes up, a pull-off goes down: from fret ${from} to ${fret} ${what}.`;
      return wrong(message, fret === from ? 'hold' : other);
    }
    case 'trill':
      return technique.fret === from
        ? wrong(
            `A trill goes to and fro between two frets: from fret ${from} to fret ${from} nothing moves.`,
            undefined,
          )
        : undefined;
    case 'slide': {
      if (technique.fret === from) return wrong(`A slide from fret ${from} to fret ${from} does not move.`, 'hold');
      if (from > 0) return undefined;
      const message = 'An open string is held by no finger, so nothing can slide from it.';
      return { severity: 'warning', code: 'technique.slide-from-open', message, instead: undefined };
    }
    case 'bend':
    case 'vibrato': {
      if (from > 0) return undefined;
      const what = technique.kind === 'bend' ? 'nothing can bend it' : 'nothing can make it waver';
      const message = `An open string is held by no finger, so ${what}.`;
      return { severity: 'warning', code: 'technique.open-string', message, instead: undefined };
    }
    case 'harmonic':
      return undefined;
  }
}

/** In a column of its own the sign changes its letter, or gives way to the sound going on. */
function fixesAlone(
  kind: RowKind,
  { word }: MergedCell,
  technique: Technique,
  instead: Told['instead'],
): readonly Fix[] {
  if (instead === undefined || !('fret' in technique)) return [];
  if (instead === 'hold') return write(word.span, '.', 'Let the note go on: write .');
  // In a pick row a lone p with a figure is the thumb on that string.
  if (instead === 'pull-off' && kind === 'pick') return [];
  return write(word.span, `${LETTERS[instead]}${technique.fret}`);
}

/** Behind its note the sign changes its letter, or goes. */
function fixesBehind(
  { word }: MergedCell,
  note: NoteMark,
  place: number,
  technique: Technique,
  instead: Told['instead'],
): readonly Fix[] {
  if (instead === undefined || !('fret' in technique)) return [];
  const text = word.text.slice(note.span.start - word.span.start, note.span.end - word.span.start);
  // The last signs are the techniques: before them p may be the thumb.
  const sign = [...text.matchAll(/[hpst]\d{1,2}|[bv*]/g)].slice(-note.techniques.length)[place];
  if (sign === undefined) return [];
  const written = instead === 'hold' ? '' : `${LETTERS[instead]}${technique.fret}`;
  return write(note.span, text.slice(0, sign.index) + written + text.slice(sign.index + sign[0].length));
}

const LETTERS = { 'hammer-on': 'h', 'pull-off': 'p' } as const;
