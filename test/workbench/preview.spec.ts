import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { openSession, type Session, useSettings, type WebEditor } from './session.ts';
import { contrastOfText, controlsOutside, rememberSlots, slotsTouched, wordsUnderButtons } from './sheet-watch.ts';
import { whichEditor } from './which-editor.ts';
import { type SheetPage, WorkbenchPage } from './workbench-page.ts';

const LESSON = 'lanterns.lesson';
const COMMAND = 'Handspan: Show the Sheet Beside the Lesson';

let session: Session;
let workbench: WorkbenchPage;
let sheet: SheetPage;
let text: string;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  workbench = new WorkbenchPage(session.page);
  text = await readFile(path.join(session.lessons, LESSON), 'utf8');
  try {
    await workbench.openFile(LESSON);
    await workbench.runCommand(COMMAND);
    sheet = await workbench.sheet(LESSON);
    await sheet.paintedVersion();
  } catch (error) {
    await session.keepPicture('failed-to-show-the-sheet');
    throw error;
  }
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

/** Lines count from 1, as the editor shows them. */
function lineOf(piece: string): number {
  const index = text.split('\n').findIndex((line) => line.includes(piece));
  if (index < 0) throw new Error(`the lesson does not hold ${piece}`);
  return index + 1;
}

describe('the sheet beside the lesson', () => {
  test('shows the title, the facts, the prose, the diagrams and the exercise', async () => {
    const shown = await sheet.text();
    for (const piece of ['Paper Lanterns', 'tenor ukulele', 'If it hurts, stop', 'Roll the changes', 'ring on']) {
      expect(shown).toContain(piece);
    }
    for (const chord of ['C', 'F', 'G7']) await sheet.block(chord).waitFor();
  });

  test('gives every picture a text alternative', async () => {
    const pictures = await sheet.frame.evaluate(() =>
      [...document.querySelectorAll('#sheet svg')].map((svg) => ({
        hidden: svg.closest('[aria-hidden="true"]') !== null,
        role: svg.getAttribute('role'),
        text: svg.getAttribute('aria-label') ?? svg.querySelector(':scope > title')?.textContent ?? '',
      })),
    );
    expect(pictures.length).toBeGreaterThan(0);
    for (const picture of pictures) {
      if (picture.hidden) continue;
      expect(picture.role).toMatch(/^(img|group|list|figure|graphics-document)$/);
      expect(picture.text.length).toBeGreaterThan(3);
    }
  });

  test('follows the typing, and touches no block but the changed one', async () => {
    await workbench.goTo(lineOf('Let every string'), 3);
    const before = await sheet.paintedVersion();
    await sheet.frame.evaluate(() => window.scrollTo(0, 40));
    const scroll = await sheet.frame.evaluate(() => window.scrollY);
    await sheet.frame.evaluate(rememberSlots);
    await session.page.keyboard.type('Slowly now. ');
    await sheet.block('Slowly now. Let every string ring on.').waitFor();
    await sheet.paintedAfter(before);
    const { kept, touched, count } = await sheet.frame.evaluate(slotsTouched);
    expect(kept).toBe(count);
    expect(touched).toHaveLength(1);
    expect(touched[0]).toContain('Slowly now.');
    expect(await sheet.frame.evaluate(() => window.scrollY)).toBe(scroll);
  });

  test('brings the new text to the disk when the lesson is saved', async () => {
    await workbench.save(LESSON);
    await expect
      .poll(() => readFile(path.join(session.lessons, LESSON), 'utf8'))
      .toContain('> Slowly now. Let every string ring on.');
  });

  test('shows what another program wrote into the file', async () => {
    const before = await sheet.paintedVersion();
    text = text.replace('Paper Lanterns', 'Tall Lanterns');
    await writeFile(path.join(session.lessons, LESSON), text);
    await sheet.block('Tall Lanterns').waitFor();
    await sheet.paintedAfter(before);
    expect(await sheet.text()).not.toContain('Slowly now.');
  });

  test('leads from a place on the sheet to its line in the lesson', async () => {
    await workbench.goTo(1, 1);
    await sheet.frame.locator('[data-place]', { hasText: 'G7' }).first().click();
    await workbench.cursorAt(lineOf('chord  G7'));
    await workbench.goTo(1, 1);
    await sheet.frame.locator('[data-place]', { hasText: 'G7' }).first().focus();
    await sheet.frame.locator('[data-place]:focus').press('Enter');
    await workbench.cursorAt(lineOf('chord  G7'));
  });

  test('marks the block that the cursor stands in', async () => {
    const marked = sheet.frame.locator('.at-cursor[aria-current="true"]');
    await workbench.goTo(lineOf('If it hurts'), 5);
    await marked.filter({ hasText: 'If it hurts' }).waitFor();
    await workbench.goTo(lineOf('lesson  '), 3);
    await marked.filter({ hasText: 'Tall Lanterns' }).waitFor();
    expect(await marked.count()).toBe(1);
  });

  test('keeps the last good block with a mark while its text is broken', async () => {
    await workbench.goTo(lineOf('pick   4p'), 14);
    const stale = sheet.frame.locator('[data-block].stale');
    expect(await stale.count()).toBe(0);
    const drawn = await sheet.frame.locator('[data-block] svg').count();
    await session.page.keyboard.type('9z9 ');
    await stale.first().waitFor();
    expect(await sheet.frame.locator('[data-block] svg').count()).toBe(drawn);
    await workbench.editor().locator('.squiggly-error').first().waitFor();
    for (let letter = 0; letter < 4; letter += 1) await session.page.keyboard.press('Backspace');
    await stale.first().waitFor({ state: 'detached' });
  });

  test('keeps a new line at the top from redrawing what stands below', async () => {
    await workbench.goTo(1, 1);
    const before = await sheet.paintedVersion();
    await sheet.frame.evaluate(rememberSlots);
    await session.page.keyboard.type('// one more line');
    await session.page.keyboard.press('Enter');
    await sheet.paintedAfter(before + 16);
    const { kept, touched, count } = await sheet.frame.evaluate(slotsTouched);
    expect(kept).toBe(count);
    expect(touched).toEqual([]);
    await workbench.goTo(lineOf('chord  G7') + 1, 1);
    await sheet.frame.locator('.at-cursor').filter({ hasText: 'G7' }).waitFor();
    await session.page.keyboard.press('Control+Home');
    await session.page.keyboard.press('Control+Shift+k');
    await workbench.save(LESSON);
  });

  test('is there again after the window was reloaded', async () => {
    await session.page.reload();
    sheet = await workbench.sheet(LESSON);
    await sheet.paintedVersion();
    expect(await sheet.text()).toContain('Tall Lanterns');
    // The editor comes back scrolled to where it last noted the cursor; what stands in the middle is in view anyway.
    await workbench.lineHolding('progression').waitFor();
  });

  test('asks nothing of any other machine, and keeps to its content security policy', async () => {
    const refused = session.log.filter(
      (line) => /Content Security Policy/i.test(line) && /preview|handspan/i.test(line),
    );
    expect(refused).toEqual([]);
    const allowed = await sheet.frame.evaluate(
      () => document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute('content') ?? '',
    );
    expect(allowed).toMatch(/^default-src 'none';/);
    expect(allowed).not.toMatch(/unsafe|https?:\/\/(?![^ ;]*localhost|[^ ;]*vscode-cdn\.net)/);
    const asked = await sheet.frame.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
    for (const address of asked) expect(new URL(address).hostname).toMatch(/(^|\.)localhost$|vscode-cdn\.net$/);
  });
});

describe('the sheet as pages', () => {
  const pages = () => sheet.frame.locator('.block.page');
  const sideways = () => sheet.frame.evaluate(() => document.documentElement.scrollWidth > window.innerWidth);

  test('is turned to by the keyboard, lies whole within the pane, and is white in a dark theme', async () => {
    await useSettings(session.lessons, { 'workbench.colorTheme': 'Default Dark Modern' });
    await sheet.frame.locator('body.vscode-dark').waitFor();
    await sheet.frame.locator('#paper').focus();
    await sheet.frame.locator('#paper').selectOption('a4');
    await pages().first().waitFor();
    expect(await sideways()).toBe(false);
    const paper = await sheet.frame.evaluate(() => {
      const svg = document.querySelector('.block.page > svg');
      const { width, height } = svg?.getBoundingClientRect() ?? { width: 0, height: 1 };
      return { shape: width / height, ground: svg === null ? '' : getComputedStyle(svg).backgroundColor };
    });
    // Source: ISO 216, 210 mm by 297 mm.
    expect(paper.shape).toBeCloseTo(210 / 297, 2);
    expect(paper.ground).toBe('rgb(255, 255, 255)');
    await session.keepPicture('pages');
  });

  test('large print has more pages', async () => {
    const before = await pages().count();
    await sheet.frame.locator('#print').selectOption('large');
    await sheet.frame.waitForFunction((few) => document.querySelectorAll('.block.page').length > few, before);
    await sheet.frame.locator('#print').selectOption('normal');
    await sheet.frame.waitForFunction((few) => document.querySelectorAll('.block.page').length === few, before);
  });

  test('leads from a chord on the page to its line, and marks where the cursor stands', async () => {
    await workbench.goTo(1, 1);
    await sheet.frame.locator('.page g[data-place]', { hasText: 'G7' }).first().focus();
    await sheet.frame.locator('[data-place]:focus').press('Enter');
    await workbench.cursorAt(lineOf('chord  G7'));
    await sheet.frame.locator('.page .at-cursor[aria-current="true"]').first().waitFor();
    await workbench.goTo(lineOf('| C | F |'), 9);
    await sheet.frame.locator('.page .at-cursor[aria-label^="Bar 2, F"]').first().waitFor();
  });

  test('flows again when asked to', async () => {
    await sheet.frame.locator('#paper').selectOption('');
    await sheet.frame.locator('.block.system').first().waitFor();
    expect(await pages().count()).toBe(0);
    await useSettings(session.lessons, {});
  });
});

describe('a reader who goes on to another lesson', () => {
  const SECOND = 'second.lesson';

  test('takes the sheet along, until it is pinned', async () => {
    await writeFile(path.join(session.lessons, SECOND), 'lesson  Second Evening\n\nchord  Am  2-0-0-0\n');
    await workbench.goTo(1, 1);
    await workbench.openFile(SECOND);
    sheet = await workbench.sheet(SECOND);
    await sheet.block('Second Evening').waitFor();
    await session.page.locator('.tab', { hasText: 'Sheet: second' }).waitFor();
    await sheet.frame.locator('#pinned').click();
    await sheet.frame.locator('#pinned[aria-pressed="true"]').waitFor();
    await workbench.tab(LESSON).click();
    await workbench.lineHolding('Warm up for two').waitFor();
    await workbench.goTo(lineOf('chord  G7'), 1);
    expect(await sheet.text()).toContain('Second Evening');
    await sheet.frame.locator('#pinned').click();
    await sheet.frame.locator('#pinned[aria-pressed="false"]').waitFor();
    await workbench.tab(SECOND).click();
    await workbench.tab(LESSON).click();
    sheet = await workbench.sheet(LESSON);
    await sheet.block('Roll the changes').waitFor();
  });
});

describe('in every theme', () => {
  test.each([
    ['light', 'Default Light Modern', 'vscode-light'],
    ['dark', 'Default Dark Modern', 'vscode-dark'],
    ['high-contrast-dark', 'Default High Contrast', 'vscode-high-contrast'],
    ['high-contrast-light', 'Default High Contrast Light', 'vscode-high-contrast-light'],
  ])('%s: the text stands out from its paper', async (name, theme, bodyClass) => {
    await useSettings(session.lessons, { 'workbench.colorTheme': theme });
    await sheet.frame.locator(`body.${bodyClass}`).waitFor();
    await session.keepPicture(name);
    // Source of the least contrast: WCAG 2.2, success criterion 1.4.3.
    for (const { what, ratio } of await sheet.frame.evaluate(contrastOfText)) {
      expect(ratio, what).toBeGreaterThanOrEqual(4.5);
    }
  });

  test('a narrow pane has no sideways scrolling', async () => {
    await useSettings(session.lessons, { 'workbench.colorTheme': 'Default Light Modern' });
    await sheet.frame.locator('body.vscode-light').waitFor();
    await session.page.setViewportSize({ width: 760, height: 900 });
    await session.page.waitForFunction(() => window.innerWidth === 760);
    await sheet.frame.waitForFunction(() => window.innerWidth < 400);
    await sheet.frame.waitForFunction(() => document.documentElement.scrollWidth <= window.innerWidth);
    await session.keepPicture('narrow');
    await sheet.frame.locator('#paper').selectOption('letter');
    await sheet.frame.locator('.block.page').first().waitFor();
    await sheet.frame.waitForFunction(() => document.documentElement.scrollWidth <= window.innerWidth);
    await session.keepPicture('narrow-pages');
  });

  test('a narrow pane cuts no control, and buttons cover no words', async () => {
    const name = 'narrow.lesson';
    const also = 'also    baritone ukulele, same key, called the big one at the back of the room\n';
    await writeFile(path.join(session.lessons, name), text.replace('key ', `${also}key `));
    await workbench.openFile(name);
    sheet = await workbench.sheet(name);
    await sheet.frame.locator('label:has(#edition)').waitFor();
    expect(await sheet.frame.evaluate(controlsOutside)).toEqual([]);
    await sheet.frame.locator('#paper').selectOption('a4');
    await sheet.frame.locator('.play-exercise.in-margin').first().waitFor();
    expect(await sheet.frame.evaluate(wordsUnderButtons)).toEqual([]);
    await session.keepPicture('narrow-edition');
  });
});
