import { readdirSync, readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { type LessonPdf, type PrintChoice, pdfOf } from '../../../server/hand-out/pdf/pdf-of.ts';
import { writePdf } from '../../../server/hand-out/pdf/write-pdf.ts';
import type { Item } from '../../../shared/engrave/drawing.ts';
import type { Page } from '../../../shared/engrave/page/lesson-pages.ts';
import { printedPages } from '../../../shared/engrave/sheet-pages.ts';
import { textWidth } from '../../../shared/engrave/text-width.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { readXml } from '../../engrave/well-formed.ts';
import { elementsOf, lettersOf, openPdf, POINT, type ReadElement, withAllInside } from './open-pdf.ts';
import { readFaces } from './read-faces.ts';

const SAMPLES = readdirSync(new URL('../../../client/samples/', import.meta.url))
  .filter((name) => name.endsWith('.lesson'))
  .map((name): readonly [string, string] => [
    name,
    readFileSync(new URL(`../../../client/samples/${name}`, import.meta.url), 'utf8'),
  ]);

const SOUND =
  'chord C 0003\nprogression v\n  | C |\npattern p\n  strum D\nexercise Tentar\n  aim Devagar\n  play v\n  with p\n\n';

const FACES = readFaces();
const A4: PrintChoice = { paper: 'a4', print: 'normal' };
const CHOICES: readonly PrintChoice[] = [
  A4,
  { paper: 'letter', print: 'normal' },
  { paper: 'a4', print: 'large' },
  { paper: 'letter', print: 'one-page', leftHanded: true, dots: 'roles' },
];

/** Source: ISO 216 for A4; ANSI/ASME Y14.1, size A, for Letter. Unit: mm. */
const PAPER = { a4: [210, 297], letter: [215.9, 279.4] } as const;

const kept = new Map<string, Promise<LessonPdf>>();

function pdfFrom(text: string, choice: PrintChoice = A4): Promise<LessonPdf> {
  const key = JSON.stringify([text, choice]);
  const known = kept.get(key) ?? newPdfFrom(text, choice);
  kept.set(key, known);
  return known;
}

function newPdfFrom(text: string, choice: PrintChoice): Promise<LessonPdf> {
  const document = openDocument(text);
  const [edition] = lessonOf(document).editions;
  return pdfOf(document, edition, { ...choice, untitled: 'kept-name' }, { faces: FACES, write: writePdf });
}

const keptPages = new Map<string, readonly Page[]>();

function pagesFrom(text: string, choice: PrintChoice): readonly Page[] {
  const key = JSON.stringify([text, choice]);
  const known = keptPages.get(key) ?? newPagesFrom(text, choice);
  keptPages.set(key, known);
  return known;
}

function newPagesFrom(text: string, { paper, print, leftHanded = false, dots }: PrintChoice): readonly Page[] {
  const document = openDocument(text);
  const lesson = lessonOf(document);
  const view = { widthMm: 100, leftHanded, page: { paper, print }, ...(dots === undefined ? {} : { dots }) };
  return printedPages(document, { lesson, edition: lesson.editions[0] }, view).pages;
}

interface SetLetters {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

/** All texts of a display list, where they stand. */
function textsIn(items: readonly Item[], x = 0, y = 0, scale = 1): readonly SetLetters[] {
  return items.flatMap((item): readonly SetLetters[] => {
    if (item.kind === 'group') {
      return textsIn(item.items, x + scale * item.x, y + scale * item.y, scale * (item.scale ?? 1));
    }
    if (item.kind !== 'text') return [];
    const weight = item.bold === true ? 'bold' : 'plain';
    const runs = item.runs ?? [{ text: item.text, size: item.size, lift: 0 }];
    const widths = runs.map((run) => textWidth(run.text, item.role, run.size, weight));
    const width = widths.reduce((sum, one) => sum + one, 0);
    const left = item.x - (item.anchor === 'start' ? 0 : item.anchor === 'middle' ? width / 2 : width);
    return runs.map((run, index) => ({
      text: run.text,
      x: x + scale * (left + widths.slice(0, index).reduce((sum, one) => sum + one, 0)),
      y: y + scale * (item.y - run.lift),
    }));
  });
}

/** Texts on one baseline as one line, white left out. Signs of music are drawn, not set. */
function linesOf(letters: readonly SetLetters[]): readonly string[] {
  const rows: { readonly y: number; readonly letters: SetLetters[] }[] = [];
  for (const one of [...letters].sort((a, b) => a.y - b.y || a.x - b.x)) {
    const row = rows.at(-1);
    if (row !== undefined && Math.abs(row.y - one.y) < 0.02) row.letters.push(one);
    else rows.push({ y: one.y, letters: [one] });
  }
  return rows
    .map(({ letters: row }) =>
      row
        .sort((a, b) => a.x - b.x)
        .map(({ text }) => text)
        .join(''),
    )
    .map((line) => line.replace(/[\s♭♯]/gu, ''))
    .filter((line) => line !== '');
}

describe.each(SAMPLES)('%s', (_name, text) => {
  test.each(CHOICES)('on $paper, $print: the pages of the preview, line for line', async (choice) => {
    const { bytes, missing } = await pdfFrom(text, choice);
    const pages = pagesFrom(text, choice);
    const pdf = await openPdf(bytes);
    expect(pdf.numPages).toBe(pages.length);
    expect(missing).toEqual([]);
    for (const [index, page] of pages.entries()) {
      const { width, height } = (await pdf.getPage(index + 1)).getViewport({ scale: 1 });
      expect(width * POINT).toBeCloseTo(PAPER[choice.paper][0], 2);
      expect(height * POINT).toBeCloseTo(PAPER[choice.paper][1], 2);
      const letters = await lettersOf(pdf, index + 1);
      const set = textsIn(page.drawing.items);
      expect(linesOf(letters)).toEqual(linesOf(set));
      expect(letters.length).toBeGreaterThan(5);
    }
  });

  test('parts and exercises are bookmarks that lead to their headings', async () => {
    const pdf = await openPdf((await pdfFrom(text)).bytes);
    const pages = pagesFrom(text, A4);
    const outline = (await pdf.getOutline()) ?? [];
    const flat = outline.flatMap((item) => [item, ...item.items]);
    // What the file says, read without the product.
    const said = [...text.matchAll(/^(?:part|exercise)\s+(.+?)\s*$/gm)].map(([, title]) => title);
    expect(flat.map(({ title }) => title)).toEqual(said);
    expect(said.length).toBeGreaterThan(1);
    for (const { title, dest } of flat) {
      const [page, kind, , top] = dest as [{ num: number; gen: number }, { name: string }, number, number];
      const index = await pdf.getPageIndex(page);
      const heading = pages[index]?.headings.find((one) => one.text === title);
      expect(kind.name).toBe('XYZ');
      expect(PAPER.a4[1] - top * POINT).toBeCloseTo(heading?.y ?? -1, 2);
    }
  });

  test('is tagged: headings in order, all text belongs to an element or is none, drawings have their sentences', async () => {
    const pdf = await openPdf((await pdfFrom(text)).bytes);
    expect(await pdf.getMarkInfo()).toMatchObject({ Marked: true });
    const pages = pagesFrom(text, A4);
    const levels: number[] = [];
    for (const [index, page] of pages.entries()) {
      const root = await elementsOf(pdf, index + 1);
      const all = withAllInside(root);
      const owned = new Set(all.flatMap(({ content }) => content));
      for (const { within, text: said } of await lettersOf(pdf, index + 1)) {
        if (said.trim() === '') continue;
        const id = within.find((one) => owned.has(one));
        expect([said, id !== undefined || within.includes('Artifact')]).toEqual([said, true]);
      }
      const figures = all.filter(({ role }) => role === 'Figure');
      expect(figures.every(({ alt }) => alt !== undefined && alt !== '')).toBe(true);
      // A bar in which nothing is drawn is said with the lines that it stands on.
      const told = figures.map(({ alt }) => alt).join('\n');
      for (const alternative of alternativesIn(page.drawing.items)) expect(told).toContain(alternative);
      for (const { role } of all) if (/^H\d$/.test(role)) levels.push(Number(role.slice(1)));
    }
    expect(levels[0]).toBe(1);
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    expect(levels.every((level, index) => index === 0 || level <= (levels[index - 1] ?? 0) + 1)).toBe(true);
  });

  test('says its title and language, and has its faces in it as subsets', async () => {
    const { bytes } = await pdfFrom(text);
    const pdf = await openPdf(bytes);
    const title = /^lesson\s+(.+?)\s*$/m.exec(text)?.[1];
    const { info, metadata } = await pdf.getMetadata();
    expect(info).toMatchObject({ Title: title, Language: 'en', PDFFormatVersion: '1.7' });
    expect(metadata?.get('dc:title')).toBe(title);
    const raw = rawOf(bytes);
    expect(raw).toMatch(/\/DisplayDocTitle true/);
    const names = [...raw.matchAll(/\/FontName \/(\S+)/g)].map(([, name]) => name);
    expect(names.length).toBeGreaterThan(2);
    expect(names.every((name) => /^[A-Z]{6}\+Source(Serif4|Sans3)-/.test(name ?? ''))).toBe(true);
    expect([...raw.matchAll(/\/FontFile2 /g)]).toHaveLength(names.length);
  });
});

/** The sentences of bars, diagrams and other parts of drawings. */
function alternativesIn(items: readonly Item[], inDrawing = false): readonly string[] {
  return items.flatMap((item): readonly string[] => {
    if (item.kind !== 'group') return [];
    const { mark } = item;
    if (mark !== undefined && mark.reads === undefined && inDrawing) return [mark.alternative];
    return alternativesIn(item.items, inDrawing || mark?.reads?.kind === 'group');
  });
}

/** What is painted on the pages, unpacked. */
function contentOf(bytes: Uint8Array): string {
  const raw = Buffer.from(bytes);
  let content = '';
  for (let at = raw.indexOf('stream\n'); at >= 0; at = raw.indexOf('stream\n', at + 1)) {
    if (raw.subarray(at - 3, at).toString('latin1') === 'end') continue;
    const from = at + 'stream\n'.length;
    const packed = raw.subarray(from, raw.indexOf('\nendstream', from));
    // Zlib streams begin with 78 in hexadecimal; metadata are not packed.
    if (packed[0] === 0x78) content += inflateSync(packed).toString('latin1');
  }
  return content;
}

/** Source: ISO 32000-1, 7.9.2.2: a text begins with FE FF where it is UTF-16, and 7.3.4.2 for what is escaped in it. */
function textOfString(written: string): string {
  const plain = written.replace(/\\([\\()])/g, '$1');
  if (!plain.startsWith('\u00fe\u00ff')) return plain;
  return Buffer.from(plain.slice(2), 'latin1').swap16().toString('utf16le');
}

function rawOf(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('latin1');
}

describe('the file', () => {
  test('is the same for the same lesson, and tells no time', async () => {
    const [, text] = SAMPLES[1] ?? ['', ''];
    const [first, again] = [await newPdfFrom(text, A4), await newPdfFrom(text, A4)];
    expect(Buffer.compare(first.bytes, again.bytes)).toBe(0);
    const raw = rawOf(first.bytes);
    expect(raw).not.toMatch(/CreationDate|ModDate|CreateDate|\(D:\d/);
    const id = (bytes: Uint8Array): string => /\/ID \[<([0-9a-f]{32})>/.exec(rawOf(bytes))?.[1] ?? 'none';
    expect(id(first.bytes)).not.toBe('none');
    const other = await newPdfFrom(text.replace('tempo', '//tempo'), A4);
    expect(id(other.bytes)).not.toBe(id(first.bytes));
  });

  test('is called by its file where the lesson has no title', async () => {
    const pdf = await openPdf((await pdfFrom('exercise Alone\n  over C\n')).bytes);
    expect((await pdf.getMetadata()).info).toMatchObject({ Title: 'kept-name' });
  });

  test('an empty lesson is a file that can be opened', async () => {
    const { bytes } = await pdfFrom('');
    expect((await openPdf(bytes)).numPages).toBeGreaterThanOrEqual(1);
  });

  test('a title with signs that mean something in XML', async () => {
    const title = 'Tom & Ann <“two”> ♭';
    const { bytes } = await pdfFrom(`lesson ${title}\n> Words.\n`);
    const { info, metadata } = await (await openPdf(bytes)).getMetadata();
    expect(info).toMatchObject({ Title: title });
    expect(metadata?.get('dc:title')).toBe(title);
    const packet = Buffer.from(bytes).toString('utf8');
    const rdf = packet.slice(packet.indexOf('<x:xmpmeta'), packet.indexOf('</x:xmpmeta>') + '</x:xmpmeta>'.length);
    expect(() => readXml(rdf)).not.toThrow();
  });

  test('says when a lesson does not fit on one page', async () => {
    const [, text] = SAMPLES[0] ?? ['', ''];
    const one = await pdfFrom(text, { paper: 'a4', print: 'one-page' });
    expect(one.refused).toMatch(/does not fit on one A4 page/);
    expect((await pdfFrom(text)).refused).toBeUndefined();
  });
});

const PROSE = `lesson Words
> Read [this page](https://example.org/a?b=1&c=2), or write to <mailto:me@example.org>.
>
> - first
> - second with [a link](https://example.org/two)
>
> Then @Bb7 and **go**.

chord Bb7 1-2-1-1
`;

describe('prose', () => {
  test('links lead where they say, and belong to the text', async () => {
    const pdf = await openPdf((await pdfFrom(PROSE)).bytes);
    const page = await pdf.getPage(1);
    const links = (await page.getAnnotations()).filter(({ subtype }) => subtype === 'Link');
    expect(new Set(links.map(({ url }) => url))).toEqual(
      new Set(['https://example.org/a?b=1&c=2', 'mailto:me@example.org', 'https://example.org/two']),
    );
    const first = links.find(({ url }) => url.startsWith('https://example.org/a'));
    const words = (await lettersOf(pdf, 1)).find(({ text }) => text.startsWith('this page'));
    const [left = 0, bottom = 0, right = 0, top = 0] = (first?.rect ?? []) as readonly number[];
    expect(words?.x ?? 0).toBeCloseTo(left * POINT, 1);
    expect(right).toBeGreaterThan(left);
    const fromTop = (PAPER.a4[1] - (words?.y ?? 0)) / POINT;
    expect(bottom).toBeLessThan(fromTop);
    expect(top).toBeGreaterThan(fromTop);
    const elements = withAllInside(await elementsOf(pdf, 1));
    expect(elements.filter(({ role }) => role === 'Link')).toHaveLength(links.length);
  });

  test('a list is a list, its signs and its words apart', async () => {
    const pdf = await openPdf((await pdfFrom(PROSE)).bytes);
    const letters = await lettersOf(pdf, 1);
    const textOf = (element: ReadElement): string =>
      letters
        .filter(({ within }) => withAllInside(element).some(({ content }) => content.some((id) => within.includes(id))))
        .map(({ text }) => text)
        .join('')
        .trim();
    const [list] = withAllInside(await elementsOf(pdf, 1)).filter(({ role }) => role === 'L');
    expect(list?.children.map(({ role }) => role)).toEqual(['LI', 'LI']);
    expect(list?.children.map(({ children }) => children.map((part) => `${part.role} ${textOf(part)}`))).toEqual([
      ['Lbl •', 'LBody first'],
      ['Lbl •', 'LBody second with a link (example.org/two)'],
    ]);
  });

  test('a paragraph that goes on over the leaf stays one', async () => {
    const lesson = (words: string): string => `lesson Long\n> ${words.trim()}\n`;
    const large: PrintChoice = { paper: 'a4', print: 'large' };
    const short = await pdfFrom(lesson('These words.'), large);
    const long = await pdfFrom(lesson('These words fill the page and go on over it. '.repeat(80)), large);
    expect((await openPdf(short.bytes)).numPages).toBe(1);
    expect((await openPdf(long.bytes)).numPages).toBeGreaterThan(1);
    const paragraphs = ({ bytes }: LessonPdf): number => [...rawOf(bytes).matchAll(/\/S \/P\b/g)].length;
    expect(paragraphs(short)).toBeGreaterThan(0);
    expect(paragraphs(long)).toBe(paragraphs(short));
  });

  test('the teacher’s words are in the language that the lesson says, and all others in English', async () => {
    const text = `lesson Dois caminhos\nby Ada Fenn\nlanguage pt-BR\n${SOUND}part Primeira semana\n\n> Boa noite.\n> - Um\n`;
    const pdf = await openPdf((await pdfFrom(text)).bytes);
    // Source: ISO 32000-1, 14.9.2: the language of an element holds for all inside it; what says none has the document's.
    expect(((await pdf.getMetadata()).info as { Language?: string }).Language).toBe('en');
    const letters = await lettersOf(pdf, 1);
    const saidIn = (tag: string): string =>
      withAllInside(rootOf)
        .filter(({ lang }) => lang === tag)
        .flatMap((element) => withAllInside(element).flatMap(({ content }) => content))
        .flatMap((id) => letters.filter(({ within }) => within.includes(id)).map((one) => one.text.trim()))
        .filter((word) => word !== '')
        .join(' ');
    const rootOf = await elementsOf(pdf, 1);
    expect(saidIn('pt-BR')).toBe('Dois caminhos Ada Fenn Tentar Devagar Primeira semana Boa noite. Um');
    expect(letters.map((one) => one.text).join(' ')).toContain('Warm up first');
  });

  // Words with every letter of the languages, from the text of the Universal Declaration of Human Rights or common pangrams; from memory.
  test.each([
    ['Russian', 'Съешь ещё этих мягких французских булок, да выпей же чаю'],
    ['Ukrainian', 'Чуєш їх, доцю, га? Кумедна ж ти, прощайся без ґольфів'],
    ['Kazakh', 'Барлық адамдар тумысынан азат және қадір-қасиеті мен құқықтары тең'],
    ['Greek', 'Ξεσκεπάζω την ψυχοφθόρα βδελυγμία· Ύμνος, φως'],
    ['Vietnamese', 'Tất cả mọi người sinh ra đều được tự do và bình đẳng về nhân phẩm và quyền lợi'],
    ['Romanian', 'Știință și țară, împreună'],
  ])('%s is printed in the faces that come along, and copied as it was written', async (_language, words) => {
    const { bytes, missing } = await pdfFrom(
      `lesson ${words}\n> ${words}, **${words}**, *${words}*, _**${words}**_, \`${words}\`\n`,
    );
    expect(missing).toEqual([]);
    const copied = (await lettersOf(await openPdf(bytes), 1)).map(({ text }) => text).join('');
    const bare = (text: string): string => text.normalize('NFC').replaceAll(/\s/g, '');
    expect(bare(copied).split(bare(words))).toHaveLength(7);
  });

  test('a sign that makes no letter of its own with the one before it stands over that, where the face says', async () => {
    const { bytes, missing } = await pdfFrom('lesson Signs\n> за\u0301мок\n');
    expect(missing).toEqual([]);
    // Source: the anchors of the two in the table GPOS of the face, 277 thousandths of an em back; ISO 32000-1, 9.4.3 for TJ.
    expect(contentOf(bytes)).toMatch(/0 Ts \[277 <[0-9a-f]{4}> -277\] TJ 0 Ts/);
  });

  test('blanks of every width, and what is not seen, are no fault', async () => {
    const blanks = '\u2002\u2003\u2009\u200a\u200b\u202f\u00ad\u2060';
    const { missing } = await pdfFrom(`lesson Blanks\n> One${[...blanks].join('two')}three\n`);
    expect(missing).toEqual([]);
  });

  test('what is drawn instead of a letter is copied as that letter; what no face has is told', async () => {
    const { bytes, missing } = await pdfFrom('lesson Signs\n> Key B♭, not C♯; ∮ and 漢.\n\nchord Bb7 1-2-1-1\n');
    expect(missing).toEqual(['∮', '漢']);
    const spelled = [...contentOf(bytes).matchAll(/\/ActualText (?:<feff([0-9a-f]+)>|\((.*?)\)\n>>)/gs)];
    const texts = spelled.map(([, hex, plain = '']) =>
      hex === undefined ? textOfString(plain) : Buffer.from(hex, 'hex').swap16().toString('utf16le'),
    );
    expect(texts).toEqual(expect.arrayContaining(['♭', '♯', '∮', '漢', 'Bb7']));
  });
});
