import type { Shape } from '../../neck/shape.ts';
import { resolveChord } from '../model/chords.ts';
import { type MergedLine, mergedLines } from '../model/grid.ts';
import { stringOfNote } from '../model/plant.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { RowLabel } from '../model/timed-grid.ts';
import type { Mark, NoteMark } from '../syntax/marks.ts';
import type { GridStatement } from '../syntax/statement.ts';
import type { ChordName, Word } from '../syntax/words.ts';
import { shapeFret, wholeRows } from './check-grid.ts';
import { momentFaults } from './check-moments.ts';
import { techniqueFaults } from './check-techniques.ts';
import type { Report } from './finding.ts';

/**
 * A pattern over the chords that an exercise gives it: strings that a chord mutes, what the hand cannot do with a chord's own frets,
 * and a melody that has no row for a chord. Told once for each pattern and chord, where the exercise names the pattern.
 */
export function checkPlayable(
  report: Report,
  scope: Scope,
  use: Word,
  grid: GridStatement,
  chords: readonly ChordName[],
  told: Set<string>,
): void {
  const lines = mergedLines(scope, grid);
  const rows = lines.flatMap((line) => line.rows);
  const tunes = rows.filter((row) => row.kind === 'tune');
  const onlyLabelled =
    tunes.length > 0 && rows.every((row) => row.chord !== undefined || row.kind === 'fingers' || row.kind === 'words');
  for (const chord of chords) {
    const once = `${use.text} ${chord.text}`;
    if (told.has(once)) continue;
    told.add(once);
    if (onlyLabelled && !tunes.some((row) => row.chord === chord.text)) {
      report('hint', 'melody.no-row', use.span, `${use.text} has no row for ${chord.text}; nothing is played over it.`);
      continue;
    }
    const resolved = resolveChord(scope, chord);
    if (resolved === undefined) continue;
    checkMuted(report, scope, use, grid, lines, resolved);
    checkTechniques(report, scope, use, grid, lines, resolved);
    checkMoments(report, scope, use, grid, lines, resolved);
  }
}

/** True for a row that is played over the chord, but not written for it. */
function isForAny(row: RowLabel, lines: readonly MergedLine[], chord: ResolvedChord): boolean {
  if (row.chord !== undefined) return false;
  const rows = lines.flatMap((line) => line.rows);
  return !rows.some(({ kind, voice, chord: over }) => kind === row.kind && voice === row.voice && over === chord.text);
}

function checkMuted(
  report: Report,
  scope: Scope,
  use: Word,
  grid: GridStatement,
  lines: readonly MergedLine[],
  chord: ResolvedChord,
): void {
  for (const { cells, ...row } of lines.flatMap((line) => line.rows)) {
    if (row.chord !== chord.text && !isForAny(row, lines, chord)) continue;
    for (const { mark } of cells) {
      const muted =
        row.kind === 'pick'
          ? tellMutedNote(scope, use, grid, chord, mark)
          : row.kind === 'strum'
            ? tellMutedStroke(use, chord, mark)
            : undefined;
      if (muted === undefined) continue;
      const about = `${chord.text} ${muted.strings.join(' ')}`;
      report('warning', 'pattern.muted-string', use.span, muted.message, [], { about: [about] });
      return;
    }
  }
}

/** Strings of a pattern that a chord does not let sound. */
interface Muted {
  readonly strings: readonly number[];
  readonly message: string;
}

function tellMutedNote(
  scope: Scope,
  use: Word,
  grid: GridStatement,
  chord: ResolvedChord,
  mark: Mark,
): Muted | undefined {
  if (mark.kind !== 'notes') return undefined;
  for (const note of mark.notes) {
    const string = stringOfNote(note, chord, grid.plant?.strings, scope.edition().instrument);
    if (string === undefined || note.fret !== undefined || !isMuted(chord.shape, string)) continue;
    return { strings: [string], message: `${use.text} plays string ${string}, which ${chord.name} mutes.` };
  }
  return undefined;
}

/** A stroke over some strings, none of which the chord lets sound. */
function tellMutedStroke(use: Word, chord: ResolvedChord, mark: Mark): Muted | undefined {
  if (mark.kind !== 'strum' || mark.strings === undefined || mark.damped) return undefined;
  const [low, high] = [Math.min(...mark.strings), Math.max(...mark.strings)];
  const strings = chord.shape
    .map((_, at) => chord.shape.length - at)
    .filter((string) => string >= low && string <= high);
  if (strings.length === 0 || !strings.every((string) => isMuted(chord.shape, string))) return undefined;
  const [first, ...others] = strings;
  const which = others.length === 0 ? `string ${first}` : `strings ${first} to ${others.at(-1)}`;
  return { strings, message: `${use.text} strums ${which} alone, which ${chord.name} mutes: nothing sounds.` };
}

function isMuted(shape: Shape, string: number): boolean {
  return shape[shape.length - string] === 'muted';
}

/** Techniques that begin at a fret of the shape; those from a written fret are told where they are written. */
function checkTechniques(
  report: Report,
  scope: Scope,
  use: Word,
  grid: GridStatement,
  lines: readonly MergedLine[],
  chord: ResolvedChord,
): void {
  for (const row of wholeRows(lines)) {
    if (!isForAny(row, lines, chord) || !row.cells.some(({ mark }) => hasTechnique(mark))) continue;
    const known = new Set(techniqueFaults(row.kind, row.cells, (note) => note.fret).map(({ span }) => span));
    const fretOf = (note: NoteMark) => note.fret ?? shapeFret(scope, note, chord, grid.plant?.strings);
    const fault = techniqueFaults(row.kind, row.cells, fretOf).find(({ span }) => !known.has(span));
    if (fault === undefined) continue;
    const message = `In ${use.text} over ${chord.name}, at ${fault.cell.word.text}: ${fault.message}`;
    const about = [chord.text, fault.cell.word.text, fault.cell.word.span.start, fault.about].join(' ');
    report(fault.severity, fault.code, use.span, message, [], { about: [about] });
    return;
  }
}

function hasTechnique(mark: Mark): boolean {
  return (
    mark.kind === 'technique' || (mark.kind === 'notes' && mark.notes.some(({ techniques }) => techniques.length > 0))
  );
}

/** What meets on one string because the thumb looks for the chord's root. */
function checkMoments(
  report: Report,
  scope: Scope,
  use: Word,
  statement: GridStatement,
  lines: readonly MergedLine[],
  chord: ResolvedChord,
): void {
  const seeks = (mark: Mark) =>
    mark.kind === 'notes' &&
    mark.notes.some(({ string, finger, bass }) => bass !== undefined || (string === undefined && finger === 'p'));
  if (!lines.some(({ rows }) => rows.some(({ cells }) => cells.some(({ mark }) => seeks(mark))))) return;
  const grid = scope.timed(statement);
  if (grid === undefined) return;
  const known = new Set(momentFaults(scope, grid, undefined).map(({ message }) => message));
  const fault = momentFaults(scope, grid, chord).find(({ message }) => !known.has(message));
  if (fault === undefined) return;
  const message = `In ${use.text} over ${chord.name}: ${fault.message}`;
  const { text, span } = fault.mark.word;
  const about = [chord.text, text, span.start, fault.about].join(' ');
  report(fault.severity, fault.code, use.span, message, [], { about: [about] });
}
