import { printPoints } from '../hand/tell-difficulty.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { difficultyFor } from '../lesson/model/fingerings.ts';
import type { Memo } from '../lesson/model/memo.ts';
import { ringOfExercise } from '../lesson/model/moved-ring.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { isNoChord, readChordName } from '../lesson/syntax/read-names.ts';
import type { ExerciseStatement, GridStatement, ProgressionStatement } from '../lesson/syntax/statement.ts';
import type { ListMember, Word } from '../lesson/syntax/words.ts';
import { exerciseScore, progressionScore } from '../score/exercise-score.ts';
import type { Pass, Source } from '../score/timeline.ts';
import { printMeter } from '../theory/meter.ts';
import type { SheetView } from './block.ts';
import type { KeptPieces } from './kept-pieces.ts';
import type { LegendSign } from './legend.ts';
import { type Draft, type Drawn, draft, plainDraft, wholeOf, writtenIn } from './sheet-draft.ts';
import { proseDrafts } from './sheet-prose.ts';
import { type DrawnSystems, systemDrafts } from './sheet-systems.ts';
import { printTempo } from './sheet-tempo.ts';

/** One time through the music of an exercise, as blocks. Its bars are not kept. */
export interface DrawnPass extends DrawnSystems {
  readonly pass: Pick<Pass, 'number' | 'with'>;
}

/**
 * The music of exercises, kept by what their lines of music say: a letter typed into a title, an aim or the prose draws no bar
 * anew. `entries` has the first exercise that said it, which stands for all that say the same.
 */
export interface MusicMemory {
  readonly memo: Memo<readonly DrawnPass[]>;
  readonly entries: Map<string, Entry>;
  readonly pieces: KeptPieces;
}

/** More than a long lesson has; beyond it the memory starts again, so that it cannot grow without end. */
const MOST_REMEMBERED = 5000;

/** An exercise: heading, lines of bars, prose. `introduced` names what is used here for the first time and brings its prose along. */
export function drawExercise(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  statement: ExerciseStatement,
  introduced: readonly string[],
  music: MusicMemory,
): Drawn {
  const broken = faultOf(scope, entry, statement);
  if (broken !== undefined) return { drafts: [plainDraft(entry, broken)], signs: [], broken };
  const drafts: Draft[] = [headingOf(scope, entry, statement)];
  const signs: LegendSign[] = [];
  for (const { pass, drafts: lines, signs: inLines } of musicOf(
    scope,
    view,
    entry,
    statement,
    isCounted(introduced),
    music,
  )) {
    if (pass.number !== undefined) drafts.push(passDraft(entry, statement, pass));
    drafts.push(...lines);
    signs.push(...inLines);
  }
  for (const prose of statement.prose) drafts.push(...proseDrafts(scope, view, entry, prose));
  for (const name of introduced) drafts.push(...proseOfUsed(scope, view, name));
  return { drafts, signs: [...new Set(signs)] };
}

/** The count is printed where a pattern is met; a reader who knows it needs the room more than the numbers. */
function isCounted(introduced: readonly string[]): boolean {
  return introduced.some((name) => name.startsWith('pattern ') || name.startsWith('melody '));
}

function musicOf(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  statement: ExerciseStatement,
  counts: boolean,
  { memo, entries, pieces }: MusicMemory,
): readonly DrawnPass[] {
  const draw = (asked: Scope): readonly DrawnPass[] => {
    const score = exerciseScore(asked, entry, statement);
    return score.passes.map((pass) => ({
      pass: headOf(pass),
      ...systemDrafts(asked, view, score, pass, counts, pieces),
    }));
  };
  // Bars made from chords of the exercise itself lead to words of the exercise, which move with every letter above them.
  if (statement.play === undefined) return draw(scope);
  const lines = [
    statement.play,
    ...statement.with,
    ...statement.at,
    statement.restart,
    statement.meter,
    statement.tempo,
  ];
  const said = lines
    .map((line) => (line === undefined ? '' : entry.text.slice(line.span.start, line.span.end)))
    .join('\n');
  if (entries.size > MOST_REMEMBERED) entries.clear();
  const known = entries.get(said) ?? entry;
  entries.set(said, known);
  return memo.get(
    known,
    scope,
    [view.widthMm, view.leftHanded, view.page === undefined, counts, scope.edition().name].join('\n'),
    draw,
  );
}

/** A progression that no exercise plays: its bars with their chords. */
export function drawProgression(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  statement: ProgressionStatement,
  { pieces }: MusicMemory,
): Drawn {
  const broken = errorOf(entry);
  if (broken !== undefined) return { drafts: [plainDraft(entry, broken)], signs: [], broken };
  const score = progressionScore(scope, statement);
  const heading = smallHeading(scope, entry, statement.name);
  const systems = score.passes.map((pass) => systemDrafts(scope, view, score, pass, true, pieces));
  const prose = statement.prose.flatMap((paragraph) => proseDrafts(scope, view, entry, paragraph));
  return {
    drafts: [...heading, ...systems.flatMap(({ drafts }) => drafts), ...prose],
    signs: systems.flatMap(({ signs }) => signs),
  };
}

/** A pattern or melody by itself, over the chords it names, or over the lesson's first chord. */
export function drawGrid(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  statement: GridStatement,
  { pieces }: MusicMemory,
): Drawn {
  const broken = errorOf(entry);
  if (broken !== undefined) return { drafts: [plainDraft(entry, broken)], signs: [], broken };
  if (statement.name === undefined) return { drafts: [plainDraft(entry, undefined)], signs: [] };
  if (statement.lines.length + (statement.like === undefined ? 0 : 1) === 0) {
    return { drafts: [plainDraft(entry, undefined)], signs: [] };
  }
  const { span, name, keyword } = statement;
  const chords = chordsOf(scope, statement).map(
    (text): ListMember => ({ names: [{ text, span: name.span }], times: 1, span: name.span }),
  );
  const alone: ExerciseStatement = {
    kind: 'exercise',
    span,
    keyword,
    over: { members: chords, span },
    each: { members: [{ names: [name], times: 1, span }], span },
    with: [],
    at: [],
    prose: [],
    ...(statement.meter === undefined ? {} : { meter: statement.meter }),
  };
  const score = exerciseScore(scope, entry, alone);
  const systems = score.passes.map((pass) => systemDrafts(scope, view, score, pass, true, pieces));
  if (systems.every(({ drafts }) => drafts.length === 0)) return { drafts: [plainDraft(entry, undefined)], signs: [] };
  const prose = statement.prose.flatMap((paragraph) => proseDrafts(scope, view, entry, paragraph));
  return {
    drafts: [...smallHeading(scope, entry, name), ...systems.flatMap(({ drafts }) => drafts), ...prose],
    signs: systems.flatMap(({ signs }) => signs),
  };
}

function smallHeading(scope: Scope, entry: Entry, name: Word | undefined): readonly Draft[] {
  if (name === undefined) return [];
  const source = { entry, span: name.span };
  const written = writtenIn(scope.setting('language'));
  return [
    draft('heading', { kind: 'heading', ...written, level: 4, text: { text: name.text, place: 0 } }, source, [source]),
  ];
}

/** The chords that a grid's rows are labelled with, else the first chord of the lesson. */
function chordsOf(scope: Scope, statement: GridStatement): readonly string[] {
  const labels = new Set(
    statement.lines.flatMap((line) => line.rows.flatMap((row) => (row.chord === undefined ? [] : [row.chord.text]))),
  );
  if (labels.size > 0 && statement.kind === 'melody') return [...labels];
  const [first] = scope.names('chord').split('\n');
  return [first === undefined || first === '' ? 'C' : first];
}

function errorOf(entry: Entry): string | undefined {
  return entry.problems.find((problem) => problem.severity === 'error')?.message;
}

/** Why the exercise cannot be drawn now: its own text, a name that the lesson lacks, or the text of what it plays. */
function faultOf(scope: Scope, entry: Entry, statement: ExerciseStatement): string | undefined {
  const own = errorOf(entry);
  if (own !== undefined) return own;
  const patterns = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  for (const word of patterns.flatMap((list) => list.members.flatMap((member) => member.names))) {
    const grid = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text);
    if (grid === undefined) return `No pattern or melody is called “${word.text}” now.`;
    const fault = faultOfUsed(scope, grid);
    if (fault !== undefined) return fault;
    const base =
      grid.like === undefined
        ? undefined
        : (scope.grid('pattern', grid.like.text) ?? scope.grid('melody', grid.like.text));
    const baseFault = base === undefined ? undefined : faultOfUsed(scope, base);
    if (baseFault !== undefined) return baseFault;
  }
  for (const word of namesIn(statement.play?.members)) {
    const progression = scope.progression(word.text);
    if (progression === undefined) return `No progression is called “${word.text}” now.`;
    const fault = faultOfUsed(scope, progression);
    if (fault !== undefined) return fault;
  }
  for (const word of namesIn(statement.over?.members)) {
    const progression = scope.progression(word.text);
    if (progression !== undefined) {
      const fault = faultOfUsed(scope, progression);
      if (fault !== undefined) return fault;
    } else if (
      !isNoChord(word.text) &&
      scope.chord(word.text) === undefined &&
      readChordName(word).symbol === undefined
    ) {
      return `“${word.text}” is neither a chord nor a progression of this lesson.`;
    }
  }
  return undefined;
}

function namesIn(members: readonly ListMember[] | undefined): readonly Word[] {
  return members?.flatMap((member) => member.names) ?? [];
}

function faultOfUsed(scope: Scope, used: GridStatement | ProgressionStatement): string | undefined {
  const entry = scope.entryOf(used);
  return entry === undefined ? undefined : errorOf(entry);
}

function headingOf(scope: Scope, entry: Entry, statement: ExerciseStatement): Draft {
  const source = wholeOf(entry);
  const title = statement.title?.text ?? 'Exercise';
  const meter = statement.meter?.meter ?? scope.setting('meter');
  const facts: string[] = [];
  const play = namesIn(statement.play?.members ?? statement.over?.members).map((word) => nameHere(scope, word));
  const patterns = (statement.with[0] ?? statement.each)?.members.map(printMember) ?? [];
  if (play.length > 0)
    facts.push(
      `${play.join(', ')}${patterns.length > 0 && statement.with.length < 2 ? `, with ${patterns.join(', ')}` : ''}`,
    );
  if (statement.meter !== undefined) facts.push(printMeter(meter));
  if (statement.tempo !== undefined) facts.push(printTempo(statement.tempo.tempo, meter));
  if (statement.repeat !== undefined)
    facts.push(statement.repeat.times === 1 ? 'once' : `${statement.repeat.times} times`);
  if (statement.minutes !== undefined)
    facts.push(statement.minutes.minutes === 1 ? '1 minute' : `${statement.minutes.minutes} minutes`);
  const difficulty = difficultyFor(scope, statement);
  if (difficulty !== undefined) facts.push(`difficulty ${printPoints(difficulty.total)}`);
  const ring = ringOfExercise(scope, statement);
  if (ring?.kind === 'strings') facts.push(ringing(ring.strings));
  if (ring?.kind === 'all') facts.push('all strings ring on');
  if (statement.restart !== undefined) facts.push(`patterns begin anew at each ${statement.restart.at}`);
  if (statement.video !== undefined) facts.push(`video at ${statement.video.text}`);
  const aim = statement.aim === undefined ? {} : { aim: statement.aim.text };
  return draft(
    'exercise',
    { kind: 'exercise', ...writtenIn(scope.setting('language')), title: { text: title, place: 0 }, ...aim, facts },
    source,
    [source, ...usedBy(scope, statement)],
  );
}

/** What an exercise is played over, as this edition calls it: the same frets have other names on another instrument. */
function nameHere(scope: Scope, word: Word): string {
  if (scope.progression(word.text) !== undefined) return word.text;
  const written = readChordName(word);
  const chord = resolveChord(scope, written);
  if (chord === undefined) return word.text;
  return written.label === undefined ? chord.name : `${chord.name} (${written.label})`;
}

function ringing(strings: readonly number[]): string {
  return strings.length === 1 ? `string ${strings[0]} rings on` : `strings ${strings.join(' and ')} ring on`;
}

/** What the exercise draws from, so that a cursor in a pattern or under the bars of a progression finds where it is played. */
function usedBy(scope: Scope, statement: ExerciseStatement): readonly Source[] {
  const lists = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  const grids = lists
    .flatMap((list) => namesIn(list.members))
    .map((word) => scope.grid('pattern', word.text) ?? scope.grid('melody', word.text));
  const progressions = namesIn(statement.play?.members).map((word) => scope.progression(word.text));
  return [...new Set([...grids, ...progressions])].flatMap((used) => {
    const entry = used === undefined ? undefined : scope.entryOf(used);
    return used === undefined || entry === undefined ? [] : [{ entry, span: used.span }];
  });
}

function printMember(member: ListMember): string {
  const names = member.names.map((word) => word.text).join(' + ');
  return member.times > 1 ? `${names} ×${member.times}` : names;
}

function headOf({ number, with: patterns }: Pass): DrawnPass['pass'] {
  return { with: patterns, ...(number === undefined ? {} : { number }) };
}

function passDraft(entry: Entry, statement: ExerciseStatement, pass: DrawnPass['pass']): Draft {
  const span = statement.with[(pass.number ?? 1) - 1]?.span ?? statement.span;
  const ordinal = ['First', 'Second', 'Third', 'Fourth'][(pass.number ?? 1) - 1];
  const head = ordinal === undefined ? `Time ${pass.number}` : `${ordinal} time`;
  const source = { entry, span };
  const text = `${head}, with ${pass.with.join(', ').replace(/ x(\d+)/g, ' ×$1')}`;
  return draft('facts', { kind: 'pass', text: { text, place: 0 } }, source, [source]);
}

/** The prose of a pattern, melody or progression, printed where it is first used. `name` has its kind before a blank. */
function proseOfUsed(scope: Scope, view: SheetView, name: string): readonly Draft[] {
  const [kind, word = ''] = name.split(' ');
  const used =
    kind === 'progression'
      ? scope.progression(word)
      : kind === 'pattern' || kind === 'melody'
        ? scope.grid(kind, word)
        : undefined;
  const entry = used === undefined ? undefined : scope.entryOf(used);
  if (used === undefined || entry === undefined) return [];
  return used.prose.flatMap((paragraph) => proseDrafts(scope, view, entry, paragraph));
}
