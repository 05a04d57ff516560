import { counted } from '../../text/counted.ts';
import type { Span } from '../../text/span.ts';
import { asksSomething, tellOpen } from '../asked/question.ts';
import { type PlannedBar, planBars } from '../model/bar-plan.ts';
import { chordsIn } from '../model/chords-in.ts';
import { freeName } from '../model/free-name.ts';
import type { Scope } from '../model/scope.ts';
import { isNoChord, readChordName } from '../syntax/read-names.ts';
import type { AtDirective, ExerciseStatement, Members, ProgressionStatement } from '../syntax/statement.ts';
import { areStrokes, plainStroke, spreadStrokes } from '../syntax/strokes-written.ts';
import type { ChordName, ListMember, Word } from '../syntax/words.ts';
import { checkUnnamedRows } from './check-beside.ts';
import { checkLateChords } from './check-late-chord.ts';
import { checkPlayable } from './check-playable.ts';
import { checkChordUse } from './check-progression.ts';
import { checkRingStrings } from './check-ring.ts';
import { checkLengths } from './check-runs-on.ts';
import { checkTogether } from './check-together.ts';
import { type Report, reportUnknownName, unfinishedIf, write } from './finding.ts';
import { layOut } from './laid-out.ts';

/** An exercise: what it names exists and is of the right kind, its bars exist, and its patterns play strings that sound. */
export function checkExercise(report: Report, scope: Scope, statement: ExerciseStatement): void {
  const { play, over, each, ring } = statement;
  checkRingStrings(report, scope, ring);
  if (play === undefined && over === undefined) {
    report(
      'hint',
      'exercise.nothing',
      statement.title?.span ?? statement.span,
      'What is practised here? play verse with roll, or over C, G each roll.',
    );
  }
  if (play !== undefined && each !== undefined && over === undefined)
    misplaced(report, each, 'each', 'with', 'play fills the bars of a progression, so its patterns stand behind with.');
  if (over !== undefined && statement.with.length > 0 && play === undefined) {
    for (const members of statement.with)
      misplaced(
        report,
        members,
        'with',
        'each',
        'over takes chords one by one, so what each of them gets stands behind each.',
      );
  }
  const progressions = play?.members.flatMap((member) => checkPlayed(report, scope, play, member)) ?? [];
  const chords = [
    ...progressions.flatMap((progression) => chordsIn(progression)),
    ...(over === undefined ? [] : checkOver(report, scope, over)),
  ];
  const told = new Set<string>();
  for (const list of [...statement.with, ...(each === undefined ? [] : [each])]) {
    if (tellStrokes(report, scope, statement, list)) continue;
    checkPatterns(report, scope, list, chords, told);
  }
  // A pattern for single bars meets the chords of those bars only.
  const planned = progressions.flatMap((one) => planBars(one, statement.meter?.meter ?? scope.setting('meter')));
  for (const at of statement.at) checkPatterns(report, scope, at, chordsOfBars(planned, at), told);
  checkAt(report, statement, planned);
  const passes = layOut(scope, statement);
  // Where a bar does not add up, that is the one mistake; what comes too late because of it is not told as well.
  if (planned.every(({ sum }) => sum === 'fits' || sum === 'pickup-short')) {
    checkLateChords(report, statement, passes);
    checkLengths(report, scope, statement, passes);
  }
  checkUnnamedRows(report, scope, statement, passes);
  checkTogether(report, scope, statement);
}

/** What of an exercise depends on the instrument: which strings its chords let sound, and what the hand can add to them. */
export function checkExerciseOnInstrument(report: Report, scope: Scope, statement: ExerciseStatement): void {
  const { play, over, each } = statement;
  const named = (members: Members | undefined) => members?.members.flatMap(({ names }) => names) ?? [];
  const progressions = named(play).flatMap(({ text }) => scope.progression(text) ?? []);
  const single = named(over).flatMap((word): readonly ChordName[] => {
    const progression = scope.progression(word.text);
    if (progression !== undefined) return chordsIn(progression);
    return isNoChord(word.text) ? [] : [readChordName(word)];
  });
  const chords = [...progressions.flatMap((progression) => chordsIn(progression)), ...single];
  const told = new Set<string>();
  const checkLists = (lists: readonly Pick<Members, 'members'>[], over: readonly ChordName[]): void => {
    for (const word of lists.flatMap(({ members }) => members.flatMap(({ names }) => names))) {
      const grid = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text);
      if (grid !== undefined) checkPlayable(report, scope, word, grid, over, told);
    }
  };
  checkLists([...statement.with, ...(each === undefined ? [] : [each])], chords);
  const planned = progressions.flatMap((one) => planBars(one, statement.meter?.meter ?? scope.setting('meter')));
  for (const at of statement.at) checkLists([at], chordsOfBars(planned, at));
  checkUnnamedRows(report, scope, statement, layOut(scope, statement));
}

/** `with D DU UDU`: strokes where the name of a pattern is wanted, told once, with a pattern of them as the way out. */
function tellStrokes(report: Report, scope: Scope, statement: ExerciseStatement, { members }: Members): boolean {
  const words = members.flatMap(({ names }) => names.map(({ text }) => text));
  const isNamed = words.some(
    (text) => scope.grid('pattern', text) !== undefined || scope.grid('melody', text) !== undefined,
  );
  const [first, last] = [members[0], members.at(-1)];
  if (isNamed || !areStrokes(words) || first === undefined || last === undefined) return false;
  const span = { start: first.span.start, end: last.span.end };
  const row = spreadStrokes(words) ?? words.map(plainStroke).join(' ').toUpperCase();
  const name = freeName(scope, 'strokes', ['pattern', 'melody']);
  const { start } = statement.span;
  const edits = [
    { span: { start, end: start }, text: `pattern  ${name}\n  strum  ${row}\n\n` },
    { span, text: name },
  ];
  const message = `${words.join(' ')} are strokes; here stands the name of a pattern that has them in its strum row.`;
  const title = `Make a pattern of them: strum ${row}`;
  report('error', 'name.strokes', span, message, [{ title, edits, preferred: true }]);
  return true;
}

/** What is named exists, is a pattern or melody, and plays strings that these chords let sound. */
function checkPatterns(
  report: Report,
  scope: Scope,
  list: Members,
  chords: readonly ChordName[],
  told: Set<string>,
): void {
  for (const word of list.members.flatMap((member) => member.names)) {
    const grid = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text);
    if (grid !== undefined && asksSomething(grid))
      report('error', 'exercise.open-question', word.span, tellOpen(word.text, 'tunes'), [], unfinishedIf(true));
    else if (grid !== undefined) checkPlayable(report, scope, word, grid, chords, told);
    else if (scope.progression(word.text) !== undefined) {
      report(
        'error',
        'name.kind',
        word.span,
        `${word.text} is a progression; here stands what is played over it, a pattern or a melody.`,
      );
    } else reportUnknownName(report, scope, word, ['pattern', 'melody'], 'pattern or melody', standsLast(list, word));
  }
}

function chordsOfBars(planned: readonly PlannedBar[], at: AtDirective): readonly ChordName[] {
  return planned
    .filter(
      ({ number, bar }) =>
        (number !== undefined && at.bars.includes(number)) ||
        bar.ending?.numbers.some((ending) => at.endings.includes(ending)) === true,
    )
    .flatMap(({ bar }) => bar.items.flatMap((item) => (item.kind === 'chord' ? [item.chord] : [])));
}

function misplaced(report: Report, members: Members, written: string, right: string, why: string): void {
  const keyword: Span = { start: members.span.start, end: members.span.start + written.length };
  report('error', 'exercise.word', keyword, why, write(keyword, right));
}

/** Whether the word is the last of its line: it may still be typed. */
function standsLast(list: Members, word: Word): boolean {
  return word.span.end === list.span.end;
}

function checkPlayed(report: Report, scope: Scope, list: Members, member: ListMember): readonly ProgressionStatement[] {
  return member.names.flatMap((word) => {
    const progression = scope.progression(word.text);
    if (progression !== undefined) return [progression];
    if (scope.family(word.text) !== undefined) {
      report('error', 'exercise.open-question', word.span, tellOpen(word.text, 'families'), [], unfinishedIf(true));
    } else if (scope.grid('pattern', word.text) !== undefined || scope.grid('melody', word.text) !== undefined) {
      report(
        'error',
        'name.kind',
        word.span,
        `${word.text} is a pattern; play takes a progression, and its patterns stand behind with.`,
      );
    } else if (readChordName(word).symbol !== undefined) {
      report(
        'error',
        'name.kind',
        word.span,
        `${word.text} is a chord; play takes a progression. For single chords write over.`,
      );
    } else reportUnknownName(report, scope, word, ['progression'], 'progression', standsLast(list, word));
    return [];
  });
}

/** The chords of an `over` list: named one by one, or those of progressions. */
function checkOver(report: Report, scope: Scope, over: Members): readonly ChordName[] {
  const told = new Set<string>();
  return over.members.flatMap((member) =>
    member.names.flatMap((word) => {
      const progression = scope.progression(word.text);
      if (progression !== undefined) return chordsIn(progression);
      const chord = readChordName(word);
      if (isNoChord(word.text)) return [];
      if (scope.chord(word.text) === undefined && chord.symbol === undefined) {
        reportUnknownName(
          report,
          scope,
          word,
          ['chord', 'progression'],
          'chord or progression',
          standsLast(over, word),
        );
        return [];
      }
      checkChordUse(report, scope, chord, told, 0);
      return [chord];
    }),
  );
}

function checkAt(report: Report, statement: ExerciseStatement, planned: readonly PlannedBar[]): void {
  if (planned.length === 0) return;
  const bars = planned.filter((bar) => bar.number !== undefined).length;
  const endings = new Set(planned.flatMap((bar) => bar.bar.ending?.numbers ?? []));
  for (const at of statement.at) {
    for (const bar of at.bars) {
      if (bar < 1 || bar > bars)
        report(
          'error',
          'at.no-bar',
          at.span,
          `There is no bar ${bar}: written out once, the progression has ${counted(bars, 'bar')}.`,
        );
    }
    for (const ending of at.endings) {
      if (!endings.has(ending)) report('error', 'at.no-ending', at.span, `The progression has no ending ${ending}.`);
    }
  }
}
