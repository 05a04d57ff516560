import { createMemo, type Memo } from '../lesson/model/memo.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { ExerciseStatement, GridStatement, ProgressionStatement } from '../lesson/syntax/statement.ts';
import type { ListMember, Word } from '../lesson/syntax/words.ts';
import { exerciseScore, progressionScore } from '../score/exercise-score.ts';
import type { Pass } from '../score/timeline.ts';
import { Remembered } from '../text/remembered.ts';
import type { SheetView } from './block.ts';
import { createKeptPieces, type KeptPieces } from './kept-pieces.ts';
import type { LegendSign } from './legend.ts';
import { type Draft, type Drawn, draft, plainDraft, writtenIn } from './sheet-draft.ts';
import { headingOf } from './sheet-exercise-heading.ts';
import { errorOf, faultOf, faultOfChords, faultOfProgression } from './sheet-fault.ts';
import { proseDrafts } from './sheet-prose.ts';
import { type DrawnSystems, systemDrafts } from './sheet-systems.ts';

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
  readonly entries: Remembered<string, Entry>;
  readonly pieces: KeptPieces;
}

export function createMusicMemory(): MusicMemory {
  return { memo: createMemo(), entries: new Remembered(5000), pieces: createKeptPieces() };
}

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
  const known = entries.get(said, () => entry);
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
  const broken = faultOfProgression(scope, statement);
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
  const names = chordsOf(scope, statement);
  const halfWritten = faultOfChords(scope, names);
  if (halfWritten !== undefined) return { drafts: [plainDraft(entry, halfWritten)], signs: [], broken: halfWritten };
  const chords = names.map((text): ListMember => ({ names: [{ text, span: name.span }], times: 1, span: name.span }));
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
