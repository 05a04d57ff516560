import * as vscode from 'vscode';

/** The page takes whole lines and marks the version that it has painted, as the product's page does. */
const PAGE = `<!DOCTYPE html>
<html><head>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-echo'">
</head><body><pre id="text" data-block="0"></pre><script nonce="echo">
addEventListener('message', ({ data }) => {
  document.getElementById('text').textContent = data.text;
  requestAnimationFrame(() => { document.documentElement.dataset.paintedVersion = String(data.version); });
});
acquireVsCodeApi().postMessage('ready');
</script></body></html>`;

export function activate(context: vscode.ExtensionContext): void {
  let panel: vscode.WebviewPanel | undefined;
  const show = () => {
    const document = vscode.window.activeTextEditor?.document;
    if (document === undefined) return;
    if (panel !== undefined) {
      panel.reveal(undefined, true);
      return;
    }
    const target = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    panel = vscode.window.createWebviewPanel('handspanEcho', 'Echo', target, { enableScripts: true });
    echo(panel, document);
  };
  context.subscriptions.push(vscode.commands.registerCommand('handspanEcho.show', show));
}

/** Sends the whole text at once when the page is ready, and after every change while it is in view. */
function echo(panel: vscode.WebviewPanel, document: vscode.TextDocument): void {
  const send = () => panel.webview.postMessage({ text: document.getText(), version: document.version });
  panel.webview.onDidReceiveMessage(send);
  panel.webview.html = PAGE;
  const listening = vscode.workspace.onDidChangeTextDocument((change) => {
    if (change.document === document && panel.visible) void send();
  });
  panel.onDidDispose(() => listening.dispose());
}
