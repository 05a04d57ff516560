import type { Scope } from '../model/scope.ts';
import type { EditionStatement } from '../syntax/statement.ts';
import { article } from './beyond-neck.ts';
import { checkChord } from './check-chord.ts';
import { checkGrid } from './check-grid.ts';
import type { Report } from './finding.ts';

/** An edition block on its own instrument: its capo leaves frets to play, its chords and grids hold like any other. */
export function checkEdition(report: Report, scope: Scope, statement: EditionStatement): void {
  const { instrument, block } = scope.edition();
  // A block for an edition that does not exist is told elsewhere; there is no instrument to hold it against.
  if (block?.statement !== statement) return;
  const { capo } = statement;
  if (capo !== undefined && capo.fret >= instrument.frets) {
    report(
      'error',
      'capo.beyond-neck',
      capo.span,
      `${article(instrument.kind)} has ${instrument.frets} frets; a capo at fret ${capo.fret} leaves none to play.`.replace(
        /^a/,
        'A',
      ),
    );
  }
  for (const chord of statement.chords) checkChord(report, scope, chord);
  for (const grid of statement.grids) checkGrid(report, scope, grid);
}
