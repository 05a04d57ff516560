import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  type ClientCapabilities,
  createProtocolConnection,
  type InitializeResult,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { PREVIEW_METHOD, type SheetUpdate, type Subscribe, type Update } from '../../server/protocol/preview.ts';

/** The built server, as it ships. */
export const SERVER = fileURLToPath(new URL('../../dist/server.js', import.meta.url));

/** What a full-grown editor says that it can do. */
const FULL_CAPABILITIES: ClientCapabilities = {
  textDocument: {
    publishDiagnostics: { versionSupport: true },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    completion: { completionItem: { documentationFormat: ['markdown', 'plaintext'], labelDetailsSupport: true } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    rename: { prepareSupport: true },
    codeAction: {
      isPreferredSupport: true,
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor'] } },
    },
  },
  workspace: { applyEdit: true, workspaceEdit: { documentChanges: true } },
};

/** An editor without a window: it speaks to a server of its own over standard input and output, and waits for messages. */
export class LessonEditor {
  readonly server: ChildProcess;
  readonly connection: ProtocolConnection;
  readonly #diagnostics = new Arrivals<PublishDiagnosticsParams>();
  readonly #updates = new Arrivals<Update>();
  readonly #log = new Arrivals<string>();

  private constructor(server: ChildProcess, connection: ProtocolConnection) {
    this.server = server;
    this.connection = connection;
    connection.onNotification('textDocument/publishDiagnostics', (sent: PublishDiagnosticsParams) =>
      this.#diagnostics.add(sent),
    );
    connection.onNotification(PREVIEW_METHOD.update, (sent: Update) => this.#updates.add(sent));
    connection.onNotification('window/logMessage', ({ message }: { message: string }) => this.#log.add(message));
    // The server is ended on purpose in some tests; what then cannot be written is no news.
    connection.onError(() => undefined);
    connection.listen();
  }

  /** Starts a server and greets it with the editor's settings. `command` is what runs it: the bundle over stdio where nothing else is said. */
  static async start(
    capabilities: ClientCapabilities = FULL_CAPABILITIES,
    command: readonly string[] = [SERVER, '--stdio'],
    settings: object = {},
  ): Promise<{ readonly editor: LessonEditor; readonly greeting: InitializeResult }> {
    if (!existsSync(SERVER))
      throw new Error('dist/server.js is missing: run "npm run build" before the protocol tests');
    const server = spawn(process.execPath, [...command], { stdio: ['pipe', 'pipe', 'inherit'] });
    const { stdin, stdout } = server;
    if (stdin === null || stdout === null) throw new Error('the server has no pipes');
    stdin.on('error', () => undefined);
    const connection = createProtocolConnection(new StreamMessageReader(stdout), new StreamMessageWriter(stdin));
    const editor = new LessonEditor(server, connection);
    const greeting = await editor.ask<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: null,
      capabilities,
      initializationOptions: settings,
    });
    await editor.tell('initialized', {});
    return { editor, greeting };
  }

  ask<R>(method: string, params: unknown): Promise<R> {
    return this.connection.sendRequest<R>(method, params);
  }

  tell(method: string, params: unknown): Promise<void> {
    return this.connection.sendNotification(method, params);
  }

  open(uri: string, text: string, version = 1): Promise<void> {
    return this.tell('textDocument/didOpen', { textDocument: { uri, languageId: 'handspan', version, text } });
  }

  change(uri: string, version: number, contentChanges: readonly { range?: Range; text: string }[]): Promise<void> {
    return this.tell('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  }

  /** A question about a place in a lesson. */
  askAt<R>(method: string, uri: string, position: Position, more: object = {}): Promise<R> {
    return this.ask<R>(method, { textDocument: { uri }, position, ...more });
  }

  subscribe(message: Subscribe): Promise<void> {
    return this.tell(PREVIEW_METHOD.subscribe, message);
  }

  /** The problems of this version, once they have come. */
  diagnosticsOf(uri: string, version: number): Promise<PublishDiagnosticsParams> {
    return this.#diagnostics.first((sent) => sent.uri === uri && sent.version === version);
  }

  /** The update that brings a subscription to this version of the text or a later one. */
  updateTo(id: string, version: number): Promise<SheetUpdate> {
    return this.#updates.first((sent) => sent.id === id && sent.update.version >= version).then(({ update }) => update);
  }

  /** The update with this revision. */
  updateNumber(id: string, revision: number): Promise<SheetUpdate> {
    return this.#updates
      .first((sent) => sent.id === id && sent.update.revision === revision)
      .then(({ update }) => update);
  }

  /** Everything that came for a subscription so far, in order. */
  updatesSoFar(id: string): readonly SheetUpdate[] {
    return this.#updates.all.filter((sent) => sent.id === id).map(({ update }) => update);
  }

  /** All sets of problems that came for a lesson so far. */
  diagnosticsSoFar(uri: string): readonly PublishDiagnosticsParams[] {
    return this.#diagnostics.all.filter((sent) => sent.uri === uri);
  }

  logged(part: string): Promise<string> {
    return this.#log.first((message) => message.includes(part));
  }

  /** Ends the server by the protocol's rules and waits until its process is gone. */
  async stop(): Promise<number | null> {
    const ended = exitOf(this.server);
    await this.ask('shutdown', undefined);
    await this.tell('exit', undefined);
    const code = await ended;
    this.connection.dispose();
    return code;
  }

  /** Ends the server without a word, as a crash would. */
  async kill(): Promise<void> {
    if (this.server.exitCode === null && this.server.signalCode === null) {
      const ended = exitOf(this.server);
      this.server.kill('SIGKILL');
      await ended;
    }
    this.connection.dispose();
  }
}

function exitOf(process: ChildProcess): Promise<number | null> {
  return new Promise((resolve) => process.once('exit', resolve));
}

/** Messages as they arrive, and those who wait for one. */
class Arrivals<T> {
  readonly all: T[] = [];
  readonly #waiting = new Set<(message: T) => void>();

  add(message: T): void {
    this.all.push(message);
    for (const wake of this.#waiting) wake(message);
  }

  first(fits: (message: T) => boolean): Promise<T> {
    const already = this.all.find(fits);
    if (already !== undefined) return Promise.resolve(already);
    return new Promise((resolve) => {
      const wake = (message: T): void => {
        if (!fits(message)) return;
        this.#waiting.delete(wake);
        resolve(message);
      };
      this.#waiting.add(wake);
    });
  }
}
