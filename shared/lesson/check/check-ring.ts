import type { Scope } from '../model/scope.ts';
import type { TimedGrid } from '../model/timed-grid.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { Ring, RingDirective } from '../syntax/statement.ts';
import { addedSteps } from './added-steps.ts';
import { article } from './beyond-neck.ts';
import { ABOUT_ITS_PLACE, type Report } from './finding.ts';

/**
 * Strings that a grid says must ring on, and that its accompaniment sounds: a note with a fret of its own on such a string stops it.
 * A tune's own string, which nothing else sounds, is the tune's.
 */
export function checkRing(report: Report, scope: Scope, grid: TimedGrid, entry: Entry): void {
  if (grid.ring?.kind !== 'strings') return;
  const { instrument } = scope.edition();
  const told = new Set<number>();
  for (const row of grid.rows) {
    // Over a chord of its own a fret may be the shape's.
    if (row.chord !== undefined) continue;
    for (const { mark, notes } of addedSteps(grid, row, () => undefined, instrument)) {
      const { ring } = grid;
      const stopped = notes.find(({ string }) => ring.strings.includes(string) && isAccompanied(grid, string));
      if (stopped === undefined || stopped.frets[0] === 0 || told.has(stopped.string) || mark.entry !== entry) continue;
      told.add(stopped.string);
      const message = `String ${stopped.string} is to ring on (ring ${printRing(ring)}), but ${mark.word.text} stops it at fret ${stopped.frets[0]}.`;
      report('warning', 'ring.stopped', mark.word.span, message, [], { about: [String(stopped.string)] });
    }
  }
}

/** The strings that `ring` names are on the instrument. */
export function checkRingStrings(report: Report, scope: Scope, directive: RingDirective | undefined): void {
  const { kind, openStrings } = scope.edition().instrument;
  const strings = openStrings.length;
  const ring = directive?.ring;
  const beyond = ring?.kind === 'strings' ? ring.strings.find((string) => string > strings) : undefined;
  if (directive === undefined || beyond === undefined) return;
  const message = `${article(kind)} has ${strings} strings; there is no string ${beyond} to ring.`.replace(/^a/, 'A');
  report('error', 'ring.no-string', directive.span, message, [], ABOUT_ITS_PLACE);
}

/** `1 2`, as the lesson says it. */
export function printRing(ring: Ring): string {
  return ring.kind === 'strings' ? ring.strings.join(' ') : ring.kind;
}

/** True where something in the grid sounds the string as the shape has it. */
function isAccompanied({ rows, plant }: TimedGrid, string: number): boolean {
  return rows.some(({ kind, marks }) =>
    marks.some(({ mark }) => {
      if (kind === 'strum') {
        if (mark.kind !== 'strum') return mark.kind === 'roll';
        const { strings } = mark;
        return strings === undefined || (string >= Math.min(...strings) && string <= Math.max(...strings));
      }
      if (kind !== 'pick' || mark.kind !== 'notes') return false;
      return mark.notes.some((note) => {
        const planted = note.finger === undefined ? undefined : plant?.strings[note.finger];
        return note.fret === undefined && (note.string ?? planted) === string;
      });
    }),
  );
}
