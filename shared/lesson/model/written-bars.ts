import type { Meter } from '../../theory/meter.ts';
import type { Rational } from '../../theory/rational.ts';
import type { ExerciseStatement, ProgressionStatement } from '../syntax/statement.ts';
import { endingsOf } from './bar-endings.ts';
import { planBars } from './bar-plan.ts';
import { resolveChord } from './chords.ts';
import type { PlacedBar } from './placements.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';

/** A bar of a progression with its chords on the scope's edition; where no chord is to be played, one that is undefined. */
export interface WrittenBar extends PlacedBar {
  readonly chords: readonly { readonly at: Rational; readonly chord: ResolvedChord | undefined }[];
  readonly meter: Meter;
}

/** The progressions that an exercise plays, each as often as it says. */
export function playedProgressions(scope: Scope, { play }: ExerciseStatement): readonly ProgressionStatement[] {
  return (play?.members ?? []).flatMap(({ names, times }) =>
    names.flatMap((word) => {
      const progression = scope.progression(word.text);
      return progression === undefined ? [] : Array<ProgressionStatement>(times).fill(progression);
    }),
  );
}

/** The meter in which an exercise begins: that of its first bar. */
export function meterAtStart(scope: Scope, statement: ExerciseStatement): Meter {
  const [first] = playedProgressions(scope, statement);
  return first?.lines[0]?.bars[0]?.meter?.meter ?? statement.meter?.meter ?? scope.setting('meter');
}

/** Every bar of the progressions, each once, numbered through. `usual` is the meter where a bar says nothing. */
export function writtenBars(
  scope: Scope,
  progressions: readonly ProgressionStatement[],
  usual: Meter,
): readonly WrittenBar[] {
  const bars: WrittenBar[] = [];
  let number = 1;
  for (const progression of progressions) {
    const planned = planBars(progression, usual);
    const endings = endingsOf(planned);
    for (const [at, { bar, length, meter, items, ...plan }] of planned.entries()) {
      const ending = endings[at];
      const same = bar.items.length === 1 && bar.items[0]?.kind === 'same';
      const own = items.flatMap((planned): WrittenBar['chords'] => {
        if (planned.item.kind === 'silence') return [{ at: planned.at, chord: undefined }];
        const chord = planned.item.kind === 'chord' ? resolveChord(scope, planned.item.chord) : undefined;
        return chord === undefined ? [] : [{ at: planned.at, chord }];
      });
      bars.push({
        length,
        meter,
        chords: same ? (bars.at(-1)?.chords ?? []) : own,
        // A repeat without an opening sign goes back to the start of its own progression.
        opens: at === 0 || bar.opens?.text.endsWith(':') === true,
        closes: bar.closes?.text.startsWith(':') === true,
        ...(bar.times === undefined ? {} : { times: bar.times }),
        ...(plan.number === undefined ? {} : { number: number++ }),
        ...(ending === undefined ? {} : { ending }),
      });
    }
  }
  return bars;
}
