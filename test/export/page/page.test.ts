import { createHash } from 'node:crypto';
import { inflateRawSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { sheetOf } from '../../../shared/engrave/sheet.ts';
import { exportedExercise } from '../../../shared/export/exported-exercise.ts';
import { base64 } from '../../../shared/export/page/base64.ts';
import { Pieces, unpackMarkup } from '../../../shared/export/page/packed-markup.ts';
import type { PageHand } from '../../../shared/export/page/page-lesson.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { performanceOf } from '../../../shared/score/performance-of.ts';
import { unpacked } from '../../../shared/score/performance-packed.ts';
import { generatedLesson } from '../../bench/generated-lesson.ts';
import { samples } from '../exported-lessons.ts';
import { lessonIn, makePage } from './make-page.ts';

const HANDS: readonly PageHand[] = ['right', 'left'];
const TEACHERS_OWN = ['question', 'candidate', 'note'];

/** Text as a reader sees it, without tags. */
const words = (markup: string): string => markup.replace(/<[^<>]*>/g, '');
/** Markup without what leads to the text of the lesson. */
const placeless = (markup: string): string =>
  markup.replace(/<[^<>]*>/g, (tag) => tag.replace(/ data-place="\d+"( tabindex="0")?/, ''));

test.each(samples)('%s: the page holds every sheet of every edition as the preview draws it', (_name, text) => {
  const document = openDocument(text);
  const { editions, definitions } = lessonOf(document);
  const page = lessonIn(makePage(text));
  expect(page.editions.map(({ name }) => name)).toEqual(editions.map(({ name }) => name));
  for (const { name, sheets, performances } of page.editions) {
    for (const hand of HANDS) {
      for (const [at, widthMm] of page.widthsMm.entries()) {
        const shown = (sheets[hand][at] ?? []).map((number) => {
          const block = page.blocks[number];
          return { kind: block?.kind, markup: placeless(unpackMarkup(block?.packed ?? '', page.pieces)) };
        });
        const { blocks } = sheetOf(document, { widthMm, leftHanded: hand === 'left', edition: name });
        const drawn = blocks.filter(({ kind }) => !TEACHERS_OWN.includes(kind));
        expect(shown).toEqual(drawn.map(({ kind, markup }) => ({ kind, markup: placeless(markup) })));
      }
    }
    const played = definitions.exercises.map((definition) => {
      const exercise = exportedExercise(document, name, definition);
      return exercise && performanceOf(exercise.score, { ...exercise, instrument: exercise.instrument });
    });
    for (const [number, packed] of performances.entries()) {
      const found = packed === null ? undefined : unpacked(packed);
      expect(found?.sounds).toEqual(played[number]?.sounds);
      expect(found?.bars).toEqual(played[number]?.bars);
    }
  }
});

test.each(samples)('%s: each exercise of the sheet has the number of what it sounds like', (_name, text) => {
  const page = lessonIn(makePage(text));
  for (const { sheets, performances } of page.editions) {
    const titles = (sheets.right[0] ?? []).flatMap((number) => {
      const block = page.blocks[number];
      const found = /<h3 [^>]*data-place="(\d+)"[^>]*>([^<]*)</.exec(block?.packed ?? '');
      return found === null ? [] : [{ number: Number(found[1]), title: found[2] }];
    });
    expect(titles.length).toBeGreaterThan(0);
    for (const { number, title } of titles) expect(performances[number]?.title).toBe(title);
  }
});

test('a lesson of 400 lines with two editions stays below a megabyte', () => {
  const text = generatedLesson(400);
  expect(text.split('\n').length).toBeGreaterThanOrEqual(400);
  expect(Buffer.byteLength(makePage(text))).toBeLessThan(1_000_000);
});

test.each(samples)('%s: the same lesson gives the same bytes', (_name, text) => {
  expect(makePage(text)).toBe(makePage(text));
});

test('an edition that is not asked for is not in the page', () => {
  const text = samples.find(([name]) => name.startsWith('3-'))?.[1] ?? '';
  const names = lessonOf(openDocument(text)).editions.map(({ name }) => name);
  expect(names.length).toBeGreaterThan(2);
  const html = makePage(text, names.slice(1, 2));
  expect(lessonIn(html).editions.map(({ name }) => name)).toEqual(names.slice(1, 2));
  expect(html).not.toContain('id="edition"');
});

const HOSTILE = `lesson  </script></title><img src=x onerror="alert(1)"> & "data-place="0" tabindex="0"
by      "><script>alert(2)</script>
for     tenor ukulele
also    baritone ukulele, same shapes, called </option><b>bold

chord Am 2-0-0-0

> <script>alert(3)</script> and <@ and <1 2 3> and "data-place="0" tabindex="0"

pattern p
  count 1 & 2 & 3 & 4 &
  strum D . D . D . D .

exercise </script><!-- <script>
  over Am

show p
`;

test('nothing that a lesson says becomes markup', () => {
  const html = makePage(HOSTILE);
  // Source: HTML, "Script data state": an element ends at the first `</script`. The page has two of its own.
  expect(html.match(/<script/gi)).toHaveLength(2);
  expect(html.match(/<\/script/gi)).toHaveLength(2);
  expect(html.match(/<\/title/gi)).toHaveLength(1);
  expect(html).not.toMatch(/<img|<b>|<!--/i);
  const page = lessonIn(html);
  const all = page.blocks.map(({ packed }) => unpackMarkup(packed, page.pieces));
  expect(all.join('')).not.toMatch(/<script|<img|<b>|<!--/i);
  // What looks like an attribute or a packed piece is still read as it was written.
  const told = words(all.join('\n')).replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&gt;', '>');
  expect(told).toContain('"data-place="0" tabindex="0"');
  expect(told).toContain('<1 2 3>');
  expect(told).toContain('</script><!-- <script>');
});

test('the policy lets run what is in the page, by its hash, and lets nothing be fetched', () => {
  const html = makePage(samples[0]?.[1] ?? '');
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '';
  expect(policy).toMatch(/^default-src 'none'; /);
  expect(policy).not.toMatch(/unsafe|https?:|\*|connect-src/);
  const hash = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  const directive = (name: string): string => new RegExp(`${name} ([^;]*)`).exec(policy)?.[1] ?? '';
  const inside = (element: string): readonly string[] =>
    [...html.matchAll(new RegExp(`<${element}>([\\s\\S]*?)</${element}>`, 'g'))].map(([, text = '']) => hash(text));
  expect(directive('script-src')).toBe(inside('script').join(' '));
  expect(directive('style-src')).toBe(inside('style').join(' '));
  // No address stands in it but the names of two languages.
  const addresses = new Set(html.match(/https?:\/\/[^"'`\s)]*/g));
  expect([...addresses].filter((one) => !/^http:\/\/www\.w3\.org\/(1999\/xhtml|2000\/svg)$/.test(one))).toEqual([]);
});

test.each(samples)(
  '%s: without scripts there is the sheet of the first edition, drawn as the preview draws it',
  (_name, text) => {
    const html = makePage(text);
    const still = /<div class="static-sheet">([\s\S]*)<\/div>\n<\/noscript>/.exec(html)?.[1] ?? '';
    const pieces = new Map(
      [...still.matchAll(/<g id="(piece-[0-9a-z]+)">((?:(?!<g[ >])[\s\S])*?)<\/g>/g)].map(
        ([, id = '', content = '']) => [id, content],
      ),
    );
    expect(pieces.size).toBeGreaterThan(0);
    const whole = still.replace(
      /<use href="#([^"]*)" x="([^"]*)" y="([^"]*)"\/>/g,
      (_use, id: string, x: string, y: string) => `<g transform="translate(${x} ${y})">${pieces.get(id)}</g>`,
    );
    const blocks = [...whole.matchAll(/<div class="block ([a-z-]+)">(.*?)<\/div>(?=\n)/gs)];
    const document = openDocument(text);
    const drawn = sheetOf(document, { widthMm: 90, leftHanded: false }).blocks.filter(
      ({ kind }) => !TEACHERS_OWN.includes(kind),
    );
    // What leads to the text, what a script marks and what takes its clicks, and how deep a heading is, is not drawn.
    const drawing = (markup: string): string =>
      markup
        .replace(/<rect [^<>]*pointer-events[^<>]*>/g, '')
        .replace(/ (?:data-[a-z]+|tabindex|xmlns|aria-level)="[^"]*"/g, '');
    expect(blocks.map(([, kind]) => kind)).toEqual(drawn.map(({ kind }) => kind));
    expect(blocks.map(([, , markup = '']) => drawing(markup))).toEqual(drawn.map(({ markup }) => drawing(markup)));
  },
);

test('what is drawn once and used again gets its looks: no rule for it asks what is around it', () => {
  const [, sheet = ''] = [...makePage(samples[0]?.[1] ?? '').matchAll(/<style>([\s\S]*?)<\/style>/g)].map(
    ([, css]) => css,
  );
  // Source: SVG 2, 5.6.2: rules are matched in the shadow tree of a `use`, which has nothing of the document above it.
  const selectors = [...sheet.matchAll(/([^{};]+)\{/g)]
    .flatMap(([, list = '']) => list.split(/,(?![^(]*\))/))
    .map((one) => one.trim());
  const looks = selectors.filter((one) =>
    /\.(?:ink|ink-soft|ink-faint|accent|paper|num|name|count|word)(?![-\w])/.test(one),
  );
  expect(looks.length).toBeGreaterThan(8);
  expect(looks.filter((one) => /[ >+~]/.test(one.replace(/\([^)]*\)/g, '')))).toEqual([]);
});

test('a packed drawing reads as it was, and what comes again is said once', () => {
  const pieces = new Pieces();
  const markup =
    '<svg><g transform="translate(1 -2)"><text>a &lt;3 4 5&gt;</text></g><g role="img"><g transform="translate(7 8)"><text>a &lt;3 4 5&gt;</text></g></g></svg>';
  const packed = pieces.pack(markup);
  expect(packed).toBe('<svg><1 -2 0><g role="img"><7 8 0></g></svg>');
  expect(unpackMarkup(packed, pieces.list())).toBe(markup);
});

test('bytes are written as Node writes them', () => {
  for (let length = 0; length < 70; length += 1) {
    const bytes = Uint8Array.from({ length }, (_, index) => (index * 97 + length * 31) % 256);
    expect(base64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
  }
});

test('the lesson in the page is raw DEFLATE, as another reader knows it', () => {
  const html = makePage('lesson One\n');
  const data = /id="lesson">([^<]*)</.exec(html)?.[1] ?? '';
  expect(JSON.parse(inflateRawSync(Buffer.from(data, 'base64')).toString('utf8'))).toEqual(lessonIn(html));
});

test('an empty lesson is a page with the name of its file', () => {
  const html = makePage('');
  expect(html).toContain('<title>Untitled</title>');
  expect(html).toContain('<h1 class="sheet-title untitled">Untitled</h1>');
});
