import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { samples } from '../export/exported-lessons.ts';
import { makePage } from '../export/page/make-page.ts';
import { findChromium } from './find-chromium.mjs';

// The interactive page in a browser, opened from disk as whoever gets it opens it.

const folder = mkdtempSync(path.join(tmpdir(), 'handspan-page-'));
const DESK = { width: 1280, height: 900 };
const PHONE = { width: 360, height: 740 };

/** Short bars, so that several go by in a moment. */
const QUICK = `lesson  Quick
for     tenor ukulele, high G
also    baritone ukulele, same shapes, called bari
meter   2/4
tempo   160 to 200 by 20

chord   Am  2-0-0-0
chord   F   2-0-1-0

progression  four
  |  Am | F | Am | F |

pattern  steady
  strum  D  D

exercise  Four bars
  play     four
  with     steady
  minutes  5
`;
const LESSONS = [...samples, ['quick', QUICK] as const];

let browser: Browser;
let page: Page;
/** What the page asked for besides its own file, and what it complained of. */
let asked: string[];
let complaints: string[];

beforeAll(async () => {
  for (const [name, text] of LESSONS) writeFileSync(path.join(folder, `${name}.html`), makePage(text));
  browser = await chromium.launch({ executablePath: await findChromium(), args: ['--no-sandbox'] });
});

afterEach(async () => {
  await page.context().close();
  expect(asked).toEqual([]);
  expect(complaints).toEqual([]);
});

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function open(sample: string, options: BrowserContextOptions = {}): Promise<void> {
  const name = LESSONS.find(([one]) => one.startsWith(sample))?.[0] ?? '';
  const address = pathToFileURL(path.join(folder, `${name}.html`)).href;
  const context = await browser.newContext({ viewport: DESK, colorScheme: 'light', ...options });
  page = await context.newPage();
  asked = [];
  complaints = [];
  page.on('request', (request) => {
    const url = request.url();
    if (url !== address && !url.startsWith('data:')) asked.push(url);
  });
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  await page.goto(address);
  if (options.javaScriptEnabled !== false) await page.evaluate(() => document.fonts.ready);
}

const bar = (): Promise<number> =>
  page.evaluate(() => Number(document.querySelector<HTMLElement>('.transport')?.dataset.bar));

/** Waits until this bar is heard; what plays must get there by itself. */
const heard = (number: number): Promise<unknown> =>
  page.waitForFunction(
    (wanted) => document.querySelector<HTMLElement>('.transport')?.dataset.bar === wanted,
    String(number),
    {
      timeout: 40_000,
    },
  );

const marked = (): Promise<string | null> =>
  page.evaluate(() => document.querySelector('g[data-bar].sounding')?.getAttribute('data-bar') ?? null);

const tempo = (): Promise<string | null> => page.locator('.transport-tempo-told').textContent();

/** As fast as it goes, without the count-in, so that bars go by soon. */
async function hurry(): Promise<void> {
  const countIn = page.getByRole('button', { name: 'Count-in' });
  if ((await countIn.getAttribute('aria-pressed')) === 'true') await countIn.click();
  await page.getByRole('slider', { name: 'Tempo' }).fill('150');
}

const faults = async (): Promise<readonly string[]> => {
  // The page's policy lets no script in; the test's own tool comes by the browser's own way around it.
  const { violations } = await page.evaluate<{ violations: { id: string; nodes: { html: string }[] }[] }>(
    `${axe.source}; axe.run(document, { resultTypes: ['violations'] })`,
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 200)).join(' | ')}`);
};

test('the title, the language and every face are there', async () => {
  await open('1-');
  expect(await page.title()).toBe('Paper Lanterns');
  expect(await page.locator('html').getAttribute('lang')).toBe('en');
  expect(await page.locator('h1').allInnerTexts()).toEqual(['Paper Lanterns']);
  const failed = await page.evaluate(() => [...document.fonts].filter(({ status }) => status === 'error').length);
  expect(failed).toBe(0);
  const serif = await page.evaluate(() => document.fonts.check('16px "Source Serif 4"', 'Paper'));
  expect(serif).toBe(true);
});

test('it plays, and the mark goes from bar to bar in step', async () => {
  await open('quick');
  await page.getByRole('button', { name: 'Play Four bars' }).click();
  await hurry();
  await heard(1);
  expect(await marked()).toBe('1.1');
  await heard(2);
  expect(await marked()).toBe('1.2');
  expect(await page.locator('.transport-caution').textContent()).toMatch(/stop/);
  await page.getByRole('button', { name: 'Close' }).click();
  expect(await page.locator('.sounding').count()).toBe(0);
});

test('it loops the bars that are chosen, and climbs the ladder each time through', async () => {
  await open('quick');
  await page.getByRole('button', { name: 'Play Four bars' }).click();
  await hurry();
  await page.getByRole('combobox', { name: 'Loop from' }).selectOption({ label: '2' });
  await page.getByRole('combobox', { name: 'Loop to' }).selectOption({ label: '2' });
  await page.getByRole('button', { name: 'Ladder' }).click();
  await heard(1);
  // From 160 in steps of 20, each half as fast again.
  await page.waitForFunction(() => document.querySelector('.transport-tempo-told')?.textContent?.includes(' 240 a'));
  await page.waitForFunction(() => document.querySelector('.transport-tempo-told')?.textContent?.includes(' 270 a'));
  await page.waitForFunction(() => document.querySelector('.transport-tempo-told')?.textContent?.includes(' 300 a'));
  expect(await bar()).toBe(1);
  expect(await marked()).toBe('1.1');
});

test.each([DESK, PHONE])('the words of the legend begin in one line, whatever their samples, %o', async (viewport) => {
  await open('4-', { viewport });
  const columns = await page.locator('.legend-sign').evaluateAll((signs) =>
    signs.map((sign) => {
      const words = document.createRange();
      words.selectNodeContents(sign.lastChild as Node);
      const around = words.getBoundingClientRect();
      const sample = sign.querySelector('svg')?.getBoundingClientRect();
      return { left: Math.round(around.left), sampleRight: sample?.right ?? 0, sampleLeft: sample?.left ?? 0 };
    }),
  );
  expect(columns.length).toBeGreaterThan(10);
  const lefts = new Set(columns.map(({ left }) => left));
  expect(lefts.size).toBeLessThanOrEqual(viewport.width < 500 ? 1 : 3);
  for (const { left, sampleLeft, sampleRight } of columns) {
    expect(sampleRight).toBeLessThan(left);
    expect(sampleLeft).toBeGreaterThan(0);
  }
});

test('a press on a bar plays from there', async () => {
  await open('quick');
  await page.locator('g[data-bar="1.2"]').first().click();
  await hurry();
  await heard(2);
  expect(await page.locator('.transport-title').textContent()).toBe('Four bars');
});

test('another edition is shown and goes on playing', async () => {
  await open('quick');
  const facts = (): Promise<string | null> => page.locator('.block.facts').first().textContent();
  const before = await facts();
  const lines = await page.locator('.block.system').first().innerHTML();
  await page.locator('.play-exercise').first().click();
  await hurry();
  await heard(1);
  await page.getByRole('combobox', { name: 'Edition' }).selectOption({ index: 1 });
  expect(await facts()).not.toBe(before);
  expect(await page.locator('.block.system').first().innerHTML()).not.toBe(lines);
  expect(await page.locator('.transport').getAttribute('data-state')).toBe('playing');
  const now = await bar();
  await heard(now + 1);
  expect(await marked()).not.toBeNull();
});

test('a left-handed player sees diagrams mirrored, and the choice is kept', async () => {
  await open('1-');
  const diagrams = (): Promise<string> => page.locator('.block.diagrams').first().innerHTML();
  const right = await diagrams();
  await page.getByRole('button', { name: 'Left-handed view' }).click();
  const left = await diagrams();
  expect(left).not.toBe(right);
  expect(await page.getByText('chord diagrams are mirrored').isVisible()).toBe(true);
  await page.reload();
  expect(await diagrams()).toBe(left);
});

test('larger print takes lines that are laid out narrower, and all of it stays in the window', async () => {
  for (const viewport of [DESK, { width: 768, height: 1024 }, PHONE, { width: 320, height: 640 }]) {
    await open('6-', { viewport });
    // Size of a hundredth of a millimetre of the drawing.
    const scale = (): Promise<number> =>
      page.evaluate(() => {
        const drawing = document.querySelector<SVGSVGElement>('.system > svg');
        return (drawing?.getBoundingClientRect().width ?? 0) / (drawing?.viewBox.baseVal.width ?? 1);
      });
    let before = 0;
    for (const size of ['normal', 'large', 'very large']) {
      await page.getByRole('combobox', { name: 'Size' }).selectOption({ label: size });
      const now = await scale();
      // On the narrowest telephone a bar has no room to be larger yet; words are.
      if (viewport.width > 320) expect(now).toBeGreaterThan(before * 1.08);
      else expect(now).toBeGreaterThanOrEqual(before);
      before = now;
      const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, window.innerWidth]);
      expect(wide).toBeLessThanOrEqual(room ?? 0);
      const over = await page.evaluate(() => {
        const drawings = [...document.querySelectorAll('#blocks > .block > svg')];
        return drawings.filter((one) => one.getBoundingClientRect().right > window.innerWidth).length;
      });
      expect(over).toBe(0);
    }
    await page.context().close();
  }
});

test('the keyboard alone does it all', async () => {
  await open('quick');
  const focused = (): Promise<string> =>
    page.evaluate(
      () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '',
    );
  const tabTo = async (name: RegExp): Promise<void> => {
    for (let step = 0; step < 12; step += 1) {
      await page.keyboard.press('Tab');
      if (name.test(await focused())) return;
    }
    throw new Error(`The keyboard does not come to ${name}`);
  };
  await page.keyboard.press('Tab');
  await page.keyboard.press('ArrowDown');
  expect(await page.locator('#edition').inputValue()).toBe('1');
  await tabTo(/^Left-handed view/);
  await page.keyboard.press('Enter');
  expect(await page.getByRole('button', { name: 'Left-handed view' }).getAttribute('aria-pressed')).toBe('true');
  await tabTo(/^Play /);
  await page.keyboard.press('Enter');
  expect(await focused()).toBe('Pause');
  await page.keyboard.press('c');
  for (let step = 0; step < 10; step += 1) await page.keyboard.press('+');
  expect(await tempo()).toContain('150 %');
  await heard(1);
  await page.keyboard.press('Space');
  expect(await page.locator('.transport').getAttribute('data-state')).toBe('paused');
  await page.keyboard.press('Escape');
  expect(await page.locator('.transport').isVisible()).toBe(false);
  expect(await focused()).toMatch(/^Play /);
});

test.each([
  ['light', DESK],
  ['dark', DESK],
  ['light', PHONE],
  ['dark', PHONE],
] as const)('nobody is kept out: %s, %o', async (colorScheme, viewport) => {
  await open('6-', { colorScheme, viewport, bypassCSP: true });
  const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  expect(await ground()).toBe(colorScheme === 'dark' ? 'rgb(30, 27, 23)' : 'rgb(253, 250, 244)');
  expect(await faults()).toEqual([]);
  await page.locator('.play-exercise').first().click();
  await page.waitForFunction(() => document.querySelector('.sounding') !== null, undefined, { timeout: 20_000 });
  await page.getByRole('button', { name: 'Pause' }).click();
  expect(await faults()).toEqual([]);
});

test.each(samples)('%s: axe finds nothing', async (name) => {
  await open(name, { bypassCSP: true });
  expect(await faults()).toEqual([]);
});

test('colours can be chosen against the device', async () => {
  await open('1-', { colorScheme: 'dark' });
  const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const dark = await ground();
  await page.getByRole('combobox', { name: 'Colours' }).selectOption('light');
  expect(await ground()).not.toBe(dark);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.getByRole('combobox', { name: 'Colours' }).selectOption('dark');
  expect(await ground()).toBe(dark);
});

test('on paper there is the sheet in dark ink for the width of paper, and no control', async () => {
  await open('1-', { viewport: PHONE, colorScheme: 'dark' });
  await page.locator('.play-exercise').first().click();
  const lines = await page.locator('.block.system').count();
  await page.emulateMedia({ media: 'print' });
  await page.waitForFunction((before) => document.querySelectorAll('.block.system').length < before, lines);
  for (const control of ['.toolbar', '.transport', '.play-exercise']) {
    expect(await page.locator(control).first().isVisible()).toBe(false);
  }
  const ink = await page.evaluate(() => getComputedStyle(document.querySelector('.system text.num') as Element).fill);
  expect(ink).toBe('rgb(0, 0, 0)');
  await page.emulateMedia({ media: 'screen' });
  await page.waitForFunction((before) => document.querySelectorAll('.block.system').length === before, lines);
});

test('who wants less motion gets no smooth scrolling', async () => {
  await open('quick', { reducedMotion: 'reduce', viewport: { width: 360, height: 480 } });
  const asked = page.evaluate(
    () =>
      new Promise<string>((resolve) => {
        const scrollBy = window.scrollBy.bind(window);
        window.scrollBy = (options?: ScrollToOptions | number) => {
          if (typeof options !== 'object') return;
          scrollBy(options);
          resolve(options.behavior ?? '');
        };
      }),
  );
  await page.getByRole('button', { name: 'Play Four bars' }).click();
  await hurry();
  await heard(2);
  expect(await asked).toBe('instant');
});

test('nothing can be fetched, whatever asks for it', async () => {
  await open('1-');
  const refused = await page.evaluate(() =>
    Promise.all([
      fetch('https://invalid.example/').then(
        () => false,
        () => true,
      ),
      new Promise<boolean>((resolve) => {
        const image = new Image();
        image.onerror = () => resolve(true);
        image.onload = () => resolve(false);
        image.src = 'https://invalid.example/a.png';
      }),
    ]),
  );
  expect(refused).toEqual([true, true]);
  expect(complaints.length).toBeGreaterThan(0);
  expect(complaints.every((one) => one.includes('Content Security Policy'))).toBe(true);
  complaints = [];
  // The browser tells of the picture and then refuses to fetch it.
  expect(asked).toEqual(['https://invalid.example/a.png']);
  asked = [];
});

test.each(samples.map(([name]) => name))('%s: without scripts there is the sheet, and no control', async (name) => {
  await open(name, { viewport: PHONE, javaScriptEnabled: false });
  await page.locator('.static-sheet .block.system').first().waitFor();
  for (const control of ['.toolbar', '.transport', '.play-exercise'])
    expect(await page.locator(control).locator('visible=true').count()).toBe(0);
  // All of it stays in the window.
  for (const line of (await page.locator('.static-sheet svg[role]').all()).slice(0, 40)) {
    const box = await line.boundingBox();
    expect(box?.x ?? -1).toBeGreaterThanOrEqual(0);
    expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(PHONE.width);
  }
});

test('without scripts a reader of the screen finds nothing amiss, in light and in dark', async () => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page?.context().close();
    await open('1-', { viewport: PHONE, colorScheme, javaScriptEnabled: false });
    // Read as it is without scripts, and judged where the test's own tool can run.
    const html = await page.content();
    await page.context().close();
    await open('1-', { viewport: PHONE, colorScheme });
    await page.setContent(html.replace(/<script[\s\S]*?<\/script>/g, '').replace(/<\/?noscript>/g, ''));
    expect(await page.locator('.static-sheet .block.system').count()).toBeGreaterThan(10);
    expect(await faults()).toEqual([]);
    const [ground, ink] = await page.evaluate(() => [
      getComputedStyle(document.documentElement).backgroundColor,
      getComputedStyle(document.querySelector('.static-sheet text.num') as Element).fill,
    ]);
    const darkness = (colour: string | undefined): number => Number(/\d+/.exec(colour ?? '')?.[0]);
    expect(darkness(ground) < darkness(ink)).toBe(colorScheme === 'dark');
  }
});

test('without scripts it prints in two columns of dark ink', async () => {
  await open('1-', { colorScheme: 'dark', javaScriptEnabled: false });
  await page.emulateMedia({ media: 'print' });
  const style = await page.locator('.static-sheet').evaluate((sheet) => {
    const { columnCount } = getComputedStyle(sheet);
    return { columnCount, ink: getComputedStyle(sheet.querySelector('text.num') as Element).fill };
  });
  expect(style).toEqual({ columnCount: '2', ink: 'rgb(0, 0, 0)' });
});
