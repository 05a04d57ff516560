import type { Fix } from '../../text/problem.ts';
import { barLength, beatLength } from '../../theory/meter.ts';
import {
  compare,
  isWhole,
  later,
  minus,
  over,
  plus,
  type Rational,
  rational,
  times,
  toNumber,
  ZERO,
} from '../../theory/rational.ts';
import { longest, type Placement, turnsOf } from '../model/placements.ts';
import type { Scope } from '../model/scope.ts';
import { tellBeats } from '../model/tell-beats.ts';
import { lengthsTogether } from '../model/turns.ts';
import type { ExerciseStatement, Members } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';
import type { Report } from './finding.ts';
import { barAt, type LaidBar, type LaidOut, tellBar, useOf, usualBar } from './laid-out.ts';

/**
 * Patterns that are longer or shorter than what they are played over: what becomes of them is told quietly where they are used.
 * Where the exercise says `restart`, it is settled.
 */
export function checkLengths(
  report: Report,
  scope: Scope,
  statement: ExerciseStatement,
  passes: readonly LaidOut[],
): void {
  const told = new Set<string>();
  const tellOnce = (code: string, use: Word | undefined, message: string, fixes: readonly Fix[] = []): void => {
    if (use === undefined || told.has(use.text)) return;
    told.add(use.text);
    report('hint', code, use.span, message, fixes);
  };
  for (const pass of passes) checkPickup(report, statement, pass);
  for (const pass of passes) checkRunning(statement, pass, tellOnce);
  for (const { members } of [...statement.with, ...(statement.each === undefined ? [] : [statement.each])]) {
    for (const member of members) {
      if (member.names.length > 1) checkTogether(scope, statement, passes, member.names, tellOnce);
    }
  }
  if (statement.each !== undefined && statement.play === undefined)
    checkEach(scope, statement, statement.each, tellOnce);
}

type TellOnce = (code: string, use: Word | undefined, message: string, fixes?: readonly Fix[]) => void;

/** A tune whose pickup is longer than that of the bars has no room before the first full one. */
function checkPickup(report: Report, statement: ExerciseStatement, { bars, placements }: LaidOut): void {
  const [pickup] = bars;
  if (pickup === undefined || pickup.number !== undefined) return;
  const early = placements.find(({ grid, start }) => start.numerator === 0 && compare(grid.lead, pickup.length) > 0);
  const use = early === undefined ? undefined : useOf(statement, early);
  if (early === undefined || use === undefined) return;
  const { lead } = early.grid;
  const [own, theirs] = [lead, pickup.length].map((length) => tellBeats(length, pickup.meter));
  const late = tellBeats(minus(lead, pickup.length), pickup.meter);
  const message = `${use.text} has ${own} before its first full bar, and the bars that it is played over ${theirs}: all of it comes ${late} late. Let both begin on the same count.`;
  report('warning', 'pattern.longer-pickup', use.span, message);
}

/** The first pattern that does not end with a bar, and the first that the end of the music cuts. */
function checkRunning(statement: ExerciseStatement, { bars, placements }: LaidOut, tellOnce: TellOnce): void {
  const end = bars.reduce<Rational>((sum, { length }) => plus(sum, length), ZERO);
  const inTime = placements
    .filter(({ start, from }) => compare(start, from) === 0)
    .sort((one, other) => compare(one.start, other.start));
  const isReplaced = (placement: Placement) =>
    statement.at.some(({ members }) =>
      members.some(({ names }) => names.some(({ text }) => text === placement.grid.statement.name?.text)),
    );
  const isCutByEnd = (placement: Placement): boolean => {
    const missing = minus(plus(placement.start, placement.grid.length), placement.end);
    const last = bars.at(-1);
    if (last === undefined || statement.restart !== undefined || compare(placement.end, end) !== 0) return false;
    // The last bar after a pickup is that much shorter, and every pattern with it.
    const isShort = compare(missing, minus(barLength(last.meter), last.length)) <= 0;
    return missing.numerator > 0 && !isShort && !isReplaced(placement);
  };
  const tellCut = (placement: Placement, { meter }: LaidBar): void => {
    const heard = tellBeats(minus(placement.end, placement.start), meter).replace(/ beats?$/, '');
    const whole = tellBeats(placement.grid.length, meter);
    const message = `${placement.grid.statement.name?.text ?? ''} is cut off where the music ends: the last time only ${heard} of its ${whole} are played.`;
    tellOnce('pattern.cut-short', useOf(statement, placement), message);
  };
  for (const [index, placement] of inTime.entries()) {
    const bar = barAt(bars, placement.start);
    const written = plus(placement.start, placement.grid.length);
    const last = barAt(bars, written);
    if (bar === undefined || last === undefined) continue;
    const isCut = compare(placement.end, written) < 0;
    if (isCut && isCutByEnd(placement)) {
      tellCut(placement, bar);
      return;
    }
    if (statement.restart !== undefined || isReplaced(placement) || isCut) continue;
    if (compare(written, end) >= 0) continue;
    const next = inTime.slice(index + 1).find(({ start }) => compare(start, written) === 0);
    const into = minus(written, last.start);
    // What is counted from inside a bar begins inside one.
    if (next === undefined || into.numerator === 0 || compare(into, next.grid.startsAt) === 0) continue;
    const isFirst = inTime.findIndex(({ grid }) => grid.statement === placement.grid.statement) === index;
    tellOnce('pattern.runs-on', useOf(statement, placement), tellRunning(bar, last, placement, next, isFirst), [
      restarting(statement, compare(placement.grid.length, bar.length) < 0 ? 'bar' : 'chord'),
    ]);
    return;
  }
  // A later ending goes on where the first one did.
  const goneOn = placements.find((placement) => compare(placement.start, placement.from) < 0 && isCutByEnd(placement));
  const bar = goneOn && barAt(bars, goneOn.start);
  if (goneOn !== undefined && bar !== undefined) tellCut(goneOn, bar);
}

function tellRunning(bar: LaidBar, last: LaidBar, placement: Placement, next: Placement, isFirst: boolean): string {
  const written = plus(placement.start, placement.grid.length);
  const name = placement.grid.statement.name?.text ?? '';
  const beat = over(minus(written, last.start), beatLength(last.meter));
  const place = isWhole(beat) ? `on beat ${beat.numerator + 1} of` : `inside beat ${Math.floor(toNumber(beat)) + 1} of`;
  const again = next.grid.statement === placement.grid.statement;
  const who = again ? `its ${isFirst ? 'second' : 'next'} time` : (next.grid.statement.name?.text ?? 'the next one');
  return `${name} is ${tellBeats(placement.grid.length, bar.meter)} long and the bar has ${tellBeats(bar.length, bar.meter)}, so it runs on: ${who} begins ${place} ${tellBar(last)}.`;
}

function restarting(statement: ExerciseStatement, at: 'bar' | 'chord'): Fix {
  const end = statement.with.at(-1)?.span.end ?? statement.span.end;
  return {
    title: `Begin anew with each ${at}: restart ${at}`,
    edits: [{ span: { start: end, end }, text: `\n  restart  ${at}` }],
  };
}

/** `roll + climb`: the shorter of two that begin together is played once and waits for the longer. */
function checkTogether(
  scope: Scope,
  statement: ExerciseStatement,
  passes: readonly LaidOut[],
  names: readonly Word[],
  tellOnce: TellOnce,
): void {
  const meter = statement.meter?.meter ?? scope.setting('meter');
  const [named] = turnsOf(scope, [{ names, times: 1, span: names[0]?.span ?? statement.span }]);
  // One whose repeats are those of the bars is not played out: it is as long as it is written.
  const placed = passes.flatMap(({ placements }) => placements.map(({ grid }) => grid));
  const grids = named?.map((grid) => placed.find(({ statement }) => statement === grid.statement) ?? grid);
  if (grids === undefined) return;
  // Over single chords each begins on its count in a bar of its own.
  const lengths =
    statement.over === undefined ? lengthsTogether(grids) : grids.map(({ startsAt, length }) => plus(startsAt, length));
  const most = lengths.reduce(later, ZERO);
  for (const [index, grid] of grids.entries()) {
    const missing = minus(most, lengths[index] ?? ZERO);
    if (missing.numerator <= 0) continue;
    const name = grid.statement.name?.text;
    const message = `${name} is ${tellBeats(missing, meter)} shorter than what it is played with: it rests until both begin again.`;
    tellOnce(
      'pattern.rests',
      names.find(({ text }) => text === name),
      message,
    );
  }
}

/** `over … each`: every chord gets whole bars, and what a pattern leaves of the last one stays empty. */
function checkEach(scope: Scope, statement: ExerciseStatement, each: Members, tellOnce: TellOnce): void {
  const meter = statement.meter?.meter ?? scope.setting('meter');
  const full = usualBar(scope, statement);
  for (const { names } of each.members) {
    const [grids] = turnsOf(scope, [{ names, times: 1, span: each.span }]);
    const length = grids === undefined ? undefined : longest(grids);
    if (length === undefined || length.numerator === 0) continue;
    const bars = Math.ceil(toNumber(over(length, full)));
    const rest = minus(times(full, rational(bars)), length);
    if (rest.numerator <= 0) continue;
    const [use] = names;
    const message = `${use?.text} ends before its bar does: ${tellBeats(rest, meter)} of the ${bars === 1 ? 'bar' : 'last bar'} ${isOne(rest, meter) ? 'stays' : 'stay'} empty.`;
    tellOnce('pattern.rests', use, message);
  }
}

function isOne(length: Rational, meter: Parameters<typeof beatLength>[0]): boolean {
  return compare(length, beatLength(meter)) <= 0;
}
