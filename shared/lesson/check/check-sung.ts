import { compare } from '../../theory/rational.ts';
import type { TimedGrid, TimedMark } from '../model/timed-grid.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { Report } from './finding.ts';

/**
 * Syllables under a tune: each is sung on a note, so one in a column where the tune only goes on is told quietly, once a row.
 * Common practice, no source: a note may take several syllables in recitative, and nowhere else. Where strings only accompany, the
 * voice goes its own way.
 */
export function checkSung(report: Report, grid: TimedGrid, entry: Entry): void {
  const tunes = grid.rows.filter(({ kind }) => kind === 'tune');
  if (tunes.length === 0) return;
  const sounding = tunes.flatMap(({ marks }) => marks.filter(({ mark }) => BEGINS.has(mark.kind)));
  for (const row of grid.rows) {
    if (row.kind !== 'words') continue;
    const [first, ...others] = row.marks.filter(
      (syllable) =>
        syllable.mark.kind === 'syllable' &&
        syllable.entry === entry &&
        !sounding.some(({ at }) => compare(at, syllable.at) === 0),
    );
    if (first === undefined) continue;
    const more = others.length === 0 ? '' : ` So it is with ${listOf(others)}.`;
    const message = `No note of the tune begins with “${first.word.text}”: write . where the syllable before is held.${more}`;
    report('hint', 'words.held', first.word.span, message);
  }
}

const BEGINS: ReadonlySet<string> = new Set(['notes', 'technique']);

function listOf(syllables: readonly TimedMark[]): string {
  const words = syllables.map(({ word }) => `“${word.text}”`);
  const last = words.pop() ?? '';
  return words.length === 0 ? last : `${words.join(', ')} and ${last}`;
}
