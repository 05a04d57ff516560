import { stringNumber } from '../../neck/shape.ts';
import { spellMidi } from '../../theory/key.ts';
import { printPitch } from '../../theory/note.ts';
import type { Scope } from '../model/scope.ts';
import { bassOf, lowestOf, type OpenString } from '../model/thumb-bass.ts';
import type { GridStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';

/**
 * A pattern whose thumb plays the bass on the lesson's own instrument and has none on the scope's edition: a re-entrant fourth string
 * lies above the strings of the fingers. `there` is the pattern as the edition plays it.
 */
export function checkBass(report: Report, scope: Scope, statement: GridStatement, there: GridStatement): void {
  const [own] = scope.editions();
  const entry = own?.entryOf(statement);
  const [here, moved] = [own?.timed(statement), scope.timed(there)];
  if (own === undefined || entry === undefined || here === undefined || moved === undefined) return;
  const { instrument } = scope.edition();
  const [before, after] = [bassOf(here, own.edition().instrument, entry), bassOf(moved, instrument, entry)];
  if (before === undefined || after === undefined) return;
  if (before.thumb.midi > before.fingers.midi || after.thumb.midi < after.fingers.midi) return;
  const all = instrument.openStrings.map((_, index) => stringNumber(index, instrument.openStrings.length));
  const lowest = lowestOf(all, instrument);
  const tell = ({ string, midi }: OpenString) =>
    `string ${string} (${printPitch(spellMidi(midi - instrument.capoFret, scope.setting('key')))})`;
  const way = lowest === undefined ? '' : ` The lowest is ${tell(lowest)}; an edition block may give it to the thumb.`;
  const message = `The thumb has no bass there: ${tell(after.thumb)} sounds above ${tell(after.fingers)}.${way}`;
  report('hint', 'pattern.no-bass', statement.name?.span ?? statement.span, message);
}
