import { escapeAttribute, escapeText } from '../../engrave/escape.ts';

/** What the text of the page is written from. */
export interface PageFrame {
  readonly title: string;
  /** False where the lesson says no title, so that the sheet does not show one. */
  readonly titled: boolean;
  readonly by?: string;
  readonly editions: readonly { readonly name: string; readonly label: string }[];
  readonly script: string;
  readonly styles: readonly string[];
  /** Markup of the sheet for programs that run no scripts. */
  readonly sheet: string;
  /** In letters that mean nothing to HTML. */
  readonly data: string;
  /** SHA-256 of a text as base64. */
  readonly hash: (text: string) => string;
}

/** The language that the sheet's own words are in. Source: BCP 47. */
const LANGUAGE = 'en';

/**
 * The page. Its policy lets run what is written in it and nothing else, and lets nothing be fetched. Source: Content Security Policy
 * Level 3, 2.3.1 (hashes).
 */
export function pageHtml(frame: PageFrame): string {
  const styles = frame.styles.map(inElement);
  const script = inElement(frame.script);
  const sources = (texts: readonly string[]): string => texts.map((text) => `'sha256-${frame.hash(text)}'`).join(' ');
  const policy = [
    "default-src 'none'",
    `script-src ${sources([script])}`,
    `style-src ${sources(styles)}`,
    'font-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const { title, titled, by, editions, sheet, data } = frame;
  const author = by === undefined ? '' : `<meta name="author" content="${escapeAttribute(by)}">\n`;
  const heading = titled ? '' : `<h1 class="sheet-title untitled">${escapeText(title)}</h1>\n`;
  return `<!DOCTYPE html>
<html lang="${LANGUAGE}">
<head>
<meta charset="UTF-8">
<meta http-equiv="Content-Security-Policy" content="${escapeAttribute(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${author}<meta name="generator" content="Handspan">
<title>${escapeText(title)}</title>
${styles.map((style) => `<style>${style}</style>`).join('\n')}
</head>
<body>
<header class="page-head" id="page-head" hidden>
<div class="toolbar" role="group" aria-label="How the sheet is shown">
${editionChoice(editions)}<label>Size <select id="print-size">
<option value="1">normal</option>
<option value="1.25">large</option>
<option value="1.5">very large</option>
</select></label>
<label>Colours <select id="colours">
<option value="">as this device</option>
<option value="light">light</option>
<option value="dark">dark</option>
</select></label>
<button type="button" id="left-handed" aria-pressed="false" aria-describedby="mirrored">Left-handed view</button>
<button type="button" id="print">Print …</button>
</div>
<p class="page-hint" id="mirrored" hidden>Left-handed view: chord diagrams are mirrored, tab is not; its lines keep their order.</p>
<p class="page-hint" id="how-to-play" hidden>Press Play beside an exercise, or any bar to hear it from there.</p>
</header>
<main class="sheet" id="sheet">
${heading}<div id="blocks"></div>
<noscript>
<p class="page-hint static-hint">This is the sheet alone. In a browser that runs scripts the file also plays, and has further choices.</p>
${sheet}
</noscript>
</main>
<script type="application/octet-stream" id="lesson">${data}</script>
<script>${script}</script>
</body>
</html>
`;
}

function editionChoice(editions: PageFrame['editions']): string {
  if (editions.length < 2) return '';
  const options = editions.map(({ label }, number) => `<option value="${number}">${escapeText(label)}</option>`);
  return `<label>Edition <select id="edition">\n${options.join('\n')}\n</select></label>\n`;
}

/** Nothing in a script or a style may end its element. Source: HTML, "Restrictions for contents of script elements". */
function inElement(text: string): string {
  const told = text.trim();
  if (/<\/(?:script|style)|<!--/i.test(told))
    throw new Error('A script or style of the page holds what ends its element.');
  return told;
}
