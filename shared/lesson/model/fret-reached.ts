import type { Technique } from '../syntax/marks.ts';

/** Where the left hand is after what it adds to a note: a hammer-on, pull-off or slide leads elsewhere, a trill comes back. */
export function fretReached(fret: number, techniques: readonly Technique[]): number {
  return techniques.reduce(
    (at, technique) => ('fret' in technique && technique.kind !== 'trill' ? technique.fret : at),
    fret,
  );
}
