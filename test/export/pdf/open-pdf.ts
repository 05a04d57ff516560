import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

// PDF as a reader of another house sees it.

/** Millimetres in a point. Source: ISO 32000-1, 8.3.2.3. */
export const POINT = 25.4 / 72;

export interface ReadLetters {
  readonly text: string;
  /** From the left and the top edge of the page to the baseline. Unit: mm. */
  readonly x: number;
  readonly y: number;
  /** Marked content around it, outermost first: ids of content that belongs to an element, names of other. */
  readonly within: readonly string[];
}

export interface ReadElement {
  readonly role: string;
  readonly alt?: string;
  /** Its language, where it says one of its own. */
  readonly lang?: string;
  readonly children: readonly ReadElement[];
  /** Ids of the marked content that belongs to it. */
  readonly content: readonly string[];
}

export async function openPdf(bytes: Uint8Array): Promise<PDFDocumentProxy> {
  // The reader takes the bytes away from whoever gives them.
  return await getDocument({ data: bytes.slice(), verbosity: 0, isEvalSupported: false }).promise;
}

export async function lettersOf(pdf: PDFDocumentProxy, number: number): Promise<readonly ReadLetters[]> {
  const page = await pdf.getPage(number);
  const { height } = page.getViewport({ scale: 1 });
  const { items } = await page.getTextContent({ includeMarkedContent: true, disableNormalization: true });
  const within: string[] = [];
  const letters: ReadLetters[] = [];
  for (const item of items) {
    if ('str' in item) {
      const [, , , , x = 0, y = 0] = item.transform as readonly number[];
      letters.push({ text: item.str, x: x * POINT, y: (height - y) * POINT, within: [...within] });
    } else if (item.type === 'endMarkedContent') {
      within.pop();
    } else {
      within.push(item.id ?? (item as { readonly tag?: string }).tag ?? '');
    }
  }
  return letters;
}

export async function elementsOf(pdf: PDFDocumentProxy, number: number): Promise<ReadElement> {
  const page = await pdf.getPage(number);
  const tree = (await page.getStructTree()) as unknown as RawElement;
  return tidy(tree);
}

interface RawElement {
  readonly role?: string;
  readonly alt?: string;
  readonly lang?: string;
  readonly type?: string;
  readonly id?: string;
  readonly children?: readonly RawElement[];
}

function tidy({ role = '', alt, lang, children = [] }: RawElement): ReadElement {
  return {
    role,
    ...(alt === undefined ? {} : { alt }),
    ...(lang === undefined ? {} : { lang }),
    children: children.filter((child) => child.role !== undefined).map(tidy),
    content: children.flatMap((child) => (child.type === 'content' && child.id !== undefined ? [child.id] : [])),
  };
}

/** The element and all that it holds, in reading order. */
export function withAllInside(element: ReadElement): readonly ReadElement[] {
  return [element, ...element.children.flatMap(withAllInside)];
}
