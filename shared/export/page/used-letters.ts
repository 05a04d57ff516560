import type { FaceName } from '../../engrave/text-width.ts';
import type { PageLesson } from './page-lesson.ts';

/** The letters that a page sets in each face, each once, by their code points. Faces that it does not use are missing. */
export type UsedLetters = ReadonlyMap<FaceName, ReadonlySet<number>>;

const TAG_OR_TEXT = /<([^<>]*)>|([^<>]+)/g;
const NAMED: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** Finds them in the markup: drawings say the role of each text by its class, and other text goes by its element. */
export function usedLetters(page: PageLesson): UsedLetters {
  const used = new Map<FaceName, Set<number>>();
  const use = (face: FaceName, text: string): void => {
    const letters = used.get(face) ?? new Set<number>();
    used.set(face, letters);
    for (const letter of text) letters.add(letter.codePointAt(0) ?? 0);
  };
  for (const piece of page.pieces) read(piece, use);
  for (const { packed } of page.blocks) read(packed, use);
  return used;
}

/** Elements whose text is bold or slanted, those of the page's style among them. */
const BOLD = /^(?:h[1-6]|strong|b|th)\b|class="(?:mention|candidate-number)"/;
const SLANTED = /^(?:em|i)\b|class="(?:sheet-aim)"/;

function read(markup: string, use: (face: FaceName, text: string) => void): void {
  const open: { readonly bold: boolean; readonly slanted: boolean; readonly face?: FaceName }[] = [];
  for (const [, tag, text] of markup.matchAll(TAG_OR_TEXT)) {
    const { bold = false, slanted = false, face } = open.at(-1) ?? {};
    if (text !== undefined) {
      use(face ?? serif(bold, slanted), decoded(text));
      continue;
    }
    if (tag === undefined || tag.endsWith('/') || /^[-\d]/.test(tag)) continue;
    if (tag.startsWith('/')) {
      open.pop();
      continue;
    }
    const drawn = /^text class="(num|name|count|word) /.exec(tag)?.[1];
    open.push({
      bold: bold || BOLD.test(tag),
      slanted: slanted || SLANTED.test(tag),
      ...(drawn !== undefined ? { face: drawnFace(drawn, tag) } : face === undefined ? {} : { face }),
    });
  }
}

function drawnFace(role: string, tag: string): FaceName {
  const bold = tag.includes('font-weight="700"');
  switch (role) {
    case 'num':
      return bold ? 'sansBold' : 'sans';
    case 'name':
      return 'serifBold';
    case 'count':
      return bold ? 'serifBoldItalic' : 'serifItalic';
    default:
      return bold ? 'serifBold' : 'serif';
  }
}

function serif(bold: boolean, slanted: boolean): FaceName {
  if (bold) return slanted ? 'serifBoldItalic' : 'serifBold';
  return slanted ? 'serifItalic' : 'serif';
}

function decoded(text: string): string {
  return text.replace(/&(?:#(\d+)|#x([0-9a-f]+)|([a-z]+));/gi, (whole, decimal, hexadecimal, name) => {
    if (name !== undefined) return NAMED[name.toLowerCase()] ?? whole;
    return String.fromCodePoint(decimal === undefined ? Number.parseInt(hexadecimal, 16) : Number(decimal));
  });
}
