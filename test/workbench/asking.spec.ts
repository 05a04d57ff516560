import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { openSession, type Session, useSettings, type WebEditor } from './session.ts';
import { contrastOfText } from './sheet-watch.ts';
import { whichEditor } from './which-editor.ts';
import { type SheetPage, WorkbenchPage } from './workbench-page.ts';

const LESSON = 'asking.lesson';

let session: Session;
let workbench: WorkbenchPage;
let sheet: SheetPage;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  workbench = new WorkbenchPage(session.page);
  try {
    await session.page.setViewportSize({ width: 1900, height: 1000 });
    await workbench.openFile(LESSON);
  } catch (error) {
    await session.keepPicture('failed-to-open-a-lesson-that-asks');
    throw error;
  }
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

const lens = (title: string) => workbench.editor().locator('.codelens-decoration a', { hasText: title }).first();
const transport = () => sheet.frame.locator('.transport');
const heardBar = (bar: number) => sheet.frame.locator(`.transport[data-bar="${bar}"]`).waitFor({ state: 'attached' });
const hasKeyboard = (button: Locator) =>
  expect.poll(() => button.evaluate((element) => element === document.activeElement)).toBe(true);
const candidates = (of: string) => sheet.frame.locator(`section[aria-label^="${of} "]`);

describe('a lesson that asks', () => {
  test('shows what was found side by side, from the line over the question', async () => {
    await lens('Write the best family').waitFor();
    await lens('Show them side by side').click();
    sheet = await workbench.sheet(LESSON);
    await candidates('Family').nth(3).waitFor();
    await candidates('Tune').first().waitFor();
    // The words of a family stand beside its diagrams, and its diagrams under those of the one before, one column for each chord.
    const boxes = await candidates('Family').evaluateAll((cards) =>
      cards.map((card) => {
        const [words, shapes] = ['.candidate-words', '.candidate-shapes svg'].map((part) =>
          card.querySelector(part)?.getBoundingClientRect(),
        );
        return {
          beside: (words?.right ?? 0) <= (shapes?.left ?? 0),
          diagrams: card.querySelectorAll('svg [role="img"]').length,
        };
      }),
    );
    expect(boxes).toEqual(boxes.map(() => ({ beside: true, diagrams: 4 })));
    await sheet.frame.locator('.block.question.at-cursor', { hasText: 'walk' }).waitFor();
    await session.keepPicture('candidates');
  });

  test('turns from pages, which leave questions out, to the sheet that shows what was found', async () => {
    await sheet.frame.locator('#paper').selectOption('a4');
    await sheet.frame.locator('.block.page').first().waitFor();
    await lens('Show them side by side').click();
    await sheet.frame.locator('.block.question.at-cursor', { hasText: 'walk' }).waitFor();
    await candidates('Family').nth(3).waitFor();
    expect(await sheet.frame.locator('#paper').inputValue()).toBe('');
  });

  test('plays a candidate by the keyboard alone: its diagrams are marked in turn, and a second press stops', async () => {
    const card = candidates('Family').nth(1);
    const button = card.locator('button[data-hear]');
    expect(await button.getAttribute('aria-label')).toMatch(/^Play candidate 2 of 4: ./);
    await button.focus();
    await session.page.keyboard.press('Enter');
    await transport().waitFor();
    expect(await transport().locator('.transport-title').textContent()).toBe('walk, candidate 2 of 4');
    expect(await transport().locator('.transport-caution').textContent()).toMatch(/Warm up first; if it hurts, stop/);
    const marked: string[] = [];
    for (let bar = 0; bar < 3; bar += 1) {
      await heardBar(bar);
      const sounding = card.locator('.candidate-shapes g[data-held].sounding');
      await expect.poll(() => sounding.count()).toBe(1);
      marked.push((await sounding.getAttribute('data-held')) ?? '');
      if (bar === 1) await session.keepPicture('candidate-plays');
    }
    expect(marked.map((held) => held.split(/[.(]/)[0]?.slice(0, 1))).toEqual(['D', 'A', 'B']);
    // Nothing of the other candidates is heard.
    expect(await sheet.frame.locator('.candidate-shapes g.sounding').count()).toBe(1);
    await hasKeyboard(button);
    expect(await button.getAttribute('aria-label')).toMatch(/^Stop candidate 2 of 4: ./);
    await session.page.keyboard.press('Enter');
    await sheet.frame.locator('.transport[data-state="stopped"]').waitFor({ state: 'attached' });
    await expect.poll(() => sheet.frame.locator('.sounding').count()).toBe(0);
    expect(await button.getAttribute('aria-label')).toMatch(/^Play candidate 2 of 4: ./);
    await hasKeyboard(button);
  });

  test('plays a tune: its notes and the shapes over them are marked, and Escape ends it', async () => {
    const button = candidates('Tune').first().locator('button[data-hear]');
    await button.focus();
    await session.page.keyboard.press(' ');
    await heardBar(0);
    await sheet.frame.locator('g[data-bar="1.0"].sounding').waitFor();
    const place = () => sheet.frame.locator('.sounding-moment').getAttribute('x');
    const before = await place();
    await expect.poll(place).not.toBe(before);
    await heardBar(1);
    await sheet.frame.locator('g[data-bar="1.1"].sounding').waitFor();
    expect(await sheet.frame.locator('g[data-bar].sounding').count()).toBe(1);
    await sheet.frame.locator('g[data-held="A"].sounding').first().waitFor();
    await session.keepPicture('tune-plays');
    for (const name of ['Tune', 'Accompaniment']) {
      expect(await transport().getByRole('button', { name, exact: true }).isVisible()).toBe(true);
    }
    await hasKeyboard(button);
    await session.page.keyboard.press('Escape');
    await transport().waitFor({ state: 'hidden' });
    await expect.poll(() => sheet.frame.locator('.sounding').count()).toBe(0);
    await hasKeyboard(button);
  });

  test('writes the shapes that are chosen by the keyboard, and one undo brings the question back', async () => {
    const button = candidates('Family').first().locator('button[data-write]');
    expect(await button.getAttribute('aria-label')).toMatch(/^Write these shapes\. Family 1 of 4: ./);
    // What plays is silent when it is chosen: its card is gone.
    await candidates('Family').first().locator('button[data-hear]').click();
    await heardBar(0);
    await button.focus();
    await session.page.keyboard.press('Enter');
    await transport().waitFor({ state: 'hidden' });
    await workbench.lineHolding('// family').waitFor();
    await workbench.lineHolding('D.walk').waitFor();
    await candidates('Family').first().waitFor({ state: 'detached' });
    await sheet.frame.locator('.block.heading', { hasText: 'walk' }).waitFor();
    await session.keepPicture('written');
    await session.page.keyboard.press('Control+z');
    await workbench.lineHolding('// family').waitFor({ state: 'detached' });
    await candidates('Family').nth(3).waitFor();
  });

  test('writes the best tune from the line over the question', async () => {
    await candidates('Tune').first().scrollIntoViewIfNeeded();
    await session.keepPicture('tunes');
    // The editor draws its lenses anew after the undo; a press on one that goes away meanwhile is lost, and is made again.
    const isWritten = async (): Promise<boolean> => {
      if ((await candidates('Tune').count()) === 0) return true;
      await lens('Write the best tune').click();
      return candidates('Tune')
        .first()
        .waitFor({ state: 'detached', timeout: 8000 })
        .then(
          () => true,
          () => false,
        );
    };
    await expect.poll(isWritten, { timeout: 30_000 }).toBe(true);
    await session.page.keyboard.press('Control+z');
    await candidates('Tune').first().waitFor();
  });
});

describe('what was found, in every theme', () => {
  test.each([
    ['light', 'Default Light Modern', 'vscode-light'],
    ['dark', 'Default Dark Modern', 'vscode-dark'],
    ['high-contrast-dark', 'Default High Contrast', 'vscode-high-contrast'],
    ['high-contrast-light', 'Default High Contrast Light', 'vscode-high-contrast-light'],
  ])('%s: the text stands out from its paper', async (name, theme, bodyClass) => {
    await useSettings(session.lessons, { 'workbench.colorTheme': theme });
    await sheet.frame.locator(`body.${bodyClass}`).waitFor();
    await candidates('Family').first().locator('button[data-hear]').click();
    await candidates('Family').first().locator('g[data-held].sounding').waitFor();
    await session.keepPicture(`candidates-${name}`);
    // Source of the least contrast: WCAG 2.2, success criterion 1.4.3.
    // The play button of the controls has a ground of its own, dark on light turned over.
    for (const { what, ratio } of await sheet.frame.evaluate(contrastOfText)) {
      if (!what.includes('transport-play')) expect(ratio, what).toBeGreaterThanOrEqual(4.5);
    }
    await candidates('Family').first().locator('button[data-hear]').focus();
    await session.page.keyboard.press('Escape');
    await transport().waitFor({ state: 'hidden' });
  });

  test('stands below each other in a narrow pane, without sideways scrolling', async () => {
    await session.page.setViewportSize({ width: 760, height: 900 });
    await sheet.frame.waitForFunction(() => window.innerWidth < 400);
    await sheet.frame.waitForFunction(() => document.documentElement.scrollWidth <= window.innerWidth);
    // The sheet is painted once more for its new width, in which the diagrams of a candidate take several rows.
    await sheet.frame.waitForFunction(() =>
      [...document.querySelectorAll('.candidate-shapes')].some(
        (shapes) => shapes.querySelectorAll(':scope > svg').length > 1,
      ),
    );
    await candidates('Family').first().locator('button[data-hear]').click();
    await candidates('Family').first().locator('g[data-held].sounding').waitFor();
    await sheet.frame.waitForFunction(() => document.documentElement.scrollWidth <= window.innerWidth);
    await session.keepPicture('candidates-narrow');
  });
});
