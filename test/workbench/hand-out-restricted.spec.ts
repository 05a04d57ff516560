import { readdir } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { HandOutSteps } from './hand-out-steps.ts';
import { openSession, type Session, type WebEditor } from './session.ts';
import { whichEditor } from './which-editor.ts';

let session: Session;
let steps: HandOutSteps;

/** The test server has no way to say that folders are not trusted until somebody trusts them; the editor's page has. */
async function distrust(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const watcher = new MutationObserver(() => {
      const element = document.querySelector('#vscode-workbench-web-configuration');
      const settings = element?.getAttribute('data-settings');
      if (element === null || settings === null || settings === undefined) return;
      watcher.disconnect();
      element.setAttribute('data-settings', JSON.stringify({ ...JSON.parse(settings), enableWorkspaceTrust: true }));
    });
    watcher.observe(document, { childList: true, subtree: true });
  });
}

beforeAll(async () => {
  session = await openSession({
    editor: whichEditor() as WebEditor,
    // Of folders that are on no disk of this machine, the editor doubts those of this scheme alone.
    scheme: 'vscode-vfs',
    prepare: distrust,
  });
  steps = new HandOutSteps(session.page);
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

test('G-8: in a folder that is not trusted the lesson is coloured, checked and drawn', async () => {
  const { page } = session;
  await page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor();
  await steps.openFile('lanterns.lesson');
  // A keyword has another colour than a name.
  const [keyword, name] = ['exercise', 'Roll'].map((text) =>
    page
      .locator('.view-line', { hasText: /exercise/ })
      .locator('span span', { hasText: text })
      .first(),
  );
  const colour = (element: Element): string => getComputedStyle(element).color;
  expect(await keyword?.evaluate(colour)).not.toBe(await name?.evaluate(colour));
  await steps.runCommand('Handspan: Show the Sheet Beside the Lesson');
  const sheet = await steps.sheet('lanterns');
  await sheet.block('Paper Lanterns').waitFor();
  await session.keepPicture('restricted-sheet');
  await steps.goTo(23, 8);
  await page.keyboard.type('x');
  await page.locator('.squiggly-error').first().waitFor();
  await page.keyboard.press('Backspace');
  await page.locator('.squiggly-error').first().waitFor({ state: 'detached' });
});

test('G-8: what writes files is off there, says so, and leads to where the folder can be trusted', async () => {
  const { page } = session;
  await steps.startCommand('Handspan: Hand Out This Lesson…');
  const notice = steps.notice('This folder is not trusted, so Handspan writes no files.');
  await notice.waitFor();
  await session.keepPicture('restricted-hand-out');
  const tree = await steps.list();
  await tree.locator('.monaco-list-row', { hasText: 'MIDI files' }).click();
  await tree.locator('.monaco-list-row', { hasText: '.mid' }).click();
  await notice.first().waitFor();
  expect((await readdir(session.lessons)).sort()).toEqual(['.vscode', 'asking.lesson', 'lanterns.lesson']);
  // Texts are looked at all the same: nothing is written for that.
  await tree.locator('.monaco-list-row', { hasText: 'MIDI files' }).click();
  await tree.locator('.monaco-list-row', { hasText: 'Plain-text tab' }).click();
  await tree.locator('.monaco-list-row', { hasText: '.txt' }).first().click();
  await page
    .locator('.editor-instance .view-line', { hasText: /[A-G]\|-/ })
    .first()
    .waitFor();
  await notice.first().getByRole('button', { name: 'Manage Trust' }).click();
  await page.locator('.workspace-trust-editor').waitFor();
  await page
    .locator('.workspace-trust-editor')
    .getByRole('button', { name: /^Trust/ })
    .first()
    .click();
  await page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor({ state: 'detached' });
  // Newer editors show that page over the window, and not as one of its tabs.
  const over = page.locator('.monaco-modal-editor-block');
  if (await over.isVisible()) await over.locator('.codicon-close').last().click();
  await over.waitFor({ state: 'hidden' });
  await page.locator('.tab', { hasText: 'lanterns.lesson' }).first().click();
  await steps.askFor('Hand Out This Lesson…');
  await steps.choose('MIDI files');
  await steps.takeOfferedFolder();
  await steps.notice(/1 file written to/).waitFor();
});
