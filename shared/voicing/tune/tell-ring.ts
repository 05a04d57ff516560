import { stringNumber } from '../../neck/shape.ts';
import { tellStrings } from '../family/why.ts';
import type { ChordInHand, TuneGround } from './ground.ts';

/**
 * `Of the strings that are to ring, C itself stops string 1; G itself stops strings 1 and 2.`: what the shapes do to them, whatever the
 * tune does. Nothing where every shape leaves them open.
 */
export function tellRing({ ring = [] }: Pick<TuneGround, 'ring'>, chords: readonly ChordInHand[]): string | undefined {
  const told = chords.flatMap(({ chord: { name, shape } }) => {
    const numbered = shape.map((fret, at) => ({ fret, string: stringNumber(at, shape.length) })).reverse();
    const own = numbered.filter(({ string, fret }) => ring.includes(string) && fret !== 0);
    const silent = own.flatMap(({ fret, string }) => (fret === 'muted' ? [string] : []));
    const stopped = own.flatMap(({ fret, string }) => (fret === 'muted' ? [] : [string]));
    return [
      ...(stopped.length === 0 ? [] : [`${name} itself stops ${tellStrings(stopped)}`]),
      ...(silent.length === 0 ? [] : [`${name} leaves ${tellStrings(silent)} silent`]),
    ];
  });
  return told.length === 0 ? undefined : `Of the strings that are to ring, ${[...new Set(told)].join('; ')}.`;
}
