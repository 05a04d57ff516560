import type { PaperChoice, SheetView } from '../../../shared/engrave/block.ts';
import { printedPages } from '../../../shared/engrave/sheet-pages.ts';
import { printDocument } from '../../../shared/export/pdf/print-document.ts';
import type { LessonDocument } from '../../../shared/lesson/document.ts';
import { type Edition, lessonOf } from '../../../shared/lesson/model/lesson.ts';
import type { FaceFiles } from '../faces.ts';
import type { WrittenPdf, writePdf } from './write-pdf.ts';

/** How a lesson is printed: the paper and size of print, and the reader's view of diagrams. */
export interface PrintChoice extends PaperChoice, Partial<Pick<SheetView, 'leftHanded' | 'dots'>> {}

/** A print sheet as a file. */
export interface LessonPdf extends WrittenPdf {
  /** Why it is not what was asked for, in a sentence: a lesson may be too long for one page. */
  readonly refused?: string;
}

/**
 * One edition of a lesson as a print sheet: the pages that the preview shows. `untitled` is its title where the lesson has none, such
 * as the name of its file. The writer is given in, because it is large and loaded only where a file is written.
 */
export async function pdfOf(
  document: LessonDocument,
  edition: Edition,
  choice: PrintChoice & { readonly untitled: string },
  tools: { readonly faces: FaceFiles; readonly write: typeof writePdf },
): Promise<LessonPdf> {
  const { paper, print, leftHanded = false, dots, untitled } = choice;
  const lesson = lessonOf(document);
  // Pages have a width of their own, so that of a screen means nothing.
  const view = {
    widthMm: 0,
    leftHanded,
    page: { paper, print },
    edition: edition.name,
    ...(dots === undefined ? {} : { dots }),
  };
  const pages = printedPages(document, { lesson, edition }, view);
  const { by } = lesson.settings;
  const printed = printDocument(pages, { untitled, paper, ...(by === undefined ? {} : { author: by }) });
  const written = await tools.write(printed, tools.faces);
  return pages.refused === undefined ? written : { ...written, refused: pages.refused };
}
