import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import type { OutlineItem, OutlineKind } from '../../shared/assist/answers.ts';
import { outlineOf } from '../../shared/assist/outline.ts';
import type { EditorCan } from '../editor-can.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toRange } from '../to-protocol.ts';

const ICONS: Readonly<Record<OutlineKind, SymbolKind>> = {
  part: SymbolKind.Namespace,
  chords: SymbolKind.Array,
  chord: SymbolKind.Constant,
  progression: SymbolKind.Class,
  pattern: SymbolKind.Function,
  melody: SymbolKind.Event,
  exercise: SymbolKind.Method,
  family: SymbolKind.Interface,
  edition: SymbolKind.Module,
};

/** The lesson's outline; a flat list for editors that show no tree. */
export function symbols(lesson: OpenLesson, can: EditorCan): DocumentSymbol[] | SymbolInformation[] {
  const outline = outlineOf(lesson.document);
  return can.nestedSymbols
    ? outline.map((item) => nested(lesson, item))
    : outline.flatMap((item) => flat(lesson, item, undefined));
}

function nested(lesson: OpenLesson, item: OutlineItem): DocumentSymbol {
  return {
    name: shownName(item),
    ...(item.detail === undefined ? {} : { detail: item.detail }),
    kind: ICONS[item.kind],
    range: toRange(lesson.text, item.span),
    selectionRange: toRange(lesson.text, item.nameSpan),
    children: item.children.map((child) => nested(lesson, child)),
  };
}

function flat(lesson: OpenLesson, item: OutlineItem, within: string | undefined): SymbolInformation[] {
  const own: SymbolInformation = {
    name: shownName(item),
    kind: ICONS[item.kind],
    location: { uri: lesson.uri, range: toRange(lesson.text, item.span) },
    ...(within === undefined ? {} : { containerName: within }),
  };
  return [own, ...item.children.flatMap((child) => flat(lesson, child, item.name))];
}

/** Editors refuse a symbol without a name, and a half-typed statement has none yet. */
function shownName(item: OutlineItem): string {
  return item.name.trim() === '' ? item.kind : item.name;
}
