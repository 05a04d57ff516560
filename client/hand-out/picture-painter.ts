import { type Disposable, Uri, ViewColumn, type WebviewPanel, window } from 'vscode';
import type { FromPainter, ToPainter } from './picture-page/messages.ts';

/** A page that has not said a word after so long never will: the editor shows no pages here. Unit: ms. Ours. */
const READY_WITHIN_MS = 20_000;

/**
 * Paints SVG pictures as PNG files. Only a page of the editor can do that everywhere: neither a worker nor Node paints SVG. Its tab is
 * opened with the first picture and closed when all is done.
 */
export class PicturePainter implements Disposable {
  readonly #extensionUri: Uri;
  #page: PaintingPage | undefined;

  constructor(extensionUri: Uri) {
    this.#extensionUri = extensionUri;
  }

  /** The picture as PNG, in its own size and with nothing behind it. Fails with a sentence. */
  paint(name: string, svg: string): Promise<Uint8Array> {
    if (this.#page === undefined || this.#page.closed) this.#page = new PaintingPage(this.#extensionUri);
    return this.#page.paint(name, svg);
  }

  dispose(): void {
    this.#page?.dispose();
    this.#page = undefined;
  }
}

interface Waiting {
  resolve(png: Uint8Array): void;
  reject(reason: Error): void;
}

class PaintingPage {
  readonly #panel: WebviewPanel;
  readonly #ready: Promise<void>;
  readonly #waiting = new Map<number, Waiting>();
  #asked = 0;
  closed = false;

  constructor(extensionUri: Uri) {
    const resources = Uri.joinPath(extensionUri, 'dist');
    this.#panel = window.createWebviewPanel(
      'handspan.pictures',
      'Painting Pictures',
      { viewColumn: ViewColumn.Active, preserveFocus: true },
      // It goes on while another tab covers it.
      { enableScripts: true, retainContextWhenHidden: true, localResourceRoots: [resources] },
    );
    this.#ready = new Promise((resolve, reject) => {
      const timer = setTimeout(
        () => reject(new Error('the page that paints pictures does not answer; pictures as SVG need no page')),
        READY_WITHIN_MS,
      );
      this.#panel.webview.onDidReceiveMessage((message: FromPainter) => {
        if (message.kind === 'ready') {
          clearTimeout(timer);
          return resolve();
        }
        const waiting = this.#waiting.get(message.id);
        this.#waiting.delete(message.id);
        if (message.kind === 'painted') waiting?.resolve(message.png);
        else waiting?.reject(new Error(message.because));
      });
      this.#panel.onDidDispose(() => {
        clearTimeout(timer);
        this.closed = true;
        const reason = new Error('the tab that paints pictures was closed');
        reject(reason);
        for (const waiting of this.#waiting.values()) waiting.reject(reason);
        this.#waiting.clear();
      });
    });
    // Who waits for it is told; nobody may be waiting.
    this.#ready.catch(() => undefined);
    this.#panel.webview.html = pageHtml(String(this.#panel.webview.asWebviewUri(Uri.joinPath(resources, 'paint.js'))));
  }

  async paint(name: string, svg: string): Promise<Uint8Array> {
    await this.#ready;
    const message: ToPainter = { id: ++this.#asked, name, svg };
    return new Promise((resolve, reject) => {
      this.#waiting.set(message.id, { resolve, reject });
      void this.#panel.webview.postMessage(message);
    });
  }

  dispose(): void {
    this.#panel.dispose();
  }
}

/** Squares behind the picture show that nothing is there; they are not painted. */
const STYLE = `
body { margin: 0; padding: 1rem; }
figure { margin: 0; }
figcaption { margin-block-end: 0.5rem; }
canvas {
  display: block; max-width: 100%; max-height: 85vh; outline: 1px solid var(--vscode-contrastBorder, #8888);
  background: repeating-conic-gradient(#777 0 25%, #999 0 50%) 0 0 / 24px 24px;
}`;

function pageHtml(script: string): string {
  const nonce = crypto.randomUUID();
  const policy = `default-src 'none'; img-src blob:; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="UTF-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Painting Pictures</title>
<style nonce="${nonce}">${STYLE}</style>
</head>
<body>
<figure><figcaption></figcaption><canvas role="img" aria-label="The picture that is painted now"></canvas></figure>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}
