import type { Instrument } from '../../neck/instrument.ts';
import { type Shape, stringNumber } from '../../neck/shape.ts';

/** A fret that the neck does not have: its place in chart order, and what is said about it. */
interface FretBeyondNeck {
  readonly index: number;
  readonly message: string;
}

/** The frets of a shape that the instrument does not have. Frets count from the capo, where one is set. */
export function fretsBeyondNeck(instrument: Instrument, shape: Shape): readonly FretBeyondNeck[] {
  const last = instrument.frets - instrument.capoFret;
  const capo = instrument.capoFret > 0 ? ` above the capo at fret ${instrument.capoFret}` : '';
  return shape.flatMap((fret, index) => {
    if (fret === 'muted' || fret <= last) return [];
    const place = `Fret ${fret} on string ${stringNumber(index, shape.length)}`;
    return [{ index, message: `${place} is beyond the neck: ${article(instrument.kind)} has ${last} frets${capo}.` }];
  });
}

/** `a guitar`, `a ukulele`, `an octave mandolin` */
export function article(noun: string): string {
  return `${/^[aeiou](?!kulele)/.test(noun) ? 'an' : 'a'} ${noun}`;
}
