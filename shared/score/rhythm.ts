import { compare, minus, plus, type Rational, rational, ZERO } from '../theory/rational.ts';
import { soundsOfLine } from './line-sounds.ts';
import type { ScoreBar } from './timeline.ts';

/** One line of rhythm in a bar, in order, filling the bar without gap. */
export interface RhythmLine {
  readonly side: 'above' | 'below';
  readonly entries: readonly RhythmEntry[];
  readonly beams: readonly Beam[];
  readonly tuplets: readonly Tuplet[];
}

/** A written note or rest. Its written value, with dots and within its tuplet, is exactly its length. */
export interface RhythmEntry {
  /** From the start of the bar, and how long it sounds. Unit: whole notes. */
  readonly at: Rational;
  readonly length: Rational;
  /** `tied`: the sound of the entry before, or of the bar before, goes on. */
  readonly kind: 'attack' | 'tied' | 'rest';
  /** Written value: 4 is a quarter. */
  readonly value: NoteValue;
  readonly dots: 0 | 1 | 2;
  /** A tie leads to the next entry, or over the bar line. */
  readonly tiedOn: boolean;
  /** The left hand makes the sound: a hammer-on, pull-off or slide in a column of its own. */
  readonly slurredFrom?: true;
  /** The centred rest of an empty bar. Its value says nothing about its length. */
  readonly wholeBar?: boolean;
}

export type NoteValue = 1 | 2 | 4 | 8 | 16 | 32 | 64;

/** Entries `first` to `last` joined; `segments` are the further beams between them, `level` 2 for sixteenths. */
export interface Beam {
  readonly first: number;
  readonly last: number;
  readonly segments: readonly BeamSegment[];
}
export interface BeamSegment {
  readonly level: number;
  readonly first: number;
  readonly last: number;
  /** A short beam at a single entry, to that side. */
  readonly stub?: 'left' | 'right';
}

/** Entries `first` to `last` are `count` parts in the time of `inTimeOf` of the same value. */
export interface Tuplet {
  readonly first: number;
  readonly last: number;
  readonly count: number;
  readonly inTimeOf: number;
  /** True where no beam of their own holds them together. */
  readonly bracket: boolean;
}

/** How the bar is written as rhythm: one line or two, or the rest of an empty bar. */
export function rhythmOf(bar: ScoreBar): readonly RhythmLine[] {
  const sides = ['above', 'below'] as const;
  const lines = sides.flatMap((side): readonly RhythmLine[] => {
    const sounds = soundsOfLine(bar, side);
    if (!sounds.some(({ kind }) => kind !== 'rest')) return [];
    const entries = sounds.flatMap(({ at, length, kind, goesOn, slurred }) => {
      const pieces: RhythmEntry[] = [];
      const end = plus(at, length);
      let from = at;
      while (compare(from, end) < 0) {
        const left = minus(end, from);
        const value = VALUES.find((candidate) => compare(rational(1, candidate), left) <= 0);
        const piece = value === undefined ? left : rational(1, value);
        const until = plus(from, piece);
        const isLast = compare(until, end) >= 0;
        pieces.push({
          at: from,
          length: piece,
          kind: kind === 'attack' && from !== at ? 'tied' : kind,
          value: value ?? 64,
          dots: 0,
          tiedOn: kind !== 'rest' && (!isLast || goesOn),
          ...(slurred && from === at ? { slurredFrom: true as const } : {}),
        });
        from = until;
      }
      return pieces;
    });
    return [{ side, entries, beams: [], tuplets: [] }];
  });
  return lines.length > 0 ? lines : [emptyBar(bar)];
}

const VALUES = [1, 2, 4, 8, 16, 32, 64] as const;

function emptyBar(bar: ScoreBar): RhythmLine {
  const rest = {
    at: ZERO,
    length: bar.length,
    kind: 'rest',
    value: 1,
    dots: 0,
    tiedOn: false,
    wholeBar: true,
  } as const;
  return { side: 'below', entries: [rest], beams: [], tuplets: [] };
}
