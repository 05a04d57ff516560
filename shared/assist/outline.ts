import type { LessonDocument } from '../lesson/document.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { printShape } from '../neck/shape.ts';
import { type Span, shifted } from '../text/span.ts';
import type { OutlineItem } from './answers.ts';

/** The lesson as a list: parts with what stands under them, runs of chords as one item. */
export function outlineOf(document: LessonDocument): readonly OutlineItem[] {
  const top: OpenItem[] = [];
  let part: OpenItem | undefined;
  document.entries.forEach((entry, index) => {
    const start = document.starts[index] ?? 0;
    const item = itemOf(entry, start);
    if (item === undefined) return;
    const siblings = item.kind === 'part' || part === undefined ? top : part.children;
    const last = siblings.at(-1);
    if (item.kind === 'chord') {
      const before = document.entries[index - 1]?.statement.kind;
      if (last?.kind === 'chords' && before === 'chord') addChord(last, item);
      else {
        // The shape is the chord's own and says nothing about a run of several.
        const { detail: _, ...run } = item;
        siblings.push({ ...run, kind: 'chords', children: [item] });
      }
    } else siblings.push(item);
    if (item.kind === 'part') part = item;
    else if (part !== undefined) part.span = { start: part.span.start, end: item.span.end };
  });
  return top;
}

/** Blocks of more than one line, as spans to fold. */
export function foldsOf(document: LessonDocument): readonly Span[] {
  return document.entries.flatMap((entry, index): readonly Span[] => {
    const start = document.starts[index] ?? 0;
    const { span } = entry.statement;
    return entry.lines.filter((line) => line.kind !== 'empty' && line.start < span.end).length > 1
      ? [shifted(span, start)]
      : [];
  });
}

type OpenItem = { -readonly [K in keyof Omit<OutlineItem, 'children'>]: OutlineItem[K] } & { children: OpenItem[] };

function addChord(run: OpenItem, chord: OpenItem): void {
  run.children.push(chord);
  run.name = run.children.map((child) => child.name).join(' ');
  run.span = { start: run.span.start, end: chord.span.end };
}

function itemOf({ statement }: Entry, start: number): OpenItem | undefined {
  const span = shifted(statement.span, start);
  const item = (kind: OutlineItem['kind'], name: string, nameSpan: Span | undefined, detail?: string): OpenItem => ({
    kind,
    name: name === '' ? kind : name,
    span,
    nameSpan: nameSpan === undefined ? span : shifted(nameSpan, start),
    children: [],
    ...(detail === undefined ? {} : { detail }),
  });
  switch (statement.kind) {
    case 'part':
      return item('part', statement.value?.text ?? '', statement.value?.span);
    case 'chord':
      return item(
        'chord',
        statement.chord?.text ?? '',
        statement.chord?.span,
        statement.shape && printShape(statement.shape),
      );
    case 'progression':
    case 'pattern':
    case 'melody':
    case 'family':
    case 'edition':
      return item(statement.kind, statement.name?.text ?? '', statement.name?.span);
    case 'exercise': {
      const minutes = statement.minutes?.minutes;
      return item(
        'exercise',
        statement.title?.text ?? '',
        statement.title?.span,
        minutes === undefined ? undefined : `${minutes} min`,
      );
    }
    default:
      return undefined;
  }
}
