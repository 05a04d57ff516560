import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  type Position,
} from 'vscode-languageserver';
import type { Suggestion, SuggestionKind } from '../../shared/assist/answers.ts';
import { suggestionCard, suggestionsAt } from '../../shared/assist/suggestions.ts';
import type { EditorCan } from '../editor-can.ts';
import { toOffset } from '../from-protocol.ts';
import { cardMarkdown, cardPlainText } from '../markup.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { readFields, readText } from '../protocol/read.ts';
import { toRange } from '../to-protocol.ts';

/** Marks after which a lesson goes on with something that can be offered; whether it does is decided by the place. */
export const TRIGGER_CHARACTERS = [' ', '|', ':', '@', '-', '('];

const ICONS: Readonly<Record<SuggestionKind, CompletionItemKind>> = {
  chord: CompletionItemKind.Value,
  shape: CompletionItemKind.Struct,
  pattern: CompletionItemKind.Function,
  progression: CompletionItemKind.Class,
  melody: CompletionItemKind.Event,
  keyword: CompletionItemKind.Keyword,
  instrument: CompletionItemKind.Module,
  place: CompletionItemKind.Reference,
  mark: CompletionItemKind.Operator,
  value: CompletionItemKind.Constant,
};

export function completion(lesson: OpenLesson, position: Position, can: EditorCan): CompletionList {
  const suggestions = suggestionsAt(lesson.document, toOffset(lesson.text, position));
  const items = suggestions.map((suggestion, rank) => itemOf(lesson, suggestion, rank, can));
  return { isIncomplete: false, items };
}

function itemOf(lesson: OpenLesson, suggestion: Suggestion, rank: number, can: EditorCan): CompletionItem {
  const { kind, label, detail } = suggestion;
  return {
    label,
    kind: ICONS[kind],
    ...(detail === undefined ? {} : can.labelDetails ? { labelDetails: { description: detail } } : { detail }),
    // Offers come best first; the editor would sort them by letter.
    sortText: String(rank).padStart(5, '0'),
    filterText: suggestion.filter ?? label,
    insertTextFormat: InsertTextFormat.PlainText,
    textEdit: { range: toRange(lesson.text, suggestion.replaces), newText: suggestion.insert },
    // What the question for details must carry, so that the server need not remember what it offered.
    data: { uri: lesson.uri, kind, label, chord: suggestion.chord, edition: suggestion.edition },
  };
}

/** The lesson that an offered item belongs to, and what it offered; undefined when the item is not one of ours. */
export function offerOf(item: CompletionItem): Offered | undefined {
  const fields = readFields(item.data);
  const uri = readText(fields?.uri);
  const label = readText(fields?.label);
  const kind = readText(fields?.kind);
  if (uri === undefined || label === undefined || kind === undefined || !Object.hasOwn(ICONS, kind)) return undefined;
  const chord = readText(fields?.chord);
  const edition = readText(fields?.edition);
  return {
    uri,
    suggestion: {
      kind: kind as SuggestionKind,
      label,
      ...(chord === undefined ? {} : { chord }),
      ...(edition === undefined ? {} : { edition }),
    },
  };
}

interface Offered {
  readonly uri: string;
  readonly suggestion: Pick<Suggestion, 'kind' | 'label' | 'chord' | 'edition'>;
}

/** The item with its picture and facts, which are too heavy for the list. */
export function resolvedCompletion(lesson: OpenLesson, item: CompletionItem, can: EditorCan): CompletionItem {
  const offer = offerOf(item);
  const card = offer === undefined ? undefined : suggestionCard(lesson.document, offer.suggestion);
  if (card === undefined) return item;
  return { ...item, documentation: can.markdownCompletion ? cardMarkdown(card) : cardPlainText(card) };
}
