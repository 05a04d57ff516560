import { micromark } from 'micromark';
import type { Prose } from '../lesson/syntax/statement.ts';
import type { Word } from '../lesson/syntax/words.ts';
import { escapeAttribute, escapeText, withoutForbidden } from './escape.ts';

/** What a mention turns out to be: how many characters behind the sign belong to it, and what is shown in their place. */
export interface ShownMention {
  readonly length: number;
  /** Well-formed XHTML that may stand within a line. */
  readonly markup: string;
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
 * A paragraph of prose as XHTML, without a root element. Markdown as CommonMark has it; HTML in it stays text, pictures give
 * way to their words, links lead to the web or the post or are no links. Mentions that `show` does not know stay as typed.
 */
export function proseMarkup(prose: Prose, show: (word: Word, index: number) => ShownMention | undefined): string {
  const shown: { readonly typed: string; readonly markup: string }[] = [];
  const lines = prose.lines.map((line) => {
    let text = '';
    let at = 0;
    prose.mentions.forEach((word, index) => {
      const sign = word.span.start - line.span.start - 1;
      if (sign < at || word.span.start < line.span.start || word.span.end > line.span.end) return;
      const mention = show(word, index);
      if (mention === undefined) return;
      const end = sign + 1 + mention.length;
      text += `${clean(line.text.slice(at, sign))}${OPEN}${shown.length}${CLOSE}`;
      shown.push({ typed: line.text.slice(sign, end), markup: mention.markup });
      at = end;
    });
    return text + clean(line.text.slice(at));
  });
  return settle(micromark(lines.join('\n')), shown);
}

function clean(text: string): string {
  return withoutForbidden(text).replace(/[\uE000\uE001]/g, '');
}

/** Goes through the tags of finished markup once: mentions into the text, pictures and unsafe links out of it. */
function settle(html: string, shown: readonly { readonly typed: string; readonly markup: string }[]): string {
  const typed = (_: string, index: string): string => escapeAttribute(shown[Number(index)]?.typed ?? '');
  let linkKept = false;
  let inCode = false;
  return html
    .split(/(<[^>]*>)/)
    .map((part) => {
      if (!part.startsWith('<')) {
        return part.replace(MARKER, (_, index: string) => {
          const mention = shown[Number(index)];
          return (inCode ? escapeText(mention?.typed ?? '') : mention?.markup) ?? '';
        });
      }
      if (part.startsWith('<code')) inCode = true;
      if (part === '</code>') inCode = false;
      const tag = part.replace(MARKER, typed).replace(MARKER_IN_ADDRESS, typed);
      if (tag.startsWith('<img')) return /\balt="([^"]*)"/.exec(tag)?.[1] ?? '';
      if (tag.startsWith('<a ')) {
        linkKept = SAFE_ADDRESS.test(/\bhref="([^"]*)"/.exec(tag)?.[1] ?? '');
        return linkKept ? tag : '';
      }
      if (tag === '</a>') return linkKept ? tag : '';
      return tag;
    })
    .join('');
}
