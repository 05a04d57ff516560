import type { Instrument } from '../../neck/instrument.ts';
import { plus, type Rational } from '../../theory/rational.ts';
import type { Mark } from '../syntax/marks.ts';
import type { Ring } from '../syntax/statement.ts';
import { appliesTo, type Placement, sounds } from './placements.ts';
import { stringOfNote } from './plant.ts';
import type { ResolvedChord } from './resolved-chord.ts';

/** A moment at which strings are struck or put out. Strings are places in chart order. */
export interface Stroke {
  readonly at: Rational;
  /** A strum; the last of them before a change may be let go where it is off the beat. */
  readonly strummed: boolean;
  /** A string sounds that a finger stops, so that the shape must stand. */
  readonly needsShape: boolean;
  /** Strings that are struck, or that a strum goes over; all of them where nobody knows which finger is needed. */
  readonly struck: readonly number[];
  /** Those that the lesson says must ring on. */
  readonly ringing: readonly number[];
  readonly putOut: readonly number[];
}

/** The strokes of a placement. `ring` is what the exercise says of ringing strings; else the pattern does. */
export function strokesOf(
  placement: Placement,
  chordAt: (time: Rational) => ResolvedChord | undefined,
  instrument: Instrument,
  ring: Ring | undefined,
): readonly Stroke[] {
  const { grid } = placement;
  const rings = ring ?? grid.ring;
  const count = instrument.openStrings.length;
  return grid.rows.flatMap((row) =>
    row.marks.flatMap(({ mark, at: inGrid }) => {
      const at = plus(placement.start, inGrid);
      if (!sounds(placement, at)) return [];
      const chord = chordAt(at);
      if (!appliesTo(row, chord, grid)) return [];
      const struck = struckBy(mark, chord, grid.plant?.strings, instrument);
      const putOut = putOutBy(mark, count);
      if (struck.length === 0 && putOut.length === 0) return [];
      const needsShape = needsFinger(mark, chord, grid.plant?.strings, instrument);
      const ringing = mark.kind === 'notes' ? struck.filter((string) => mustRing(rings, count - string)) : [];
      return [{ at, strummed: mark.kind === 'strum', needsShape, struck, ringing, putOut }];
    }),
  );
}

function struckBy(
  mark: Mark,
  chord: ResolvedChord | undefined,
  plant: Parameters<typeof stringOfNote>[2],
  instrument: Instrument,
): readonly number[] {
  const count = instrument.openStrings.length;
  const all = (): readonly number[] => instrument.openStrings.map((_, index) => index);
  switch (mark.kind) {
    case 'notes': {
      const strings = mark.notes.map((note) => {
        const string = stringOfNote(note, chord, plant, instrument);
        // Any finger may be the one that stops a note off the shape.
        const isOff = note.fret !== undefined && note.fret > 0 && note.fret !== chord?.shape[count - (string ?? 0)];
        return isOff || note.techniques.length > 0 ? undefined : string;
      });
      const known = strings.flatMap((string) => (string === undefined ? [] : [count - string]));
      return known.length === strings.length ? known : all();
    }
    case 'strum': {
      const [first, last] = mark.strings ?? [1, count];
      return mark.damped
        ? []
        : all().filter((index) => count - index >= Math.min(first, last) && count - index <= Math.max(first, last));
    }
    case 'technique':
    case 'roll':
    case 'shape-slide':
      return all();
    default:
      return [];
  }
}

function putOutBy(mark: Mark, count: number): readonly number[] {
  const all = () => Array.from({ length: count }, (_, index) => index);
  switch (mark.kind) {
    case 'stop':
      return mark.strings.length === 0 ? all() : mark.strings.map((string) => count - string);
    case 'strum':
      return mark.damped ? all() : [];
    case 'chunk':
      return all();
    case 'hit':
      return mark.place === 'thumb' || mark.place === 'palm' ? all() : [];
    default:
      return [];
  }
}

function mustRing(ring: Ring | undefined, string: number): boolean {
  return ring?.kind === 'strings' ? ring.strings.includes(string) : ring?.kind === 'all';
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
