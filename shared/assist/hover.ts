import { entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { fingeringFor } from '../lesson/model/fingerings.ts';
import { longestMention } from '../lesson/model/mentions.ts';
import { namingContext } from '../lesson/model/naming-context.ts';
import { type Occurrence, occurrencesIn } from '../lesson/model/occurrences.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { type Block, blockOf, KEYWORDS } from '../lesson/syntax/keywords.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Prose, Statement } from '../lesson/syntax/statement.ts';
import { printShape } from '../neck/shape.ts';
import { type Span, shifted, touches } from '../text/span.ts';
import type { Card } from './answers.ts';
import { type ChordAt, chordAt, heldAt } from './chord-at.ts';
import { scopeIn } from './entry-scope.ts';
import { shapesOf } from './further-shapes.ts';
import { markAt } from './mark-card.ts';
import { code, plain } from './markdown.ts';
import { type ShapeQuestion, shapeCard } from './shape-card.ts';

/** What is known about the word at the offset: a chord or shape, a mark of a grid, a name, a keyword. Spans in file offsets. */
export function hoverAt(document: LessonDocument, offset: number): Card | undefined {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  if (entry === undefined || start === undefined) return undefined;
  const scope = scopeIn(document, entry);
  const at = offset - start;
  const card = cardAt(document, scope, entry, at);
  return card === undefined ? undefined : { ...card, span: shifted(card.span, start) };
}

function cardAt(document: LessonDocument, scope: Scope, entry: Entry, at: number): Card | undefined {
  const { statement } = entry;
  const chord = chordAt(scope, statement, at);
  if (chord !== undefined) return chordCard(scope, chord);
  const occurrence = occurrencesIn(scope, statement).find(({ span }) => touches(span, at));
  if (occurrence !== undefined) return nameCard(scope, occurrence);
  return bareShapeCard(scope, statement, at) ?? markAt(document, scope, statement, at) ?? keywordCard(entry, at);
}

/** How many further shapes of a chord are shown: one glance, not a book of chords. */
const MOST_FURTHER = 6;

function chordCard(scope: Scope, at: ChordAt): Card {
  const { chord, span } = at;
  const held = heldAt(scope, at);
  if (held === undefined)
    return {
      span,
      markdown: `**${plain(chord.text)}** has no shape on ${plain(scope.edition().instrument.name)} yet.`,
    };
  const current = printShape(held.shape);
  const further = shapesOf(scope, held.symbol, { max: MOST_FURTHER + 1 })
    .map(({ shape }) => shape)
    .filter((shape) => printShape(shape) !== current)
    .slice(0, MOST_FURTHER);
  const { shape } = held;
  const context = namingContext(scope, held.statement?.chord ?? chord);
  return {
    span,
    ...shapeCard({ ...ground(scope), context, shape, chord: held, fingering: fingeringFor(scope, held), further }),
  };
}

function ground(scope: Scope): Pick<ShapeQuestion, 'instrument' | 'hand' | 'key'> {
  return { instrument: scope.edition().instrument, hand: scope.setting('hand'), key: scope.setting('key') };
}

function bareShapeCard(scope: Scope, statement: Statement, at: number): Card | undefined {
  const mention = proseOf(statement)
    .flatMap((prose) => prose.mentions)
    .find((word) => touches(word.span, at));
  const found = mention && longestMention(scope, mention);
  if (mention === undefined || found?.kind !== 'shape') return undefined;
  const span = { start: mention.span.start, end: mention.span.start + found.length };
  return { span, ...shapeCard({ ...ground(scope), shape: found.shape }) };
}

function proseOf(statement: Statement): readonly Prose[] {
  if (statement.kind === 'prose') return statement.paragraphs;
  return 'prose' in statement ? statement.prose : [];
}

/** A pattern, melody, progression or family, as its own lines say it. */
function nameCard(scope: Scope, { kind, text, span }: Occurrence): Card | undefined {
  const statement =
    kind === 'progression'
      ? scope.progression(text)
      : kind === 'family'
        ? scope.family(text)
        : kind === 'chord'
          ? undefined
          : scope.grid(kind, text);
  const entry = statement && scope.entryOf(statement);
  if (statement === undefined || entry === undefined) return undefined;
  const body = entry.text.slice(statement.span.start, statement.span.end);
  return { span, markdown: fenced(body) };
}

function fenced(text: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map((run) => run[0].length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}handspan\n${text}\n${fence}`;
}

/** The keyword under the pointer, with one line and an example. */
function keywordCard(entry: Entry, at: number): Card | undefined {
  const line = entry.lines.find(
    (candidate) => candidate.kind === 'statement' && at >= candidate.start && at <= candidate.end,
  );
  const first = line?.tokens.find((token) => token.kind === 'word');
  if (line === undefined || first === undefined || !touches(first, at)) return undefined;
  const block: Block = line.indent === 0 ? 'lesson' : blockOf(entry.statement);
  const word = entry.text.slice(first.start, first.end).toLowerCase();
  const keyword =
    KEYWORDS[block].find((candidate) => candidate.word === word) ??
    (block === 'edition' ? KEYWORDS.melody.find((candidate) => candidate.word === word) : undefined);
  if (keyword === undefined) return undefined;
  const span: Span = { start: first.start, end: first.end };
  return { span, markdown: `${code(keyword.word)} ${plain(keyword.says)}\n\n${fenced(keyword.example)}` };
}
