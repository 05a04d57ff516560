import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { handOutOf } from '../../../shared/export/hand-out/hand-out.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { samples } from '../exported-lessons.ts';

const readme = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8');
const section = /### Hand it out\n([\s\S]*?)\n###? /.exec(readme)?.[1] ?? '';
const excerpts = [...section.matchAll(/```(text|xml|json)\n([\s\S]*?)\n```/g)].map(
  ([, kind = '', lines = '']) => [kind, lines] as const,
);

test.each(excerpts)(
  'what the README shows of a %s file is in a file of the first sample, line for line',
  async (_kind, shown) => {
    const { files } = handOutOf(openDocument(samples[0]?.[1] ?? ''), '1-paper-lanterns', {
      kinds: ['text', 'chapters', 'musicxml', 'json'],
      editions: 'own',
      page: { paper: 'a4', print: 'normal' },
      look: { ink: 'light', halo: true },
      pictures: [],
    });
    const contents = await Promise.all(files.map(async (file) => (await file.make({} as never)).content));
    const lines = shown.split('\n');
    // Of text the beginnings of lines, without the bars behind; of the others the lines, without what they are set in by.
    const found = contents.some((content) => {
      const all = String(content).split('\n');
      return all.some((_, at) =>
        lines.every((line, nth) => {
          const there = all[at + nth] ?? '';
          return there.startsWith(line) || there.trimStart() === line.trim();
        }),
      );
    });
    expect(found, shown).toBe(true);
  },
);

test('there is one of each kind of text', () => {
  expect(excerpts.map(([kind]) => kind)).toEqual(['text', 'text', 'xml', 'json']);
});
