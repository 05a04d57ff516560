import { entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { longestMention } from '../lesson/model/mentions.ts';
import { type Occurrence, occurrencesIn } from '../lesson/model/occurrences.ts';
import { type Scope, scopeOf } from '../lesson/model/scope.ts';
import { type Block, blockOf, KEYWORDS } from '../lesson/syntax/keywords.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Prose, Statement } from '../lesson/syntax/statement.ts';
import { type Span, shifted, touches } from '../text/span.ts';
import type { Card } from './answers.ts';
import { markAt } from './mark-card.ts';
import { code, plain } from './markdown.ts';
import { type ShapeQuestion, shapeCard } from './shape-card.ts';

/** What is known about the word at the offset: a chord or shape, a mark of a grid, a name, a keyword. Spans in file offsets. */
export function hoverAt(document: LessonDocument, offset: number): Card | undefined {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  if (entry === undefined || start === undefined) return undefined;
  const scope = scopeOf(lessonOf(document));
  const at = offset - start;
  const card = cardAt(document, scope, entry, at);
  return card === undefined ? undefined : { ...card, span: shifted(card.span, start) };
}

function cardAt(document: LessonDocument, scope: Scope, entry: Entry, at: number): Card | undefined {
  const { statement } = entry;
  const occurrence = occurrencesIn(scope, statement).find(({ span }) => touches(span, at));
  if (occurrence?.kind === 'chord') return chordCard(scope, statement, occurrence);
  if (statement.kind === 'chord' && statement.frets !== undefined && touches(statement.frets.span, at)) {
    const [defined] = occurrencesIn(scope, statement);
    return defined === undefined ? undefined : chordCard(scope, statement, { ...defined, span: statement.frets.span });
  }
  if (occurrence !== undefined) return nameCard(scope, occurrence);
  return bareShapeCard(scope, statement, at) ?? markAt(document, scope, statement, at) ?? keywordCard(entry, at);
}

function chordCard(scope: Scope, statement: Statement, occurrence: Occurrence): Card | undefined {
  const { chord, span } = occurrence;
  if (chord === undefined) return undefined;
  // On its own line a chord shows the shape of that line, though another line may be the one that counts.
  const own =
    statement.kind === 'chord' && statement.shape !== undefined && chord.symbol !== undefined ? statement : undefined;
  const resolved =
    own?.shape !== undefined &&
    chord.symbol !== undefined &&
    own.shape.length === scope.edition().instrument.openStrings.length
      ? {
          name: chord.symbol.text,
          symbol: chord.symbol,
          shape: own.shape,
          assumed: false,
          ...(own.fingers ? { fingers: own.fingers } : {}),
        }
      : resolveChord(scope, chord);
  if (resolved === undefined)
    return {
      span,
      markdown: `**${plain(chord.text)}** has no shape on ${plain(scope.edition().instrument.name)} yet.`,
    };
  const card = shapeCard({ ...ground(scope), shape: resolved.shape, chord: resolved });
  return { span, ...card };
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
