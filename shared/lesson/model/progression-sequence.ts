import { givenFingers } from '../../hand/kept-fingerings.ts';
import type { SequenceChord } from '../../hand/sequence.ts';
import { printShape } from '../../neck/shape.ts';
import { beatLength, countedBy, type Meter } from '../../theory/meter.ts';
import { toNumber } from '../../theory/rational.ts';
import type { ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName, Tempo } from '../syntax/words.ts';
import { planBars } from './bar-plan.ts';
import { resolveChord } from './chords.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';

/** A chord of a sequence: where it is written, how it is held, and the time there is to go on from it. */
export interface WrittenChord {
  readonly name: ChordName;
  readonly chord: ResolvedChord;
  readonly sequence: SequenceChord;
}

/** The greatest tempo on the way. Unit: beats a minute, or of the note value that the tempo counts. */
export function greatestOf({ from, to }: Tempo): number {
  return Math.max(from, to);
}

/** How long a whole note lasts at the tempo's greatest, in music that begins in a meter. Unit: s. */
export function secondsOfWholeNote(tempo: Tempo, begins: Meter): number {
  return 60 / greatestOf(tempo) / toNumber(countedBy(tempo, begins));
}

/**
 * The chords of a progression by itself, in written order; one that is struck again, or whose name means nothing, is left out.
 * No pattern is known, so that a beat of the lesson's greatest tempo is there for each change.
 */
export function writtenChords(scope: Scope, progression: ProgressionStatement): readonly WrittenChord[] {
  const tempo = scope.setting('tempo');
  const chords: WrittenChord[] = [];
  let last: string | undefined;
  const bars = planBars(progression, scope.setting('meter'));
  const begins = bars[0]?.meter ?? scope.setting('meter');
  for (const { bar, meter: here } of bars) {
    const seconds = tempo && secondsOfWholeNote(tempo, begins) * toNumber(beatLength(here));
    for (const item of bar.items) {
      const chord = item.kind === 'chord' ? resolveChord(scope, item.chord) : undefined;
      if (item.kind !== 'chord' || chord === undefined) continue;
      const held = `${printShape(chord.shape)} ${chord.fingers?.join('-') ?? ''}`;
      if (held === last) continue;
      last = held;
      chords.push({
        name: item.chord,
        chord,
        sequence: {
          shape: chord.shape,
          ...givenWhereItWorks(scope, chord),
          ...(seconds === undefined ? {} : { seconds }),
        },
      });
    }
  }
  return chords;
}

/** Fingers that cannot work are told where they are given; the chord is held in another way then. */
export function givenWhereItWorks(scope: Scope, { shape, fingers }: ResolvedChord): Pick<SequenceChord, 'given'> {
  if (fingers === undefined) return {};
  const { faults } = givenFingers(scope.edition().instrument, shape, fingers, scope.setting('hand'));
  return faults.length === 0 ? { given: fingers } : {};
}
