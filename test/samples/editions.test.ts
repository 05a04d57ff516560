import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { problemsIn } from '../lesson/check/checking.ts';

const folder = new URL('../../client/samples/', import.meta.url);
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file): readonly [string, string] => [file, readFileSync(new URL(file, folder), 'utf8')]);

/** For lessons that have no further edition, or not this one. */
const FURTHER = [
  ['baritone ukulele, same shapes', 4],
  ['baritone ukulele, same key', 4],
  ['guitar, same key', 4],
  ['tenor ukulele, high G, same key', 6],
  ['soprano ukulele, low G, same key', 4],
] as const;

test.each(samples)('%s: every edition is drawn whole, with nothing of its block as text', (_file, text) => {
  const document = openDocument(text);
  for (const { name } of sheetOf(document, { widthMm: 120, leftHanded: false }).editions) {
    const { blocks } = sheetOf(document, { widthMm: 120, leftHanded: false, edition: name });
    expect(blocks.filter(({ stale }) => stale !== undefined)).toEqual([]);
    const plain = blocks
      .filter(({ kind }) => kind === 'plain-text')
      .map(({ markup }) => markup.replace(/<[^>]*>/g, ''));
    expect(plain.filter((words) => !/^A (family|melody)/.test(words))).toEqual([]);
  }
});

test.each(samples)('%s: no edition has an error', (_file, text) => {
  expect(problemsIn(text).filter(({ severity }) => severity === 'error')).toEqual([]);
});

test.each(samples)('%s on further instruments: drawn whole, and no error', (_file, text) => {
  const strings = /^for\s.*guitar/m.test(text) ? 6 : 4;
  for (const [also, own] of FURTHER) {
    if (own !== strings) continue;
    const lesson = text.replace(/^for .*$/m, (line) => `${line}\nalso ${also}, called further`);
    expect(lesson).not.toBe(text);
    const errors = problemsIn(lesson).filter(({ severity }) => severity === 'error');
    expect(errors.map(({ code, message }) => `${also}: ${code} ${message}`)).toEqual([]);
    const { blocks } = sheetOf(openDocument(lesson), { widthMm: 120, leftHanded: false, edition: 'further' });
    const plain = blocks
      .filter(({ kind }) => kind === 'plain-text')
      .map(({ markup }) => markup.replace(/<[^>]*>/g, ''));
    expect(plain.filter((words) => !/^A (family|melody)/.test(words))).toEqual([]);
  }
});
