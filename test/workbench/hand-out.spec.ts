import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { openSession, type Session, type WebEditor } from './session.ts';
import { whichEditor } from './which-editor.ts';
import { WorkbenchPage } from './workbench-page.ts';

let session: Session;
let workbench: WorkbenchPage;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  workbench = new WorkbenchPage(session.page);
  await workbench.openFile('lanterns.lesson');
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

test('the command asks what and where, makes the files, and says so', async () => {
  const { page } = session;
  // Its question comes in the place of the list of commands, so there is no moment without a list to wait for.
  await page.keyboard.press('F1');
  await page.locator('.quick-input-box input').fill('>Handspan: Hand Out This Lesson');
  await page.locator('.quick-input-list .monaco-list-row.focused', { hasText: 'Hand Out This Lesson' }).waitFor();
  await page.keyboard.press('Enter');
  const rows = page.locator('.quick-input-list .monaco-list-row');
  await rows.filter({ hasText: 'Print sheet (PDF)' }).waitFor();
  await session.keepPicture('hand-out-asked');
  await rows.filter({ hasText: 'Plain-text tab' }).click();
  await page.getByRole('button', { name: 'OK', exact: true }).click();
  await page.locator('.quick-input-title', { hasText: 'Folder for the Files' }).waitFor();
  await rows.filter({ hasText: 'In the folder handed-out' }).click();
  await page.locator('.notification-list-item-message', { hasText: /\d files written to .+, 0 as before\./ }).waitFor();
  await session.keepPicture('hand-out-done');
  const folder = path.join(session.lessons, 'handed-out', 'lanterns');
  const names = await readdir(folder);
  expect(names).toContain('lanterns.pdf');
  expect(names.filter((name) => name.endsWith('.txt')).length).toBeGreaterThan(0);
  expect(names.filter((name) => name.endsWith('.part'))).toEqual([]);
  expect((await readFile(path.join(folder, 'lanterns.pdf'))).subarray(0, 5).toString()).toBe('%PDF-');
});

test('the list beside the explorer shows what the lesson yields, and opens texts without writing them', async () => {
  const { page } = session;
  await page.locator('.pane-header', { hasText: 'Hand Out' }).click();
  const tree = page.locator('.pane', { has: page.locator('.pane-header', { hasText: 'Hand Out' }) });
  await tree.locator('.monaco-list-row', { hasText: 'Plain-text tab' }).click();
  const file = tree.locator('.monaco-list-row', { hasText: '.txt' }).first();
  await file.waitFor();
  await file.click();
  await page.locator('.tab.active[data-resource-name$=".txt"]').waitFor();
  await page
    .locator('.editor-instance .view-line', { hasText: /[A-G]\|-/ })
    .first()
    .waitFor();
  await session.keepPicture('hand-out-list');
});
