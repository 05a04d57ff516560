import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import vm from 'node:vm';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { HAND_OUT_BUNDLE } from '../../../server/hand-out/bundle.mjs';
import { faceFilesFor } from '../../../server/hand-out/face-files.ts';
import { loadHandOut, loadRasteriser } from '../../../server/hand-out/node-tools.ts';
import { pdfOf } from '../../../server/hand-out/pdf/pdf-of.ts';
import type { writePdf } from '../../../server/hand-out/pdf/write-pdf.ts';
import { PAGE_FILE_NAMES } from '../../../server/hand-out/tools.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { openPdf } from './open-pdf.ts';
import { FACES, readFaceFile, readFaces } from './read-faces.ts';

// The bundle as it is packed, in Node and in a place that has only what every worker has.

const require = createRequire(import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'handspan-hand-out-'));

beforeAll(async () => {
  await build({ ...HAND_OUT_BUNDLE, outdir: folder, minify: true, logLevel: 'error' });
  mkdirSync(join(folder, 'fonts'));
  // The interactive page lies beside them, and plays no part here.
  for (const name of Object.values(PAGE_FILE_NAMES)) writeFileSync(join(folder, name), '');
  for (const file of FACES.flatMap((face) => faceFilesFor(face)))
    writeFileSync(join(folder, 'fonts', file.name), readFaceFile(file));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const DOCUMENT = openDocument('lesson One\nchord Bb7 1-2-1-1\nexercise Two\n  over Bb7\n> Words and @Bb7.\n');

async function written(write: typeof writePdf): Promise<Uint8Array> {
  const choice = { paper: 'a4', print: 'normal', untitled: 'untitled' } as const;
  return (await pdfOf(DOCUMENT, lessonOf(DOCUMENT).editions[0], choice, { faces: readFaces(), write })).bytes;
}

test('Node and a worker write the same file', async () => {
  const { writePdf: inNode } = await loadHandOut(folder);
  const first = await written(inNode);
  expect((await openPdf(first)).numPages).toBe(1);
  // Source: what every worker has, WHATWG HTML and Encoding. No `Buffer`, `process` or `require`.
  const bare = { TextEncoder, TextDecoder, URL, Uint8Array, ArrayBuffer, atob, queueMicrotask, setTimeout };
  const context = vm.createContext(bare);
  vm.runInContext(readFileSync(join(folder, 'hand-out.js'), 'utf8'), context);
  const inWorker: typeof writePdf = vm.runInContext('handspanHandOut.writePdf', context);
  expect(Buffer.compare(await written(inWorker), first)).toBe(0);
});

test('the painter of PNG is loaded where it lies, and a sentence says where it does not', async () => {
  const none = await loadRasteriser(folder);
  expect(none.ok ? '' : none.sentence).toMatch(/^PNG pictures cannot be painted here: .*\.$/);
  copyFileSync(require.resolve('@resvg/resvg-wasm/index_bg.wasm'), join(folder, 'rasteriser.wasm'));
  const found = await loadRasteriser(folder);
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="8" height="4" viewBox="0 0 8 4"><path d="M0 0L8 0L8 4Z"/></svg>';
  // Source: PNG (third edition), 5.2: the signature.
  expect(found.ok ? [...found.rasteriser(svg).slice(0, 4)] : []).toEqual([0x89, 0x50, 0x4e, 0x47]);
});
