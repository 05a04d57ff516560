import { barLength, type Meter } from '../../theory/meter.ts';
import { compare, plus, type Rational, ZERO } from '../../theory/rational.ts';
import { endingsOf } from '../model/bar-endings.ts';
import { planBars } from '../model/bar-plan.ts';
import { type ChordChange, withChanges } from '../model/chord-track.ts';
import { resolveChord } from '../model/chords.ts';
import { changesOf, fillBars, type PlacedBar, type Placement, startsOf } from '../model/placements.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedMark } from '../model/timed-grid.ts';
import type { ExerciseStatement, Members } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';

/** A bar of the progressions that an exercise plays, each written bar once. */
export interface LaidBar extends PlacedBar {
  readonly start: Rational;
  readonly meter: Meter;
  readonly chords: readonly { readonly at: Rational; readonly chord: ResolvedChord | undefined }[];
}

/** One time through an exercise that plays progressions: its patterns over its bars. Times count from the start of the first bar. */
export interface LaidOut {
  readonly bars: readonly LaidBar[];
  readonly placements: readonly Placement[];
  /** In order of time; those that a pattern makes are among them. */
  readonly changes: readonly ChordChange[];
  /** The list that fills the bars. */
  readonly members: Members;
}

/** Every time through, in order; none for an exercise that takes chords one by one. */
export function layOut(scope: Scope, statement: ExerciseStatement): readonly LaidOut[] {
  if (statement.play === undefined || statement.with.length === 0) return [];
  const bars = laidBars(scope, statement);
  const written = bars.flatMap(({ start, chords }) =>
    chords.map(({ at, chord }): ChordChange => ({ at: plus(start, at), chord })),
  );
  const resolve = ({ mark }: TimedMark) => (mark.kind === 'chord' ? resolveChord(scope, mark.chord) : undefined);
  return statement.with.map((members) => {
    const placements = fillBars(scope, statement, bars, members.members);
    const added = placements.flatMap((placement) => changesOf(placement, resolve));
    return { bars, placements, changes: withChanges(written, added), members };
  });
}

function laidBars(scope: Scope, statement: ExerciseStatement): readonly LaidBar[] {
  const usual = statement.meter?.meter ?? scope.setting('meter');
  const played = (statement.play?.members ?? []).flatMap(({ names, times }) =>
    names.flatMap((word) => {
      const progression = scope.progression(word.text);
      return progression === undefined ? [] : Array.from({ length: times }, () => progression);
    }),
  );
  const bars: Omit<LaidBar, 'start'>[] = [];
  let number = 1;
  for (const progression of played) {
    const planned = planBars(progression, usual);
    const endings = endingsOf(planned);
    for (const [at, { bar, length, meter, items, number: written }] of planned.entries()) {
      const ending = endings[at];
      const isSame = bar.items.length === 1 && bar.items[0]?.kind === 'same';
      const chords = items.flatMap((item): LaidBar['chords'] => {
        if (item.item.kind === 'silence') return [{ at: item.at, chord: undefined }];
        const chord = item.item.kind === 'chord' ? resolveChord(scope, item.item.chord) : undefined;
        return chord === undefined ? [] : [{ at: item.at, chord }];
      });
      bars.push({
        length,
        meter,
        chords: isSame ? (bars.at(-1)?.chords ?? []) : chords,
        // A repeat without an opening sign goes back to the start of its own progression.
        opens: at === 0 || bar.opens?.text.endsWith(':') === true,
        closes: bar.closes?.text.startsWith(':') === true,
        ...(bar.times === undefined ? {} : { times: bar.times }),
        ...(written === undefined ? {} : { number: number++ }),
        ...(ending === undefined ? {} : { ending }),
      });
    }
  }
  const starts = startsOf(bars);
  return bars.map((bar, at) => ({ ...bar, start: starts[at] ?? ZERO }));
}

/** The bar that a time lies in. */
export function barAt(bars: readonly LaidBar[], time: Rational): LaidBar | undefined {
  return bars.findLast(({ start }) => compare(start, time) <= 0);
}

/** Where the exercise names the pattern that a placement plays. */
export function useOf(statement: ExerciseStatement, { grid }: Placement): Word | undefined {
  const lists = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  const name = grid.statement.name?.text;
  return lists.flatMap(({ members }) => members.flatMap(({ names }) => names)).find(({ text }) => text === name);
}

/** `bar 3`, `the pickup` */
export function tellBar({ number }: LaidBar): string {
  return number === undefined ? 'the pickup' : `bar ${number}`;
}

/** A full bar of the exercise's meter. */
export function usualBar(scope: Scope, statement: ExerciseStatement): Rational {
  return barLength(statement.meter?.meter ?? scope.setting('meter'));
}
