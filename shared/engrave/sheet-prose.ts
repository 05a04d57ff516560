import { resolveChord } from '../lesson/model/chords.ts';
import { fingeringFor } from '../lesson/model/fingerings.ts';
import { createMemo } from '../lesson/model/memo.ts';
import { longestMention, type Mention } from '../lesson/model/mentions.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Prose } from '../lesson/syntax/statement.ts';
import type { Word } from '../lesson/syntax/words.ts';
import { printShape } from '../neck/shape.ts';
import type { Source } from '../score/timeline.ts';
import { CHORD_STYLES } from '../theory/chord-style.ts';
import { printChordSymbol } from '../theory/chord-symbol.ts';
import type { SheetView } from './block.ts';
import { type DiagramRequest, drawDiagram } from './chord-diagram.ts';
import { fingersToShow, isSuggested } from './diagram-fingers.ts';
import type { Drawing } from './drawing.ts';
import { readProse } from './prose.ts';
import type { ShownMention } from './sheet-content.ts';
import { areLight, type Draft, draft, writtenIn } from './sheet-draft.ts';
import { SIZES } from './sizes.ts';

const memo = createMemo<readonly Draft[]>();

/**
 * A paragraph as blocks: one, or several where it would weigh too much. Kept by itself, since the music of an exercise changes
 * far more often than the sentences under it.
 */
export function proseDrafts(scope: Scope, view: SheetView, entry: Entry, prose: Prose): readonly Draft[] {
  const whole = view.page === undefined ? '' : 'page';
  const variant = [prose.span.start, view.leftHanded, whole, scope.edition().name].join(' ');
  return memo.get(entry, scope, variant, (asked) => draftsOf(asked, view, entry, prose));
}

function draftsOf(scope: Scope, view: SheetView, entry: Entry, prose: Prose): readonly Draft[] {
  if (prose.lines.every((line) => line.text.trim() === '')) return [];
  const whole = proseDraft(scope, view, entry, prose);
  if (view.page !== undefined || areLight([whole])) return [whole];
  const [head, tail] = halves(prose);
  return tail === undefined ? [whole] : [...draftsOf(scope, view, entry, head), ...draftsOf(scope, view, entry, tail)];
}

function proseDraft(scope: Scope, view: SheetView, entry: Entry, prose: Prose): Draft {
  const places: Source[] = [{ entry, span: prose.span }];
  const mentions: ShownMention[] = [];
  const nodes = readProse(prose, (word) => {
    const mention = longestMention(scope, word);
    if (mention === undefined) return undefined;
    mentions.push({ place: places.length, ...shownAs(scope, view, word, mention) });
    places.push({ entry, span: { start: word.span.start - 1, end: word.span.start + mention.length } });
    return mention;
  });
  return draft(
    'prose',
    { kind: 'prose', ...writtenIn(scope.setting('language')), nodes, mentions },
    { entry, span: prose.span },
    places,
  );
}

function shownAs(scope: Scope, view: SheetView, word: Word, mention: Mention): Omit<ShownMention, 'place'> {
  if (mention.kind === 'shape') {
    return {
      diagram: inlineDiagram({ shape: mention.shape, leftHanded: view.leftHanded }),
      text: printShape(mention.shape),
    };
  }
  if (mention.kind !== 'chord') return { text: mention.name };
  const chord = resolveChord(scope, mention.chord);
  const typed = word.text.slice(0, mention.length);
  if (chord === undefined) return { text: typed };
  const { shape, fingers, assumed } = chord;
  const shown = fingersToShow(fingers, fingeringFor(scope, chord));
  // The lesson's own numbers are there to be read, where a screen can make them larger; suggested ones would be too small to.
  const numbered = view.page === undefined && !isSuggested(shown);
  const request = { shape, leftHanded: view.leftHanded, assumed, ...shown, numbered };
  const text = printChordSymbol(chord.symbol, { ...CHORD_STYLES.plain, accidentals: 'signs' });
  return { diagram: inlineDiagram(request), text };
}

/** A diagram small enough to stand in a line; its name follows as text. */
function inlineDiagram(request: DiagramRequest): Drawing {
  return { ...drawDiagram({ ...request, inLine: true }), scale: SIZES.inlineDiagramScale };
}

/** Two paragraphs of half the lines, or a single line cut at a blank near its middle. */
function halves(prose: Prose): readonly [Prose, Prose | undefined] {
  const [only] = prose.lines;
  if (prose.lines.length > 1) {
    const middle = prose.lines.length >> 1;
    const cut = prose.lines[middle]?.span.start ?? prose.span.end;
    return [
      { ...prose, lines: prose.lines.slice(0, middle), span: { start: prose.span.start, end: cut } },
      { ...prose, lines: prose.lines.slice(middle), span: { start: cut, end: prose.span.end } },
    ];
  }
  if (only === undefined || only.text.length < 2) return [prose, undefined];
  const blank = only.text.lastIndexOf(' ', only.text.length >> 1);
  const at = blank > 0 ? blank : only.text.length >> 1;
  const cut = only.span.start + at;
  const part = (from: number, to: number): Prose => ({
    ...prose,
    lines: [{ text: only.text.slice(from - only.span.start, to - only.span.start), span: { start: from, end: to } }],
    span: { start: from, end: to },
  });
  return [part(only.span.start, cut), part(cut, only.span.end)];
}
