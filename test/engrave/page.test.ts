import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PaperChoice, PaperName } from '../../shared/engrave/block.ts';
import type { GroupItem, Item } from '../../shared/engrave/drawing.ts';
import { musicWidth, NO_PAGES, type Page, pagesOf as setPages } from '../../shared/engrave/page/lesson-pages.ts';
import { readProse } from '../../shared/engrave/prose.ts';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import type { SheetContent } from '../../shared/engrave/sheet-content.ts';
import { drawLesson, emptyDrawingMemory, type LessonDraft } from '../../shared/engrave/sheet-lesson.ts';
import { type LessonPages, printedPages } from '../../shared/engrave/sheet-pages.ts';
import { SIZES } from '../../shared/engrave/sizes.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { extentOf, textsUnder } from './extents.ts';
import { readXml } from './well-formed.ts';

const SAMPLES = readdirSync(new URL('../../client/samples/', import.meta.url))
  .filter((name) => name.endsWith('.lesson'))
  .map((name): readonly [string, string] => [
    name,
    readFileSync(new URL(`../../client/samples/${name}`, import.meta.url), 'utf8'),
  ]);

/** Source: ISO 216 for A4; ANSI/ASME Y14.1, size A, for Letter. Unit: mm. */
const PAPER: Readonly<Record<PaperName, readonly [number, number]>> = { a4: [210, 297], letter: [215.9, 279.4] };

/** Source: our list of players' cases; printers leave out less. Unit: mm. */
const LEAST_MARGIN = 10;

const POINT = 25.4 / 72;

const kept = new Map<string, LessonPages>();

/** The pages of a lesson; those asked for before are not set again. */
function pagesOf(text: string, page: PaperChoice, leftHanded = false): LessonPages {
  const key = JSON.stringify([text, page, leftHanded]);
  const set = kept.get(key) ?? newPagesOf(text, page, leftHanded);
  kept.set(key, set);
  return set;
}

function newPagesOf(text: string, page: PaperChoice, leftHanded: boolean): LessonPages {
  const document = openDocument(text);
  const lesson = lessonOf(document);
  return printedPages(document, { lesson, edition: lesson.editions[0] }, { widthMm: 100, leftHanded, page });
}

/** The parts of a page between head and foot: groups, since heads and feet are bare text. */
function bodyOf({ drawing }: Page): readonly GroupItem[] {
  return drawing.items.filter((item): item is GroupItem => item.kind === 'group');
}

/** A line of bars or a row of diagrams: a group that is read part by part. */
function drawingIn(part: GroupItem): GroupItem | undefined {
  const [inner] = part.items;
  return inner?.kind === 'group' && inner.mark?.reads?.kind === 'group' ? inner : undefined;
}

function isSystem(part: GroupItem): boolean {
  return /^(Bars? \d|Pickup)/.test(drawingIn(part)?.mark?.alternative ?? '');
}

function isHeading(part: GroupItem): boolean {
  return part.mark?.reads?.kind === 'heading';
}

/** True where a row of diagrams, its headings and all down to the first line of bars on the next page would fit on one page. */
function fitTogether(rowPage: readonly GroupItem[], next: Page, height: number): boolean {
  const parts = bodyOf(next);
  const music = parts.find(isSystem);
  const top = parts[0]?.y ?? 0;
  const row = rowPage.at(-1);
  const headings = rowPage.slice(0, -1).reverse();
  const after = headings.findIndex((part) => !isHeading(part));
  const first = after === 0 ? row : headings[(after < 0 ? headings.length : after) - 1];
  const [bottom, own, head] = [music, row, first].map((part) => (part === undefined ? undefined : extentOf(part)));
  // The foot of a page in large print needs 40 mm, and the white between the two 12.
  const room = height - top - 52;
  if (own === undefined || bottom === undefined || head === undefined) return false;
  return own.y + own.height - head.y + (bottom.y + bottom.height - top) < room;
}

/** Every way in which pages break the rules, in words. In large print a row of diagrams may stand on the page before its music. */
function faultsOf({ pages }: Pick<LessonPages, 'pages'>, { paper, print }: PaperChoice): readonly string[] {
  const [width, height] = PAPER[paper];
  return pages.flatMap((page, index) => {
    const faults: string[] = [];
    const say = (fault: string): void => {
      faults.push(`page ${index + 1}: ${fault}`);
    };
    const { drawing } = page;
    if (drawing.width !== width || drawing.height !== height) say('not the size of the paper');
    for (const item of drawing.items) {
      const box = extentOf(item);
      if (box === undefined) continue;
      const inside =
        box.x >= LEAST_MARGIN &&
        box.y >= LEAST_MARGIN &&
        box.x + box.width <= width - LEAST_MARGIN &&
        box.y + box.height <= height - LEAST_MARGIN;
      if (!inside) say(`${wordsOf(item)} reaches into the margin: ${JSON.stringify(box)}`);
    }
    const parts = bodyOf(page);
    parts.forEach((part, at) => {
      const next = parts[at + 1];
      const box = extentOf(part);
      const below = next === undefined ? undefined : extentOf(next);
      if (box !== undefined && below !== undefined && box.y + box.height > below.y + 0.35)
        say(`${wordsOf(part)} reaches ${(box.y + box.height - below.y).toFixed(2)} into ${wordsOf(next)}`);
      if (isHeading(part) && next === undefined && index < pages.length - 1)
        say(`the heading ${wordsOf(part)} stands alone`);
    });
    const last = parts.at(-1);
    const nextPage = pages[index + 1];
    const [first] = nextPage === undefined ? [] : bodyOf(nextPage);
    if (last !== undefined && first !== undefined) {
      const isRow = drawingIn(last) !== undefined && !isSystem(last);
      const hasLost = isRow && (isSystem(first) || (isHeading(first) && nextPage?.headings[0]?.level !== 2));
      if (print !== 'large' && hasLost && nextPage !== undefined && fitTogether(parts, nextPage, height))
        say(LOST_ITS_MUSIC);
    }
    const foot = drawing.items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
    if (!foot.includes(`page ${index + 1} of ${pages.length}`)) say('no number');
    return faults;
  });
}

function wordsOf(item: Item | undefined): string {
  return item === undefined
    ? ''
    : textsUnder(item)
        .map(({ text }) => text)
        .join(' ')
        .slice(0, 60);
}

/** All words of prose, headings and facts, as the flowing sheet has them. */
function flowingWords(text: string): readonly string[] {
  const { blocks } = sheetOf(openDocument(text), { widthMm: 120, leftHanded: false });
  return blocks
    .filter(({ kind }) => kind === 'title' || kind === 'prose' || kind === 'heading' || kind === 'exercise')
    .flatMap(({ markup }) => plainWords(readXml(markup.replace(/<svg.*?<\/svg>/gs, ' ').replace(/></g, '> <')).text));
}

function plainWords(text: string): readonly string[] {
  return text.match(/[\p{L}\p{N}]+/gu) ?? [];
}

function pageWords({ pages }: LessonPages): ReadonlySet<string> {
  return new Set(
    pages
      .flatMap(({ drawing }) => drawing.items.flatMap((item) => textsUnder(item)))
      .flatMap(({ text }) => plainWords(text)),
  );
}

describe.each(SAMPLES)('%s as pages', (_name, text) => {
  test.each([
    ['a4', 'normal'],
    ['letter', 'normal'],
    ['a4', 'large'],
    ['letter', 'large'],
  ] as const)(
    '%s, %s print: inside the margins, nothing on top of another, no heading alone (E-4, E-5)',
    (paper, print) => {
      const set = pagesOf(text, { paper, print });
      expect(faultsOf(set, { paper, print })).toEqual([]);
      expect(set.pages.length).toBeGreaterThan(1);
    },
  );

  test('prints on both papers without loss', () => {
    for (const paper of ['a4', 'letter'] as const) {
      const printed = pageWords(pagesOf(text, { paper, print: 'normal' }));
      expect(flowingWords(text).filter((word) => !printed.has(word))).toEqual([]);
    }
  });

  test('large print fills its pages: type 1.6 times as large takes at most three times the paper', () => {
    const [normal, large] = (['normal', 'large'] as const).map((print) => pagesOf(text, { paper: 'a4', print }).pages);
    expect(large?.length).toBeLessThanOrEqual(3 * (normal?.length ?? 0));
  });

  test('large print: text of 18 pt, figures of the tab not below 14 pt, more pages rather than smaller ones (E-6)', () => {
    const normal = pagesOf(text, { paper: 'a4', print: 'normal' });
    const large = pagesOf(text, { paper: 'a4', print: 'large' });
    expect(large.pages.length).toBeGreaterThan(normal.pages.length);
    const parts = large.pages.flatMap(bodyOf);
    const words = parts
      .filter((part) => drawingIn(part) === undefined && part.mark !== undefined)
      .flatMap((part) => textsUnder(part));
    expect(words.length).toBeGreaterThan(20);
    expect(Math.min(...words.filter(({ role }) => role !== 'number').map(({ size }) => size))).toBeGreaterThanOrEqual(
      18 * POINT - 0.01,
    );
    const frets = parts
      .filter(isSystem)
      .flatMap((part) => textsUnder(part))
      .filter(
        ({ role, text: figure, own }) =>
          role === 'number' && /^\d+$/.test(figure) && (own === SIZES.fretNumber || own === SIZES.arrivalNumber),
      );
    expect(frets.length).toBeGreaterThan(20);
    expect(Math.min(...frets.map(({ size }) => size))).toBeGreaterThanOrEqual(14 * POINT - 0.01);
  });
});

describe('what every page says', () => {
  const [, text = ''] = SAMPLES[1] ?? [];
  const { pages, title } = pagesOf(text, { paper: 'a4', print: 'normal' });
  const frame = (page: Page | undefined): readonly string[] =>
    page?.drawing.items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])) ?? [];

  test('from the second page on the title, and always edition, tuning, date and what was mended (F-6)', () => {
    expect(title).toBe('River Steps');
    expect(frame(pages[0])).not.toContain('River Steps');
    for (const page of pages.slice(1)) expect(frame(page)).toContain('River Steps');
    for (const page of pages) {
      const said = frame(page).join('\n');
      expect(said).toContain('tenor ukulele, low G · G3 C4 E4 A4');
      expect(said).toContain('second printing');
      expect(said).toContain('corrected: bar 7 of The river: was F, is F and G7');
    }
  });

  test('the caution stands on every page of a lesson with practice loads', () => {
    for (const page of pages)
      expect(
        page.drawing.items
          .flatMap((item) => textsUnder(item))
          .map(({ text: line }) => line)
          .join(' '),
      ).toMatch(/Warm up first; if it hurts, stop, and ask a teacher or clinician\./);
  });

  test('says on left-handed pages that diagrams are mirrored and tab is not (E-1)', () => {
    const mirrored = pagesOf(text, { paper: 'a4', print: 'normal' }, true);
    for (const page of mirrored.pages) expect(frame(page).join('\n')).toContain('diagrams left-handed, tab not');
  });

  test('headings come in their order with their heights, for marks in a document', () => {
    const headings = pages.flatMap((page) => page.headings);
    expect(headings[0]).toMatchObject({ level: 1, text: 'River Steps' });
    expect(headings.filter(({ level }) => level === 3).length).toBeGreaterThan(3);
    for (const page of pages) {
      const heights = page.headings.map(({ y }) => y);
      expect([...heights].sort((a, b) => a - b)).toEqual(heights);
    }
  });
});

describe('where pages end', () => {
  const exercise = (name: string): string =>
    `exercise  ${name}\n  over  C, F, G7, C\n  each  roll\n  > Let it ring.\n\n`;
  const head =
    'lesson  Long Way\nfor  tenor ukulele, high G\nchord  C  0-0-0-3\nchord  F  2-0-1-0\nchord  G7  0-2-1-2\npattern  roll\n  pick  4p 3i 2m 1a\n\n';

  test('a page statement begins a page, and one after another begins no empty one', () => {
    const { pages } = pagesOf(`${head}${exercise('One')}page\n\npage\n\n${exercise('Two')}`, {
      paper: 'a4',
      print: 'normal',
    });
    expect(pages.length).toBe(2);
    expect(pages[1]?.headings.map(({ text }) => text)).toEqual(['Two']);
  });

  test('an empty lesson has no pages', () => {
    expect(pagesOf('', { paper: 'a4', print: 'normal' }).pages).toEqual([]);
  });

  test('on one page: smaller where that is enough, refused with a reason where it is not (E-6)', () => {
    const fits = Array.from(
      { length: 12 },
      (_, count) => `${head}${Array.from({ length: count }, (_, at) => exercise(`No. ${at}`)).join('')}`,
    ).find((text) => pagesOf(text, { paper: 'a4', print: 'normal' }).pages.length === 2);
    const small = pagesOf(fits ?? '', { paper: 'a4', print: 'one-page' });
    expect(small.pages).toHaveLength(1);
    expect(small.refused).toBeUndefined();
    expect(faultsOf(small, { paper: 'a4', print: 'one-page' })).toEqual([]);
    const sizes = small.pages
      .flatMap(bodyOf)
      .filter((part) => part.mark?.alternative === 'Paragraph')
      .flatMap((part) => textsUnder(part));
    expect(Math.min(...sizes.map(({ size }) => size))).toBeGreaterThanOrEqual(9 * POINT - 0.01);
    const [, sample = ''] = SAMPLES[0] ?? [];
    const large = pagesOf(sample, { paper: 'letter', print: 'one-page' });
    expect(large.pages.length).toBeGreaterThan(1);
    expect(large.refused).toMatch(
      /^This lesson does not fit on one Letter page: .*9 pt.* \d+ pages at the usual size\.$/,
    );
  });

  test.each(['normal', 'large'] as const)(
    'any lesson in %s print: inside the margins, nothing on top of another, no heading alone',
    (print) => {
      for (const paper of ['a4', 'letter'] as const) {
        const pool = poolOf({ paper, print });
        // Pieces are made from their numbers and words only when they are used, so that a failure prints these alone.
        const words = fc.array(WORD, { minLength: 1, maxLength: 90 });
        const piece = fc.record({ kind: fc.nat({ max: 19 }), at: fc.nat({ max: pool.length - 1 }), words });
        fc.assert(
          fc.property(fc.array(piece, { minLength: 1, maxLength: 40 }), (pieces) => {
            const drafts = pieces.flatMap((one) => draftOf(one, pool) ?? []);
            const { pages } = setPages(drafts, { choice: { paper, print }, frame: FRAME, scale: 1 }, NO_PAGES);
            // Where a page is asked for right behind a row of diagrams, the row stays without its music.
            const isParted = drafts.some(
              ({ draft }, at) => draft.content.kind === 'turn' && isDiagrams(drafts[at - 1]),
            );
            const faults = faultsOf({ pages }, { paper, print }).filter(
              (fault) => !isParted || !fault.endsWith(LOST_ITS_MUSIC),
            );
            expect(faults).toEqual([]);
            expect(pages.flatMap((page) => page.headings)).toHaveLength(pages.flatMap(bodyOf).filter(isHeading).length);
          }),
          { seed: 41, numRuns: 60 },
        );
      }
    },
  );
});

function isDiagrams(drawn: LessonDraft | undefined): boolean {
  return drawn?.draft.content.kind === 'diagrams';
}

const LOST_ITS_MUSIC = 'a row of diagrams has lost its music';

const FRAME = { title: 'Any lesson', edition: 'tenor ukulele', version: 'third printing', caution: 'Warm up first.' };

const WORD = fc.constantFrom(
  'steady',
  'thumb',
  'and',
  'a',
  '**ring**',
  '*slow*',
  '`4p`',
  '- one',
  '\n- two',
  '\n\n',
  'ottantaquattresimo',
  '\u{1f3b6}',
  '[more](https://example.org/an/address/that/has/no/end/and/fits/into/no/line/of/any/sheet/at/all)',
);

/** Drafts of all samples, drawn for these pages, to be put together at random. */
function poolOf(choice: PaperChoice): readonly LessonDraft[] {
  return SAMPLES.slice(0, 2).flatMap(([, text]) => {
    const document = openDocument(text);
    const lesson = lessonOf(document);
    const view = { widthMm: musicWidth(choice, FRAME, 1), leftHanded: false, page: choice };
    return drawLesson(document, { lesson, edition: lesson.editions[0] }, view, emptyDrawingMemory()).drafts.filter(
      ({ draft }) => draft.content.kind !== 'title',
    );
  });
}

function draftOf(
  { kind, at, words }: { readonly kind: number; readonly at: number; readonly words: readonly string[] },
  pool: readonly LessonDraft[],
): LessonDraft | undefined {
  if (kind < 12) return pool[at];
  if (kind < 16) return prose(words.join(' '));
  if (kind < 18) return loose({ kind: 'heading', level: 2, text: { text: words.slice(0, 30).join(' '), place: 0 } });
  return kind === 18 ? loose({ kind: 'plain', text: { text: words.join('  ') } }) : loose({ kind: 'turn', place: 0 });
}

function prose(text: string): LessonDraft | undefined {
  const { entries } = openDocument(`> ${text.replaceAll('\n', '\n> ')}\n`);
  const [entry] = entries;
  if (entry?.statement.kind !== 'prose') return undefined;
  const [paragraph] = entry.statement.paragraphs;
  if (paragraph === undefined) return undefined;
  return loose({ kind: 'prose', nodes: readProse(paragraph, () => undefined), mentions: [] });
}

/** A draft of a lesson that has no text. */
function loose(content: SheetContent): LessonDraft {
  const [entry] = openDocument('> x\n').entries;
  if (entry === undefined) throw new Error('no entry');
  const source = { entry, span: { start: 0, end: 1 } };
  return { draft: { kind: 'prose', content, source, places: [source] }, item: { entries: [], starts: [] } };
}

describe('pages that follow an edit', () => {
  const [, text = ''] = SAMPLES[0] ?? [];
  const view = { widthMm: 100, leftHanded: false, page: { paper: 'a4', print: 'normal' } } as const;

  test('a letter in the prose changes its page alone, and pages that follow edits equal pages set afresh', () => {
    const before = sheetOf(openDocument(text), view);
    const edited = openDocument(text.replace('the next', 'another').replace('comes in tomorrow', 'returns'));
    const after = sheetOf(edited, view, before);
    expect(after.blocks).toEqual(sheetOf(edited, view).blocks);
    const sample = text.replace('If the little finger tires', 'If your little finger tires');
    const next = sheetOf(openDocument(sample), view, before);
    expect(next.blocks.filter(({ id }, index) => id !== before.blocks[index]?.id)).toHaveLength(1);
  });

  test('every page is one well-formed element with its places', () => {
    for (const block of sheetOf(openDocument(text), view).blocks) {
      const { elements } = readXml(block.markup);
      expect(elements[0]?.attributes['aria-label']).toMatch(/^Page \d of \d$/);
      const places = elements.flatMap(({ attributes }) => attributes['data-place'] ?? []).map(Number);
      // A page on which only the signs are explained leads nowhere.
      if (!block.markup.includes('Signs on this sheet')) expect(places.length).toBeGreaterThan(0);
      expect(Math.max(-1, ...places)).toBeLessThan(block.places.length);
      expect(block.markup).not.toMatch(/NaN|undefined| style=/);
    }
  });

  test('a place on a page leads to what is drawn there', () => {
    const [first] = sheetOf(openDocument(text), view).blocks;
    const at = /data-place="(\d+)" tabindex="0" role="img" aria-label="Chord E minor"/.exec(first?.markup ?? '')?.[1];
    const span = first?.places[Number(at)];
    expect(text.slice(span?.start, span?.end)).toBe('Em');
  });
});
