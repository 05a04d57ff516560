import type { Answers } from '../lesson/asked/answer.ts';
import { asksSomething } from '../lesson/asked/question.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import type { Memo } from '../lesson/model/memo.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import type { ShowStatement } from '../lesson/syntax/statement.ts';
import type { SheetView } from './block.ts';
import { chordOfLine, diagramDrafts, type ShownChord, shownChord } from './sheet-diagrams.ts';
import { type Draft, type Drawn, draft, plainDraft, wholeOf, writtenIn } from './sheet-draft.ts';
import { drawExercise, drawGrid, drawProgression, type MusicMemory } from './sheet-exercise.ts';
import type { SheetItem } from './sheet-items.ts';
import { proseDrafts } from './sheet-prose.ts';
import { drawQuestion } from './sheet-question.ts';

/** An item with all that its drawing may look up. */
export interface ItemContext {
  readonly scope: Scope;
  readonly view: SheetView;
  /** All that a drawing depends on besides what it looks up, as one text. */
  readonly variant: string;
  readonly memo: Memo<Drawn>;
  readonly chords: Memo<ShownChord | undefined>;
  readonly rows: WeakMap<Entry, KeptRow>;
  readonly music: MusicMemory;
  readonly answers: Answers;
}

/** A row of diagrams and what it was drawn from. */
export interface KeptRow {
  readonly chords: readonly (ShownChord | undefined)[];
  readonly drawn: Drawn;
}

/** Draws an item, or takes it as it was drawn before, when nothing that it looked up has changed. */
export function drawItem(item: SheetItem, context: ItemContext): Drawn {
  const [entry] = item.entries;
  if (entry === undefined) return { drafts: [], signs: [] };
  const { scope, memo } = context;
  if (item.kind === 'chord') return drawChords(item, entry, context);
  if (asksSomething(entry.statement)) return drawQuestion(entry, { ...context, pieces: context.music.pieces });
  const variant = item.introduces.length === 0 ? context.variant : [context.variant, ...item.introduces].join('\n');
  return memo.get(entry, scope, variant, (asked) => drawEntry(asked, context, entry, item.introduces));
}

function drawChords(item: SheetItem, first: Entry, { scope, view, variant, chords, rows }: ItemContext): Drawn {
  const shown = item.entries.map((entry) =>
    chords.get(entry, scope, variant, (asked) =>
      entry.statement.kind === 'chord' ? chordOfLine(asked, view, entry, entry.statement) : undefined,
    ),
  );
  const known = rows.get(first);
  if (
    known !== undefined &&
    known.chords.length === shown.length &&
    known.chords.every((chord, index) => chord === shown[index])
  )
    return known.drawn;
  const drawn = rowOf(item, shown, view);
  rows.set(first, { chords: shown, drawn });
  return drawn;
}

function rowOf(item: SheetItem, shown: readonly (ShownChord | undefined)[], view: SheetView): Drawn {
  const whole = shown.filter((chord): chord is ShownChord => chord !== undefined && chord.broken === undefined);
  const broken = shown.find((chord) => chord?.broken !== undefined)?.broken;
  const faulty = item.entries.filter((_, index) => shown[index]?.broken !== undefined);
  const drafts = [
    ...diagramDrafts(whole, view),
    ...faulty.map((entry, index) => plainDraft(entry, index === 0 ? broken : undefined)),
  ];
  const signs = [...new Set(whole.flatMap((chord) => chord.signs))];
  const stretches = whole.some((chord) => chord.stretch);
  const drawn: Drawn = { drafts, signs, ...(stretches ? { stretches } : {}) };
  return broken === undefined ? drawn : { ...drawn, broken };
}

function drawEntry(scope: Scope, { view, music }: ItemContext, entry: Entry, introduces: readonly string[]): Drawn {
  const { statement } = entry;
  switch (statement.kind) {
    case 'prose':
      return { drafts: statement.paragraphs.flatMap((prose) => proseDrafts(scope, view, entry, prose)), signs: [] };
    case 'part': {
      const source = wholeOf(entry);
      const text = { text: statement.value?.text ?? '', place: 0 };
      return {
        drafts: [
          draft('heading', { kind: 'heading', ...writtenIn(scope.setting('language')), level: 2, text }, source, [
            source,
          ]),
        ],
        signs: [],
      };
    }
    case 'page': {
      const source = wholeOf(entry);
      return { drafts: [draft('heading', { kind: 'turn', place: 0 }, source, [source])], signs: [] };
    }
    case 'show':
      return drawShow(scope, view, entry, statement, music);
    case 'exercise':
      return drawExercise(scope, view, entry, statement, introduces, music);
    case 'progression':
      return drawProgression(scope, view, entry, statement, music);
    case 'pattern':
    case 'melody':
      return drawGrid(scope, view, entry, statement, music);
    case 'edition':
      return { drafts: statement.prose.flatMap((prose) => proseDrafts(scope, view, entry, prose)), signs: [] };
    default:
      return { drafts: [plainDraft(entry, undefined)], signs: [] };
  }
}

/** `show Em C roll`: diagrams first come together, then whatever else is named. */
function drawShow(scope: Scope, view: SheetView, entry: Entry, statement: ShowStatement, music: MusicMemory): Drawn {
  const drafts: Draft[] = [];
  const signs: Drawn['signs'][number][] = [];
  let row: ShownChord[] = [];
  let stretches = false;
  let broken: string | undefined;
  const closeRow = (): void => {
    drafts.push(...diagramDrafts(row, view));
    row = [];
  };
  for (const word of statement.names.flatMap((member) => member.names)) {
    const source = { entry, span: word.span };
    const grid = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text);
    const progression = scope.progression(word.text);
    const named = grid ?? progression;
    const from = named === undefined ? undefined : scope.entryOf(named);
    if (named !== undefined && from !== undefined) {
      closeRow();
      const drawn =
        named.kind === 'progression'
          ? drawProgression(scope, view, from, named, music)
          : drawGrid(scope, view, from, named, music);
      drafts.push(...drawn.drafts);
      signs.push(...drawn.signs);
      broken ??= drawn.broken;
      continue;
    }
    const chord = resolveChord(scope, readChordName(word));
    if (chord === undefined) {
      closeRow();
      drafts.push(draft('plain-text', { kind: 'unknown-name', text: { text: word.text, place: 0 } }, source, [source]));
      continue;
    }
    const shown = shownChord(scope, view, chord, source, readChordName(word).label);
    row.push(shown);
    signs.push(...shown.signs);
    stretches ||= shown.stretch;
  }
  closeRow();
  return { drafts, signs, ...(stretches ? { stretches } : {}), ...(broken === undefined ? {} : { broken }) };
}
