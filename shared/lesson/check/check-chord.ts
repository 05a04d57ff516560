import { neckAboveCapo } from '../../neck/capo.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { fretsBeyondNeck } from './beyond-neck.ts';
import { checkChordName, freeLabel } from './check-chord-name.ts';
import { checkFingers } from './check-fingers.ts';
import { checkReach } from './check-reach.ts';
import { basedShapes, checkWrittenBass } from './check-written-bass.ts';
import { ABOUT_ITS_PLACE, type Report, unfinishedIf, write } from './finding.ts';
import { faultOfFretCount } from './fret-count.ts';

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
      // C may be on its way to Cm.
      unfinishedIf(frets === undefined),
    );
  }
  if (shape === undefined || frets === undefined) return;
  const { instrument } = scope.edition();
  const count = faultOfFretCount(scope, statement);
  if (count !== undefined) {
    const { code, message } = count;
    report('error', code, frets.span, message, [], unfinishedIf(code === 'shape.too-few-frets'));
    return;
  }
  const beyond = fretsBeyondNeck(instrument, shape);
  for (const { index, message } of beyond) {
    const place = statement.fretSpans[index] ?? statement.span;
    report('error', 'shape.fret-beyond-neck', place, message, [], ABOUT_ITS_PLACE);
  }
  if (beyond.length > 0) return;
  if (shape.every((fret) => fret === 'muted')) {
    const message = `${frets.text} mutes every string, so nothing sounds. Where no chord is to be played, write NC in the bars.`;
    report('warning', 'shape.silent', frets.span, message);
    return;
  }
  const symbol = (statement.as ?? chord).symbol;
  if (symbol !== undefined) {
    const held = { neck: neckAboveCapo(instrument), shape, symbol };
    checkChordName(report, scope, held.neck, shape, symbol, statement);
    // Fingers that are given are for these frets.
    const mayMove = symbol.bass !== undefined && statement.fingersWord === undefined;
    checkWrittenBass(report, held, chord.span, mayMove ? basedShapes(held, frets.span) : []);
  }
  checkReach(report, scope, shape, statement);
  checkFingers(report, scope, shape, statement);
}
