import { type KeptShape, keptBy } from '../../hand/added-notes.ts';
import type { Mark, NoteMark } from '../syntax/marks.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { GridStatement } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';
import { resolveChord } from './chords.ts';
import { chordsUnder } from './chords-under.ts';
import { fingeringFor } from './fingerings.ts';
import { baseOf } from './grid.ts';
import { createMemo } from './memo.ts';
import { writeFingers } from './moved-fingers.ts';
import type { MovedRemark } from './moved-remark.ts';
import { stringMove } from './moved-strings.ts';
import { type MovedMark, type MovedTune, movedTechnique, moveTune } from './moved-tune.ts';
import { pitchedMarks } from './pitched-marks.ts';
import type { Scope } from './scope.ts';
import { tellMovedTune } from './tell-moved-tune.ts';
import { sameLabel, type TimedGrid } from './timed-grid.ts';

/** A pattern or melody as an edition in the same key plays it. */
export interface MovedGrid {
  /** The lesson's own statement with its marks on the strings and frets of the other instrument; every span is the lesson's. */
  readonly statement: GridStatement;
  readonly remarks: readonly MovedRemark[];
  /** By how many octaves its tune sounds away from the lesson's own; absent where it has none. */
  readonly octaves?: number;
}

const memo = createMemo<MovedGrid>();

/** The lesson's own statements by what they were moved to. */
const origins = new WeakMap<GridStatement, GridStatement>();

/** The statement of the text that this one comes from: itself, but for one that was moved to another instrument. */
export function writtenGrid(statement: GridStatement): GridStatement {
  return origins.get(statement) ?? statement;
}

/**
 * A grid of the lesson on the scope's edition, which is in the same key: what sounds a pitch of its own goes to where the other
 * instrument has it, with fingers chosen anew; what takes its fret from the shape follows the shape. The same value while nothing
 * that it depends on changes.
 */
export function movedGrid(scope: Scope, statement: GridStatement, seen: readonly GridStatement[] = []): MovedGrid {
  const [own] = scope.editions();
  const entry = own?.entryOf(statement);
  if (own === undefined || entry === undefined || hasSameStrings(scope)) return { statement, remarks: [] };
  const variant = `${scope.edition().name} ${statement.kind}`;
  return memo.get(entry, scope, variant, (asked) => moved(asked, entry, statement, [...seen, statement]));
}

function hasSameStrings(scope: Scope): boolean {
  const [own, other] = [scope.ownInstrument().openStrings, scope.edition().instrument.openStrings];
  return (
    own.length === other.length &&
    own.every(({ letter, accidental, octave }, at) => {
      const there = other[at];
      return letter === there?.letter && accidental === there.accidental && octave === there.octave;
    })
  );
}

function moved(scope: Scope, entry: Entry, statement: GridStatement, seen: readonly GridStatement[]): MovedGrid {
  const [own] = scope.editions();
  const grid = own === undefined ? undefined : own.timed(statement);
  if (own === undefined || grid === undefined) return { statement, remarks: [] };
  const written = baseOf(own, statement);
  const base = written === undefined || seen.includes(written) ? undefined : movedGrid(scope, written, seen);
  const remarks: MovedRemark[] = [];
  const marks = new Map<Word, Mark>();
  const strings = movedStrings(scope, own, grid, marks);
  // What a pattern takes over from another one is told there.
  const isToldThere = base?.remarks.some(({ message }) => message === strings?.told) === true;
  if (strings?.told !== undefined && !isToldThere) {
    const span = statement.name?.span ?? statement.span;
    remarks.push({ severity: 'hint', code: 'pattern.strings-moved', span, message: strings.told });
  }
  const tune = movedRows(scope, own, grid, base, marks);
  for (const remark of tune.flatMap((way) => tellMovedTune(scope, way, entry))) {
    const isOctave = remark.code === 'tune.octave-moved';
    if (!isOctave || !remarks.some(({ code }) => code === remark.code)) remarks.push(remark);
  }
  const lines = statement.lines.map((line) => ({
    ...line,
    rows: line.rows.map((row) => ({
      ...row,
      cells: row.cells.map((cell) => {
        const mark = marks.get(cell.word);
        return mark === undefined ? cell : { ...cell, mark };
      }),
    })),
  }));
  const { ring, plant } = statement;
  const there: GridStatement = {
    ...statement,
    lines,
    ...(ring === undefined || strings === undefined ? {} : { ring: { ...ring, ring: strings.ring(ring.ring) } }),
    ...(plant === undefined || strings === undefined
      ? {}
      : { plant: { ...plant, strings: strings.plant(plant.strings) } }),
  };
  origins.set(there, statement);
  const octaves = tune[0]?.octaves ?? base?.octaves;
  return { statement: there, remarks, ...(octaves === undefined ? {} : { octaves }) };
}

/** Marks that say strings and no pitch, where there are more strings or fewer. */
function movedStrings(scope: Scope, own: Scope, grid: TimedGrid, marks: Map<Word, Mark>) {
  const [from, to] = [own, scope].map((one) => one.edition().instrument.openStrings.length);
  if (from === undefined || to === undefined || from === to) return undefined;
  const move = stringMove(grid, from, to);
  for (const { kind, marks: timed } of grid.rows) {
    if (kind === 'tune' || kind === 'fingers') continue;
    for (const { mark, word } of timed) {
      if (mark.kind !== 'notes') marks.set(word, move.mark(mark));
      else
        marks.set(word, {
          ...mark,
          notes: mark.notes.map((note) => (note.fret === undefined ? move.note(note) : note)),
        });
    }
  }
  return move;
}

/** Every row that says pitches, in its new place; what its marks become goes into `marks`. */
function movedRows(
  scope: Scope,
  own: Scope,
  grid: TimedGrid,
  base: MovedGrid | undefined,
  marks: Map<Word, Mark>,
): readonly MovedTune[] {
  const under = chordsUnder(own, grid.statement);
  const given = base === undefined ? new Map<Word, Mark>() : marksOf(base.statement);
  const ground = {
    instrument: scope.edition().instrument,
    keptFor: keptShapes(scope),
    fixed: ({ mark }: MovedMark['from']): readonly NoteMark[] | undefined => {
      const there = given.get(mark.word);
      return there?.kind === 'notes' ? there.notes : undefined;
    },
  };
  const rows = grid.rows.flatMap((row) => {
    const pitched = pitchedMarks(own, grid, row, under);
    return pitched.length === 0
      ? []
      : [{ row, marks: pitched, ...(row.chord === undefined ? {} : { chord: row.chord }) }];
  });
  // All rows of a grid belong to one tune, or are heard together.
  const moved = moveTune(rows, ground, base?.octaves);
  for (const [at, { row }] of rows.entries()) {
    const way = moved[at];
    if (way === undefined) continue;
    for (const one of way.marks) writeMark(one, marks);
    for (const fingers of grid.rows) {
      if (fingers.fingersOf !== undefined && sameLabel(fingers.fingersOf, row))
        writeFingers(fingers, way, ground.keptFor, marks);
    }
  }
  return moved;
}

function marksOf({ lines }: GridStatement): Map<Word, Mark> {
  return new Map(
    lines.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells.map(({ word, mark }): [Word, Mark] => [word, mark]))),
  );
}

/** The shape that is held for a chord of the lesson; each looked for once. */
function keptShapes(scope: Scope): (text: string | undefined) => KeptShape | undefined {
  const known = new Map<string, KeptShape | undefined>();
  return (text) => {
    if (text === undefined) return undefined;
    if (known.has(text)) return known.get(text);
    const chord = resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } }));
    const held = chord === undefined ? undefined : fingeringFor(scope, chord);
    const kept =
      chord === undefined || held === undefined
        ? undefined
        : keptBy(scope.edition().instrument, scope.setting('hand'), chord.shape, held);
    known.set(text, kept);
    return kept;
  };
}

function writeMark({ from, notes }: MovedMark, marks: Map<Word, Mark>): void {
  const { mark, word } = from.mark;
  if (mark.kind !== 'notes') return;
  const before = marks.get(word);
  const list = before?.kind === 'notes' ? before.notes : mark.notes;
  const changed = list.map((note, index): NoteMark => {
    const there = notes.find((one) => one.from.index === index);
    if (there === undefined) return note;
    const { bass: _, ...rest } = note;
    return { ...rest, string: there.string, fret: there.fret, techniques: there.techniques };
  });
  marks.set(word, { kind: 'notes', notes: changed });
  const last = notes.at(-1);
  for (const { mark: following, word: place } of from.techniques) {
    if (last === undefined || following.kind !== 'technique') continue;
    marks.set(
      place,
      last.withoutTechnique
        ? { kind: 'hold' }
        : { kind: 'technique', technique: movedTechnique(following.technique, last.fret - last.from.fret) },
    );
  }
}
