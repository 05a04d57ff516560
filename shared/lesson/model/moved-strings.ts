import type { Mark, NoteMark } from '../syntax/marks.ts';
import type { Ring } from '../syntax/statement.ts';
import { movedRing, ringingStrings } from './moved-ring.ts';
import type { TimedGrid } from './timed-grid.ts';

/**
 * What the numbers of strings in a pattern mean on an instrument with another number of them. Fingers stay on the strings that they
 * have, counted from string 1. The thumb plays the bass: on five strings and more it follows the chord's root, and what it has on a
 * second string goes to the other bass string; on fewer it takes the highest-numbered ones. Common practice, no source.
 */
export interface StringMove {
  readonly note: (note: NoteMark) => NoteMark;
  readonly mark: (mark: Mark) => Mark;
  readonly ring: (ring: Ring) => Ring;
  readonly plant: (plant: NonNullable<TimedGrid['plant']>['strings']) => NonNullable<TimedGrid['plant']>['strings'];
  /** What was done, a sentence; nothing where no mark of the grid had to change. */
  readonly told: string | undefined;
}

/** Strings up to this one belong to the fingers. Source: the usual rest of i, m and a, see `plant.ts`. */
const FINGER_STRINGS = 3;

/** On so many strings, and on more, some belong to the thumb alone. */
const FEWEST_WITH_BASS = 5;

/** How the marks of a grid that is written for `own` strings are read on `other` strings. */
export function stringMove(grid: TimedGrid, own: number, other: number): StringMove {
  const thumb = thumbStrings(grid);
  const byFingers = fingerStrings(grid);
  const clamp = (string: number) => Math.min(string, other);
  const followsRoot = other > own || other >= FEWEST_WITH_BASS;
  const thumbPlace = (string: number): Pick<NoteMark, 'string' | 'bass'> => {
    const place = thumb.indexOf(string);
    if (followsRoot) {
      if (place === 0) return { bass: 'root' };
      return place === 1 ? { bass: 'alternate' } : { string: clamp(string) };
    }
    const free = [other, other - 1].filter((each) => !byFingers.has(each));
    const bass = free.length > 0 ? free : [other];
    return { string: bass[place % bass.length] ?? other };
  };
  const note = (one: NoteMark): NoteMark => {
    const { string, bass, ...rest } = one;
    if (bass !== undefined) {
      const collides = other < own && byFingers.has(FINGER_STRINGS) && other <= 4;
      return collides ? { ...rest, string: other } : one;
    }
    if (string === undefined) return one;
    if (isThumb(one)) return { ...rest, ...thumbPlace(string) };
    return string > other ? { ...rest, string: clamp(string) } : one;
  };
  const mark = (one: Mark): Mark => {
    switch (one.kind) {
      case 'strum': {
        if (one.strings === undefined) return one;
        const [first, last] = one.strings.map((string) => (string === own ? other : clamp(string)));
        return first === undefined || last === undefined ? one : { ...one, strings: [first, last] };
      }
      case 'stop':
        return { ...one, strings: ringingStrings(one.strings, own, other) };
      case 'hit':
        return one.string === undefined ? one : { ...one, string: one.string === own ? other : clamp(one.string) };
      default:
        return one;
    }
  };
  return {
    note,
    mark,
    ring: (ring) => movedRing(ring, own, other),
    plant: ({ p, ...fingers }) => {
      const kept = Object.fromEntries(Object.entries(fingers).map(([finger, string]) => [finger, clamp(string)]));
      // Where it follows the root, no string is the thumb's own.
      return p === undefined || followsRoot ? kept : { ...kept, p: clamp(p) };
    },
    told: toldMove(grid, own, other, thumb, followsRoot, thumbPlace),
  };
}

/** True for what the thumb plays: where no finger is written, what lies beyond the strings of the fingers. */
function isThumb({ finger, string }: NoteMark): boolean {
  return finger === undefined ? string !== undefined && string > FINGER_STRINGS : finger === 'p';
}

function pickedNotes({ rows }: TimedGrid): readonly NoteMark[] {
  return rows
    .filter(({ kind }) => kind === 'pick')
    .flatMap(({ marks }) => marks.flatMap(({ mark }) => (mark.kind === 'notes' ? mark.notes : [])))
    .filter(({ fret }) => fret === undefined);
}

/** Numbers of the strings that the thumb is written on, the highest first. */
function thumbStrings(grid: TimedGrid): readonly number[] {
  const strings = pickedNotes(grid).flatMap((note) =>
    note.string !== undefined && isThumb(note) ? [note.string] : [],
  );
  return [...new Set(strings)].sort((one, other) => other - one);
}

function fingerStrings(grid: TimedGrid): ReadonlySet<number> {
  const plant: Readonly<Partial<Record<string, number>>> = { i: 3, m: 2, a: 1, ...grid.plant?.strings };
  return new Set(
    pickedNotes(grid).flatMap((note) => {
      if (isThumb(note) || note.bass !== undefined) return [];
      const string = note.string ?? plant[note.finger ?? ''];
      return string === undefined ? [] : [string];
    }),
  );
}

function toldMove(
  grid: TimedGrid,
  own: number,
  other: number,
  thumb: readonly number[],
  followsRoot: boolean,
  placeOf: (string: number) => Pick<NoteMark, 'string' | 'bass'>,
): string | undefined {
  const parts = thumb.flatMap((string) => {
    const { bass, string: to } = placeOf(string);
    if (to === string) return [];
    if (bass === undefined) return [`what it has on string ${string} is on string ${to}`];
    return [
      bass === 'root'
        ? `what it has on string ${string} is the root of the chord`
        : `string ${string} is the other bass string`,
    ];
  });
  const beyond = [...fingerStrings(grid)].filter((string) => string > other);
  const fingers =
    beyond.length === 0 ? [] : [`What the fingers have on string ${beyond.join(' and ')} is on string ${other}.`];
  if (parts.length === 0 && fingers.length === 0) return undefined;
  const bass =
    parts.length === 0
      ? []
      : [
          `${followsRoot ? 'The thumb plays the bass' : 'The thumb takes the highest-numbered strings'}: ${parts.join(', ')}.`,
        ];
  return [`Written for ${own} strings, played on ${other}.`, ...bass, ...fingers].join(' ');
}
