import type { Instrument } from '../../neck/instrument.ts';
import { type Shape, stringNumber } from '../../neck/shape.ts';

/** A fret that the neck does not have: its place in chart order, and what is said about it. */
interface FretBeyondNeck {
  readonly index: number;
  readonly message: string;
}

/** The frets of a shape that the instrument does not have. Frets count from the capo, where one is set. */
export function fretsBeyondNeck(instrument: Instrument, shape: Shape): readonly FretBeyondNeck[] {
  const last = lastFret(instrument);
  return shape.flatMap((fret, index) => {
    if (fret === 'muted' || fret <= last) return [];
    const place = `Fret ${fret} on string ${stringNumber(index, shape.length)}`;
    return [{ index, message: `${place} is beyond the neck: ${tellFrets(instrument)}.` }];
  });
}

/** What is wrong with a lowest and a highest fret to stay between; nothing where the neck has both. `part` where it has some of them. */
export function rangeBeyondNeck(
  instrument: Instrument,
  [low, high]: readonly [low: number, high: number],
): { readonly kind: 'all' | 'part'; readonly message: string } | undefined {
  const last = lastFret(instrument);
  if (high <= last) return undefined;
  return low > last
    ? { kind: 'all', message: `No fret from ${low} to ${high} is on the neck: ${tellFrets(instrument)}.` }
    : { kind: 'part', message: `Fret ${high} is beyond the neck: ${tellFrets(instrument)}.` };
}

/** The highest fret, counted from the capo where one is set. */
export function lastFret({ frets, capoFret }: Instrument): number {
  return frets - capoFret;
}

/** `a guitar has 20 frets`, `a guitar has 18 frets above the capo at fret 2` */
function tellFrets(instrument: Instrument): string {
  const { kind, capoFret } = instrument;
  const capo = capoFret > 0 ? ` above the capo at fret ${capoFret}` : '';
  return `${article(kind)} has ${lastFret(instrument)} frets${capo}`;
}

/** `a guitar`, `a ukulele`, `an octave mandolin` */
export function article(noun: string): string {
  return `${/^[aeiou](?!kulele)/.test(noun) ? 'an' : 'a'} ${noun}`;
}

/** `3 of 4 frets so far: …`, while a shape is still being typed. */
export function tellTooFew(frets: number, strings: number): string {
  return `${frets} of ${strings} frets so far: write one for each string, 0 for an open one, x for a silent one.`;
}
