import { expect, test } from 'vitest';
import { faceFilesFor, facesRead } from '../../server/hand-out/face-files.ts';

/** Names of the parts, without family and style. */
const partsFor = (text: string): readonly string[] =>
  faceFilesFor('serif', text).map(({ name }) => name.replace('source-serif-4-', '').replace('-400-normal.woff', ''));

test.each([
  ['Paper lanterns, B♭ ♯ – “quoted” ț', []],
  ['Бумага', ['cyrillic']],
  ['И\u0306', ['cyrillic']],
  ['Қазақ', ['cyrillic', 'cyrillic-ext']],
  ['Χαρτί', ['greek']],
  ['giấy', ['vietnamese']],
  ['gia\u0302\u0301y', ['vietnamese']],
  ['漢字', []],
] as const)('%s asks for the parts that have its letters, and no other', (text, beyond) => {
  expect(partsFor(text)).toEqual(['latin', 'latin-ext', ...beyond]);
});

test('a file is read when a text first asks for it, and once', async () => {
  const read: string[] = [];
  const facesFor = facesRead(async (name) => {
    read.push(name);
    return new TextEncoder().encode(name);
  });
  expect((await facesFor('plain')).serif).toHaveLength(2);
  expect(read.filter((name) => name.includes('greek'))).toEqual([]);
  expect((await facesFor('Χαρτί')).serif).toHaveLength(3);
  await facesFor('φως');
  expect(read).toHaveLength(new Set(read).size);
});

test('what could not be read is tried again', async () => {
  let there = false;
  const facesFor = facesRead(async () => {
    if (!there) throw new Error('not yet');
    return new Uint8Array();
  });
  await expect(facesFor('plain')).rejects.toThrow('not yet');
  there = true;
  expect((await facesFor('plain')).sansBold).toHaveLength(2);
});
