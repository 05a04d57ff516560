import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { openSession, type Session, type WebEditor } from './session.ts';
import { whichEditor } from './which-editor.ts';
import { WorkbenchPage } from './workbench-page.ts';

// What `npm start` opens, in a browser that has never seen it.

let session: Session;

beforeAll(async () => {
  session = await openSession({
    editor: whichEditor() as WebEditor,
    helpers: ['test/workbench/opener'],
    lessonsFrom: 'client/samples',
  });
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

test('the first sample is open with its sheet beside it, and nothing else', async () => {
  const workbench = new WorkbenchPage(session.page);
  const sheet = await workbench.sheet('1-paper-lanterns');
  await sheet.block('Paper Lanterns').waitFor();
  await workbench.lineHolding('lesson').waitFor();
  await session.page.locator('.tabs-container .tab', { hasText: 'Welcome' }).waitFor({ state: 'detached' });
  expect(await session.page.locator('.tabs-container .tab').count()).toBe(2);
});
