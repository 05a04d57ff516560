import type { ExerciseStatement, Ring } from '../syntax/statement.ts';
import type { Scope } from './scope.ts';

/**
 * The strings that are to ring, said for `own` strings, on an instrument of `other` strings. Counted from string 1 they stay; what
 * only more strings have is the highest-numbered one, and the highest-numbered one of few is all the bass strings of more.
 */
export function movedRing(ring: Ring, own: number, other: number): Ring {
  return ring.kind === 'strings' ? { ...ring, strings: ringingStrings(ring.strings, own, other) } : ring;
}

/** The same for bare numbers. */
export function ringingStrings(strings: readonly number[], own: number, other: number): readonly number[] {
  const isBass = (string: number) => (own > other ? string > other : string === own);
  const there = strings.flatMap((string) =>
    other > own && isBass(string)
      ? Array.from({ length: other - own + 1 }, (_, at) => other - at)
      : [Math.min(string, other)],
  );
  return [...new Set(there)];
}

/** The strings that an exercise says must ring on, as the scope's edition has them. */
export function ringOfExercise(scope: Scope, { ring }: ExerciseStatement): Ring | undefined {
  const [own, other] = [scope.ownInstrument(), scope.edition().instrument].map(({ openStrings }) => openStrings.length);
  if (ring === undefined || own === undefined || other === undefined || own === other) return ring?.ring;
  return movedRing(ring.ring, own, other);
}
