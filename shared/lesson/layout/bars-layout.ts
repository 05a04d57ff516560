import { toPlainSigns } from '../syntax/plain-signs.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { indented, joinWords, type LaidLine, type RawLine } from './raw-line.ts';

/** One line of bars: each sign with what stands behind it, up to the next sign. */
type Bars = readonly { readonly sign: string; readonly content: string }[];

/** A progression with the bars of its lines under each other. */
export function layOutProgression(entry: Entry, lines: readonly RawLine[]): readonly LaidLine[] {
  const rows = new Map<RawLine, Bars>();
  for (const raw of lines) {
    const [first, ...rest] = raw.words;
    if (first === undefined || raw.line.indent === 0 || isSung(first.text)) continue;
    if ([first, ...rest].some((word) => word.kind === 'bar-sign')) rows.set(raw, barsOf(raw));
  }
  const sungWidth = Math.max(0, ...lines.filter(isWords).map((raw) => wordsLabel(raw).length));
  const widths: { sign: number; content: number }[] = [];
  for (const bars of rows.values()) {
    bars.forEach(({ sign, content }, index) => {
      const known = widths[index] ?? { sign: 0, content: 0 };
      // The sign that closes a line has no bar behind it and needs no width.
      const closes = index === bars.length - 1 && content === '';
      widths[index] = closes
        ? known
        : { sign: Math.max(known.sign, sign.length), content: Math.max(known.content, content.length) };
    });
  }
  return lines.map((raw): LaidLine => {
    const bars = rows.get(raw);
    if (raw.line.kind !== 'statement') return indented(entry, raw, raw.line.indent > 0 ? 2 : 0);
    if (bars === undefined) return plainLine(raw, sungWidth);
    const text = bars.map(({ sign, content }, index) => {
      const { sign: signWidth = 0, content: contentWidth = 0 } = widths[index] ?? {};
      return `${sign.padEnd(signWidth)} ${content.padEnd(contentWidth)}`;
    });
    return { line: raw.line, text: `  ${text.join(' ').trimEnd()}` };
  });
}

function isSung(keyword: string): boolean {
  return /^(words|count)$/i.test(keyword);
}

function isWords(raw: RawLine): boolean {
  return raw.line.indent > 0 && /^words$/i.test(raw.words[0]?.text ?? '');
}

/** `words`, or `words 2` for the second verse. */
function wordsLabel(raw: RawLine): string {
  return joinWords(['words', ...raw.words.slice(1, verseEnd(raw)).map((word) => word.text)]);
}

/** Behind the word that numbers the verse, where there is one: a figure that is not all that is sung. */
function verseEnd(raw: RawLine): number {
  return /^[1-9]$/.test(toPlainSigns(raw.words[1]?.text ?? '')) && raw.words.length > 2 ? 2 : 1;
}

function plainLine(raw: RawLine, sungWidth: number): LaidLine {
  if (isWords(raw)) {
    const sung = joinWords(raw.words.slice(verseEnd(raw)).map((word) => word.text));
    return { line: raw.line, text: `  ${wordsLabel(raw).padEnd(sungWidth)}  ${sung}`.trimEnd() };
  }
  const [keyword = '', ...rest] = raw.words.map((word) => word.text);
  const step = raw.line.indent > 0 ? '  ' : '';
  return { line: raw.line, text: `${step}${joinWords([`${keyword.toLowerCase()} `, ...rest])}`.trimEnd() };
}

function barsOf(raw: RawLine): Bars {
  const bars: { sign: string; content: string[] }[] = [];
  for (const word of raw.words) {
    const open = bars.at(-1);
    if (word.kind === 'bar-sign') bars.push({ sign: word.text, content: [] });
    else if (open === undefined) bars.push({ sign: '', content: [word.text] });
    else open.content.push(word.text);
  }
  return bars.map(({ sign, content }) => ({ sign, content: joinWords(content) }));
}
