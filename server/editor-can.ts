import { type ClientCapabilities, MarkupKind } from 'vscode-languageserver';
import { readFields } from './protocol/read.ts';

/** What the editor at the other end is able to show, so far as an answer depends on it. */
export interface EditorCan {
  readonly markdownHover: boolean;
  readonly markdownCompletion: boolean;
  readonly labelDetails: boolean;
  readonly nestedSymbols: boolean;
  readonly versionedEdits: boolean;
  readonly codeActionValues: boolean;
  readonly preferredActions: boolean;
  readonly diagnosticVersions: boolean;
  readonly placeholderRename: boolean;
  /** It makes edits that the server asks for. */
  readonly appliesEdits: boolean;
  /** It has sheets beside lessons: our own client says so. */
  readonly showsSheets: boolean;
}

/** `options` are what the editor's side adds of its own to the greeting. */
export function readEditorCan(capabilities: ClientCapabilities, options?: unknown): EditorCan {
  const text = capabilities.textDocument;
  const item = text?.completion?.completionItem;
  return {
    markdownHover: text?.hover?.contentFormat?.includes(MarkupKind.Markdown) ?? false,
    markdownCompletion: item?.documentationFormat?.includes(MarkupKind.Markdown) ?? false,
    labelDetails: item?.labelDetailsSupport ?? false,
    nestedSymbols: text?.documentSymbol?.hierarchicalDocumentSymbolSupport ?? false,
    versionedEdits: capabilities.workspace?.workspaceEdit?.documentChanges ?? false,
    codeActionValues: text?.codeAction?.codeActionLiteralSupport !== undefined,
    preferredActions: text?.codeAction?.isPreferredSupport ?? false,
    diagnosticVersions: text?.publishDiagnostics?.versionSupport ?? false,
    placeholderRename: text?.rename?.prepareSupport ?? false,
    appliesEdits: capabilities.workspace?.applyEdit ?? false,
    showsSheets: readFields(options)?.showsSheets === true,
  };
}
