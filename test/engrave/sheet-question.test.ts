import { describe, expect, test } from 'vitest';
import type { Block, SheetView } from '../../shared/engrave/block.ts';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import { NO_ANSWERS } from '../../shared/lesson/asked/answer.ts';
import { editDocument, openDocument } from '../../shared/lesson/document.ts';
import { AT_ONCE } from '../assist/asking-answers.ts';
import { readXml } from './well-formed.ts';

const VIEW: SheetView = { widthMm: 140, leftHanded: false };

const HEAD =
  'lesson Windows\nfor tenor ukulele, high G\nalso baritone ukulele, same shapes, called bari\nkey E minor\ntempo 60\n\n';
const VERSE = 'progression verse\n  | Em | C | G | D |\n\n';
const FAMILY = 'family walk\n  from verse\n  ring 2\n  allow 6 add9\n  > Choose with your ears.\n';
const TUNE = 'melody lights\n  inside verse\n  fall\n';
const LESSON = `${HEAD}${VERSE}${FAMILY}\n${TUNE}`;

function drawn(text: string, view: SheetView = VIEW): readonly Block[] {
  return sheetOf(openDocument(text), view, undefined, AT_ONCE).blocks;
}

function words({ markup }: Block): string {
  return readXml(markup).text;
}

const of = (kind: Block['kind'], blocks: readonly Block[]) => blocks.filter((block) => block.kind === kind);

describe('what a lesson asks to be found', () => {
  const blocks = drawn(LESSON);

  test('is told in a sentence, and what was found stands below it', () => {
    expect(of('question', blocks).map(words)).toEqual([
      'walkThe chords of verse in shapes that look alike: string 2 rings open, 6 and add9 allowed.',
      'lightsA tune that falls, inside the shapes of verse.',
    ]);
    expect(of('candidate', blocks).filter(({ markup }) => markup.includes('Write these shapes'))).toHaveLength(4);
    expect(of('candidate', blocks).some(({ markup }) => markup.includes('Write this tune'))).toBe(true);
    expect(blocks.map(words).join('\n')).toContain('Choose with your ears.');
  });

  test('has the caution wherever a shape is offered', () => {
    expect(of('note', blocks).map(words)).toEqual(
      Array.from({ length: 2 }, () =>
        expect.stringMatching(/estimate for a medium hand\. Warm up first; if it hurts, stop/),
      ),
    );
  });

  test('shows every different chord once, with its honest name and the one that was asked', () => {
    for (const block of of('candidate', blocks).filter(({ markup }) => markup.includes('Write these shapes'))) {
      const pictures = readXml(block.markup).elements.filter(({ attributes }) => attributes.role === 'img');
      expect(pictures).toHaveLength(4);
      // String 2 is E: the sixth of G and the ninth of D. Source: the major scales of G and D.
      const names = pictures.map(({ attributes }) => attributes['aria-label'] ?? '');
      expect(names[2]).toMatch(/^G (6|.*6).*for G/);
      expect(names[3]).toMatch(/^D .*(9|2).*for D/);
      for (const name of names) expect(name).toContain('string 2 open');
    }
  });

  test('has a button for each answer that plays it and one that writes it, named so; the diagrams lead nowhere', () => {
    for (const block of of('candidate', blocks)) {
      const { elements } = readXml(block.markup);
      const buttons = elements.filter(({ name }) => name === 'button').map(({ attributes }) => attributes);
      expect(buttons.map(({ type }) => type)).toEqual(['button', 'button']);
      expect(buttons[0]?.['aria-label']).toMatch(/^Play candidate \d of \d: ./);
      expect(buttons[1]?.['aria-label']).toMatch(/^Write (these shapes|this tune)\. (Family|Tune) \d of \d: ./);
      expect(elements.some(({ attributes }) => attributes['data-place'] !== undefined)).toBe(false);
    }
  });

  test('leads from the bars of a tune to the question', () => {
    const systems = of('system', blocks).filter(({ source }) => LESSON.slice(source.start).startsWith('melody lights'));
    expect(systems.length).toBeGreaterThan(0);
    for (const { places } of systems)
      for (const { start } of places) expect(LESSON.slice(start)).toMatch(/^melody lights/);
  });

  test('weighs no more than one block may', () => {
    for (const text of [LESSON, LESSON.replace('Em | C | G | D', 'Em | C | G | D | Am | F | Bm | A')])
      for (const { markup } of drawn(text, { ...VIEW, widthMm: 190 }))
        expect(markup.length).toBeLessThanOrEqual(40_000);
  });

  test('is left out of pages and of other editions', () => {
    const told = /walk|lights|shapes that look alike|Write th/;
    expect(
      drawn(LESSON, { ...VIEW, page: { paper: 'a4', print: 'normal' } })
        .map(words)
        .join('\n'),
    ).not.toMatch(told);
    expect(
      drawn(LESSON, { ...VIEW, edition: 'bari' })
        .map(words)
        .join('\n'),
    ).not.toMatch(told);
  });

  test('is shown also where an exercise plays the tune that is still to be found', () => {
    const text = `${LESSON}\nexercise Play\n  play verse\n  with lights\n`;
    expect(of('question', drawn(text)).map(words).join()).toContain('lights');
  });

  test('says why nothing is found, and what would help', () => {
    const [question] = of('question', drawn(`${HEAD}${VERSE}family walk\n  from verse\n  ring 2\n`));
    // E is no tone of G. Source: the major triad is root, third and fifth: G B D.
    expect(question && words(question)).toMatch(
      /String 2 sounds E, which is no tone of G\. .*With 6 allowed there would be/,
    );
  });

  test('is asked anew on an edition in the same key, and says what is found there or why nothing is', () => {
    const head = (also: string) => {
      const text = LESSON.replace('also baritone ukulele, same shapes, called bari', also);
      return of('question', drawn(text)).map(words);
    };
    const [family = '', tune = ''] = head('also tenor ukulele, low G, same key, called low');
    // String 2 is E on both. Source: G4 C4 E4 A4 and G3 C4 E4 A4.
    expect(family).toMatch(/On the tenor ukulele, low G, in the same key: .*string 2 open throughout.*\.$/);
    expect(tune).toMatch(/On the tenor ukulele, low G, in the same key: a tune is found there, too\.$/);
    // String 2 of a baritone is B, which is no tone of C, nor its sixth or ninth. Source: D3 G3 B3 E4.
    const [none = ''] = head('also baritone ukulele, same key, called bari');
    expect(none).toMatch(
      /On the baritone ukulele, in the same key: no family\. .*String 2 sounds B, which is no tone of C\./,
    );
    // The same frets go along as they are.
    expect(head('also baritone ukulele, same shapes, called bari').join()).not.toContain('baritone');
    const { blocks: waiting } = sheetOf(openDocument(LESSON.replace('same shapes', 'same key')), VIEW, undefined, {
      get: (question) => (question.key.includes('baritone') ? undefined : AT_ONCE.get(question)),
    });
    expect(of('question', waiting).map(words)[0]).toMatch(
      /On the baritone ukulele, in the same key: looking for shapes …$/,
    );
  });

  test('says what a question still lacks, on what is written', () => {
    const [plain] = of('plain-text', drawn(`${HEAD}${VERSE}melody m\n  inside nothing\n`));
    expect(plain && words(plain)).toContain('There is no');
  });
});

describe('while it is looked for', () => {
  test('the first time, the sheet says so', () => {
    const { blocks } = sheetOf(openDocument(LESSON), VIEW, undefined, NO_ANSWERS);
    expect(of('question', blocks).map(words)).toEqual([
      expect.stringMatching(/Looking for shapes …$/),
      expect.stringMatching(/Looking for tunes …$/),
    ]);
    expect(of('candidate', blocks)).toEqual([]);
  });

  test('what was found before stays, and the question says once that it is old', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW, undefined, AT_ONCE);
    const at = LESSON.indexOf('ring 2') + 5;
    const edited = editDocument(document, { span: { start: at, end: at + 1 }, text: '3' });
    const waiting = sheetOf(edited, VIEW, before, {
      get: (question) => (question.kind === 'tune' ? AT_ONCE.get(question) : undefined),
    });
    expect(waiting.blocks.map(({ kind }) => kind)).toEqual(before.blocks.map(({ kind }) => kind));
    expect(waiting.blocks.flatMap(({ kind, stale }) => (stale === undefined ? [] : [`${kind}: ${stale}`]))).toEqual([
      'question: Looking for shapes …',
    ]);
    // Once it is found, the sheet is the one that is drawn afresh.
    const found = sheetOf(edited, VIEW, waiting, AT_ONCE);
    expect(found.blocks).toEqual(sheetOf(edited, VIEW, undefined, AT_ONCE).blocks);
  });

  test('an edit elsewhere draws nothing of it anew', () => {
    const document = openDocument(LESSON);
    const before = sheetOf(document, VIEW, undefined, AT_ONCE);
    const edited = editDocument(document, { span: { start: 7, end: 14 }, text: 'Doors' });
    const after = sheetOf(edited, VIEW, before, AT_ONCE);
    const markups = new Set(before.blocks.map(({ markup }) => markup));
    expect(after.blocks.filter(({ markup }) => !markups.has(markup)).map(({ kind }) => kind)).toEqual(['title']);
  });

  test('a left hand sees mirrored diagrams', () => {
    const [right] = of('candidate', drawn(LESSON));
    const [left] = of('candidate', drawn(LESSON, { ...VIEW, leftHanded: true }));
    expect(left?.markup).not.toBe(right?.markup);
  });
});
