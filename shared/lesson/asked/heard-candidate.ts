import { printShape } from '../../neck/shape.ts';
import { printMeter } from '../../theory/meter.ts';
import type { Family, FamilyChord } from '../../voicing/family/request.ts';
import type { Tune } from '../../voicing/tune/tune.ts';
import type { TuneRequest } from '../../voicing/tune/tune-problem.ts';
import { printTune } from '../../voicing/tune/tune-text.ts';
import { freeName } from '../model/free-name.ts';
import { overNames } from '../model/over-names.ts';
import type { Scope } from '../model/scope.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { FamilyStatement } from '../syntax/statement.ts';
import type { Answer } from './answer.ts';
import { type AskingStatement, asksSomething, questionIn } from './question.ts';
import type { TuneStatement } from './tune-request.ts';

// What was found is heard before it is chosen: as lines that stand behind its lesson for that long, and are performed like any exercise.

/** What a chord of a family is called while it is heard: its name and its shape, so that no two are mixed up. `C6.9-7-8-0`. */
export function heardAs({ as, shape }: Pick<FamilyChord, 'as' | 'shape'>): string {
  return `${as}.${printShape(shape)}`;
}

/**
 * A candidate for what an entry asks, as lines to be read behind the lesson; the last of their statements is the exercise that plays it.
 * Nothing where the answer is not one to that question or has no such candidate. Candidates count from 0.
 */
export function heardCandidate(scope: Scope, entry: Entry, answer: Answer, choice: number): string | undefined {
  const { statement } = entry;
  const asked = asksSomething(statement) ? questionIn(scope, entry) : undefined;
  if (!asksSomething(statement) || asked?.kind !== 'question') return undefined;
  const { question } = asked;
  if (statement.kind === 'family') {
    const families = answer.kind === 'family' && answer.found.kind === 'families' ? answer.found.families : [];
    const family = families[choice];
    return family && heardFamily(scope, statement, family, titleOf(statement, choice, families.length));
  }
  const tunes = answer.kind === 'tune' && answer.found.ok ? answer.found.tunes : [];
  const tune = tunes[choice];
  if (tune === undefined || question.kind !== 'tune') return undefined;
  return heardTune(scope, statement, question.request, tune, titleOf(statement, choice, tunes.length));
}

function titleOf({ kind, name }: AskingStatement, choice: number, count: number): string {
  return `${name?.text ?? (kind === 'family' ? 'Family' : 'Tune')}, candidate ${choice + 1} of ${count}`;
}

/** The progression in the shapes of a family: a slow stroke over each chord where it is taken, and at the head of each bar it goes on for. */
function heardFamily(scope: Scope, { from }: FamilyStatement, { chords }: Family, title: string): string | undefined {
  const progression = scope.progression(from?.text ?? '');
  if (progression === undefined) return undefined;
  const name = freeName(scope, 'heard', ['progression']);
  const stroke = freeName(scope, 'heard', ['pattern', 'melody']);
  const shapes = new Map(chords.map((one) => [heardAs(one), printShape(one.shape)]));
  return lines([
    ...[...shapes].map(([chord, shape]) => `chord  ${chord}  ${shape}`),
    ...overNames(scope, progression, name, chords.map(heardAs)),
    `pattern  ${stroke}`,
    `  count  1-${scope.setting('meter').counts}`,
    '  strum  D~',
    `exercise  ${title}`,
    `  play  ${name}`,
    `  with  ${stroke}`,
    '  restart  chord',
  ]);
}

/** The tune over its chords, each struck slowly where it is taken. */
function heardTune(
  scope: Scope,
  { inside, meter }: TuneStatement,
  request: TuneRequest,
  { notes }: Tune,
  title: string,
): string {
  const name = freeName(scope, 'heard', ['pattern', 'melody']);
  const own = meter === undefined ? [] : [`  meter  ${printMeter(meter.meter)}`];
  const [head = '', ...rows] = printTune(name, request, notes, { strums: true }).trimEnd().split('\n');
  return lines([head, ...own, ...rows, `exercise  ${title}`, `  play  ${inside.text}`, `  with  ${name}`, ...own]);
}

/** With a line end before them: the lesson's last line may lack its own. */
function lines(some: readonly string[]): string {
  return `\n${some.join('\n')}\n`;
}
