import {
  CodeActionKind,
  type CodeActionParams,
  type Connection,
  type InitializeResult,
  PositionEncodingKind,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { type EditorCan, readEditorCan } from './editor-can.ts';
import { codeActions, questionForActions } from './features/code-actions.ts';
import { codeLenses } from './features/code-lenses.ts';
import { completion, offerOf, resolvedCompletion, TRIGGER_CHARACTERS } from './features/completion.ts';
import { definition, highlights, references } from './features/definition.ts';
import { diagnostics } from './features/diagnostics.ts';
import { folds } from './features/folding.ts';
import { entryFormatting, formatting, rangeFormatting } from './features/formatting.ts';
import { listenForHandOuts } from './features/hand-out.ts';
import { hover } from './features/hover.ts';
import { inlayHints } from './features/inlay-hints.ts';
import { readTextFor } from './features/read-text.ts';
import { prepareRename, rename } from './features/rename.ts';
import { symbols } from './features/symbols.ts';
import { writeBest } from './features/write-best.ts';
import { guarded } from './guard.ts';
import type { Desk } from './hand-out/desk.ts';
import { KeptAnswers } from './kept-answers.ts';
import { type OpenLesson, OpenLessons } from './open-lessons.ts';
import { listenForPerformances } from './preview/performances.ts';
import { Previews } from './preview/previews.ts';
import { readQuestionPlace, WRITE_BEST } from './protocol/commands.ts';
import { ENTRY_FORMATTING_METHOD, type EntryFormatting } from './protocol/entry-formatting.ts';
import { readFields, readText } from './protocol/read.ts';
import { READ_TEXT_METHOD, type TextToRead } from './protocol/read-text.ts';
import { readChordStyle } from './settings.ts';
import type { AfterWaitingMessages, Turns } from './turn.ts';

/** Opens what files to hand out are made at; `assets` is the address of the product's bundles, where the editor's side says it. */
export type OpenDesk = (assets: string | undefined) => Desk;

/** Serves lessons over a connection until it ends. The entry points differ in the transport, the turn and the desk only. */
export function serve(connection: Connection, { afterWaitingMessages, soon }: Turns, openDesk: OpenDesk): void {
  const lessons = new OpenLessons();
  const answers = new KeptAnswers(connection.console, soon);
  const previews = new Previews(connection, lessons, afterWaitingMessages, answers);
  let can: EditorCan = readEditorCan({});
  let assets: string | undefined;
  let desk: Desk | undefined;

  connection.onInitialize((params): InitializeResult => {
    can = readEditorCan(params.capabilities, params.initializationOptions);
    lessons.writeChordsAs(readChordStyle(params.initializationOptions));
    assets = readText(readFields(params.initializationOptions)?.assets);
    return { capabilities: capabilitiesFor(can), serverInfo: { name: 'handspan' } };
  });
  followTexts(connection, lessons, previews, afterWaitingMessages, () => can);
  previews.listen();
  listenForPerformances(connection, lessons, answers, (id) => previews.subscription(id));
  answerQuestions(connection, lessons, answers, () => can);
  listenForHandOuts(connection, () => {
    desk ??= openDesk(assets);
    return desk;
  });
  connection.listen();
}

function capabilitiesFor(can: EditorCan): InitializeResult['capabilities'] {
  return {
    positionEncoding: PositionEncodingKind.UTF16,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    hoverProvider: true,
    completionProvider: { triggerCharacters: TRIGGER_CHARACTERS, resolveProvider: true },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: can.placeholderRename ? { prepareProvider: true } : true,
    documentSymbolProvider: true,
    foldingRangeProvider: true,
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    inlayHintProvider: true,
    codeActionProvider: can.codeActionValues
      ? { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] }
      : false,
    codeLensProvider: {},
    executeCommandProvider: { commands: [WRITE_BEST] },
  };
}

/**
 * A sheet that took longer to draw than this lets waiting messages in before it is drawn again, so that held-down keys do not
 * pile up. Below it the sheet is drawn at once. Unit: ms. One frame of a 60 Hz screen.
 */
const SLOW_SHEET_MS = 16;

/** Opening, changing and closing. The sheet goes out first, since the eye is on it; the problems follow when no text waits. */
function followTexts(
  connection: Connection,
  lessons: OpenLessons,
  previews: Previews,
  afterWaitingMessages: AfterWaitingMessages,
  can: () => EditorCan,
): void {
  const sheetMs = new Map<string, number>();

  const drawSheet = (lesson: OpenLesson): void => {
    const start = performance.now();
    previews.follow(lesson);
    sheetMs.set(lesson.uri, performance.now() - start);
  };
  const tellProblems = (lesson: OpenLesson): void => {
    const { uri, version } = lesson;
    const found = guarded(connection.console, 'diagnostics', { uri, version }, undefined, () => diagnostics(lesson));
    if (found === undefined) return;
    void connection.sendDiagnostics({ uri, ...(can().diagnosticVersions ? { version } : {}), diagnostics: found });
  };
  const follow = (lesson: OpenLesson): void => {
    // A newer text may come in, or the lesson be closed: then this one is nobody's any more.
    const ifNewest = (work: (lesson: OpenLesson) => void) => () => {
      if (lessons.get(lesson.uri) === lesson) work(lesson);
    };
    if ((sheetMs.get(lesson.uri) ?? 0) <= SLOW_SHEET_MS) drawSheet(lesson);
    else afterWaitingMessages(ifNewest(drawSheet));
    afterWaitingMessages(ifNewest(tellProblems));
  };

  connection.onDidChangeConfiguration(({ settings }) => {
    lessons.writeChordsAs(readChordStyle(readFields(settings)?.handspan)).forEach(follow);
  });
  connection.onDidOpenTextDocument(({ textDocument }) => {
    const lesson = guarded(connection.console, 'open', textDocument, undefined, () => lessons.open(textDocument));
    if (lesson !== undefined) follow(lesson);
  });
  connection.onDidChangeTextDocument(({ textDocument, contentChanges }) => {
    const { uri, version } = textDocument;
    const lesson = guarded(connection.console, 'change', textDocument, undefined, () =>
      lessons.change(uri, version, contentChanges),
    );
    if (lesson !== undefined) follow(lesson);
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    lessons.close(uri);
    sheetMs.delete(uri);
    void connection.sendDiagnostics({ uri, diagnostics: [] });
  });
}

function answerQuestions(
  connection: Connection,
  lessons: OpenLessons,
  answers: KeptAnswers,
  can: () => EditorCan,
): void {
  // Every question names a lesson; about one that is not open there is nothing to say.
  const about =
    <P extends { readonly textDocument: { readonly uri: string } }, R>(
      what: string,
      otherwise: R,
      work: (lesson: OpenLesson, params: P) => R,
    ) =>
    (params: P): R => {
      const lesson = lessons.get(params.textDocument.uri);
      return lesson === undefined
        ? otherwise
        : guarded(connection.console, what, lesson, otherwise, () => work(lesson, params));
    };

  connection.onHover(about('hover', null, (lesson, { position }) => hover(lesson, position, can())));
  connection.onCompletion(about('completion', null, (lesson, { position }) => completion(lesson, position, can())));
  connection.onCompletionResolve((item) => {
    const lesson = lessons.get(offerOf(item)?.uri ?? '');
    if (lesson === undefined) return item;
    return guarded(connection.console, 'completion details', lesson, item, () =>
      resolvedCompletion(lesson, item, can()),
    );
  });
  connection.onDefinition(about('definition', null, (lesson, { position }) => definition(lesson, position)));
  connection.onReferences(
    about('references', null, (lesson, { position, context }) =>
      references(lesson, position, { withDefinition: context.includeDeclaration }),
    ),
  );
  connection.onDocumentHighlight(about('highlights', null, (lesson, { position }) => highlights(lesson, position)));
  connection.onPrepareRename(about('rename', null, (lesson, { position }) => prepareRename(lesson, position)));
  connection.onRenameRequest(
    about('rename', null, (lesson, { position, newName }) => rename(lesson, position, newName, can())),
  );
  connection.onDocumentSymbol(about('outline', null, (lesson) => symbols(lesson, can())));
  connection.onFoldingRanges(about('folding', null, (lesson) => folds(lesson)));
  connection.onDocumentFormatting(about('formatting', null, (lesson) => formatting(lesson)));
  connection.onDocumentRangeFormatting(
    about('formatting', null, (lesson, { range }) => rangeFormatting(lesson, range)),
  );
  connection.languages.inlayHint.on(about('ghost text', null, (lesson, { range }) => inlayHints(lesson, range)));
  const actionsOf = about('fixes', null, (lesson, { range, context }: CodeActionParams) =>
    codeActions(lesson, range, context, can(), answers),
  );
  connection.onCodeAction(async (params, token) => {
    const asked = about('fixes', undefined, (lesson, { range, context }: CodeActionParams) =>
      questionForActions(lesson, range, context),
    )(params);
    // What a question comes to is part of what can be done about it; the cursor that goes on does not wait for it.
    if (asked !== undefined) await answers.answerTo(asked, (stopped) => token.onCancellationRequested(stopped));
    return actionsOf(params);
  });
  connection.onCodeLens(about('lenses', null, (lesson) => codeLenses(lesson, can())));
  connection.onExecuteCommand(async ({ command, arguments: words }) => {
    const place = readQuestionPlace(words?.[0]);
    if (command !== WRITE_BEST || place === undefined) return;
    const best = await writeBest(lessons, answers, place, can());
    if (best.kind === 'edit') await connection.workspace.applyEdit(best.params);
    else connection.window.showInformationMessage(best.message);
  });
  connection.onRequest(
    ENTRY_FORMATTING_METHOD,
    about('formatting', null, (lesson, { position, cursor }: EntryFormatting) =>
      entryFormatting(lesson, position, cursor),
    ),
  );
  connection.onRequest(
    READ_TEXT_METHOD,
    about('text to read', null, (lesson, params: TextToRead) => readTextFor(lesson, params)),
  );
}
