import type { Instrument } from '../../neck/instrument.ts';
import { soundingMidi, stringsInOrder } from '../../neck/pitches.ts';
import { printShape, type Shape, stringNumber } from '../../neck/shape.ts';
import type { Fix } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import { type ChordSymbol, chordTones } from '../../theory/chord-symbol.ts';
import { spellPitchClass } from '../../theory/key.ts';
import { pitchClass, printNote } from '../../theory/note.ts';
import { judgeFit } from '../../voicing/fit.ts';
import { shapesFor } from '../../voicing/shapes.ts';
import { ABOUT_ITS_PLACE, type Report } from './finding.ts';

/** A chord as it is held; the neck is the one above the capo. */
interface Held {
  readonly neck: Instrument;
  readonly shape: Shape;
  readonly symbol: ChordSymbol;
}

/**
 * The bass behind a stroke is not the lowest note, or does not sound: told with what is lowest. Where strings are not tuned in order the
 * bass is seldom lowest, so there only a hint says it, unless it does not sound at all.
 */
export function checkWrittenBass(report: Report, held: Held, span: Span, fixes: readonly Fix[] = []): void {
  const { neck, shape, symbol } = held;
  const { bass } = symbol;
  const { writtenBass } = judgeFit(neck, shape, symbol);
  if (bass === undefined || writtenBass === 'none' || writtenBass === 'lowest') return;
  const midi = soundingMidi(neck, shape);
  const lowest = Math.min(...midi.map((one) => one ?? Number.POSITIVE_INFINITY));
  const string = stringNumber(midi.indexOf(lowest), shape.length);
  const written = printNote(bass);
  const isMissing = writtenBass === 'missing';
  const here = isMissing ? `${printShape(shape)} has no ${written}` : `${written} sounds higher up`;
  const isOrdered = stringsInOrder(neck);
  const mild = isOrdered
    ? ''
    : ' With a string tuned high, as here, a written bass is seldom lowest; a deeper instrument may play it.';
  const message = `${symbol.text} wants ${written} as its lowest note. ${here}, and the lowest is ${lowestNote(symbol, lowest)}, on string ${string}.${mild}`;
  report(isMissing || isOrdered ? 'notice' : 'hint', 'chord.bass', span, message, fixes, ABOUT_ITS_PLACE);
}

/** The nearest shape with the written bass lowest, in place of the frets. */
export function basedShapes({ neck, shape, symbol }: Held, frets: Span): readonly Fix[] {
  const { bass } = symbol;
  const based = shapesFor(symbol, neck, { near: shape }).find(
    (other) => bass !== undefined && pitchClass(other.bass) === pitchClass(bass),
  );
  if (based === undefined || bass === undefined) return [];
  const text = printShape(based.shape);
  return [{ title: `Take ${text} instead: ${printNote(bass)} lowest`, edits: [{ span: frets, text }] }];
}

function lowestNote(symbol: ChordSymbol, midi: number): string {
  const tone = chordTones(symbol).find(({ note }) => pitchClass(note) === midi % 12);
  return printNote(tone?.note ?? spellPitchClass(midi % 12));
}
