import { Uri, type Webview } from 'vscode';

/** The only folder a page may load from. */
export function pageResources(extensionUri: Uri): Uri {
  return Uri.joinPath(extensionUri, 'dist');
}

/** The page before it has a sheet. Scripts run by nonce or from our own folder, styles and fonts come from there only. */
export function pageHtml(webview: Webview, extensionUri: Uri, lesson: Uri, options: { leftHanded: boolean }): string {
  const address = (file: string): string =>
    String(webview.asWebviewUri(Uri.joinPath(pageResources(extensionUri), file)));
  const nonce = freshNonce();
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}' ${webview.cspSource}`,
    `style-src ${webview.cspSource}`,
    `img-src ${webview.cspSource} data:`,
    `font-src ${webview.cspSource}`,
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en" data-uri="${escaped(lesson.toString())}" data-left-handed="${options.leftHanded}">
<head>
<meta charset="UTF-8">
<meta http-equiv="Content-Security-Policy" content="${escaped(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${escaped(address('preview-style.css'))}">
<title>Sheet</title>
</head>
<body>
<div class="toolbar" role="toolbar" aria-label="How the sheet is shown">
<label class="edition" hidden>Edition <select id="edition"></select></label>
<label>Layout <select id="paper">
<option value="">Flowing</option>
<option value="a4">Pages, A4</option>
<option value="letter">Pages, Letter</option>
</select></label>
<label hidden>Print <select id="print">
<option value="normal">Normal</option>
<option value="large">Large</option>
<option value="one-page">On one page</option>
</select></label>
<button type="button" id="left-handed" aria-pressed="false" aria-describedby="mirrored">Left-handed view</button>
<button type="button" id="tones" aria-pressed="false" title="Write on the dots of diagrams what each tone is in the chord, in place of fingers">Tones on dots</button>
<button type="button" id="pinned" aria-pressed="false" title="Keep this lesson here when another one is opened">Pinned</button>
</div>
<p class="mirrored" id="mirrored" hidden>Left-handed view: chord diagrams are mirrored, tab is not; its lines keep their order.</p>
<p class="notice" id="notice" role="status" hidden></p>
<main class="sheet" id="sheet" aria-label="Sheet"></main>
<div class="first-hint" id="first-hint" hidden>
<p>This lesson is still an empty sheet.</p>
<p>Write its first lines in the editor, for instance:</p>
<pre>lesson  Paper Lanterns
for     tenor ukulele, high G
key     E minor

chord   Em   0-4-3-2</pre>
</div>
<script nonce="${nonce}" src="${escaped(address('preview.js'))}"></script>
</body>
</html>`;
}

function freshNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(18));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
