import * as vscode from 'vscode';
import { type HostCase, holds, same } from './check.ts';
import { placeOf, showLesson } from './lessons.ts';

/** What the editor is told when it asks about a place in the lesson. */
export const answerCases: readonly HostCase[] = [
  {
    // Expected notes: 2-0-1-0 on G4 C4 E4 A4, each fret a semitone (definition of twelve-tone equal temperament).
    name: 'hovering over a chord in a progression names its notes and draws it',
    async run() {
      const { document } = await showLesson('lanterns.lesson');
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        placeOf(document, '| F |', 2),
      );
      const text = hovers.flatMap((hover) => hover.contents.map(asMarkdown)).join('\n');
      for (const note of ['A4', 'C4', 'F4']) holds(text.includes(note), `${note} is not in: ${text.slice(0, 400)}`);
      holds(/!\[[^\]]+\]\(data:image\/svg\+xml;base64,/.test(text), 'there is no picture with a text alternative');
    },
  },
  {
    name: 'completion in a progression offers the chords of the lesson first',
    async run() {
      const { document } = await showLesson('lanterns.lesson');
      const list = await vscode.commands.executeCommand<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        document.uri,
        placeOf(document, '| F |', 2),
      );
      const order = [...list.items].sort((a, b) => sortKey(a).localeCompare(sortKey(b))).map(labelOf);
      same(order.slice(0, 3).sort(), ['C', 'F', 'G7']);
    },
  },
  {
    name: 'the outline names what the lesson defines',
    async run() {
      const { document } = await showLesson('lanterns.lesson');
      const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
        'vscode.executeDocumentSymbolProvider',
        document.uri,
      );
      const names = symbols.flatMap(namesWithin).join(' / ');
      for (const name of ['verse', 'roll', 'Roll the changes'])
        holds(names.includes(name), `${name} is not in ${names}`);
    },
  },
  {
    name: 'a pattern’s use leads to its definition',
    async run() {
      const { document } = await showLesson('lanterns.lesson');
      const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
        'vscode.executeDefinitionProvider',
        document.uri,
        placeOf(document, 'with  roll', 7),
      );
      const lines = found.map((one) => ('targetRange' in one ? one.targetRange : one.range).start.line);
      same(lines, [placeOf(document, 'pattern  roll').line]);
    },
  },
];

function asMarkdown(content: vscode.MarkdownString | vscode.MarkedString): string {
  return typeof content === 'string' ? content : content.value;
}

function labelOf(item: vscode.CompletionItem): string {
  return typeof item.label === 'string' ? item.label : item.label.label;
}

function sortKey(item: vscode.CompletionItem): string {
  return item.sortText ?? labelOf(item);
}

function namesWithin(symbol: vscode.DocumentSymbol): readonly string[] {
  return [symbol.name, ...symbol.children.flatMap(namesWithin)];
}
