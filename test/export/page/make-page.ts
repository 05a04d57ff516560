import { buildSync } from 'esbuild';
import { inflateSync, strFromU8 } from 'fflate';
import { pageParts } from '../../../server/hand-out/page/page-parts.ts';
import type { PageLesson } from '../../../shared/export/page/page-lesson.ts';
import { pageOf } from '../../../shared/export/page/page-of.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { readFaces } from '../pdf/read-faces.ts';

let kept: ReturnType<typeof pageParts> | undefined;

/** The page of a lesson, with script and style bundled from the sources and the faces that the product is packed with. */
export function makePage(text: string, editions?: readonly string[]): string {
  kept ??= pageParts({ faces: readFaces(), page: { script: bundled('page.ts'), style: bundled('page.css') } });
  return pageOf(openDocument(text), { untitled: 'Untitled', ...(editions === undefined ? {} : { editions }) }, kept);
}

function bundled(name: string): string {
  const { outputFiles } = buildSync({
    entryPoints: [new URL(`../../../client/hand-out-page/${name}`, import.meta.url).pathname],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    logLevel: 'error',
  });
  return outputFiles[0]?.text ?? '';
}

/** The lesson that a page holds, read out of its text by another way than the page's own script goes. */
export function lessonIn(html: string): PageLesson {
  const data = /<script type="application\/octet-stream" id="lesson">([^<]*)<\/script>/.exec(html)?.[1] ?? '';
  return JSON.parse(strFromU8(inflateSync(new Uint8Array(Buffer.from(data, 'base64')))));
}
