import { neckAboveCapo } from '../../neck/capo.ts';
import { listed } from '../../text/counted.ts';
import type { Problem } from '../../text/problem.ts';
import { resolveChord } from '../model/chords.ts';
import { gridOnEdition, isReplaced } from '../model/grid-on-edition.ts';
import type { Edition } from '../model/lesson.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement, Statement } from '../syntax/statement.ts';
import { fretsBeyondNeck } from './beyond-neck.ts';
import { checkAssumedShapes } from './check-assumed.ts';
import { checkBass } from './check-bass.ts';
import { checkChanges } from './check-change.ts';
import { hasOtherStrings } from './check-edition.ts';
import { checkExerciseOnInstrument } from './check-exercise.ts';
import { checkFamilyOnInstrument } from './check-family.ts';
import { checkGridOnInstrument } from './check-grid.ts';
import { checkLevel } from './check-level.ts';
import { checkMoved } from './check-moved.ts';
import { checkShow } from './check-names.ts';
import { checkProgressionOnInstrument } from './check-progression.ts';
import { checkWrittenBass } from './check-written-bass.ts';
import { ABOUT_ITS_PLACE, type Report } from './finding.ts';

/** True for statements of which an instrument can make something else. */
export function dependsOnInstrument({ kind }: Statement): boolean {
  return ASKED.has(kind);
}

const ASKED: ReadonlySet<Statement['kind']> = new Set([
  'chord',
  'progression',
  'pattern',
  'melody',
  'exercise',
  'family',
  'show',
  'level',
]);

/**
 * What a statement of the lesson comes to on a further edition, which is the scope's. Counts, names and syntax are the same on every
 * instrument and are not asked again; neither is what the edition's own block replaces.
 */
export function checkOnEdition(report: Report, scope: Scope, statement: Statement): void {
  // What cannot be held at all is told once, where the edition is made.
  if (hasOtherStrings(scope)) return;
  switch (statement.kind) {
    case 'chord':
      checkFrets(report, scope, statement);
      checkBassThere(report, scope, statement);
      return;
    case 'progression':
      checkProgressionOnInstrument(report, scope, statement);
      // New shapes are told together, at the line that makes the edition.
      if (scope.edition().keeps === 'shapes') checkAssumedShapes(report, scope, statement);
      return;
    case 'pattern':
    case 'melody': {
      const there = isReplaced(scope, statement) ? undefined : gridOnEdition(scope, statement);
      if (there === undefined) return;
      checkMoved(report, scope, statement);
      checkBass(report, scope, statement, there);
      checkGridOnInstrument(report, scope, there);
      return;
    }
    case 'exercise':
      checkExerciseOnInstrument(report, scope, statement);
      checkChanges(report, scope, statement);
      return;
    case 'family':
      checkFamilyOnInstrument(report, scope, statement);
      return;
    case 'show':
      checkShow(report, scope, statement);
      return;
    case 'level':
      checkLevel(report, scope, statement);
      return;
    default:
  }
}

/** The same frets on another neck; how hard they are to hold is told with the lesson's own. */
function checkFrets(report: Report, scope: Scope, statement: ChordStatement): void {
  const { chord, shape, fretSpans, span } = statement;
  const { keeps, instrument } = scope.edition();
  if (keeps !== 'shapes' || chord === undefined || shape === undefined || scope.chord(chord.text) !== statement) return;
  for (const { index, message } of fretsBeyondNeck(instrument, shape)) {
    report('error', 'shape.fret-beyond-neck', fretSpans[index] ?? span, message, [], ABOUT_ITS_PLACE);
  }
}

/** The bass that the chord is written with, in the shape and under the name that it has there. */
function checkBassThere(report: Report, scope: Scope, { chord }: ChordStatement): void {
  if (chord?.symbol?.bass === undefined || hasOtherStrings(scope)) return;
  const there = resolveChord(scope, chord);
  if (there === undefined) return;
  checkWrittenBass(report, { ...there, neck: neckAboveCapo(scope.edition().instrument) }, chord.span);
}

/** What was found of one entry on a further edition. */
export interface FoundOnEdition {
  readonly edition: Edition;
  readonly problems: readonly Problem[];
}

/**
 * The problems that further editions add to those of the lesson itself: what is told there already, about the same at the same place,
 * is not said again. Each names its edition; what is the same on several is said once for all of them.
 */
export function addedByEditions(
  own: readonly Problem[],
  found: readonly FoundOnEdition[],
  editions: readonly Edition[],
): readonly Problem[] {
  const before = added.get(own);
  const question = questionOf(found, editions);
  const isSame =
    before?.question.length === question.length && before.question.every((part, at) => part === question[at]);
  if (before !== undefined && isSame) return before.problems;
  const problems = mergedProblems(own, found, editions);
  added.set(own, { question, problems });
  return problems;
}

/** What was added to the problems of an entry, and what it was made of: lists that are the same values while nothing changes. */
const added = new WeakMap<
  readonly Problem[],
  { readonly question: readonly unknown[]; readonly problems: readonly Problem[] }
>();

function questionOf(found: readonly FoundOnEdition[], editions: readonly Edition[]): readonly unknown[] {
  return [
    found.length,
    ...found.flatMap(({ edition, problems }) => [edition.name, problems]),
    ...editions.map(({ instrument }) => instrument),
  ];
}

function mergedProblems(
  own: readonly Problem[],
  found: readonly FoundOnEdition[],
  editions: readonly Edition[],
): readonly Problem[] {
  const known = new Map<string, number>();
  for (const problem of own) {
    // What the lesson's own checks say of an edition is said of that one.
    if (problem.edition !== undefined) continue;
    for (const key of keysOf(problem)) known.set(key, Math.max(known.get(key) ?? 0, weightOf(problem)));
  }
  const merged = new Map<string, { readonly problem: Problem; readonly on: Edition[] }>();
  for (const { edition, problems } of found) {
    for (const problem of problems) {
      if (keysOf(problem).every((key) => (known.get(key) ?? 0) >= weightOf(problem))) continue;
      const key = `${problem.code} ${problem.span.start} ${problem.span.end} ${problem.message}`;
      const same = merged.get(key);
      if (same === undefined) merged.set(key, { problem, on: [edition] });
      else if (!same.on.includes(edition)) same.on.push(edition);
    }
  }
  return [...merged.values()].map(({ problem, on }) => onEditions(problem, on, editions));
}

/** What the problem says where, one text for each thing that it is about. */
function keysOf({ code, span, message, about = [message] }: Problem): readonly string[] {
  const place = `${code} ${span.start} ${span.end}`;
  return about.length === 0 ? [place] : about.map((one) => `${place} ${one}`);
}

const WEIGHTS: Readonly<Record<Problem['severity'], number>> = { hint: 1, notice: 2, warning: 3, error: 4 };

/** What is no more than a hint on the lesson's own instrument may be a warning elsewhere, and is then told. */
function weightOf({ severity }: Problem): number {
  return WEIGHTS[severity];
}

/** Fixes mend the lesson's own line, which is right where it is; only more time helps everywhere. */
function onEditions(problem: Problem, on: readonly Edition[], editions: readonly Edition[]): Problem {
  const { fixes, message, ...rest } = problem;
  const edition = on.map(({ name }) => name).join(', ');
  const names = on.map((one) => tellEdition(one, editions));
  const kept = problem.code === 'change.too-quick' || problem.edition !== undefined ? fixes : undefined;
  return {
    ...rest,
    edition,
    message: problem.edition === undefined ? `On ${listed(names)}: ${message}` : message,
    ...(kept === undefined ? {} : { fixes: kept }),
  };
}

/** `the baritone ukulele`, or by its full name or the edition's where that says more. */
function tellEdition({ name, instrument }: Edition, editions: readonly Edition[]): string {
  const isOnly = (same: (other: Edition) => boolean) => editions.filter(same).length === 1;
  if (instrument.kind !== 'instrument' && isOnly((other) => other.instrument.kind === instrument.kind))
    return `the ${instrument.kind}`;
  if (instrument.kind !== 'instrument' && isOnly((other) => other.instrument.name === instrument.name))
    return `the ${instrument.name}`;
  return `edition ${name}`;
}
