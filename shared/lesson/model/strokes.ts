import type { Instrument } from '../../neck/instrument.ts';
import { plus, type Rational } from '../../theory/rational.ts';
import type { Mark } from '../syntax/marks.ts';
import { appliesTo, type Placement, sounds } from './placements.ts';
import { stringOfNote } from './plant.ts';
import type { ResolvedChord } from './resolved-chord.ts';

/** A moment at which the shape must stand, because a string sounds that a finger stops. */
export interface Stroke {
  readonly at: Rational;
  /** A strum; the last of them before a change may be let go where it is off the beat. */
  readonly strummed: boolean;
}

/** The moments of a placement at which the shape must stand. */
export function strokesOf(
  placement: Placement,
  chordAt: (time: Rational) => ResolvedChord | undefined,
  instrument: Instrument,
): readonly Stroke[] {
  const { grid } = placement;
  return grid.rows.flatMap((row) =>
    row.marks.flatMap(({ mark, at: inGrid }) => {
      const at = plus(placement.start, inGrid);
      if (!sounds(placement, at)) return [];
      const chord = chordAt(at);
      const needed = appliesTo(row, chord, grid) && needsFinger(mark, chord, grid.plant?.strings, instrument);
      return needed ? [{ at, strummed: mark.kind === 'strum' }] : [];
    }),
  );
}

/** Open strings sound without the fretting hand, damped strokes and taps need no shape. */
function needsFinger(
  mark: Mark,
  chord: ResolvedChord | undefined,
  plant: Parameters<typeof stringOfNote>[2],
  instrument: Instrument,
): boolean {
  switch (mark.kind) {
    case 'notes':
      return mark.notes.some((note) => {
        if (note.fret !== undefined) return note.fret > 0;
        const string = stringOfNote(note, chord, plant, instrument);
        return string !== undefined && isStopped(chord, string);
      });
    case 'technique':
      return true;
    case 'strum': {
      const [first, last] = mark.strings ?? [1, instrument.openStrings.length];
      return !mark.damped && anyStopped(chord, Math.min(first, last), Math.max(first, last));
    }
    case 'roll':
    case 'shape-slide':
      return anyStopped(chord, 1, instrument.openStrings.length);
    default:
      return false;
  }
}

function anyStopped(chord: ResolvedChord | undefined, from: number, to: number): boolean {
  for (let string = from; string <= to; string += 1) if (isStopped(chord, string)) return true;
  return false;
}

function isStopped(chord: ResolvedChord | undefined, string: number): boolean {
  const fret = chord?.shape[chord.shape.length - string];
  return fret !== undefined && fret !== 'muted' && fret > 0;
}
