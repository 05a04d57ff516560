import { compare, plus, type Rational, ZERO } from '../../theory/rational.ts';
import { type ChordChange, chordAt, withChanges } from '../model/chord-track.ts';
import { resolveChord } from '../model/chords.ts';
import { chordsIn } from '../model/chords-in.ts';
import { ringOfExercise } from '../model/moved-ring.ts';
import { appliesTo, changesOf, longest, type Placement, placedFrom, sounds, turnsOf } from '../model/placements.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedMark, TimedRow } from '../model/timed-grid.ts';
import { isNoChord, readChordName } from '../syntax/read-names.ts';
import type { ExerciseStatement, Ring } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import { type AddedFault, faultsOfStep, startsOf } from './added-faults.ts';
import { type AddedStep, addedSteps } from './added-steps.ts';
import { faultsOnChord, keepingStrings, stepsOnNeck, struckByShape } from './check-added.ts';
import { printRing } from './check-ring.ts';
import type { Report } from './finding.ts';
import { barAt, type LaidOut, tellBar, useOf } from './laid-out.ts';

/** Patterns over chords, on one line of time. */
interface Piece {
  readonly placements: readonly Placement[];
  readonly changes: readonly ChordChange[];
  /** `bar 3`; absent where a pattern meets one chord after another. */
  readonly whereIs?: (time: Rational) => string;
}

/**
 * Frets beside the shape in rows that are for any chord, as the exercise brings them together: what must sound meanwhile, because
 * another string is struck or `ring` names it, keeps its finger. Told once for each pattern and chord, at the pattern's name.
 */
export function checkUnnamedRows(
  report: Report,
  scope: Scope,
  statement: ExerciseStatement,
  passes: readonly LaidOut[],
): void {
  const told = new Set<string>();
  const known = new Map<string, readonly AddedFault[]>();
  for (const piece of statement.play === undefined ? piecesOver(scope, statement) : passes.map(pieceOf)) {
    for (const placement of piece.placements) {
      for (const row of placement.grid.rows) {
        if (hasFrets(row)) checkRow(report, scope, statement, { piece, placement, row, told, known });
      }
    }
  }
}

function pieceOf({ placements, changes, bars }: LaidOut): Piece {
  return {
    placements,
    changes,
    whereIs: (time) => {
      const bar = barAt(bars, time);
      return bar === undefined ? '' : `, ${tellBar(bar)}`;
    },
  };
}

/** `over … each`: every chord with every member of the list. */
function piecesOver(scope: Scope, statement: ExerciseStatement): readonly Piece[] {
  const members = statement.each?.members ?? [];
  const turns = turnsOf(
    scope,
    members.map((member) => ({ ...member, times: 1 })),
  ).filter((grids) => grids.some(({ rows }) => rows.some(hasFrets)));
  if (turns.length === 0) return [];
  return chordsOver(scope, statement).flatMap((name) => {
    const chord = resolveChord(scope, name);
    return turns.map((grids): Piece => {
      const end = longest(grids) ?? ZERO;
      const placements = grids.map((grid) => placedFrom(grid, ZERO, end));
      const own = placements.flatMap((placement) => changesOf(placement, (mark) => chordOf(scope, mark)));
      return { placements, changes: withChanges([{ at: ZERO, chord }], own) };
    });
  });
}

function chordOf(scope: Scope, { mark }: TimedMark): ResolvedChord | undefined {
  return mark.kind === 'chord' ? resolveChord(scope, mark.chord) : undefined;
}

function chordsOver(scope: Scope, statement: ExerciseStatement): readonly ChordName[] {
  const names = (statement.over?.members ?? []).flatMap((member) => member.names);
  const chords = names.flatMap((word): readonly ChordName[] => {
    const progression = scope.progression(word.text);
    if (progression !== undefined) return chordsIn(progression);
    return isNoChord(word.text) ? [] : [readChordName(word)];
  });
  return [...new Map(chords.map((chord) => [chord.text, chord])).values()];
}

/** True for a row for any chord that asks for frets of its own. */
function hasFrets({ kind, chord, marks }: TimedRow): boolean {
  if (chord !== undefined || (kind !== 'pick' && kind !== 'tune')) return false;
  return marks.some(
    ({ mark }) =>
      mark.kind === 'technique' ||
      (mark.kind === 'notes' && mark.notes.some(({ fret, techniques }) => fret !== undefined || techniques.length > 0)),
  );
}

interface RowAsked {
  readonly piece: Piece;
  readonly placement: Placement;
  readonly row: TimedRow;
  /** What was told, by pattern and chord. */
  readonly told: Set<string>;
  /** What was found, by everything that it depends on. */
  readonly known: Map<string, readonly AddedFault[]>;
}

function checkRow(report: Report, scope: Scope, statement: ExerciseStatement, asked: RowAsked): void {
  const { piece, placement, row, told, known } = asked;
  const { grid, start } = placement;
  const use = useOf(statement, placement);
  if (use === undefined) return;
  const { instrument } = scope.edition();
  const chordIn = (at: Rational) => chordAt(piece.changes, plus(start, at));
  const others = grid.rows
    .filter((other) => other !== row && hasFrets(other))
    .flatMap((other) => addedSteps(grid, other, chordIn, instrument));
  for (const step of stepsOnNeck(scope, addedSteps(grid, row, chordIn, instrument))) {
    const at = plus(start, step.at);
    const chord = chordAt(piece.changes, at);
    if (chord === undefined || !sounds(placement, at) || !appliesTo(row, chord, grid)) continue;
    checkRinging(report, ringOfExercise(scope, statement), use.text, use.span, step, chord, told);
    if (told.has(`${use.text} ${chord.text}`)) continue;
    const needed = neededStrings(scope, statement, asked, step, chord);
    if (![...needed].some((index) => isStopped(chord, index))) continue;
    const beside = others.filter((other) => compare(other.at, step.at) <= 0 && compare(step.at, other.end) < 0);
    const key = [
      use.text,
      chord.text,
      step.mark.word.span.start,
      step.mark.entry.text.length,
      [...needed].sort(),
    ].join();
    const faults =
      known.get(key) ??
      faultsOnChord(scope, chord, [step], (kept) => {
        const shape = keepingStrings(kept, needed);
        const own = new Set(step.notes.map(({ string }) => chord.shape.length - string));
        const besideNotes = beside
          .flatMap((other) => startsOf(shape, other))
          .filter((note) => !own.has(note.stringIndex));
        return faultsOfStep(
          { name: chord.text, kept: shape, beside: besideNotes, mustSound: (index) => needed.has(index) },
          step,
        );
      });
    known.set(key, faults);
    const [fault] = faults;
    if (fault === undefined) continue;
    told.add(`${use.text} ${chord.text}`);
    const where = `In ${use.text}${piece.whereIs?.(at) ?? ''}, at ${step.mark.word.text}`;
    const said = fault.tell();
    const { text, span } = step.mark.word;
    const about = `${text} ${span.start} ${fault.about ?? said}`;
    report(fault.severity, fault.code, use.span, `${where}: ${said}`, [], { about: [about] });
  }
}

/** Strings, as places in chart order, that must keep their fingers while a step sounds. */
function neededStrings(
  scope: Scope,
  statement: ExerciseStatement,
  { piece, placement, row }: RowAsked,
  step: AddedStep,
  chord: ResolvedChord,
): ReadonlySet<number> {
  const strings = chord.shape.length;
  const ring = ringOfExercise(scope, statement) ?? placement.grid.ring;
  const begins = plus(placement.start, step.at);
  // What is picked rings on where nothing else is said, so that what was struck before the note counts too.
  const from = row.kind === 'pick' && ring === undefined ? placement.from : begins;
  const to = plus(placement.start, step.end);
  const needed = new Set<number>();
  if (ring?.kind === 'strings') for (const string of ring.strings) needed.add(strings - string);
  if (ring?.kind === 'all') for (let index = 0; index < strings; index += 1) needed.add(index);
  for (const other of piece.placements) {
    if (compare(other.end, from) <= 0 || compare(other.from, to) >= 0) continue;
    for (const beside of other.grid.rows) {
      // The next note of a tune's own row ends this one.
      if (beside === row && row.kind === 'tune') continue;
      if (beside.kind !== 'pick' && beside.kind !== 'strum') continue;
      if (!appliesTo(beside, chord, other.grid)) continue;
      for (const mark of beside.marks) {
        const at = plus(other.start, mark.at);
        if (compare(at, from) < 0 || compare(at, to) >= 0 || !sounds(other, at)) continue;
        if (chordAt(piece.changes, at)?.text !== chord.text) continue;
        for (const index of struckByShape(mark, chord, other.grid.plant?.strings, scope)) needed.add(index);
      }
    }
  }
  // The note has its own string to itself.
  for (const { string } of step.notes) needed.delete(strings - string);
  return needed;
}

function isStopped({ shape }: ResolvedChord, index: number): boolean {
  const fret = shape[index];
  return fret !== undefined && fret !== 'muted' && fret > 0;
}

/** A string that the exercise says must ring on, and that a note of its pattern stops at another fret than the shape's. */
function checkRinging(
  report: Report,
  ring: Ring | undefined,
  name: string,
  span: { readonly start: number; readonly end: number },
  step: AddedStep,
  chord: ResolvedChord,
  told: Set<string>,
): void {
  if (ring?.kind !== 'strings') return;
  for (const { string, frets } of step.notes) {
    const [fret] = frets;
    if (!ring.strings.includes(string) || fret === undefined || fret === 0) continue;
    if (chord.shape[chord.shape.length - string] === fret || told.has(`${name} ring ${string}`)) continue;
    told.add(`${name} ring ${string}`);
    const message = `String ${string} is to ring on (ring ${printRing(ring)}), but ${name} stops it at fret ${fret}, at ${step.mark.word.text}.`;
    report('warning', 'ring.stopped', span, message, [], { about: [String(string)] });
  }
}
