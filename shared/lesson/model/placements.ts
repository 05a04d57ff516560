import { compare, later, minus, plus, type Rational, ZERO } from '../../theory/rational.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import type { ListMember } from '../syntax/words.ts';
import { alongRepeats } from './along-repeats.ts';
import type { ChordChange } from './chord-track.ts';
import { type Passage, passagesOf } from './passages.ts';
import type { OrderedBar } from './played-order.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';
import type { TimedGrid, TimedMark, TimedRow } from './timed-grid.ts';
import { endOf, inTurn, lasting, lateOf, longestLead, type Part, type Turn } from './turns.ts';

/** A grid that begins at `start` and is heard from `from` until `end`: a bar of its middle may be left to another pattern. */
export interface Placement {
  readonly grid: TimedGrid;
  readonly start: Rational;
  readonly from: Rational;
  readonly end: Rational;
}

/** True when what the placement plays at this time is heard. */
export function sounds({ from, end }: Placement, at: Rational): boolean {
  return compare(at, from) >= 0 && compare(at, end) < 0;
}

/** What the placing of patterns needs to know of a bar. */
export interface PlacedBar extends OrderedBar {
  /** Absent for a pickup. */
  readonly number?: number;
  readonly length: Rational;
  /** No chord: N.C. */
  readonly chords: readonly { readonly at: Rational; readonly chord?: ResolvedChord | undefined }[];
}

/** The patterns of one time through: running on over bars and chords, or starting anew where the exercise says so, with single bars replaced. */
export function fillBars(
  scope: Scope,
  statement: ExerciseStatement,
  frames: readonly PlacedBar[],
  members: readonly ListMember[],
): readonly Placement[] {
  const starts = startsOf(frames);
  const last = frames.at(-1);
  if (last === undefined) return [];
  const total = plus(starts.at(-1) ?? ZERO, last.length);
  const turns = turnsOf(scope, members);
  const begin = beginOf(frames, turns[0] ?? []);

  const replaced = frames.flatMap((frame, index) => {
    const { number, ending } = frame;
    const byBar = statement.at.find(({ bars }) => number !== undefined && bars.includes(number));
    const byEnding = statement.at.find(
      ({ endings }) => ending?.begins === true && ending.numbers.some((ended) => endings.includes(ended)),
    );
    const start = starts[index];
    const at = byBar ?? byEnding;
    if (at === undefined || start === undefined) return [];
    const last = byBar === undefined ? endOfEnding(frames, index) : index;
    const end = plus(starts[last] ?? start, frames[last]?.length ?? ZERO);
    return [{ start, end, turns: turnsOf(scope, at.members) }];
  });

  const main =
    statement.restart === undefined
      ? runThrough(turns, begin, frames, starts, total)
      : cutsOf(statement, frames, starts, begin, total).flatMap(([from, to]) => run(turns, from, to));
  const around = replaced.reduce(
    (placements, window) => placements.flatMap((placement) => outside(placement, window)),
    main,
  );
  const inside = replaced.flatMap(({ turns, start, end }) => run(turns, plus(start, lateOf(turns[0] ?? [])), end));
  return [...around, ...inside];
}

/**
 * The turns through all passages. One whose count repeats as the bars do is read along with them; what follows goes on behind it with
 * the next turn.
 */
function runThrough(
  turns: readonly (readonly TimedGrid[])[],
  begin: Rational,
  frames: readonly PlacedBar[],
  starts: readonly Rational[],
  total: Rational,
): readonly Placement[] {
  const music = { frames, starts, passages: passagesOf(frames, starts, total) };
  const placements: Placement[] = [];
  let ahead = lasting(turns);
  let from = begin;
  for (;;) {
    const { placed, along } = untilReadAlong(ahead, from, music);
    placements.push(...placed);
    if (along === undefined) return placements;
    ahead = [...ahead.slice(along.index + 1), ...ahead.slice(0, along.index + 1)];
    from = along.end;
  }
}

interface Music {
  readonly passages: readonly Passage[];
  readonly frames: readonly PlacedBar[];
  readonly starts: readonly Rational[];
}

/** The turns from a time on, up to the first that is read along with the bars; that one ends where its text does. */
function untilReadAlong(
  turns: readonly (readonly TimedGrid[])[],
  begin: Rational,
  { passages, frames, starts }: Music,
): { readonly placed: readonly Placement[]; readonly along?: Turn } {
  const placed: Placement[] = [];
  const ahead = passages.filter(({ to }) => compare(to, begin) > 0);
  const before = ahead[0]?.shift ?? ZERO;
  for (const [index, passage] of ahead.entries()) {
    const from = index === 0 ? begin : passage.from;
    for (const turn of inTurn(turns, plus(begin, minus(passage.shift, before)), passage.to)) {
      const { parts, end } = turn;
      if (compare(end, from) <= 0) continue;
      const along = compare(turn.start, from) < 0 ? undefined : readAlong(parts, frames, starts);
      if (along !== undefined) {
        placed.push(...along.parts.map(({ grid, start }): Placement => ({ grid, start, from: start, end: along.end })));
        return { placed, along: { ...turn, end: along.end } };
      }
      placed.push(...parts.map(({ grid, start }): Placement => ({ grid, start, from: later(start, from), end })));
    }
  }
  return { placed };
}

/** Patterns that begin together, those in the order of their text that repeat as the bars do; undefined where none does. */
function readAlong(
  parts: readonly Part[],
  frames: readonly PlacedBar[],
  starts: readonly Rational[],
): { readonly parts: readonly Part[]; readonly end: Rational } | undefined {
  const read = parts.map(({ grid, start }) => ({ start, grid: alongRepeats(grid, start, frames, starts) ?? grid }));
  if (read.every(({ grid }, index) => grid === parts[index]?.grid)) return undefined;
  return { parts: read, end: endOf(read) };
}

/** The last bar of the ending that begins with a bar. */
function endOfEnding(frames: readonly PlacedBar[], first: number): number {
  let last = first;
  while (frames[last]?.ending?.ends === false && frames[last + 1]?.ending?.begins === false) last += 1;
  return last;
}

/** Stretches in each of which the list of patterns begins again. */
function cutsOf(
  statement: ExerciseStatement,
  frames: readonly PlacedBar[],
  starts: readonly Rational[],
  begin: Rational,
  total: Rational,
): readonly (readonly [Rational, Rational])[] {
  if (statement.restart === undefined) return [[begin, total]];
  const points = statement.restart.at === 'bar' ? starts : newChords(frames, starts);
  const inOrder = points.filter((point) => compare(point, begin) > 0);
  return [begin, ...inOrder].map((point, index) => [point, inOrder[index] ?? total]);
}

/** Where a chord is taken that was not held before: one that is struck again, or a bar that is played again, is no new chord. */
function newChords(frames: readonly PlacedBar[], starts: readonly Rational[]): readonly Rational[] {
  let held: string | undefined;
  let isFirst = true;
  return frames.flatMap((frame, index) =>
    frame.chords.flatMap(({ at, chord }) => {
      const isNew = isFirst || chord?.text !== held;
      isFirst = false;
      held = chord?.text;
      return isNew ? [plus(starts[index] ?? ZERO, at)] : [];
    }),
  );
}

/**
 * Where the patterns begin: as far before the first full bar as one of them that is counted from inside a bar does, else with that
 * bar; where there is no pickup, as far into it.
 */
function beginOf(frames: readonly PlacedBar[], grids: readonly TimedGrid[]): Rational {
  const first = frames[0];
  if (first === undefined || first.number !== undefined) return lateOf(grids);
  return later(ZERO, minus(first.length, longestLead(grids)));
}

function run(turns: readonly (readonly TimedGrid[])[], from: Rational, to: Rational): readonly Placement[] {
  return inTurn(lasting(turns), from, to).flatMap(({ parts, end }) =>
    parts.map(({ grid, start }): Placement => ({ grid, start, from: start, end })),
  );
}

export function turnsOf(scope: Scope, members: readonly ListMember[]): readonly (readonly TimedGrid[])[] {
  return members.flatMap((member) => {
    const grids = gridsOf(scope, member);
    return Array.from({ length: member.times }, () => grids);
  });
}

/** What is left of a placement around a window that something else fills. */
function outside(
  placement: Placement,
  window: { readonly start: Rational; readonly end: Rational },
): readonly Placement[] {
  if (compare(placement.end, window.start) <= 0 || compare(placement.from, window.end) >= 0) return [placement];
  const before = compare(placement.from, window.start) < 0 ? [{ ...placement, end: window.start }] : [];
  const behind = compare(placement.end, window.end) > 0 ? [{ ...placement, from: window.end }] : [];
  return [...before, ...behind];
}

function gridsOf(scope: Scope, member: ListMember): readonly TimedGrid[] {
  return member.names.flatMap((word) => {
    const statement = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text);
    const grid = statement === undefined ? undefined : scope.timed(statement);
    return grid === undefined ? [] : [grid];
  });
}

/** A grid in bars of its own, which begin at a time: it starts on the count that it says, which may be inside the first. */
export function placedFrom(grid: TimedGrid, barStart: Rational, end: Rational): Placement {
  const start = plus(barStart, grid.startsAt);
  return { grid, start, from: start, end };
}

/** Length of the longest of grids that begin together, from the start of the bar that they begin in. */
export function longest(grids: readonly TimedGrid[]): Rational | undefined {
  return grids.reduce<Rational | undefined>((most, grid) => {
    const length = plus(grid.startsAt, grid.length);
    return most === undefined || compare(length, most) > 0 ? length : most;
  }, undefined);
}

/** Where each bar begins, from the start of the first. */
export function startsOf(frames: readonly Pick<PlacedBar, 'length'>[]): readonly Rational[] {
  const starts: Rational[] = [];
  let at: Rational = ZERO;
  for (const frame of frames) {
    starts.push(at);
    at = plus(at, frame.length);
  }
  return starts;
}

/** A change of chord inside a pattern, and the mark that makes it. */
export interface PatternChange extends ChordChange {
  readonly mark: TimedMark;
}

/** Chord changes that a placement's own `chord` row makes. */
export function changesOf(
  placement: Placement,
  resolve: (text: TimedMark) => ResolvedChord | undefined,
): readonly PatternChange[] {
  return placement.grid.rows
    .filter((row) => row.kind === 'chord')
    .flatMap((row) =>
      row.marks.flatMap((mark): PatternChange[] => {
        const at = plus(placement.start, mark.at);
        return mark.mark.kind === 'chord' && sounds(placement, at) ? [{ at, chord: resolve(mark), mark }] : [];
      }),
    );
}

/** A row for one chord plays over that chord only; a row for any chord leaves it to a row that is there for it. */
export function appliesTo(row: TimedRow, chord: ResolvedChord | undefined, grid: TimedGrid): boolean {
  if (row.chord !== undefined) return row.chord === chord?.text;
  return !grid.rows.some(
    (other) =>
      other.kind === row.kind && other.voice === row.voice && other.chord !== undefined && other.chord === chord?.text,
  );
}
