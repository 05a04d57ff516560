import type { ProseElement, ProseNode, ProseTag } from '../prose.ts';
import type { ShownMention } from '../sheet-content.ts';
import { PAGE_SIZES } from './page-sizes.ts';
import type { Inline } from './set-lines.ts';
import { ITALIC, PLAIN, SOFT, STRONG, TYPED, type TypeStyle } from './type-style.ts';

/** One paragraph of prose as it is set: how far it stands in, the sign of its list item, and what goes before it. */
export interface ProseParagraph {
  readonly kind: 'text' | 'typed' | 'rule';
  readonly inlines: readonly Inline[];
  /** Listings: their text as it was typed. */
  readonly typed?: string;
  /** How many steps it stands in. */
  readonly indent: number;
  readonly marker?: string;
  /** True for the further items of a list whose items stand close. */
  readonly close: boolean;
}

interface Within {
  readonly indent: number;
  readonly style: TypeStyle;
}

/** Prose as paragraphs one below the other. */
export function proseParagraphs(
  nodes: readonly ProseNode[],
  mentions: readonly ShownMention[],
): readonly ProseParagraph[] {
  return blocks(nodes, mentions, { indent: 0, style: PLAIN });
}

const BLOCK_TAGS: ReadonlySet<ProseTag> = new Set<ProseTag>([
  ...(['p', 'h1', 'h2', 'h3', 'h4', 'h5', 'h6'] as const),
  ...(['ul', 'ol', 'blockquote', 'pre', 'hr'] as const),
]);

function isBlock(node: ProseNode): node is ProseElement {
  return node.kind === 'element' && BLOCK_TAGS.has(node.tag);
}

function blocks(
  nodes: readonly ProseNode[],
  mentions: readonly ShownMention[],
  within: Within,
): readonly ProseParagraph[] {
  const paragraphs: ProseParagraph[] = [];
  let loose: ProseNode[] = [];
  // The words of a list item whose items stand close have no paragraph around them.
  const close = (): void => {
    const inlines = inlinesOf(loose, mentions, within.style);
    loose = [];
    if (isBlank(inlines)) return;
    paragraphs.push({ kind: 'text', inlines, indent: within.indent, close: true });
  };
  for (const node of nodes) {
    if (!isBlock(node)) {
      loose.push(node);
      continue;
    }
    close();
    paragraphs.push(...block(node, mentions, within));
  }
  close();
  return paragraphs;
}

function block(node: ProseElement, mentions: readonly ShownMention[], within: Within): readonly ProseParagraph[] {
  const { indent, style } = within;
  switch (node.tag) {
    case 'ul':
    case 'ol': {
      const items = node.children.filter((child) => child.kind === 'element' && child.tag === 'li');
      const first = Number(node.attributes.start ?? 1);
      return items.flatMap((item, index) => {
        if (item.kind !== 'element') return [];
        const marker = node.tag === 'ul' ? '•' : `${first + index}.`;
        const [head, ...rest] = blocks(item.children, mentions, { indent: indent + 1, style });
        if (head === undefined)
          return [{ kind: 'text' as const, inlines: [], indent: indent + 1, marker, close: index > 0 }];
        // A list within a list begins with a sign of its own.
        const signed = head.marker === undefined ? { ...head, marker } : head;
        return [{ ...signed, close: index > 0 && head.close }, ...rest];
      });
    }
    case 'blockquote':
      return blocks(node.children, mentions, { indent: indent + 1, style: ITALIC });
    case 'pre':
      return [{ kind: 'typed', inlines: [], typed: textOf(node).replace(/\n$/, ''), indent, close: false }];
    case 'hr':
      return [{ kind: 'rule', inlines: [], indent, close: false }];
    case 'p':
      return [{ kind: 'text', inlines: inlinesOf(node.children, mentions, style), indent, close: false }];
    default:
      return [{ kind: 'text', inlines: inlinesOf(node.children, mentions, STRONG), indent, close: false }];
  }
}

function inlinesOf(
  nodes: readonly ProseNode[],
  mentions: readonly ShownMention[],
  style: TypeStyle,
): readonly Inline[] {
  return nodes.flatMap((node): readonly Inline[] => {
    if (node.kind === 'text') return [{ kind: 'text', text: node.text, style }];
    if (node.kind === 'mention') return mentionInlines(mentions[node.mention], style);
    if (node.tag === 'br') return [{ kind: 'line-end' }];
    const inner = inlinesOf(node.children, mentions, styleWithin(node.tag, style));
    return node.tag === 'a' ? linked([...inner, ...addressOf(node)], node.attributes.href) : inner;
  });
}

function mentionInlines(mention: ShownMention | undefined, style: TypeStyle): readonly Inline[] {
  if (mention === undefined) return [];
  const { place, diagram } = mention;
  // A name is one word, whatever blanks are in it.
  const text = mention.text.replaceAll(' ', '\u00a0');
  const word: Inline = { kind: 'text', text, style: { ...style, bold: true }, place };
  if (diagram === undefined) return [word];
  const scale = diagram.scale * PAGE_SIZES.inlineDiagram;
  return [{ kind: 'drawing', drawing: { ...diagram, scale }, place }, word];
}

function styleWithin(tag: ProseTag, style: TypeStyle): TypeStyle {
  if (tag === 'strong') return { ...style, bold: true };
  if (tag === 'em') return { ...style, role: style.role === 'count' ? 'word' : 'count' };
  return tag === 'code' ? TYPED : style;
}

function linked(words: readonly Inline[], address: string | undefined): readonly Inline[] {
  if (address === undefined) return words;
  return words.map((word) => (word.kind === 'text' ? { ...word, address } : word));
}

/** Nobody can press a link on paper: its address follows, where the words do not say it. */
function addressOf(link: ProseElement): readonly Inline[] {
  const address = (link.attributes.href ?? '').replace(/^(https?:\/\/|mailto:)/i, '').replace(/\/$/, '');
  const words = textOf(link);
  if (address === '' || words.includes(address)) return [];
  return [{ kind: 'text', text: ` (${address})`, style: SOFT }];
}

function textOf(node: ProseNode): string {
  if (node.kind === 'text') return node.text;
  return node.kind === 'element' ? node.children.map(textOf).join('') : '';
}

function isBlank(inlines: readonly Inline[]): boolean {
  return inlines.every((inline) => inline.kind === 'line-end' || (inline.kind === 'text' && inline.text.trim() === ''));
}
