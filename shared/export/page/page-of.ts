import type { LessonDocument } from '../../lesson/document.ts';
import { type Edition, lessonOf } from '../../lesson/model/lesson.ts';
import { base64 } from './base64.ts';
import { faceRules, type PageFace } from './face-rules.ts';
import { pageHtml } from './page-html.ts';
import type { PageLesson } from './page-lesson.ts';
import { pageLesson } from './page-sheets.ts';
import { staticSheet } from './static-sheet.ts';
import { type UsedLetters, usedLetters } from './used-letters.ts';

/** What the page is made with, given from outside. */
export interface PageParts {
  /** The page's own script and style, bundled. */
  readonly script: string;
  readonly style: string;
  /** Packs text as raw DEFLATE of its UTF-8. Source: RFC 1951. */
  readonly deflate: (text: string) => Uint8Array;
  /** Source: FIPS 180-4, of the text's UTF-8. */
  readonly sha256: (text: string) => Uint8Array;
  /** The faces that the sheet is measured in, with these letters at least. Without it the page takes the reader's own faces. */
  readonly faces?: (used: UsedLetters) => readonly PageFace[];
}

export interface PageChoice {
  /** Names of the editions in it, the reader's first choice first; all of the lesson's where none are named. */
  readonly editions?: readonly string[];
  /** Its title where the lesson has none, such as the name of its file. */
  readonly untitled: string;
}

/**
 * Widths that lines of music are laid out for; the page shows the one that fits its window and the size of print. Unit: mm. Source:
 * our own: a telephone held upright is about 90 mm wide by the measure of CSS, and half as large again in print takes the next one.
 */
const WIDTHS_MM = [60, 90, 120, 180] as const;

/**
 * A lesson as one HTML file that opens from disk and asks for nothing else: every edition, both hands, all widths, and the player.
 * The same document and parts give the same text.
 */
export function pageOf(document: LessonDocument, choice: PageChoice, parts: PageParts): string {
  const lesson = lessonOf(document);
  const page = pageLesson(document, chosenEditions(lesson.editions, choice.editions), WIDTHS_MM);
  const title = lesson.settings.title ?? '';
  const faces = parts.faces?.(usedLetters(page)) ?? [];
  return pageHtml({
    title: title === '' ? choice.untitled : title,
    titled: title !== '',
    ...(lesson.settings.by === undefined ? {} : { by: lesson.settings.by }),
    editions: page.editions,
    script: parts.script,
    styles: [...(faces.length === 0 ? [] : [faceRules(faces)]), parts.style],
    sheet: staticSheet(page),
    data: base64(parts.deflate(textOf(page))),
    hash: (text) => base64(parts.sha256(text)),
  });
}

function chosenEditions(all: readonly Edition[], names: readonly string[] | undefined): readonly Edition[] {
  if (names === undefined) return all;
  return names.flatMap((name) => all.find((edition) => edition.name === name) ?? []);
}

/** The page's script reads this text again. */
function textOf(page: PageLesson): string {
  return JSON.stringify(page);
}
