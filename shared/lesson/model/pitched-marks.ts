import { neckAboveCapo } from '../../neck/capo.ts';
import { openMidi } from '../../voicing/tune/neck-range.ts';
import type { NoteMark } from '../syntax/marks.ts';
import { readChordName } from '../syntax/read-names.ts';
import { type ChordChange, chordAt } from './chord-track.ts';
import { resolveChord } from './chords.ts';
import { stringOfNote } from './plant.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';
import type { TimedGrid, TimedMark, TimedRow } from './timed-grid.ts';

/** A note of a row that has a fret of its own, as the lesson's own instrument sounds it under its capo. */
export interface PitchedNote {
  readonly note: NoteMark;
  /** Its place among the notes of its mark. */
  readonly index: number;
  readonly string: number;
  readonly fret: number;
  readonly midi: number;
}

/** Notes that are struck together, and what the left hand adds to the last of them in marks that follow. */
export interface PitchedMark {
  readonly mark: TimedMark;
  readonly notes: readonly PitchedNote[];
  readonly techniques: readonly TimedMark[];
  /** Name and label of the chord that is held, where it is known. */
  readonly chord?: string;
}

/**
 * The marks of a `pick` or tune row that say a pitch, in order, each once: those with frets of their own, and in a tune those that
 * take theirs from the row's chord. `own` is the scope of the lesson itself, `under` the chords that the grid goes over.
 */
export function pitchedMarks(
  own: Scope,
  grid: TimedGrid,
  row: TimedRow,
  under: readonly ChordChange[],
): readonly PitchedMark[] {
  if (row.kind !== 'pick' && row.kind !== 'tune') return [];
  const { instrument } = own.edition();
  const open = openMidi(neckAboveCapo(instrument));
  const strings = open.length;
  const rowChord = row.chord === undefined ? undefined : named(own, row.chord);
  const found: { mark: TimedMark; notes: PitchedNote[]; techniques: TimedMark[]; chord?: string }[] = [];
  for (const mark of row.marks) {
    if (mark.again === true) continue;
    if (mark.mark.kind === 'technique') {
      found.at(-1)?.techniques.push(mark);
      continue;
    }
    if (mark.mark.kind !== 'notes') continue;
    const chord = row.chord === undefined ? chordAt(under, mark.at) : rowChord;
    const notes = mark.mark.notes.flatMap((note, index): readonly PitchedNote[] => {
      const string = stringOfNote(note, chord, grid.plant?.strings, instrument);
      const openString = string === undefined ? undefined : open[strings - string];
      if (string === undefined || openString === undefined) return [];
      const held = row.kind === 'tune' ? chord?.shape[strings - string] : undefined;
      const fret = note.fret ?? (held === 'muted' ? undefined : held);
      return fret === undefined ? [] : [{ note, index, string, fret, midi: openString + fret }];
    });
    const text = row.chord ?? chord?.text;
    // What takes its frets from the shape goes on where techniques follow it.
    found.push({ mark, notes, techniques: [], ...(text === undefined ? {} : { chord: text }) });
  }
  return found.filter(({ notes }) => notes.length > 0);
}

function named(scope: Scope, text: string): ResolvedChord | undefined {
  return resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } }));
}
