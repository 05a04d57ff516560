import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { openSession, type Session, type WebEditor } from './session.ts';
import { whichEditor } from './which-editor.ts';
import { WorkbenchPage } from './workbench-page.ts';

// An invented tune, as it might stand in a mail: strings and frets, and no rhythm.
const TAB = ['A|----0-------3---|', 'E|0-------3-------|', 'C|----------------|', 'G|----------------|'].join('\n');

let session: Session;
let workbench: WorkbenchPage;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  workbench = new WorkbenchPage(session.page);
  await session.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await workbench.openFile('lanterns.lesson');
  await session.page.evaluate((text) => navigator.clipboard.writeText(text), TAB);
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

/** Its question comes in the place of the list of commands. */
async function askToPaste(): Promise<void> {
  const { page } = session;
  await workbench.goTo(20, 1);
  await page.keyboard.press('F1');
  await page.locator('.quick-input-box input').fill('>Handspan: Paste Tab or Chords');
  await page.locator('.quick-input-list .monaco-list-row.focused', { hasText: 'Paste Tab or Chords' }).waitFor();
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-title', { hasText: 'The text does not say its rhythm' }).waitFor();
}

test('who turns away leaves the lesson as it was', async () => {
  const { page } = session;
  await askToPaste();
  await session.keepPicture('paste-asked');
  await page.keyboard.press('Escape');
  await page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  expect(await workbench.tab('lanterns.lesson').getAttribute('class')).not.toContain('dirty');
});

test('the reading that is chosen is written, and one undo takes it back', async () => {
  const { page } = session;
  await askToPaste();
  await page.keyboard.press('Enter');
  await workbench.lineHolding('2:0').waitFor();
  await workbench.lineHolding('A guess').waitFor();
  await session.keepPicture('paste-written');
  await page.keyboard.press('Control+z');
  await workbench.lineHolding('A guess').waitFor({ state: 'detached' });
  await page.locator('.tabs-container .tab[data-resource-name="lanterns.lesson"]:not(.dirty)').waitFor();
});
