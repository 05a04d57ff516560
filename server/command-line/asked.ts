import { fretsBeyondNeck, rangeBeyondNeck } from '../../shared/lesson/check/beyond-neck.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import type { Outcome } from '../../shared/text/problem.ts';
import { UsageError } from './terminal.ts';

/** What a bare shape or chord is held on: the instrument that most lessons are for. Common practice, no source. */
export const USUAL_INSTRUMENT = 'tenor ukulele, high G';

/** The value that a word of the call says; a `UsageError` in the words of its fault where it says none. `what` is the word's name. */
export function asked<T>(what: string, outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new UsageError(`${what}: ${outcome.problem.message.replace(/\.$/, '')}`);
}

/** The shape, where the instrument has all its frets; else a `UsageError` that names the first one beyond the neck. */
export function onNeck(what: string, instrument: Instrument, shape: Shape): Shape {
  const [beyond] = fretsBeyondNeck(instrument, shape);
  if (beyond === undefined) return shape;
  throw new UsageError(`${what}: ${beyond.message.replace(/\.$/, '')}`);
}

/** A lowest and a highest fret of the instrument, as in `5-9`. */
export function fretsAsked(text: string, instrument: Instrument): readonly [number, number] {
  const [, low, high] = /^\s*(\d{1,2})\s*[-–]\s*(\d{1,2})\s*$/.exec(text) ?? [];
  if (low === undefined || high === undefined) {
    throw new UsageError(`--within: "${text}" is not a lowest and a highest fret, as in 5-9`);
  }
  const range = [Number(low), Number(high)] as const;
  if (range[0] > range[1]) throw new UsageError(`--within: the lowest fret comes first, as in ${high}-${low}`);
  const beyond = rangeBeyondNeck(instrument, range);
  if (beyond !== undefined) throw new UsageError(`--within: ${beyond.message.replace(/\.$/, '')}`);
  return range;
}

/** Numbers of strings that the instrument has, as in `1 2`; each once. */
export function stringsAsked(text: string, { name, openStrings }: Instrument): readonly number[] {
  const numbers = text
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .map((word) => {
      const number = Number(word);
      if (/^\d$/.test(word) && number >= 1 && number <= openStrings.length) return number;
      throw new UsageError(
        `--ring: "${word}" is not a string of ${name}, which has strings 1 to ${openStrings.length}`,
      );
    });
  const twice = numbers.find((number, at) => numbers.indexOf(number) < at);
  if (twice !== undefined) throw new UsageError(`--ring: string ${twice} is said twice`);
  return numbers;
}

/** So many at most, a whole number from 1 to `most`. */
export function countAsked(what: string, text: string, most: number): number {
  const count = Number(text);
  if (/^\d+$/.test(text) && count >= 1 && count <= most) return count;
  throw new UsageError(`${what}: "${text}" is not a number from 1 to ${most}`);
}
