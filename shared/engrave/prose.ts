import { micromark } from 'micromark';
import type { Prose } from '../lesson/syntax/statement.ts';
import type { Word } from '../lesson/syntax/words.ts';
import { withoutForbidden } from './escape.ts';

/** Everything that Markdown, as CommonMark has it, makes of a paragraph besides text; pictures and raw HTML give way to their words. */
const PROSE_TAGS = [
  ...['p', 'h1', 'h2', 'h3', 'h4', 'h5', 'h6', 'ul', 'ol', 'li', 'blockquote', 'pre', 'hr'],
  ...['em', 'strong', 'code', 'a', 'br'],
] as const;

export type ProseTag = (typeof PROSE_TAGS)[number];

/** A piece of prose: text, a mention by its number, or an element. Line ends between elements are text, as XHTML has them. */
export type ProseNode =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'mention'; readonly mention: number }
  | ProseElement;

export interface ProseElement {
  readonly kind: 'element';
  readonly tag: ProseTag;
  /** `href` and `title` of a link, `start` of a list, `class` of a listing: the language it is in. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly ProseNode[];
}

// Two characters without meaning to anybody mark where a mention stood while the Markdown is read.
// Source: The Unicode Standard, private use area U+E000 to U+F8FF.
const OPEN = '\uE000';
const CLOSE = '\uE001';
const MARKER = /\uE000(\d+)\uE001/g;
const MARKER_IN_ADDRESS = /%EE%80%80(\d+)%EE%80%81/g;

/** Where a link may lead: the web and the post. */
const SAFE_ADDRESS = /^(https?:|mailto:)/i;

/**
 * A paragraph of prose as data. Markdown as CommonMark has it; HTML in it stays text, pictures give way to their words, links
 * lead to the web or the post or are no links. `show` is told each mention and answers how many characters behind the sign belong
 * to it; it is numbered in that order. Those that `show` does not know stay as typed.
 */
export function readProse(
  prose: Prose,
  show: (word: Word) => { readonly length: number } | undefined,
): readonly ProseNode[] {
  const typed: string[] = [];
  const lines = prose.lines.map((line) => {
    let text = '';
    let at = 0;
    for (const word of prose.mentions) {
      const sign = word.span.start - line.span.start - 1;
      if (sign < at || word.span.start < line.span.start || word.span.end > line.span.end) continue;
      const mention = show(word);
      if (mention === undefined) continue;
      const end = sign + 1 + mention.length;
      text += `${clean(line.text.slice(at, sign))}${OPEN}${typed.length}${CLOSE}`;
      typed.push(line.text.slice(sign, end));
      at = end;
    }
    return text + clean(line.text.slice(at));
  });
  return treeOf(micromark(lines.join('\n')), typed);
}

function clean(text: string): string {
  return withoutForbidden(text).replace(/[\uE000\uE001]/g, '');
}

/** Reads finished markup, which is known to be well-formed and of few tags, into a tree. */
function treeOf(html: string, typed: readonly string[]): readonly ProseNode[] {
  const retyped = (text: string): string =>
    text
      .replace(MARKER, (_, index: string) => typed[Number(index)] ?? '')
      .replace(MARKER_IN_ADDRESS, (_, index: string) => typed[Number(index)] ?? '');
  const root: ProseNode[] = [];
  const open: { readonly element: ProseElement | undefined; readonly children: ProseNode[] }[] = [];
  const here = (): ProseNode[] => open.at(-1)?.children ?? root;
  for (const part of html.split(/(<[^>]*>)/)) {
    if (!part.startsWith('<')) {
      const inCode = open.some(({ element }) => element?.tag === 'code');
      if (inCode) addText(here(), retyped(decoded(part)));
      else addWithMentions(here(), part);
      continue;
    }
    if (part.startsWith('</')) {
      const closed = open.pop();
      if (closed === undefined) continue;
      // What is not kept as an element leaves its words.
      here().push(
        ...(closed.element === undefined ? closed.children : [{ ...closed.element, children: closed.children }]),
      );
      continue;
    }
    const name = /^<([a-z0-9]+)/.exec(part)?.[1] ?? '';
    const attributes = attributesOf(part, retyped);
    if (name === 'img') {
      addText(here(), attributes.alt ?? '');
      continue;
    }
    const tag = PROSE_TAGS.find((known) => known === name);
    const kept = tag !== undefined && (tag !== 'a' || SAFE_ADDRESS.test(attributes.href ?? ''));
    const element: ProseElement | undefined = kept ? { kind: 'element', tag, attributes, children: [] } : undefined;
    if (part.endsWith('/>')) here().push(...(element === undefined ? [] : [element]));
    else open.push({ element, children: [] });
  }
  return root;
}

function addText(to: ProseNode[], text: string): void {
  if (text !== '') to.push({ kind: 'text', text });
}

function addWithMentions(to: ProseNode[], encoded: string): void {
  let at = 0;
  for (const match of encoded.matchAll(MARKER)) {
    addText(to, decoded(encoded.slice(at, match.index)));
    to.push({ kind: 'mention', mention: Number(match[1]) });
    at = match.index + match[0].length;
  }
  addText(to, decoded(encoded.slice(at)));
}

function attributesOf(tag: string, retyped: (text: string) => string): Readonly<Record<string, string>> {
  const found: Record<string, string> = {};
  for (const [, name = '', value = ''] of tag.matchAll(/ ([a-z]+)="([^"]*)"/g)) found[name] = retyped(decoded(value));
  return found;
}

const CHARACTERS: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"' };

/** Text as it was before it was made safe for markup. */
function decoded(encoded: string): string {
  return encoded.replace(/&(amp|lt|gt|quot);/g, (_, name: string) => CHARACTERS[name] ?? '');
}
