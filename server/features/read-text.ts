import type { Position, Range } from 'vscode-languageserver';
import { entryIndexAt } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import type { ReadingWish } from '../../shared/reading/read-text.ts';
import { countedReading, type OfferedReading, readingsOf } from '../../shared/reading/readings.ts';
import { parseRhythmWish } from '../../shared/reading/rhythm-wish.ts';
import type { TextEdit } from '../../shared/text/span.ts';
import { toOffset, toSpan } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import type { ReadingOfText, ReadingsOfText, TextToRead } from '../protocol/read-text.ts';
import { toPosition } from '../to-protocol.ts';

/** How a text may be read for this lesson, and where in it the lines would go. */
export function readTextFor(lesson: OpenLesson, { text, position, count }: TextToRead): ReadingsOfText {
  const place = placeFor(lesson, position);
  const wish = wishOf(lesson);
  const answer = (readings: readonly OfferedReading[]): ReadingsOfText => ({
    position: toPosition(lesson.text, place),
    readings: readings.map(
      ({ label, preview, reading }): ReadingOfText => ({ label, preview, text: between(lesson, place, reading.text) }),
    ),
  });
  if (count !== undefined) {
    const rhythm = parseRhythmWish(count, lessonOf(lesson.document).settings.meter);
    return rhythm.ok
      ? answer(readingsOf(text, { ...wish, rhythm: rhythm.value }))
      : { ...answer([]), fault: rhythm.problem.message };
  }
  const readings = readingsOf(text, wish);
  if (readings.length < 2) return answer(readings);
  const { count: begun, label, preview } = countedReading(text, wish);
  return { ...answer(readings), counted: { count: begun, label, preview } };
}

/** What the selected lines become, where they are raw text that the lesson makes nothing of: a way for each reading. */
export function readingsOfSelection(
  lesson: OpenLesson,
  range: Range,
): readonly { readonly title: string; readonly edits: readonly TextEdit[] }[] {
  const { document, text } = lesson;
  const selected = toSpan(text, range);
  if (selected.start === selected.end) return [];
  const start = toOffset(text, { line: text.positionAt(selected.start).line, character: 0 });
  const last = text.positionAt(selected.end);
  // A selection of whole lines ends at the head of the next one.
  const end = last.character === 0 ? selected.end : toOffset(text, { line: last.line + 1, character: 0 });
  const raw = document.text.slice(start, end);
  const entries = document.entries.slice(entryIndexAt(document, start), entryIndexAt(document, end - 1) + 1);
  const isRemarks = raw.split(/\r\n|\n|\r/).every((line) => /^\s*(?:\/\/|>|$)/.test(line));
  if (!isRemarks && !entries.some(({ statement }) => statement.kind === 'unknown')) return [];
  const readings = readingsOf(raw, wishOf(lesson));
  return readings.map(({ label, reading }) => ({
    title: readings.length > 1 ? `Read this text as music: ${label.toLowerCase()}` : 'Read this text as music',
    edits: [{ span: { start, end }, text: withLineEnds(lesson, reading.text) }],
  }));
}

function wishOf({ document }: OpenLesson): ReadingWish {
  const lesson = lessonOf(document);
  const { instrument, meter } = lesson.settings;
  const scope = scopeOf(lesson);
  const kinds = ['progression', 'pattern', 'melody', 'family'] as const;
  const taken = new Set(kinds.flatMap((kind) => scope.names(kind).split('\n')));
  return { instrument, meter, taken };
}

/** At the head of the cursor's line; behind its statement where that has lines from there on. */
function placeFor({ document, text }: OpenLesson, position: Position): number {
  const head = toOffset(text, { line: position.line, character: 0 });
  const index = entryIndexAt(document, head);
  const start = document.starts[index] ?? 0;
  if (head === start) return head;
  const lastLine = document.entries[index]?.lines.findLast(({ kind }) => kind !== 'empty');
  const end = start + (lastLine?.end ?? 0);
  return head > end ? head : toOffset(text, { line: text.positionAt(end).line + 1, character: 0 });
}

/** The lines with an empty one before and behind, as statements of a lesson stand. */
function between(lesson: OpenLesson, place: number, reading: string): string {
  const { text } = lesson.document;
  const before = text.slice(0, place).replace(/\r\n|\r/g, '\n');
  const after = text.slice(place).replace(/\r\n|\r/g, '\n');
  const head = before === '' || before.endsWith('\n\n') ? '' : before.endsWith('\n') ? '\n' : '\n\n';
  const tail = after === '' || after.startsWith('\n') ? '' : '\n';
  return withLineEnds(lesson, head + reading + tail);
}

function withLineEnds({ document }: OpenLesson, text: string): string {
  const own = /\r\n?|\n/.exec(document.text)?.[0] ?? '\n';
  return text.replaceAll('\n', own);
}
