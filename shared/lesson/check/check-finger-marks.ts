import { type Finger, fingerName } from '../../hand/finger.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedGrid, TimedMark, TimedRow } from '../model/timed-grid.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { addedSteps } from './added-steps.ts';
import { goTogether } from './check-moments.ts';
import { ABOUT_ITS_PLACE, type Report } from './finding.ts';

/** One finger of a `fingers` row with the place on the neck that it is for. */
interface Fingered {
  readonly row: TimedRow;
  readonly mark: TimedMark;
  readonly finger: number | 'T';
  readonly string: number;
  readonly fret: number;
}

/**
 * Fingers that contradict what is written, whatever chord is held: none on a fretted note, one on an open string, one for two frets
 * at once. Marks that another pattern gives are told there.
 */
export function checkFingerMarks(report: Report, scope: Scope, grid: TimedGrid, entry: Entry): void {
  const fingered = fingeredNotes(scope, grid);
  for (const { mark, finger, string, fret } of fingered) {
    if (mark.entry !== entry) continue;
    if (fret > 0 && finger === 0) {
      const message = `String ${string} is stopped at fret ${fret}, but no finger is given for it.`;
      report('error', 'fingers.missing', mark.word.span, message, [], ABOUT_ITS_PLACE);
    } else if (fret === 0 && finger !== 0) {
      report(
        'error',
        'fingers.on-open',
        mark.word.span,
        `String ${string} is open here, so no finger is on it; write 0.`,
        [{ title: 'Write 0', edits: [{ span: mark.word.span, text: '0' }], preferred: true }],
        ABOUT_ITS_PLACE,
      );
    }
  }
  for (const [index, one] of fingered.entries()) {
    if (one.finger === 0 || one.mark.entry !== entry) continue;
    const other = fingered.slice(0, index).find((before) => isAtOnce(before, one) && before.finger === one.finger);
    // One finger may lie across two strings in one fret.
    if (other === undefined || other.fret === one.fret) continue;
    const places = `string ${other.string} fret ${other.fret} and string ${one.string} fret ${one.fret}`;
    const message = `The ${fingerName(one.finger as Finger)} cannot stop ${places} at once.`;
    const about = [String(other.mark.word.span.start)];
    report('error', 'fingers.two-frets', one.mark.word.span, message, [], { about });
  }
}

function isAtOnce(one: Fingered, other: Fingered): boolean {
  const [a, b] = [one.mark.at, other.mark.at];
  return (
    one.mark !== other.mark &&
    goTogether(one.row, other.row) &&
    a.numerator === b.numerator &&
    a.denominator === b.denominator
  );
}

function fingeredNotes(scope: Scope, grid: TimedGrid): readonly Fingered[] {
  const { instrument } = scope.edition();
  return grid.rows.flatMap((row) =>
    addedSteps(grid, row, () => undefined, instrument).flatMap(({ finger, notes }): readonly Fingered[] => {
      const [only, ...others] = notes;
      const [fret] = only?.frets ?? [];
      // Which of several notes a finger is for, nobody says.
      if (finger?.mark.kind !== 'finger' || only === undefined || fret === undefined || others.length > 0) return [];
      return [{ row, mark: finger, finger: finger.mark.finger, string: only.string, fret }];
    }),
  );
}
