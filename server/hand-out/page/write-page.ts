import { type PageChoice, pageOf } from '../../../shared/export/page/page-of.ts';
import type { LessonDocument } from '../../../shared/lesson/document.ts';
import type { FaceFiles } from '../faces.ts';
import { type PageFiles, pageParts } from './page-parts.ts';

/** A lesson as one interactive page, with the parts of the faces that it needs. The same input gives the same text. */
export function writePage(
  document: LessonDocument,
  choice: PageChoice,
  tools: { readonly faces: FaceFiles; readonly page: PageFiles },
): string {
  return pageOf(document, choice, pageParts(tools));
}
