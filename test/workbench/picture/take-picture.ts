import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { PROJECT_ROOT } from '../../runner/project-root.mjs';
import { openSession } from '../session.ts';
import { WorkbenchPage } from '../workbench-page.ts';

const PICTURE = path.join(PROJECT_ROOT, 'client', 'media', 'sheet-beside-lesson.png');
const SIZE = { width: 1280, height: 800 };

/** Opens the first sample with its sheet, as `npm start` does, and keeps what is seen. */
export async function takePicture(): Promise<void> {
  const session = await openSession({
    editor: 'oldest',
    lessonsFrom: 'client/samples',
    helpers: ['test/workbench/opener'],
  });
  try {
    const workbench = new WorkbenchPage(session.page);
    await session.page.setViewportSize(SIZE);
    await (await workbench.sheet('1-')).paintedVersion();
    await workbench.runCommand('View: Toggle Primary Side Bar Visibility');
    await session.page.locator('.explorer-folders-view').waitFor({ state: 'hidden' });
    // The editor lays its panes out anew for the wider room; the sheet is then painted for its new width.
    const sheet = await workbench.sheet('1-');
    await sheet.frame.waitForFunction((least) => window.innerWidth > least, SIZE.width * 0.4);
    await mkdir(path.dirname(PICTURE), { recursive: true });
    await session.page.screenshot({ path: PICTURE });
    console.log(path.relative(PROJECT_ROOT, PICTURE));
  } finally {
    await session.close();
  }
}
