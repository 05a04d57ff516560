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

  test('writes the shapes that are chosen by the keyboard, and one undo brings the question back', async () => {
    const button = candidates('Family').first().locator('button');
    expect(await button.getAttribute('aria-label')).toMatch(/^Write these shapes\. Family 1 of 4: ./);
    await button.focus();
    await session.page.keyboard.press('Enter');
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
    await lens('Write the best tune').click();
    await candidates('Tune').first().waitFor({ state: 'detached' });
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
    await candidates('Family').first().scrollIntoViewIfNeeded();
    await session.keepPicture(`candidates-${name}`);
    // Source of the least contrast: WCAG 2.2, success criterion 1.4.3.
    for (const { what, ratio } of await sheet.frame.evaluate(contrastOfText)) {
      expect(ratio, what).toBeGreaterThanOrEqual(4.5);
    }
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
    await candidates('Family').first().scrollIntoViewIfNeeded();
    await session.keepPicture('candidates-narrow');
  });
});
