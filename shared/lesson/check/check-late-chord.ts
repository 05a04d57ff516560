import { beatLength } from '../../theory/meter.ts';
import { compare, isWhole, minus, over, plus, type Rational, toNumber } from '../../theory/rational.ts';
import { appliesTo, type Placement, sounds } from '../model/placements.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import { tellBeats } from '../model/tell-beats.ts';
import type { TimedRow } from '../model/timed-grid.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';
import { type LaidBar, type LaidOut, tellBar, useOf } from './laid-out.ts';

/**
 * A chord that comes inside a bar just where the pattern lets its last stroke ring: the new chord first sounds at the next stroke, or
 * never. Told once for each pattern and place in the bar. Nothing is said where the hold is the point: where a pattern changes the
 * chord itself, where something else stands at the change (a hit, a chop, a stop, a damped stroke), where no stroke of the pattern
 * falls on a beat, and where the patterns begin anew at each chord.
 */
export function checkLateChords(report: Report, statement: ExerciseStatement, passes: readonly LaidOut[]): void {
  if (statement.restart?.at === 'chord') return;
  const told = new Set<string>();
  for (const pass of passes) {
    for (const bar of pass.bars) {
      for (const [index, { at, chord }] of bar.chords.entries()) {
        const before = bar.chords[index - 1]?.chord;
        if (at.numerator === 0 || chord === undefined || chord.text === before?.text) continue;
        const ends = plus(bar.start, bar.chords[index + 1]?.at ?? bar.length);
        const late = lateAt(pass, plus(bar.start, at), ends, chord);
        if (late === undefined) continue;
        const use = useOf(statement, late.placement);
        const place = `${use?.text} ${toNumber(at)} ${late.sounds === undefined ? '' : toNumber(late.sounds)}`;
        if (use === undefined || told.has(place)) continue;
        told.add(place);
        const end = statement.with.at(-1)?.span.end ?? statement.span.end;
        report('notice', 'chord.late', use.span, tellLate(bar, at, chord, use.text, late), [
          {
            title: 'Begin the patterns anew at each chord: restart chord',
            edits: statement.restart === undefined ? [{ span: { start: end, end }, text: '\n  restart  chord' }] : [],
          },
        ]);
      }
    }
  }
}

interface Late {
  readonly placement: Placement;
  /** After the change; absent where the chord is never struck. */
  readonly sounds?: Rational;
  /** `3 &`, as it is counted there. */
  readonly said: string | undefined;
}

function tellLate(bar: LaidBar, at: Rational, { text }: ResolvedChord, name: string, late: Late): string {
  const beats = over(at, beatLength(bar.meter));
  const where = isWhole(beats) ? `on beat ${beats.numerator + 1} of ${tellBar(bar)}` : `in ${tellBar(bar)}`;
  const held = `${text} comes ${where}, where ${name} only lets the sound go on`;
  const way = isWhole(beats)
    ? `A stroke on beat ${beats.numerator + 1}, or a pattern of ${tellBeats(at, bar.meter)} for each chord, brings it in time.`
    : 'A stroke there brings it in time.';
  if (late.sounds === undefined) return `${held}: ${text} is not heard at all. ${way}`;
  const when = late.said === undefined ? '' : `, at ${late.said}`;
  return `${held}: ${text} first sounds ${tellBeats(late.sounds, bar.meter)} late${when}. ${way}`;
}

/** How late a chord sounds that comes at a time and goes at another; nothing where it sounds at once, or is not meant to. */
function lateAt({ placements }: LaidOut, time: Rational, ends: Rational, chord: ResolvedChord): Late | undefined {
  const here = placements.filter((placement) => sounds(placement, time));
  if (here.some(({ grid }) => grid.rows.some(({ kind }) => kind === 'chord'))) return undefined;
  const held = here.find((placement) => accompanies(placement, chord) && strikesBeats(placement, chord));
  if (held === undefined) return undefined;
  let first: { readonly at: Rational; readonly placement: Placement } | undefined;
  for (const placement of placements) {
    if (compare(placement.end, time) <= 0 || compare(placement.from, ends) >= 0) continue;
    for (const row of placement.grid.rows) {
      if (!isAccompaniment(row) && row.kind !== 'hit') continue;
      if (!appliesTo(row, chord, placement.grid)) continue;
      for (const mark of row.marks) {
        if (SILENT.has(mark.mark.kind)) continue;
        const at = plus(placement.start, mark.at);
        if (!sounds(placement, at) || compare(at, time) < 0 || compare(at, ends) >= 0) continue;
        // Something is meant to be there.
        if (compare(at, time) === 0) return undefined;
        if (!STRUCK.has(mark.mark.kind) || (mark.mark.kind === 'strum' && mark.mark.damped)) continue;
        if (first === undefined || compare(at, first.at) < 0) first = { at, placement };
      }
    }
  }
  if (first === undefined) return { placement: held, said: undefined };
  return { placement: held, sounds: minus(first.at, time), said: saidAt(first.placement, first.at) };
}

const SILENT: ReadonlySet<string> = new Set(['hold', 'keep', 'faulty']);
const STRUCK: ReadonlySet<string> = new Set(['notes', 'strum', 'roll']);

function isAccompaniment({ kind }: TimedRow): boolean {
  return kind === 'pick' || kind === 'strum';
}

function accompanies({ grid }: Placement, chord: ResolvedChord): boolean {
  return grid.rows.some((row) => isAccompaniment(row) && appliesTo(row, chord, grid));
}

/** False for a pattern that answers the beat and never strikes on one, as an off-beat strum does. */
function strikesBeats({ grid }: Placement, chord: ResolvedChord): boolean {
  return grid.rows.some(
    (row) =>
      isAccompaniment(row) &&
      appliesTo(row, chord, grid) &&
      row.marks.some(({ mark, at }) => STRUCK.has(mark.kind) && isNumbered(grid.counts, at)),
  );
}

/** True where a number is said, or where nothing is counted. */
function isNumbered(counts: Placement['grid']['counts'], at: Rational): boolean {
  const said = counts.find((column) => compare(column.at, at) === 0)?.said ?? '';
  return said === '' || /^\d/.test(said);
}

/** `3 &`: what is said there, behind the number said before it. */
export function saidAt({ grid, start }: Pick<Placement, 'grid' | 'start'>, time: Rational): string | undefined {
  const at = minus(time, start);
  const index = grid.counts.findIndex((column) => compare(column.at, at) === 0);
  const said = grid.counts[index]?.said ?? '';
  if (said === '') return undefined;
  if (/^\d/.test(said)) return said;
  const number = grid.counts.slice(0, index).findLast((column) => /^\d/.test(column.said))?.said;
  return number === undefined ? said : `${number} ${said}`;
}
