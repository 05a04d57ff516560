/// <reference path="./pdfkit.d.ts" />
import { PDFDocument, type StructElement } from 'pdfkit';
import { faceWidth } from '../../../shared/engrave/text-width.ts';
import type { FlatItem, FlatPath, FlatText } from '../../../shared/export/flat-items.ts';
import { type Stretch, stretchesOf } from '../../../shared/export/letters.ts';
import type {
  Bookmark,
  PrintedDocument,
  PrintedPage,
  PrintedRun,
} from '../../../shared/export/pdf/printed-document.ts';
import { type FaceFiles, type Faces, openFaces } from '../faces.ts';
import { AS_RECKONED } from '../reckoned.ts';
import { contentId } from './content-id.ts';
import { infoOf, metadataOf } from './metadata.ts';
import { pathInk, textInk } from './print-inks.ts';

/** A file of pages, and the letters in it that no face has, which stand there as empty boxes. */
export interface WrittenPdf {
  readonly bytes: Uint8Array;
  readonly missing: readonly string[];
}

/** Points in a millimetre. Source: ISO 32000-1, 8.3.2.3: a unit of default user space is 1/72 in. */
const POINTS_PER_MM = 72 / 25.4;

type Letters = Extract<Stretch, { kind: 'letters' }>;
type DrawnSign = Exclude<Stretch, Letters>;

/**
 * Writes a tagged document as PDF 1.7. The same document and faces give the same bytes: there is no date in the file, and its id
 * comes from what it says.
 */
export function writePdf(printed: PrintedDocument, files: FaceFiles): Promise<WrittenPdf> {
  const info = infoOf(printed);
  const pdf = new Writer(metadataOf(info, printed.language), {
    autoFirstPage: false,
    font: null,
    pdfVersion: '1.7',
    tagged: true,
    displayTitle: true,
    lang: printed.language,
    // The library wants a date to begin with.
    info: { ...info, CreationDate: new Date(0) },
  });
  delete pdf.info.CreationDate;
  pdf._id = contentId(JSON.stringify(printed));
  const chunks: Uint8Array[] = [];
  const missing = new Set<string>();
  return new Promise((resolve, reject) => {
    pdf.on('data', (chunk) => chunks.push(chunk));
    pdf.on('error', reject);
    pdf.on('end', () => resolve({ bytes: joined(chunks), missing: [...missing] }));
    try {
      writePages(pdf, printed, openFaces(files), missing);
      writeBookmarks(pdf.outline, printed.bookmarks);
      pdf.end();
    } catch (thrown) {
      reject(thrown);
    }
  });
}

/** The library's own metadata has a date in it, and leaves signs as they are that mean something in XML. */
class Writer extends PDFDocument {
  readonly #metadata: string;

  constructor(metadata: string, options: ConstructorParameters<typeof PDFDocument>[0]) {
    super(options);
    this.#metadata = metadata;
  }

  protected override _addInfo(): void {
    this.appendXML(this.#metadata);
  }
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.byteLength, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.byteLength;
  }
  return bytes;
}

function writePages(pdf: PDFDocument, printed: PrintedDocument, faces: Faces, missing: Set<string>): void {
  const root = pdf.struct('Document', {});
  pdf.addStructure(root);
  const made = new Map<number, StructElement>();
  // Elements are made as they are met, because a figure's box is counted on its page.
  const elementOf = (index: number): StructElement => {
    const known = made.get(index);
    if (known !== undefined) return known;
    const { tag, within, alternative, title, language, box } = printed.elements[index] ?? { tag: 'P' };
    const figure = tag === 'Figure' && box !== undefined;
    const element = pdf.struct(tag, {
      ...(alternative === undefined ? {} : { alt: alternative }),
      ...(title === undefined ? {} : { title }),
      ...(language === undefined ? {} : { lang: language }),
      ...(figure ? { bbox: inPoints([box.x, box.y, box.x + box.width, box.y + box.height]), placement: 'Block' } : {}),
    });
    (within === undefined ? root : elementOf(within)).add(element);
    made.set(index, element);
    return element;
  };
  for (const page of printed.pages) writePage(pdf, page, { printed, faces, missing, elementOf });
  root.end();
}

function inPoints(lengths: readonly number[]): readonly number[] {
  return lengths.map((length) => length * POINTS_PER_MM);
}

interface PageTools {
  readonly printed: PrintedDocument;
  readonly faces: Faces;
  readonly missing: Set<string>;
  readonly elementOf: (index: number) => StructElement;
}

function writePage(pdf: PDFDocument, page: PrintedPage, tools: PageTools): void {
  pdf.addPage({ size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM], margin: 0 });
  pdf.save();
  pdf.scale(POINTS_PER_MM);
  for (const run of page.runs) {
    writeRun(pdf, run, tools);
  }
  pdf.restore();
}

function writeRun(pdf: PDFDocument, { element, artifact, spelled, items }: PrintedRun, tools: PageTools): void {
  if (element === undefined) {
    pdf.markContent('Artifact', { type: artifact ?? 'Layout' });
    writeItems(pdf, items, tools);
    pdf.endMarkedContent();
    return;
  }
  const { tag, address, box } = tools.printed.elements[element] ?? { tag: 'P' };
  const owner = tools.elementOf(element);
  owner.add(pdf.markStructureContent(tag));
  if (spelled === undefined) writeItems(pdf, items, tools);
  else writeSpelled(pdf, spelled, items, tools);
  pdf.endMarkedContent();
  if (address === undefined || box === undefined) return;
  // The library writes bare strings as names; texts are objects to it.
  const Contents = Object(address) as string;
  pdf.link(box.x, box.y, box.width, box.height, address, { structParent: owner, Contents });
  // Its reference to the page is written with it, so it has to end on that page.
  owner.end();
}

/** Letters and signs that stand for a text of their own. */
function writeSpelled(pdf: PDFDocument, spelled: string, items: readonly FlatItem[], tools: PageTools): void {
  pdf.markContent('Span', { actual: spelled });
  writeItems(pdf, items, tools);
  pdf.endMarkedContent();
}

/** A sign drawn in the place of a letter. A blank as wide as it goes with it, since a drawing by itself has no place in a text. */
function writeSign(pdf: PDFDocument, sign: DrawnSign, text: FlatText, tools: PageTools): void {
  pdf.markContent('Span', { actual: sign.text });
  writePath(pdf, sign.outline);
  const widened = (100 * sign.width) / faceWidth(' ', text.face, text.size);
  pdf.addContent(`${figure(widened)} Tz`);
  showLetters(pdf, { kind: 'letters', text: ' ', x: sign.x, file: 0 }, text, tools);
  pdf.endMarkedContent();
  pdf.addContent('100 Tz');
}

/**
 * Letters of one file on one line. Written as operators, because the library's own text turns the page over around each text, and
 * readers then look for what is spelled otherwise in the wrong place.
 */
function showLetters(pdf: PDFDocument, letters: Letters, { face, size, ink, y }: FlatText, { faces }: PageTools): void {
  const file = faces.file(face, letters.file);
  if (file === undefined) return;
  pdf.font(file, `${face} ${letters.file}`, size);
  const font = pdf._font;
  pdf.page.fonts[font.id] ??= font.ref();
  const [glyphs, places] = font.encode(letters.text, AS_RECKONED);
  pdf.fillColor(textInk(ink));
  // The page counts downwards, and letters upwards.
  const place = `1 0 0 -1 ${figure(letters.x)} ${figure(y)} Tm`;
  pdf.addContent(`BT /${font.id} ${figure(size)} Tf ${place} ${shownGlyphs(glyphs, places, size)} ET`);
}

/** Glyphs one after another; a sign over a letter stands off from where the next letter will stand. Source: ISO 32000-1, 9.4.3. */
function shownGlyphs(
  glyphs: readonly string[],
  places: readonly { readonly xOffset: number; readonly yOffset: number }[],
  size: number,
): string {
  const operators: string[] = [];
  let row = '';
  const close = (): void => {
    if (row !== '') operators.push(`<${row}> Tj`);
    row = '';
  };
  glyphs.forEach((glyph, index) => {
    const { xOffset = 0, yOffset = 0 } = places[index] ?? {};
    if (xOffset === 0 && yOffset === 0) {
      row += glyph;
      return;
    }
    close();
    operators.push(`${figure((yOffset * size) / 1000)} Ts [${figure(-xOffset)} <${glyph}> ${figure(xOffset)}] TJ 0 Ts`);
  });
  close();
  return operators.join(' ');
}

/** A number as the file has it: a ten-thousandth of a millimetre is finer than any printer. */
function figure(value: number): string {
  return String(Math.round(value * 10_000) / 10_000);
}

function writeItems(pdf: PDFDocument, items: readonly FlatItem[], tools: PageTools): void {
  for (const item of items) {
    if (item.kind === 'path') writePath(pdf, item);
    else writeText(pdf, item, tools);
  }
}

function writeText(pdf: PDFDocument, text: FlatText, tools: PageTools): void {
  for (const stretch of stretchesOf(text, tools.faces.fileWith)) {
    if (stretch.kind === 'letters') {
      showLetters(pdf, stretch, text, tools);
    } else {
      if (stretch.kind === 'missing') tools.missing.add(stretch.text);
      writeSign(pdf, stretch, text, tools);
    }
  }
}

function writePath(pdf: PDFDocument, { steps, ink, thickness, dash }: FlatPath): void {
  if (steps.length === 0) return;
  pdf.save();
  for (const step of steps) {
    if (step[0] === 'M') pdf.moveTo(step[1], step[2]);
    else if (step[0] === 'L') pdf.lineTo(step[1], step[2]);
    else if (step[0] === 'C') pdf.bezierCurveTo(step[1], step[2], step[3], step[4], step[5], step[6]);
    else pdf.closePath();
  }
  if (thickness === undefined) {
    pdf.fill(pathInk(ink));
  } else {
    const [length, space] = dash ?? [];
    pdf.lineWidth(thickness);
    if (length !== undefined && space !== undefined) pdf.dash(length, { space });
    pdf.stroke(pathInk(ink));
  }
  pdf.restore();
}

function writeBookmarks(outline: PDFDocument['outline'], bookmarks: readonly Bookmark[]): void {
  for (const { title, page, y, inner } of bookmarks) {
    const item = outline.addItem(title, { pageNumber: page, top: y * POINTS_PER_MM, expanded: true });
    writeBookmarks(item, inner);
  }
}
