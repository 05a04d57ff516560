import * as vscode from 'vscode';

/** Where the disk server listens and the word that it wants to hear. */
export interface DiskAddress {
  readonly address: string;
  readonly token: string;
}

interface Change {
  readonly kind: 'created' | 'changed' | 'deleted';
  readonly path: string;
}

type Asked = Readonly<Record<string, string | boolean>>;

/** A page that lost the server waits this long before it asks again, so that it does not spin. */
const ASK_AGAIN_MS = 2000;

/** The calls to the disk server; a refusal arrives as the editor's own file system error. */
export function diskCalls(server: DiskAddress) {
  async function call(method: string, what: string, asked: Asked, body?: Uint8Array, signal?: AbortSignal) {
    const query = new URLSearchParams();
    for (const [name, value] of Object.entries(asked)) query.set(name, value === true ? 'yes' : String(value));
    const answer = await fetch(`${server.address}/${what}?${query}`, {
      method,
      headers: { 'x-handspan-token': server.token },
      ...(body === undefined ? {} : { body: body.slice() }),
      ...(signal === undefined ? {} : { signal }),
    }).catch((error: unknown) => {
      throw vscode.FileSystemError.Unavailable(String(error));
    });
    if (!answer.ok) throw asEditorError(await answer.json());
    return answer;
  }

  return {
    async json<T>(method: string, what: string, asked: Asked): Promise<T> {
      return (await call(method, what, asked)).json();
    },
    async bytes(method: string, what: string, asked: Asked): Promise<Uint8Array> {
      return new Uint8Array(await (await call(method, what, asked)).arrayBuffer());
    },
    async done(method: string, what: string, asked: Asked, body?: Uint8Array): Promise<void> {
      await call(method, what, asked, body);
    },
    /** Tells every change of the folder until the signal ends it. */
    async followChanges(signal: AbortSignal, tell: (changes: readonly Change[]) => void): Promise<void> {
      let after: number | undefined;
      while (!signal.aborted) {
        try {
          const asked: Asked = after === undefined ? {} : { after: String(after) };
          const answer = await call('GET', 'changes', asked, undefined, signal);
          const news: { latest: number; changes: readonly Change[] } = await answer.json();
          after = news.latest;
          if (news.changes.length > 0) tell(news.changes);
        } catch {
          await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_MS));
        }
      }
    },
  };
}

function asEditorError(refusal: { readonly code?: string; readonly message?: string }): vscode.FileSystemError {
  const message = refusal.message ?? 'the disk server refused';
  switch (refusal.code) {
    case 'FileNotFound':
      return vscode.FileSystemError.FileNotFound(message);
    case 'FileExists':
      return vscode.FileSystemError.FileExists(message);
    case 'FileNotADirectory':
      return vscode.FileSystemError.FileNotADirectory(message);
    case 'FileIsADirectory':
      return vscode.FileSystemError.FileIsADirectory(message);
    case 'NoPermissions':
      return vscode.FileSystemError.NoPermissions(message);
    default:
      return vscode.FileSystemError.Unavailable(message);
  }
}
