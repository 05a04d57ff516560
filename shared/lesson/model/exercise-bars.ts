import { barLength, beatLength, type Meter } from '../../theory/meter.ts';
import { compare, minus, over, plus, type Rational, toNumber, ZERO } from '../../theory/rational.ts';
import { isNoChord, readChordName } from '../syntax/read-names.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import type { ChordName, ListMember } from '../syntax/words.ts';
import { type ChordChange, chordAt, withChanges } from './chord-track.ts';
import { resolveChord } from './chords.ts';
import { chordsIn } from './chords-in.ts';
import { ringOfExercise } from './moved-ring.ts';
import { changesOf, fillBars, longest, type Placement, placedFrom, startsOf, turnsOf } from './placements.ts';
import { playedOrder } from './played-order.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';
import { type Stroke, strokesOf } from './strokes.ts';
import { playedProgressions, type WrittenBar, writtenBars } from './written-bars.ts';

/** When strings are struck or put out. */
export interface HandStroke extends Omit<Stroke, 'at' | 'strummed'> {
  readonly at: number;
  /**
   * A strum off the beat: right before a change the hand may leave during it, and open strings sound. Common practice, no source:
   * teachers say so to everybody who strums in eighths.
   */
  readonly weak: boolean;
}

/** A bar for the fretting hand: which chords it takes, and when it is heard. Times from the start of the bar. Unit: whole notes. */
export interface HandBar {
  /** Absent for a pickup. */
  readonly number?: number;
  readonly length: number;
  readonly chords: readonly { readonly at: number; readonly chord: ResolvedChord | undefined }[];
  readonly strokes: readonly HandStroke[];
}

/** What an exercise asks of the fretting hand on the scope's edition, in the order in which it is played. */
export interface HandPart {
  readonly bars: readonly HandBar[];
  /** Whether a pattern or melody is played; without one nobody knows when strings sound. */
  readonly hasStrokes: boolean;
  /** The meter in which the exercise begins. */
  readonly begins: Meter;
}

export function handPart(scope: Scope, statement: ExerciseStatement): HandPart {
  const meter = statement.meter?.meter ?? scope.setting('meter');
  return statement.play === undefined ? overChords(scope, statement, meter) : played(scope, statement, meter);
}

function played(scope: Scope, statement: ExerciseStatement, meter: Meter): HandPart {
  const bars = writtenBars(scope, playedProgressions(scope, statement), meter);
  const order = playedOrder(bars);
  const passes = statement.with.length === 0 ? [[]] : statement.with.map(({ members }) => members);
  const handBars = passes.flatMap((members) => {
    const placed = handBarsOf(scope, statement, bars, fillBars(scope, statement, bars, members));
    return order.flatMap((at) => placed[at] ?? []);
  });
  return { bars: handBars, hasStrokes: statement.with.length > 0, begins: bars[0]?.meter ?? meter };
}

/** `over … each`: every chord gets the whole list, in bars of its own. */
function overChords(scope: Scope, statement: ExerciseStatement, meter: Meter): HandPart {
  const chords = (statement.over?.members ?? []).flatMap((member) => chordsOfMember(scope, member));
  const turns = turnsOf(scope, statement.each?.members ?? []);
  const bars: WrittenBar[] = [];
  const placements: Placement[] = [];
  let start: Rational = ZERO;
  for (const name of chords) {
    const chord = resolveChord(scope, name);
    for (const grids of turns.length > 0 ? turns : [[]]) {
      const full = barLength(meter);
      const length = longest(grids) ?? full;
      const count = Math.max(1, Math.ceil(toNumber(over(length, full))));
      let end = start;
      for (let index = 0; index < count; index += 1) {
        const held = index === 0 && chord !== undefined ? [{ at: ZERO, chord }] : [];
        bars.push({ number: bars.length + 1, length: full, chords: held, opens: false, closes: false, meter });
        end = plus(end, full);
      }
      for (const grid of grids) placements.push(placedFrom(grid, start, end));
      start = end;
    }
  }
  return { bars: handBarsOf(scope, statement, bars, placements), hasStrokes: turns.length > 0, begins: meter };
}

function chordsOfMember(scope: Scope, { names, times }: ListMember): readonly ChordName[] {
  const once = names.flatMap((word): readonly ChordName[] => {
    const progression = scope.progression(word.text);
    if (progression !== undefined) return chordsIn(progression);
    return isNoChord(word.text) ? [] : [readChordName(word)];
  });
  return Array.from({ length: times }, () => once).flat();
}

function handBarsOf(
  scope: Scope,
  statement: ExerciseStatement,
  bars: readonly WrittenBar[],
  placements: readonly Placement[],
): readonly HandBar[] {
  const starts = startsOf(bars);
  const written = bars.flatMap(({ chords }, index) =>
    chords.map(({ at, chord }): ChordChange => ({ at: plus(starts[index] ?? ZERO, at), chord })),
  );
  const added = placements.flatMap((placement) =>
    changesOf(placement, ({ mark }) => (mark.kind === 'chord' ? resolveChord(scope, mark.chord) : undefined)),
  );
  const changes = withChanges(written, added);
  const { instrument } = scope.edition();
  const ring = ringOfExercise(scope, statement);
  const strokes = placements.flatMap((placement) =>
    strokesOf(placement, (time) => chordAt(changes, time), instrument, ring),
  );
  const chordsByBar = byBar(changes, starts);
  const strokesByBar = byBar(strokes, starts);
  return bars.map(({ length, number, meter }, index) => {
    const beat = toNumber(beatLength(meter));
    return {
      length: toNumber(length),
      chords: (chordsByBar[index] ?? []).map(({ at, item }) => ({ at, chord: item.chord })),
      strokes: (strokesByBar[index] ?? [])
        .map(({ at, item: { strummed, needsShape, struck, ringing, putOut } }) => ({
          needsShape,
          struck,
          ringing,
          putOut,
          at,
          weak: strummed && !Number.isInteger(at / beat),
        }))
        .sort((one, other) => one.at - other.at),
      ...(number === undefined ? {} : { number }),
    };
  });
}

/** What stands in each bar, with its time from the bar's start in whole notes. */
function byBar<T extends { readonly at: Rational }>(
  items: readonly T[],
  starts: readonly Rational[],
): readonly (readonly { readonly at: number; readonly item: T }[])[] {
  const bars = starts.map((): { at: number; item: T }[] => []);
  for (const item of items) {
    let index = starts.length - 1;
    while (index > 0 && compare(starts[index] ?? ZERO, item.at) > 0) index -= 1;
    bars[index]?.push({ at: toNumber(minus(item.at, starts[index] ?? ZERO)), item });
  }
  return bars;
}
