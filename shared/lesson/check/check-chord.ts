import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { type Shape, stringNumber } from '../../neck/shape.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { checkChordName, freeLabel } from './check-chord-name.ts';
import { checkFingers } from './check-fingers.ts';
import { checkReach } from './check-reach.ts';
import { type Report, write } from './finding.ts';

/** A `chord` line against its instrument: number of strings, frets on the neck, name, reach, fingers, a name used twice. */
export function checkChord(report: Report, scope: Scope, statement: ChordStatement): void {
  const { chord, shape, frets } = statement;
  if (chord === undefined) return;
  if (scope.chord(chord.text) !== statement && scope.edition().block?.statement.chords.includes(statement) !== true) {
    const label = freeLabel(scope, chord.text);
    report(
      'warning',
      'chord.twice',
      chord.span,
      `${chord.text} has a shape already; the first one is taken. Give this one a label, as in ${label}, to keep both.`,
      write(chord.span, label, `Call it ${label}`),
    );
  }
  if (shape === undefined || frets === undefined) return;
  const { instrument } = scope.edition();
  const strings = instrument.openStrings.length;
  if (shape.length < strings) {
    report('hint', 'shape.too-few-frets', frets.span, `${shape.length} of ${strings} frets.`);
    return;
  }
  if (shape.length > strings) {
    report(
      'error',
      'shape.too-many-frets',
      frets.span,
      `${frets.text} has ${shape.length} frets; ${article(instrument.kind)} has ${strings} strings.`,
    );
    return;
  }
  if (!fretsOnNeck(report, instrument, statement, shape)) return;
  const symbol = (statement.as ?? chord).symbol;
  if (symbol !== undefined) checkChordName(report, scope, neckAboveCapo(instrument), shape, symbol, statement);
  checkReach(report, scope, shape, statement);
  checkFingers(report, scope, shape, statement);
}

function fretsOnNeck(report: Report, instrument: Instrument, statement: ChordStatement, shape: Shape): boolean {
  const last = instrument.frets - instrument.capoFret;
  let onNeck = true;
  shape.forEach((fret, index) => {
    if (fret === 'muted' || fret <= last) return;
    onNeck = false;
    const capo = instrument.capoFret > 0 ? ` above the capo at fret ${instrument.capoFret}` : '';
    report(
      'error',
      'shape.fret-beyond-neck',
      statement.fretSpans[index] ?? statement.span,
      `Fret ${fret} on string ${stringNumber(index, shape.length)} is beyond the neck: ${article(instrument.kind)} has ${last} frets${capo}.`,
    );
  });
  return onNeck;
}

export function article(noun: string): string {
  return `${/^[aeiou](?!kulele)/.test(noun) ? 'an' : 'a'} ${noun}`;
}
