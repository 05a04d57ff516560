import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { startPacked } from './start-packed.mjs';
import { makeVsix, VSIX_LIMIT_BYTES } from './vsix.mjs';

/** What a user's editor needs; the package without one of these is broken. */
const NEEDED = [
  'extension/package.json',
  'extension/readme.md',
  'extension/changelog.md',
  'extension/LICENSE.txt',
  'extension/dist/client.js',
  'extension/dist/client.web.js',
  'extension/dist/server.js',
  'extension/dist/server.worker.js',
  'extension/dist/handspan.js',
  'extension/dist/desk.js',
  'extension/dist/preview.js',
  'extension/dist/preview-style.css',
  'extension/syntaxes/handspan.tmLanguage.json',
  'extension/syntaxes/language-configuration.json',
  'extension/syntaxes/handspan.code-snippets',
  'extension/shared/lesson/LANGUAGE.md',
  'extension/dist/fonts/source-sans-3-latin-400-normal.woff',
  'extension/dist/fonts/source-serif-4-latin-400-normal.woff',
  'extension/dist/fonts/source-serif-4-cyrillic-700-italic.woff',
  // The licence of the faces asks to go wherever they go, and wherever outlines taken from them go.
  'extension/client/media/fonts/OFL-music.txt',
  'extension/client/media/fonts/OFL-text.txt',
];

/** The packer's own two files and the folders of which everything goes in. */
const ALLOWED = /^(extension\.vsixmanifest|\[Content_Types\]\.xml|extension\/(dist|syntaxes|client\/media)\/.+)$/;

/**
 * Packs the extension, looks at what is inside, and starts it.
 *
 * @returns {Promise<import('../runner/report.mjs').Report>}
 */
export async function checkPackage() {
  const folder = await mkdtemp(path.join(tmpdir(), 'handspan-package-'));
  try {
    const { file, bytes, names } = await makeVsix(folder);
    const missing = NEEDED.filter((name) => !names.includes(name));
    const surplus = names.filter((name) => !NEEDED.includes(name) && !ALLOWED.test(name));
    return {
      runner: 'package',
      cases: [
        { name: 'holds all that the editor needs', ...emptyOr(missing, 'missing') },
        { name: 'holds nothing else', ...emptyOr(surplus, 'not expected') },
        { name: 'is small', ok: bytes <= VSIX_LIMIT_BYTES, message: `${bytes} bytes` },
        ...(await startPacked(file, path.join(folder, 'unpacked'))),
      ],
      skipped: [],
    };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/**
 * @param {readonly string[]} names
 * @param {string} fault
 */
function emptyOr(names, fault) {
  return { ok: names.length === 0, message: `${fault}: ${names.join(', ') || 'none'}` };
}
