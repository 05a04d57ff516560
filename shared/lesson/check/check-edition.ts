import type { Scope } from '../model/scope.ts';
import type { AlsoStatement, EditionStatement } from '../syntax/statement.ts';
import { article } from './beyond-neck.ts';
import { checkChord } from './check-chord.ts';
import { checkGrid } from './check-grid.ts';
import { type Report, reportOn } from './finding.ts';

/** An edition block on its own instrument: its capo leaves frets to play, its chords and grids hold like any other. */
export function checkEdition(report: Report, scope: Scope, statement: EditionStatement): void {
  const { instrument, block, name } = scope.edition();
  // A block for an edition that does not exist is told elsewhere; there is no instrument to hold it against.
  if (block?.statement !== statement) return;
  const told = reportOn(report, name);
  const { capo } = statement;
  if (capo !== undefined && capo.fret >= instrument.frets) {
    told(
      'error',
      'capo.beyond-neck',
      capo.span,
      `${article(instrument.kind)} has ${instrument.frets} frets; a capo at fret ${capo.fret} leaves none to play.`.replace(
        /^a/,
        'A',
      ),
    );
  }
  for (const chord of statement.chords) checkChord(told, scope, chord);
  for (const grid of statement.grids) checkGrid(told, scope, grid);
}

/** True on an edition that should hold the lesson's shapes on another number of strings, which no hand can. */
export function hasOtherStrings(scope: Scope): boolean {
  const { keeps, instrument } = scope.edition();
  return keeps === 'shapes' && instrument.openStrings.length !== scope.ownInstrument().openStrings.length;
}

/** The same shapes are asked for on another number of strings: said once, where the edition is made, with the way out. */
export function checkStrings(report: Report, edition: Scope, statement: AlsoStatement): void {
  const { value, keepsWord } = statement;
  if (value === undefined || !hasOtherStrings(edition) || edition.names('chord') === '') return;
  const { instrument, name } = edition.edition();
  const own = edition.ownInstrument();
  const strings = `${article(own.kind)} has ${own.openStrings.length} strings, ${article(instrument.kind)} has ${instrument.openStrings.length}`;
  const message = `${strings.replace(/^a/, 'A')}: the same shapes do not fit. In the same key it gets shapes of its own.`;
  const edit =
    keepsWord === undefined
      ? { span: { start: value.span.end, end: value.span.end }, text: ', same key' }
      : { span: keepsWord.span, text: 'same key' };
  report(
    'error',
    'edition.other-strings',
    value.span,
    message,
    [{ title: 'Keep the key: same key', edits: [edit], preferred: true }],
    { edition: name },
  );
}
