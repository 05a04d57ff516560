import { counted } from '../../text/counted.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { article, tellTooFew } from './beyond-neck.ts';

/** Frets that are not one for each string. */
interface FretCountFault {
  readonly code: 'shape.too-few-frets' | 'shape.too-many-frets';
  readonly message: string;
}

/**
 * What is wrong with the number of frets on a chord line; nothing where there is one for each string. A line of the lesson counts
 * for the lesson's own instrument, one in the block of an edition for that edition's.
 */
export function faultOfFretCount(scope: Scope, statement: ChordStatement): FretCountFault | undefined {
  const { shape, frets } = statement;
  if (shape === undefined || frets === undefined) return undefined;
  const { block, instrument: held } = scope.edition();
  const instrument = block?.statement.chords.includes(statement) === true ? held : scope.ownInstrument();
  const strings = instrument.openStrings.length;
  if (shape.length < strings) return { code: 'shape.too-few-frets', message: tellTooFew(shape.length, strings) };
  if (shape.length === strings) return undefined;
  return {
    code: 'shape.too-many-frets',
    message: `${frets.text} has ${counted(shape.length, 'fret')}; ${article(instrument.kind)} has ${strings} strings.`,
  };
}
