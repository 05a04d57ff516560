import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Block, SheetView } from '../../shared/engrave/block.ts';
import { type Sheet, sheetOf } from '../../shared/engrave/sheet.ts';
import { editDocument, openDocument } from '../../shared/lesson/document.ts';
import { readXml } from './well-formed.ts';

// A lesson of our own that uses most of the language; nobody's music.
const LESSON = `lesson  Paper <Boats>
by      Ada Fenn
for     tenor ukulele, high G
also    baritone ukulele, same shapes, called bari
key     E minor
meter   4/4
feel    swing
tempo   60 to 92 by 4
level   2
corrected  bar 7 of Plucked: was F, is G7

> Warm up. See @Em, @roll and @2-1-0-0; ask @nobody.

chord  Em         0-4-3-2  fingers 0-3-2-1
chord  C          x-0-0-3
chord  D(add9)    7-6-0-0

progression  verse
  |: Em | C | G | 1st C :| 2nd Em ||
  words  Lan-terns go down | to the wa-ter | one by | one

progression  spare
  | Em | C |

pattern  roll
  count  1   &   2   &   3   &   4   &
  pick   4p  2i  3p  1m  4p  2i  3p  1m
  > Thumb first.

pattern  knock
  count  1  &  2  &  3  &  4  &
  strum  D  .  .  U  Dx .  U  .
  hit    .  .  .  .  .  .  .  thumb4

pattern  lonely
  count  1  2  3  4
  strum  D  chunk  D  U

part  Second week

exercise  Roll the changes
  play     verse
  with     roll
  tempo    60 to 80
  minutes  5
  > Let every string ring.

page

exercise  Knock
  over  Em, C
  each  knock

melody  climb
  inside  verse
  rise

family  drone
  from  verse
  ring  1 2

edition  bari
  > Baritones, mind the long neck.

show  Em roll
`;

const VIEW: SheetView = { widthMm: 120, leftHanded: false };

describe('the sheet of a lesson', () => {
  const sheet = sheetOf(openDocument(LESSON), VIEW);

  test('its blocks in order, as kinds and words', () => {
    // How hard an exercise is has its own tests, and is no matter of the order.
    const words = (block: Block): string => wordsOf(block).replace(/difficulty \d+\.\d/, 'difficulty n');
    expect(sheet.blocks.map((block) => `${block.kind}: ${words(block).slice(0, 90)}`)).toMatchSnapshot();
  });

  test('every block is one well-formed element, under its weight, with its places in order', () => {
    for (const widthMm of [80, 120, 190]) {
      for (const block of sheetOf(openDocument(LESSON), { widthMm, leftHanded: true }).blocks) {
        const { elements } = readXml(block.markup);
        expect(block.markup.length).toBeLessThan(40_500);
        const places = elements.flatMap(({ attributes }) =>
          attributes['data-place'] === undefined ? [] : [Number(attributes['data-place'])],
        );
        expect([...places].sort((a, b) => a - b)).toEqual(places.map((_, index) => index));
        // Only an exercise's heading knows more places than it shows: the patterns it plays.
        if (block.kind === 'exercise') expect(block.places.length).toBeGreaterThanOrEqual(places.length);
        else expect(block.places.length).toBe(places.length);
        for (const { attributes } of elements)
          if (attributes['data-place'] !== undefined) expect(attributes.tabindex).toBe('0');
        expect(block.markup).not.toMatch(/ style=| on[a-z]+=|<img|<script/);
      }
    }
  });

  test('a place in a pattern leads to the exercise that plays it', () => {
    const text =
      'chord C 0-0-0-3\nprogression v\n  | C |\npattern roll\n  pick 4p 3i 2m 1a\nexercise Round\n  play v\n  with roll\n';
    const inPattern = text.indexOf('4p 3i');
    const blocks = sheetOf(openDocument(text), VIEW).blocks.filter((block) =>
      block.places.some((place) => place.start <= inPattern && inPattern <= place.end),
    );
    expect(blocks.map((block) => block.kind)).toEqual(['exercise']);
  });

  test('drawings have a text alternative, or stand beside their words', () => {
    for (const block of sheet.blocks) {
      for (const { name, attributes } of readXml(block.markup).elements) {
        if (name === 'svg')
          expect(attributes['aria-hidden'] === 'true' || (attributes['aria-label'] ?? '') !== '').toBe(true);
      }
    }
  });

  test('places lead to the text that they show', () => {
    const texts = sheet.blocks.flatMap((block) => block.places.map(({ start, end }) => LESSON.slice(start, end)));
    for (const wanted of [
      '@Em',
      '@roll',
      '@2-1-0-0',
      'lesson  Paper <Boats>',
      'chord  Em         0-4-3-2  fingers 0-3-2-1',
      'key     E minor',
    ]) {
      expect(texts).toContain(wanted);
    }
    expect(texts.some((text) => text.includes('Em') && text.length < 6)).toBe(true);
  });

  const shows = (text: string, words: string): boolean =>
    sheetOf(openDocument(text), VIEW).blocks.some(({ markup }) => markup.includes(words));

  test('the caution stands once, where practice minutes, a stretch, or a difficulty is told', () => {
    expect(sheet.blocks.filter((block) => block.markup.includes('sheet-caution'))).toHaveLength(1);
    expect(shows('exercise  Knock\n  minutes  5\n', 'sheet-caution')).toBe(true);
    // From fret 1 to fret 6 of a tenor it is 432 (2^(-1/12) - 2^(-6/12)) = 102 mm, more than a small hand has.
    expect(shows('hand  small\nchord  C  1-0-0-6\n', 'sheet-caution')).toBe(true);
    expect(shows('chord  C  0-0-0-3\nprogression  v\n  | C |\n', 'sheet-caution')).toBe(true);
    expect(shows('chord  C  0-0-0-3\n', 'sheet-caution')).toBe(false);
  });

  test('the header tells how hard the chords are, beside the level; each exercise has its own number', () => {
    const [header] = sheet.blocks.filter(({ kind }) => kind === 'facts');
    expect(header && wordsOf(header)).toMatch(/· level 2 · difficulty about \d\.\d of 10Also for/);
    const [roll] = sheet.blocks.filter(({ kind }) => kind === 'exercise');
    expect(roll && wordsOf(roll)).toMatch(/· 5 minutes · difficulty \d\.\d$/);
    expect(shows('level  2\nchord  C  0-0-0-3\n', 'difficulty')).toBe(false);
  });

  test('no line of facts begins with the point between them, nor parts a number from what it counts', () => {
    for (const { kind, markup } of sheet.blocks) {
      if (kind !== 'facts' && kind !== 'exercise') continue;
      expect(markup).not.toContain(' ·');
      expect(markup).not.toMatch(/\d quarter/);
    }
    const facts = sheet.blocks.flatMap(({ kind, markup }) => (kind === 'facts' ? [markup] : [])).join('');
    expect(facts).toMatch(/60\u00a0to\u00a0\d+\u00a0quarter notes/);
    expect(facts).toMatch(/\u00a0· /);
  });

  test('a letter in the prose changes neither the difficulty nor any finger', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW);
    const at = LESSON.indexOf('Warm up.');
    const after = sheetOf(editDocument(document, { span: { start: at, end: at }, text: 'Slowly. ' }), VIEW, before);
    const others = (one: Sheet): readonly string[] =>
      one.blocks.filter(({ kind }) => kind !== 'prose').map(({ id }) => id);
    expect(others(after)).toEqual(others(before));
  });

  test('fingers that the lesson does not give are suggested, in another hand, and the legend says so', () => {
    const sheetFor = (line: string): string =>
      sheetOf(openDocument(`${line}\n`), VIEW)
        .blocks.map(({ markup }) => markup)
        .join('');
    const given = sheetFor('chord  F  2-0-1-0  fingers 2-0-1-0');
    const found = sheetFor('chord  F  2-0-1-0');
    expect(given).toMatch(/<text class="num paper"[^>]* font-weight="700">2<\/text>/);
    expect(given).toContain('a bold number: the finger that the lesson gives');
    expect(given).not.toContain('suggest');
    // F as 2-0-1-0 is held by index and middle finger. Common practice of method books, no source.
    expect(found).toMatch(/<text class="count paper"[^>]*>2<\/text>/);
    expect(found).toContain('a slanted number: a suggested finger');
    expect(found).toContain('The fingers are a suggestion; the lesson gives none.');
    // Five frets, five fingers: nothing to suggest.
    expect(sheetFor('for  guitar\nchord  E  1-2-3-4-5-0')).not.toContain('suggest');
  });

  test('a lesson’s fingers that cannot work are drawn as they are written, without a bar that would stop an open string', () => {
    const sheetFor = sheetOf(openDocument('chord  D7  2-0-2-0  fingers 1-0-1-0\n'), VIEW);
    const row = sheetFor.blocks.find(({ kind }) => kind === 'diagrams')?.markup ?? '';
    expect(row.match(/<circle[^>]* class="ink" stroke-width="0"/g)).toHaveLength(2);
    expect(row).not.toContain('across strings');
  });

  // Case C-9: the legend tells the cross of a diagram from that of the tab.
  test('the legend explains the signs that occur, and no others', () => {
    const legend = sheet.blocks.at(-1);
    expect(legend?.markup).toMatch(/not played\. On the tab crosses are struck, but damped/);
    expect(legend?.markup).toMatch(/thumb slaps/);
    expect(legend?.markup).not.toMatch(/palm/);
    const plain = sheetOf(openDocument('lesson  Short\n\n> Play.\n'), VIEW);
    expect(plain.blocks.some((block) => block.markup.includes('Signs on this sheet'))).toBe(false);
  });

  test('what cannot be drawn yet is there as text', () => {
    const words = sheet.blocks.map(wordsOf).join('\n');
    for (const wanted of ['Corrected: bar 7', 'Thumb first.', 'spare', 'lonely']) {
      expect(words).toContain(wanted);
    }
  });

  test('the other edition: its instrument, its names, the key it sounds in, its own prose', () => {
    const bari = sheetOf(openDocument(LESSON), { ...VIEW, edition: 'bari' });
    expect(bari.editions.map(({ name }) => name)).toEqual(['tenor ukulele, high G', 'bari']);
    const words = bari.blocks.map(wordsOf).join('\n');
    expect(words).toContain('baritone ukulele');
    // Baritone strings 3 to 1 lie five semitones below those of the others: E minor sounds as B minor. Source: case D-1.
    expect(words).toContain('shapes of E minor: sounds in B minor');
    expect(words).toContain('Baritones, mind the long neck');
    expect(words).toContain('same shapes');
    // B and five frets more are E. Source: case D-1, by hand.
    expect(words).toContain('Shapes of B minor with capo 5 sound in E minor: B + 5 = E.');
    expect(words).toContain('Also for tenor ukulele, high G');
    expect(words).not.toContain('edition  bari');
    // Chords that an exercise names one by one go by the name of this edition: Em and C sound as Bm and G.
    expect(words).toContain('Bm, G, with knock');
  });

  test('an edition block prints nothing of its own on another sheet', () => {
    const words = sheet.blocks.map(wordsOf).join('\n');
    expect(words).not.toContain('edition');
    expect(words).not.toContain('Baritones');
  });

  test('a capo says what it sounds in (C-17)', () => {
    const capo = sheetOf(openDocument('for  tenor ukulele, high G, capo 2\nkey  C\n'), VIEW);
    expect(capo.blocks.map(wordsOf).join(' ')).toContain('shapes of C major, capo 2: sounds in D major');
  });

  test('and an edition in the same key says how it comes to sound with the others', () => {
    const head = (text: string) =>
      sheetOf(openDocument(`${text}key G\nchord G 3-2-0-0-0-3\n`), { ...VIEW, edition: 'uke' })
        .blocks.map(wordsOf)
        .join(' ');
    // G and two frets more are A. Source: by hand.
    const with2 = 'To sound with the others: capo 2. Shapes of G major with capo 2 sound in A major: G + 2 = A.';
    expect(head('for guitar, capo 2\nalso tenor ukulele, same key, called uke\n')).toContain(with2);
    const without = 'To sound with the others: no capo.';
    expect(head('for guitar\nalso tenor ukulele, capo 3, same key, called uke\n')).toContain(without);
    expect(head('for guitar, capo 2\nalso tenor ukulele, capo 2, same key, called uke\n')).not.toContain('To sound');
  });

  test('an empty lesson is an empty sheet', () => {
    expect(sheetOf(openDocument(''), VIEW).blocks).toEqual([]);
    expect(sheetOf(openDocument('// only a note\n\n'), VIEW).blocks).toEqual([]);
  });
});

describe('from sheet to sheet', () => {
  test('a new line above changes no block but where it stands', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW);
    const after = sheetOf(editDocument(document, { span: { start: 0, end: 0 }, text: '// a note\n' }), VIEW, before);
    expect(after.blocks.map(({ id }) => id)).toEqual(before.blocks.map(({ id }) => id));
    expect(after.blocks.map(({ source }) => source.start - 10)).toEqual(
      before.blocks.map(({ source }) => source.start),
    );
  });

  test('what did not change is the same block, not a new one like it', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW);
    const at = LESSON.indexOf('Let every');
    const after = sheetOf(editDocument(document, { span: { start: at, end: at }, text: 'Slowly! ' }), VIEW, before);
    const kept = after.blocks.filter((block) => before.blocks.includes(block));
    const changed = after.blocks.filter((block) => !before.blocks.some(({ id }) => id === block.id));
    expect(changed).toHaveLength(1);
    // All that stands before the edited exercise is kept as it is; what follows has moved in the file.
    expect(kept.length).toBeGreaterThan(10);
  });

  test('any run of edits: the patched sheet equals a fresh one, wherever nothing is broken', () => {
    const snippets = [
      'chord  G  0-2-3-2\n',
      '\n',
      'x',
      '0',
      '|',
      'Em ',
      'D ',
      '> ',
      '@C',
      '  ',
      '-',
      'part  New\n',
      'page\n',
      'count  1 2 3 4\n',
      'stop ',
      '<&>',
      'exercise  More\n  over  C\n  each  knock\n',
    ];
    const edit = fc.record({ at: fc.nat(LESSON.length), cut: fc.nat(12), text: fc.constantFrom('', ...snippets) });
    let compared = 0;
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
        let document = openDocument(LESSON);
        let sheet: Sheet = sheetOf(document, VIEW);
        for (const { at, cut, text } of edits) {
          const start = Math.min(at, document.text.length);
          document = editDocument(document, {
            span: { start, end: Math.min(start + cut, document.text.length) },
            text,
          });
          sheet = sheetOf(document, VIEW, sheet);
          for (const block of sheet.blocks) readXml(block.markup);
          const fresh = sheetOf(openDocument(document.text), VIEW);
          if (sheet.blocks.some((block) => block.stale !== undefined)) continue;
          compared++;
          expect(sheet.blocks).toEqual(fresh.blocks);
        }
      }),
      { seed: 41, numRuns: 40 },
    );
    expect(compared).toBeGreaterThan(40);
  }, 60_000);

  test('a broken pattern keeps the last good picture, marked; mending it takes the mark away', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW);
    const at = LESSON.indexOf('4p  2i  3p  1m  4p  2i  3p  1m');
    const broken = editDocument(document, { span: { start: at, end: at + 2 }, text: '4q' });
    const during = sheetOf(broken, VIEW, before);
    const stale = during.blocks.filter((block) => block.stale !== undefined);
    expect(stale.length).toBeGreaterThan(1);
    for (const block of stale) expect(before.blocks.map(({ markup }) => markup)).toContain(block.markup);
    expect(during.blocks.map(({ markup }) => markup).filter((markup) => markup.includes('<svg'))).toEqual(
      before.blocks.map(({ markup }) => markup).filter((markup) => markup.includes('<svg')),
    );
    const mended = sheetOf(editDocument(broken, { span: { start: at, end: at + 2 }, text: '4p' }), VIEW, during);
    expect(mended.blocks).toEqual(before.blocks);
  });

  test('broken from the start: the text as it is written, and why', () => {
    const [block] = sheetOf(openDocument('exercise  Lost\n  play  nowhere\n'), VIEW).blocks;
    expect(block?.kind).toBe('plain-text');
    expect(block === undefined ? '' : wordsOf(block)).toMatch(
      /No progression is called “nowhere” now\.[\s\S]*play {2}nowhere/,
    );
  });

  test.each([
    ['too few frets', '2-0-0'],
    ['too many frets', '2-0-0-0-0'],
    ['a fret that cannot be read', '2-0-z-0'],
  ])('a chord line with %s: nothing that plays the chord is drawn with other frets', (_, frets) => {
    const text = [
      `for tenor ukulele, high G\nchord C 0-0-0-3\nchord Am ${frets}`,
      'progression a\n  | C | Am |\nprogression b\n  | C |\nprogression lone\n  | Am | C |',
      'pattern p\n  strum D D D D',
      'exercise Play\n  play a\n  with p\nexercise Over\n  over C Am\n  each p\nexercise Sound\n  play b\n  with p\n',
    ].join('\n');
    const plain = sheetOf(openDocument(text), VIEW).blocks.filter(({ kind }) => kind === 'plain-text');
    const words = plain.map(wordsOf);
    for (const part of ['progression lone', 'exercise Play', 'exercise Over']) {
      expect(words.filter((one) => one.includes(part) && one.includes('The line of Am: '))).toHaveLength(1);
    }
    expect(words.some((one) => one.includes('exercise Sound'))).toBe(false);
  });

  test('a broken chord line keeps its row', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW);
    const at = LESSON.indexOf('x-0-0-3');
    const broken = editDocument(document, { span: { start: at, end: at + 7 }, text: 'x-0-?-3' });
    const during = sheetOf(broken, VIEW, before);
    const row = during.blocks.find((block) => block.kind === 'diagrams');
    expect(row?.stale).toBeTruthy();
    expect(row?.markup).toBe(before.blocks.find((block) => block.kind === 'diagrams')?.markup);
  });

  test('every prefix of the lesson makes a sheet', () => {
    for (let length = 0; length <= LESSON.length; length += 23) {
      for (const block of sheetOf(openDocument(LESSON.slice(0, length)), VIEW).blocks) readXml(block.markup);
    }
  }, 60_000);
});

function wordsOf(block: Block): string {
  const { elements, text } = readXml(block.markup);
  const spoken = elements.flatMap(({ attributes }) =>
    attributes['aria-label'] === undefined ? [] : [attributes['aria-label']],
  );
  // What must not be parted is held by blanks of its own.
  return [text.replace(/[ \n]+$/g, '').replaceAll('\u00a0', ' '), ...(block.kind === 'plain-text' ? [] : spoken)]
    .join(' | ')
    .trim();
}

test('the teacher’s words carry the language that the lesson says, and no others do', () => {
  const view: SheetView = { widthMm: 160, leftHanded: false };
  const text = (tag: string): string =>
    `lesson Dois\nlanguage ${tag}\n\n> Boa noite.\n\npart Um\n\nchord C 0003\nprogression v\n  | C |\npattern p\n  strum D\nexercise Tentar\n  aim Devagar\n  play v\n  with p\n`;
  const marked = ({ blocks }: Sheet): readonly string[] =>
    blocks.flatMap(({ markup }) =>
      [...markup.matchAll(/<(\w+)[^<>]* lang="([^"]*)"/g)].map(([, name, tag]) => `${name} ${tag}`),
    );
  const document = openDocument(text('pt-BR'));
  const sheet = sheetOf(document, view);
  expect(marked(sheet)).toEqual(['div pt-BR', 'div pt-BR', 'h2 pt-BR', 'h3 pt-BR', 'p pt-BR']);
  // What is kept of the sheet before is drawn anew where it says the language.
  const at = document.text.indexOf('pt-BR');
  const edited = editDocument(document, { span: { start: at, end: at + 5 }, text: 'fr' });
  expect(marked(sheetOf(edited, view, sheet))).toEqual(['div fr', 'div fr', 'h2 fr', 'h3 fr', 'p fr']);
  expect(marked(sheetOf(openDocument(text('').replace('language \n', '')), view))).toEqual([]);
});
