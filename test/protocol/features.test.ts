import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type {
  CodeAction,
  CompletionItem,
  CompletionList,
  Diagnostic,
  DocumentHighlight,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  Location,
  MarkupContent,
  Range,
  SymbolInformation,
  TextDocumentEdit,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver/node';
import { DiagnosticSeverity } from 'vscode-languageserver/node';
import { LessonEditor } from './lesson-editor.ts';
import { LANTERNS, positionOf, textAt } from './lesson-samples.ts';

const URI = 'file:///term/lanterns.lesson';
const WHOLE: Range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

let editor: LessonEditor;
let others = 0;
beforeAll(async () => {
  ({ editor } = await LessonEditor.start());
  await editor.open(URI, LANTERNS);
});
afterAll(() => editor.kill());

/** Opens one more lesson and says where. */
async function opened(text: string): Promise<string> {
  others += 1;
  const uri = `file:///term/other-${others}.lesson`;
  await editor.open(uri, text);
  return uri;
}

describe('hover', () => {
  const markdownAt = async (part: string, into: number): Promise<string> => {
    const hover = await editor.askAt<Hover | null>('textDocument/hover', URI, positionOf(LANTERNS, part, into));
    return (hover?.contents as MarkupContent | undefined)?.value ?? '';
  };

  // Notes of 0-2-3-2 on G4 C4 E4 A4, a fret being a semitone: definition of twelve-tone equal temperament.
  test.each([
    ['in its chord line', 'chord  G ', 7],
    ['in a progression', '| G |', 2],
  ])('a chord %s is drawn, and its notes stand beside it as text', async (_name, part, into) => {
    const markdown = await markdownAt(part, into);
    const picture = /!\[([^\]]+)\]\(data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)\|width=\d+,height=\d+\)/.exec(
      markdown,
    );
    expect(picture?.[1]?.length).toBeGreaterThan(10);
    const svg = Buffer.from(picture?.[2] ?? '', 'base64').toString('utf8');
    expect(svg).toMatch(/^<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    const words = markdown.slice((picture?.index ?? 0) + (picture?.[0].length ?? 0));
    // The head alone is seen before the card is scrolled: it says what must not be missed.
    expect(markdown.slice(0, picture?.index)).toMatch(/\*\*G\*\*.*\n.*at ease.*difficulty(.|\n)*if it hurts, stop/i);
    for (const note of ['G4', 'D4', 'B4']) expect(words).toContain(note);
    // Above about 100,000 characters an editor shows the card as raw text; 20 KB is the product's own budget.
    expect(markdown.length).toBeLessThan(30_000);
  });

  test('further shapes of the chord stand beside it, in the picture and as text', async () => {
    const markdown = await markdownAt('| G |', 2);
    const data = /base64,([A-Za-z0-9+/=]+)\|/.exec(markdown)?.[1] ?? '';
    const svg = Buffer.from(data, 'base64').toString('utf8');
    const shapes = [...(/Further shapes: (`.*)/.exec(markdown)?.[1] ?? '').matchAll(/`([^`]+)`/g)].map(([, it]) => it);
    expect(shapes).toHaveLength(6);
    expect(shapes).not.toContain('0-2-3-2');
    for (const shape of shapes) expect(svg).toContain(`>${shape}</text>`);
    expect(svg.length).toBeLessThanOrEqual(20_480);
  });

  test('an editor without Markdown gets the words alone', async () => {
    const { editor: plain } = await LessonEditor.start({ textDocument: { hover: { contentFormat: ['plaintext'] } } });
    await plain.open(URI, LANTERNS);
    const hover = await plain.askAt<Hover>('textDocument/hover', URI, positionOf(LANTERNS, '| G |', 2));
    const contents = hover.contents as MarkupContent;
    expect(contents.kind).toBe('plaintext');
    expect(contents.value).toContain('B4');
    expect(contents.value).not.toMatch(/data:image|\*\*/);
    await plain.kill();
  });

  test('blank ground has no card', async () => {
    expect(await editor.askAt('textDocument/hover', URI, positionOf(LANTERNS, '\n\n> Warm', 1))).toBeNull();
  });
});

describe('names', () => {
  test('a use leads to its definition', async () => {
    const found = await editor.askAt<Location>('textDocument/definition', URI, positionOf(LANTERNS, 'with    roll', 9));
    expect(found.uri).toBe(URI);
    expect(found.range.start.line).toBe(positionOf(LANTERNS, 'pattern  roll').line);
  });

  test('references and highlights find the definition and every use', async () => {
    const position = positionOf(LANTERNS, 'pattern  roll', 10);
    const lines = [positionOf(LANTERNS, 'pattern  roll').line, positionOf(LANTERNS, 'with    roll').line];
    const all = await editor.askAt<Location[]>('textDocument/references', URI, position, {
      context: { includeDeclaration: true },
    });
    expect(all.map(({ range }) => range.start.line)).toEqual(lines);
    const uses = await editor.askAt<Location[]>('textDocument/references', URI, position, {
      context: { includeDeclaration: false },
    });
    expect(uses.map(({ range }) => range.start.line)).toEqual(lines.slice(1));
    const marked = await editor.askAt<DocumentHighlight[]>('textDocument/documentHighlight', URI, position);
    expect(marked.map(({ range, kind }) => [range.start.line, kind])).toEqual([
      [lines[0], 3],
      [lines[1], 2],
    ]);
  });

  test('rename asks for the name, changes it wherever it stands, and names the version', async () => {
    const position = positionOf(LANTERNS, 'with    roll', 9);
    const prepared = await editor.askAt<{ range: Range; placeholder: string }>(
      'textDocument/prepareRename',
      URI,
      position,
    );
    expect(prepared.placeholder).toBe('roll');
    expect(textAt(LANTERNS, prepared.range)).toBe('roll');
    const edit = await editor.askAt<WorkspaceEdit>('textDocument/rename', URI, position, { newName: 'ripple' });
    const change = edit.documentChanges?.[0] as TextDocumentEdit;
    expect(change.textDocument).toEqual({ uri: URI, version: 1 });
    const renamed = applied(LANTERNS, change.edits as TextEdit[]);
    expect(renamed).toContain('pattern  ripple');
    expect(renamed).toContain('with    ripple');
    expect(renamed).toContain('exercise  Roll the changes');
  });

  test('a name that will not do is refused in words', async () => {
    const position = positionOf(LANTERNS, 'with    roll', 9);
    const refusal = editor.askAt('textDocument/rename', URI, position, { newName: 'Em' });
    await expect(refusal).rejects.toThrow(/chord/);
  });

  test('where no name stands there is nothing to rename', async () => {
    expect(await editor.askAt('textDocument/prepareRename', URI, positionOf(LANTERNS, '4/4', 1))).toBeNull();
  });
});

describe('the shape of the text', () => {
  test('the outline is a tree, its names lie within their statements', async () => {
    const outline = await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument: { uri: URI } });
    const names = outline.flatMap(function all(symbol): string[] {
      return [symbol.name, ...(symbol.children ?? []).flatMap(all)];
    });
    for (const name of ['Em', 'verse', 'roll', 'Roll the changes']) expect(names).toContain(name);
    const roll = outline.find(({ name }) => name === 'roll');
    expect(textAt(LANTERNS, roll?.selectionRange ?? WHOLE)).toBe('roll');
    expect(textAt(LANTERNS, roll?.range ?? WHOLE)).toContain('pick    4p');
  });

  test('an editor that shows no tree gets a list', async () => {
    const { editor: plain } = await LessonEditor.start({});
    await plain.open(URI, LANTERNS);
    const list = await plain.ask<SymbolInformation[]>('textDocument/documentSymbol', { textDocument: { uri: URI } });
    expect(list.find(({ name }) => name === 'verse')?.location.uri).toBe(URI);
    await plain.kill();
  });

  test('statements of several lines fold', async () => {
    const folds = await editor.ask<FoldingRange[]>('textDocument/foldingRange', { textDocument: { uri: URI } });
    const start = positionOf(LANTERNS, 'pattern  roll').line;
    expect(folds.find(({ startLine }) => startLine === start)?.endLine).toBe(positionOf(LANTERNS, 'pick    4p').line);
  });
});

describe('layout', () => {
  const UNEVEN =
    'pattern  roll\n  count 1 & 2 &\n  pick 4p 2i 3p 1m\n\npattern  tap\n  count 1 & 2 &\n  pick 4p 2i 3p 1m\n';
  const options = { tabSize: 2, insertSpaces: true };

  test('formatting aligns columns, and a second time changes nothing', async () => {
    const uri = await opened(UNEVEN);
    const edits = await editor.ask<TextEdit[]>('textDocument/formatting', { textDocument: { uri }, options });
    const once = applied(UNEVEN, edits);
    const [count = '', pick = ''] = once.split('\n').slice(1, 3);
    expect(count.indexOf('&')).toBe(pick.indexOf('2i'));
    expect(count.lastIndexOf('&')).toBe(pick.indexOf('1m'));
    const again = await opened(once);
    expect(await editor.ask('textDocument/formatting', { textDocument: { uri: again }, options })).toEqual([]);
  });

  test('formatting a stretch leaves the rest alone', async () => {
    const uri = await opened(UNEVEN);
    const range = { start: { line: 1, character: 0 }, end: { line: 2, character: 3 } };
    const edits = await editor.ask<TextEdit[]>('textDocument/rangeFormatting', {
      textDocument: { uri },
      range,
      options,
    });
    const result = applied(UNEVEN, edits);
    expect(result).not.toBe(UNEVEN);
    expect(result.slice(result.indexOf('pattern  tap'))).toBe(UNEVEN.slice(UNEVEN.indexOf('pattern  tap')));
  });

  test('a statement is aligned once the cursor has left it, not while it is in it', async () => {
    const uri = await opened(UNEVEN);
    const left = { textDocument: { uri }, position: { line: 2, character: 5 } };
    const within = await editor.ask('handspan/entryFormatting', { ...left, cursor: { line: 1, character: 2 } });
    expect(within).toBeNull();
    const edits = await editor.ask<TextEdit[]>('handspan/entryFormatting', {
      ...left,
      cursor: { line: 5, character: 2 },
    });
    expect(edits.length).toBeGreaterThan(0);
    expect(edits.every(({ range }) => range.end.line <= 2)).toBe(true);
  });
});

describe('what was assumed', () => {
  const ASSUMED =
    'lesson  Assumed\nfor     tenor ukulele, high G\nkey     C major\n\nprogression  verse\n  | C | Am |\n';

  test('shows as ghost text within the range that is asked for', async () => {
    const uri = await opened(ASSUMED);
    const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', { textDocument: { uri }, range: WHOLE });
    const am = hints.find(({ position }) => position.character === positionOf(ASSUMED, 'Am', 2).character);
    // The shape of A minor on a high-G ukulele. Common practice, no source.
    expect(am?.label).toBe('2-0-0-0');
    const above = { start: { line: 0, character: 0 }, end: { line: 3, character: 0 } };
    expect(await editor.ask('textDocument/inlayHint', { textDocument: { uri }, range: above })).toEqual([]);
    // A double click writes it, here above the first progression.
    expect(applied(ASSUMED, am?.textEdits ?? [])).toBe(
      ASSUMED.replace('progression', 'chord  Am  2-0-0-0\n\nprogression'),
    );
  });

  test('is written by a choice on any use of the chord, once, and beside the other chord lines', async () => {
    const lesson = LANTERNS.replace('| D |', '| Am |').concat('\n> Then @Am once more.\n');
    const uri = await opened(lesson);
    const written = lesson.replace('2-2-2-0\n', '2-2-2-0\nchord  Am         2-0-0-0\n');
    for (const place of ['| Am |', 'Then @Am']) {
      const actions = await actionsAt(uri, lesson, place, place.indexOf('Am') + 1);
      const writes = actions.filter(({ title }) => title === 'Write “chord Am 2-0-0-0” into the lesson');
      expect(writes).toHaveLength(1);
      expect(applied(lesson, editsOf(writes[0]))).toBe(written);
      // One edit is one step to undo.
      expect(editsOf(writes[0])).toHaveLength(1);
    }
    expect((await actionsAt(uri, lesson, 'Then @Am', 7, ['refactor.rewrite'])).map(({ kind }) => kind)).toContain(
      'refactor.rewrite',
    );
  });
});

describe('another shape of the same chord', () => {
  const only = async (kind: string, part: string, into: number): Promise<CodeAction | undefined> => {
    const actions = await actionsAt(URI, LANTERNS, part, into, [kind]);
    // A key that is bound to the kind takes the first.
    expect(actions.map((action) => action.kind)).toEqual([kind]);
    return actions[0];
  };

  test.each([
    ['on its line', 'chord  Em', 8],
    ['on its frets', '0-4-3-2', 2],
    ['in a bar', '| Em |', 2],
  ])('the next and the one before, each by a kind of its own: %s', async (_name, part, into) => {
    const next = await only('refactor.rewrite.nextShape', part, into);
    const shape = /^Em: next shape, ([\d-]+) \(2 of 12\)$/.exec(next?.title ?? '')?.[1] ?? '';
    expect(shape).not.toBe('');
    // The fingers were those of the other shape.
    const changed = LANTERNS.replace('0-4-3-2   fingers 0-3-2-1', shape);
    expect(applied(LANTERNS, editsOf(next))).toBe(changed);

    const uri = await opened(changed);
    const [back] = await actionsAt(uri, changed, 'chord  Em', 8, ['refactor.rewrite.previousShape']);
    expect(back?.title).toBe('Em: previous shape, 0-4-3-2 (1 of 12)');
    expect(applied(changed, editsOf(back))).toBe(changed.replace(shape, '0-4-3-2'));
  });

  // What can be asked about the progression that the cursor is in.
  const ASKINGS = ['refactor.rewrite.askForFamily', 'refactor.rewrite.askForTune'];

  test('both are found under the general kind, and by a cursor that asks for everything', async () => {
    const kinds = ['refactor.rewrite.nextShape', 'refactor.rewrite.previousShape', ...ASKINGS];
    expect((await actionsAt(URI, LANTERNS, '| Em |', 2, ['refactor'])).map(({ kind }) => kind)).toEqual(kinds);
    expect((await actionsAt(URI, LANTERNS, '| Em |', 2)).map(({ kind }) => kind)).toEqual(kinds);
    expect(await actionsAt(URI, LANTERNS, 'pattern  roll', 10)).toEqual([]);
  });
});

describe('problems and their fixes', () => {
  const MISNAMED =
    'lesson  Misnamed\nfor     tenor ukulele, high G\n\nchord  F6  0-5-5-0\nchord  C   0-0-0-3\n\nprogression  verse\n  | F6 | C |\n\npattern  roll\n  count  1 & 2 & 3 & 4 &\n  pick   4p 2i 3p 1m 4p 2i 3p 1m\n\nexercise  Change\n  play  verse\n  with  rol\n';

  test('a name that does not fit its frets is said with its place, and one fix renames it everywhere', async () => {
    const uri = await opened(MISNAMED);
    const { diagnostics } = await editor.diagnosticsOf(uri, 1);
    const misnamed = diagnostics.find(({ message }) => String(message).includes('F(add9)'));
    expect(misnamed).toMatchObject({
      source: 'handspan',
      severity: expect.any(Number),
      code: expect.stringMatching(/\w\.\w/),
    });
    const [fix] = await fixesFor(uri, misnamed);
    expect(fix?.kind).toBe('quickfix');
    expect(fix?.diagnostics?.[0]?.code).toBe(misnamed?.code);
    const mended = applied(MISNAMED, editsOf(fix));
    expect(mended).toContain('chord  F(add9)  0-5-5-0');
    expect(mended).toContain('| F(add9) | C |');
  });

  test('notes with two names offer both, the one that fits the place first', async () => {
    // A-1 of the player cases: 0-0-0-0 is C6 and Am7; as the second chord of G, before D7, it is Am7.
    const lesson = 'key G\nchord F 0-0-0-0\nprogression v\n  | G | F | D7 | G |\n> Hold @F.\n';
    const uri = await opened(lesson);
    const { diagnostics } = await editor.diagnosticsOf(uri, 1);
    const fixes = await fixesFor(
      uri,
      diagnostics.find(({ code }) => code === 'chord.name'),
    );
    expect(fixes.map(({ title, isPreferred }) => [title, isPreferred === true])).toEqual([
      ['Name it Am7 wherever it is used', true],
      ['Name it C6 wherever it is used', false],
    ]);
    expect(applied(lesson, editsOf(fixes[1]))).toBe(lesson.replaceAll('F', 'C6'));
  });

  test('a slip in a name offers the nearest one', async () => {
    const uri = await opened(MISNAMED);
    const { diagnostics } = await editor.diagnosticsOf(uri, 1);
    const slip = diagnostics.find(({ range }) => textAt(MISNAMED, range) === 'rol');
    // The beginning of a name may be still on its way, and is no error for whoever types.
    expect(slip?.severity).toBe(DiagnosticSeverity.Information);
    const [fix] = await fixesFor(uri, slip);
    expect(applied(MISNAMED, editsOf(fix))).toContain('with  roll');
    const slipped = MISNAMED.replace('with  rol\n', 'with  rlol\n');
    const other = await opened(slipped);
    const found = (await editor.diagnosticsOf(other, 1)).diagnostics.find(
      ({ range }) => textAt(slipped, range) === 'rlol',
    );
    expect(found?.severity).toBe(DiagnosticSeverity.Error);
    expect(applied(slipped, editsOf((await fixesFor(other, found))[0]))).toContain('with  roll');
  });

  test('only the kinds asked for are offered, and none to an editor that knows commands only', async () => {
    const uri = await opened(MISNAMED);
    const params = { textDocument: { uri }, range: WHOLE };
    const asked = (only: string[]) =>
      editor.ask<CodeAction[]>('textDocument/codeAction', { ...params, context: { diagnostics: [], only } });
    expect(await asked(['source.organizeImports'])).toEqual([]);
    expect((await asked(['quickfix'])).length).toBeGreaterThan(1);
    const { editor: plain } = await LessonEditor.start({});
    await plain.open(uri, MISNAMED);
    expect(await plain.ask('textDocument/codeAction', { ...params, context: { diagnostics: [] } })).toEqual([]);
    await plain.kill();
  });

  async function fixesFor(uri: string, diagnostic: Diagnostic | undefined): Promise<CodeAction[]> {
    if (diagnostic === undefined) throw new Error('the problem was not found');
    const context = { diagnostics: [diagnostic], only: ['quickfix'] };
    const actions = await editor.ask<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri },
      range: diagnostic.range,
      context,
    });
    return actions.filter(({ diagnostics }) => diagnostics?.some(({ code }) => code === diagnostic.code));
  }
});

describe('completion', () => {
  const HALF = `${LANTERNS}\nprogression  bridge\n  | Em | `;

  test('offers the chords of the lesson first, each with what it replaces', async () => {
    const uri = await opened(HALF);
    const end = { line: HALF.split('\n').length - 1, character: 9 };
    const atEnd = await editor.askAt<CompletionList>('textDocument/completion', uri, end);
    expect(atEnd.isIncomplete).toBe(false);
    const sorted = [...atEnd.items].sort((a, b) => (a.sortText ?? '').localeCompare(b.sortText ?? ''));
    expect(
      sorted
        .slice(0, 4)
        .map(({ label }) => label)
        .sort(),
    ).toEqual(['C', 'D', 'Em', 'G']);
    for (const item of atEnd.items) {
      expect(item.textEdit).toMatchObject({ range: { end } });
      expect(item.documentation).toBeUndefined();
    }
  });

  test('writes chord names as the settings say, from the start and after a change', async () => {
    const { editor: other } = await LessonEditor.start(undefined, undefined, { chordNames: 'symbols' });
    const names = async () => {
      const list = await other.askAt<CompletionList>('textDocument/completion', URI, { line: 0, character: 7 });
      return list.items.map(({ label, filterText }) => `${label} ${filterText}`);
    };
    try {
      await other.open(URI, 'chord E');
      expect(await names()).toContain('Eø7 Em7b5');
      await other.tell('workspace/didChangeConfiguration', { settings: { handspan: { chordNames: 'short' } } });
      expect(await names()).toContain('EM7 Emaj7');
      await other.tell('workspace/didChangeConfiguration', { settings: { handspan: { chordNames: 'no such' } } });
      expect(await names()).toContain('Emaj7 Emaj7');
    } finally {
      other.kill();
    }
  });

  test('brings the picture only when an item is looked at', async () => {
    const uri = await opened(HALF);
    const end = { line: HALF.split('\n').length - 1, character: 9 };
    const { items } = await editor.askAt<CompletionList>('textDocument/completion', uri, end);
    const chord = items.find(({ label }) => label === 'G');
    const resolved = await editor.ask<CompletionItem>('completionItem/resolve', chord);
    expect((resolved.documentation as MarkupContent).value).toMatch(/!\[[^\]]+\]\(data:image\/svg\+xml;base64,/);
    expect((resolved.documentation as MarkupContent).value).toContain('B4');
    const stranger = { label: 'of another server', data: { some: 'thing' } };
    expect(await editor.ask('completionItem/resolve', stranger)).toEqual(stranger);
  });

  test('a shape is shown with the name that was typed, though the notes have another', async () => {
    const text = 'for tenor ukulele, high G\nchord  Am7  \n';
    const uri = await opened(text);
    const { items } = await editor.askAt<CompletionList>('textDocument/completion', uri, positionOf(text, 'Am7  ', 5));
    const resolved = await editor.ask<CompletionItem>(
      'completionItem/resolve',
      items.find(({ label }) => label === '0-0-0-0'),
    );
    const { value } = resolved.documentation as MarkupContent;
    expect(value).toMatch(/\n!\[A minor 7: string 4 open[^\]]*\]\(data:image\/svg\+xml;base64,/);
    expect(value).toContain('**Am7** `0-0-0-0`');
    expect(value).toContain('Other names: C6');
  });

  test('stays away from prose', async () => {
    const text = 'lesson  Prose\n\n> Hold the \n';
    const uri = await opened(text);
    const list = await editor.askAt<CompletionList>(
      'textDocument/completion',
      uri,
      positionOf(text, '> Hold the ', 11),
    );
    expect(list.items).toEqual([]);
  });
});

function actionsAt(
  uri: string,
  text: string,
  part: string,
  into: number,
  only?: readonly string[],
): Promise<CodeAction[]> {
  const position = positionOf(text, part, into);
  return editor.ask<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: position, end: position },
    context: { diagnostics: [], ...(only === undefined ? {} : { only }) },
  });
}

function editsOf(action: CodeAction | undefined): TextEdit[] {
  return (action?.edit?.documentChanges ?? []).flatMap((change) =>
    'edits' in change ? (change.edits as TextEdit[]) : [],
  );
}

/** The text after edits that all count in it, as the protocol has it. For lessons with plain line ends. */
function applied(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split('\n');
  const offset = ({ line, character }: { line: number; character: number }): number =>
    Math.min(text.length, lines.slice(0, line).join('\n').length + (line > 0 ? 1 : 0) + character);
  return edits
    .map(({ range, newText }) => ({ start: offset(range.start), end: offset(range.end), newText }))
    .sort((a, b) => a.start - b.start)
    .reduceRight((result, { start, end, newText }) => result.slice(0, start) + newText + result.slice(end), text);
}
