import type { Moment, Performance, PerformedSound, SoundKind, StrokeTurn } from './performance.ts';

// A performance for a file that holds many of them: what most sounds share is said once, and each sound is a row of numbers.

/** Kinds by number. New ones are added at the end, so that files written before can be read. */
const KINDS: readonly SoundKind[] = [
  'pluck',
  'strum',
  'hammer-on',
  'pull-off',
  'slide',
  'harmonic',
  'muted',
  'chunk',
  'slap',
  'palm',
  'nails',
  'body',
];

/**
 * Kind, start, end, bar, loudness in hundredths, 1 for the tune, string, pitch, stroke, turn in it, where a slide begins, bend, 1 for
 * vibrato. Zero for what there is not: strokes count from 1, and no string or pitch is 0. Zeros at the end are left out.
 */
type Row = readonly Moment[];

export interface PackedPerformance extends Omit<Performance, 'sounds'> {
  readonly strokes: readonly Omit<StrokeTurn, 'nth'>[];
  readonly rows: readonly Row[];
}

export function packed({ sounds, ...performance }: Performance): PackedPerformance {
  const strokes: Omit<StrokeTurn, 'nth'>[] = [];
  const known = new Map<string, number>();
  const numberOf = (stroke: StrokeTurn | undefined): number => {
    if (stroke === undefined) return 0;
    const { nth: _, ...shared } = stroke;
    const key = JSON.stringify([shared.of, shared.up, shared.slow, shared.length]);
    const number = known.get(key) ?? strokes.push(shared);
    known.set(key, number);
    return number;
  };
  const rows = sounds.map((sound): Row => {
    const { kind, at, end, bar, loudness, layer, string = 0, midi = 0, from = 0, bend = 0, vibrato, stroke } = sound;
    const tune = layer === 'tune' ? 1 : 0;
    const hundredths = Math.round(loudness * 100);
    const turn = [numberOf(stroke), stroke?.nth ?? 0];
    return trimmed([
      KINDS.indexOf(kind),
      at,
      end,
      bar,
      hundredths,
      tune,
      string,
      midi,
      ...turn,
      from,
      bend,
      vibrato === true ? 1 : 0,
    ]);
  });
  return { ...performance, strokes, rows };
}

export function unpacked({ strokes, rows, ...performance }: PackedPerformance): Performance {
  return { ...performance, sounds: rows.map((row) => soundOf(row, strokes)) };
}

function soundOf(row: Row, strokes: PackedPerformance['strokes']): PerformedSound {
  const [, at = 0, end = 0] = row;
  const number = (place: number): number => {
    const value = row[place];
    return typeof value === 'number' ? value : 0;
  };
  const shared = strokes[number(8) - 1];
  return {
    at,
    end,
    bar: number(3),
    kind: KINDS[number(0)] ?? 'pluck',
    loudness: number(4) / 100,
    layer: number(5) === 1 ? 'tune' : 'accompaniment',
    ...(number(6) === 0 ? {} : { string: number(6) }),
    ...(number(7) === 0 ? {} : { midi: number(7) }),
    ...(number(10) === 0 ? {} : { from: number(10) }),
    ...(number(11) === 0 ? {} : { bend: number(11) }),
    ...(number(12) === 1 ? { vibrato: true as const } : {}),
    ...(shared === undefined ? {} : { stroke: { nth: number(9), ...shared } }),
  };
}

function trimmed(row: readonly Moment[]): Row {
  return row.slice(0, row.findLastIndex((value) => value !== 0) + 1);
}
