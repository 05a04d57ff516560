import { mkdir, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { startRasteriser } from '../../server/hand-out/pictures/rasteriser.ts';
import { PROJECT_ROOT } from '../runner/project-root.mjs';
import { HandOutSteps, readPicture } from './hand-out-steps.ts';
import { openSession, type Session, type WebEditor } from './session.ts';
import { whichEditor } from './which-editor.ts';

let session: Session;
let steps: HandOutSteps;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  steps = new HandOutSteps(session.page);
  await steps.openFile('lanterns.lesson');
});

afterAll(() => session?.close());

beforeEach(() => steps.clearNotices());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

const onDisk = (...names: readonly string[]): string => path.join(session.lessons, ...names);

/** All files below a folder of the session. */
async function filesIn(folder: string): Promise<readonly string[]> {
  const entries = await readdir(onDisk(folder), { withFileTypes: true, recursive: true }).catch(() => []);
  const files = entries.filter((entry) => entry.isFile());
  return files.map((entry) => path.relative(onDisk(folder), path.join(entry.parentPath, entry.name))).sort();
}

const isHalf = (name: string): boolean => name.endsWith('.part');

/** Puts a lesson on the disk and opens it. */
async function openNew(name: string, text: string): Promise<void> {
  await writeFile(onDisk(name), text);
  await steps.pane('lessons', true);
  await steps.openFile(name);
}

const ROLL = `chord C 0-0-0-3
progression verse
  | C | C |
pattern roll
  count 1 2 3 4
  pick 4p 3i 2m 1a
exercise Roll
  play verse
  with roll
`;

describe('one lesson', () => {
  test('the command asks what and where, makes the files, and says so', async () => {
    await steps.askFor('Hand Out This Lesson…');
    await session.keepPicture('hand-out-asked');
    await steps.choose('Print sheet (PDF)', 'Plain-text tab');
    await steps.takeOfferedFolder();
    await steps.notice(/\d files written to .+\/handed-out\./).waitFor();
    await session.keepPicture('hand-out-done');
    const names = await filesIn('handed-out/lanterns');
    expect(names).toEqual(['01 Roll the changes.txt', 'lanterns.pdf']);
    const pdf = await readFile(onDisk('handed-out', 'lanterns', 'lanterns.pdf'));
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  });

  test('what is there already is replaced only after a question', async () => {
    const file = onDisk('handed-out', 'lanterns', '01 Roll the changes.txt');
    const whole = await readFile(file, 'utf8');
    await writeFile(file, 'mine');
    for (const answer of ['Cancel', 'Replace']) {
      await steps.askFor('Hand Out This Lesson…');
      await steps.choose('Print sheet (PDF)', 'Plain-text tab');
      await steps.takeOfferedFolder();
      const question = session.page.locator('.monaco-dialog-box', { hasText: '2 of the files are there already.' });
      await question.waitFor();
      if (answer === 'Cancel') await session.keepPicture('hand-out-replace');
      await question.getByRole('button', { name: answer }).click();
      if (answer === 'Cancel') {
        await steps.notice('Stopped: 0 files written').waitFor();
        expect(await readFile(file, 'utf8')).toBe('mine');
      } else {
        await steps.notice(/1 file written to .+, 1 as before\./).waitFor();
        expect(await readFile(file, 'utf8')).toBe(whole);
      }
    }
  });

  test('the progress can be cancelled: what is there then is whole, and nothing else is', async () => {
    // The disk keeps the second file back until the button is pressed, in the middle of the work.
    const files = /127\.0\.0\.1:\d+\/file\?/;
    let release = (): void => undefined;
    const pressed = new Promise<void>((resolve) => {
      release = resolve;
    });
    let puts = 0;
    const context = session.page.context();
    await context.route(files, async (route) => {
      if (route.request().method() === 'PUT' && ++puts === 2) await pressed;
      await route.continue();
    });
    try {
      await mkdir(onDisk('cut'));
      await steps.askFor('Hand Out This Lesson…');
      await steps.choose('MIDI files', 'MusicXML files', 'Plain-text tab', 'Timelines (JSON)', 'Chapters of the video');
      await steps.takeFolder('cut');
      const progress = steps.notice(/Hand Out This Lesson: lanterns\//);
      await progress.waitFor();
      await expect.poll(() => puts).toBe(2);
      await session.keepPicture('hand-out-progress');
      await progress.getByRole('button', { name: 'Cancel' }).click();
      release();
      await steps.notice(/Stopped: 2 files written/).waitFor();
    } finally {
      release();
      await context.unroute(files);
    }
    const names = await filesIn('cut');
    expect(names).toHaveLength(2);
    expect(names.filter(isHalf)).toEqual([]);
    // The two are whole: made again, they come out the same.
    await steps.askFor('Hand Out This Lesson…');
    await steps.choose('MIDI files', 'MusicXML files', 'Plain-text tab', 'Timelines (JSON)', 'Chapters of the video');
    await steps.takeFolder('cut');
    await session.page.locator('.monaco-dialog-box').getByRole('button', { name: 'Replace' }).click();
    await steps.notice(/3 files written to .+, 2 as before\./).waitFor();
  });

  test('pictures as PNG have the size of the frame, nothing behind them, and the ink of the SVG', async () => {
    await steps.askFor('Hand Out This Lesson…');
    await steps.choose('(SVG)', '(PNG)');
    await steps.takeOfferedFolder();
    const names = async (): Promise<readonly string[]> =>
      (await filesIn('handed-out/lanterns/pictures')).filter((name) => name.endsWith('.png'));
    await session.page.locator('.tab', { hasText: 'Painting Pictures' }).waitFor();
    await session.page
      .locator('iframe.webview.ready')
      .last()
      .contentFrame()
      .locator('#active-frame')
      .contentFrame()
      .locator('figcaption', { hasText: '.png' })
      .waitFor();
    await session.keepPicture('hand-out-painting');
    await steps.notice(/\d+ files written to/).waitFor();
    await session.page.locator('.tab', { hasText: 'Painting Pictures' }).waitFor({ state: 'detached' });
    const pictures = await names();
    expect(pictures.filter((name) => name.startsWith('wide/'))).not.toEqual([]);
    expect(pictures.filter((name) => name.startsWith('tall/'))).not.toEqual([]);
    const wasm = await readFile(path.join(PROJECT_ROOT, 'node_modules', '@resvg', 'resvg-wasm', 'index_bg.wasm'));
    const otherPainter = await startRasteriser(wasm);
    const blank = await session.page.context().newPage();
    try {
      for (const name of [
        pictures.find((one) => one.startsWith('wide/')),
        pictures.find((one) => one.startsWith('tall/')),
      ]) {
        const file = onDisk('handed-out', 'lanterns', 'pictures', name ?? '');
        const svg = await readFile(file.replace(/\.png$/, '.svg'), 'utf8');
        const read = await readPicture(blank, await readFile(file), otherPainter(svg));
        // Source: ITU-R BT.709, 1920 × 1080, and the same upright.
        expect([read.width, read.height]).toEqual(name?.startsWith('wide/') ? [1920, 1080] : [1080, 1920]);
        expect(read.corners).toEqual([0, 0, 0, 0]);
        expect(read.inked).toBeGreaterThan(1000);
        // Held against another painter: they differ in how they soften edges, and nowhere else.
        expect(read.apart).toBeLessThan(0.02);
      }
    } finally {
      await blank.close();
    }
  });

  test('of a lesson with an error the sound part is made, and the rest is told', async () => {
    await openNew('half.lesson', `lesson Half\n${ROLL}exercise Broken\n  play verse\n  with rol\n`);
    await steps.askFor('Hand Out This Lesson…');
    await steps.choose('Plain-text tab');
    await steps.takeOfferedFolder();
    const notice = steps.notice(/1 file written to .+ half\.lesson has an error.*no pattern or melody called rol/);
    await notice.waitFor();
    await session.keepPicture('hand-out-errors');
    await notice.getByRole('button', { name: 'Show All Remarks' }).click();
    await session.page
      .locator('.editor-instance .view-line', { hasText: /line\s11:\sBroken\swas\sleft\sout/ })
      .waitFor();
    expect(await filesIn('handed-out/half')).toEqual(['01 Roll.txt']);
  });

  test('a lesson that was never saved goes into the folder that is open', async () => {
    await steps.startCommand('File: New Untitled Text File');
    await session.page.locator('.tab.active', { hasText: 'Untitled-' }).waitFor();
    await steps.startCommand('Change Language Mode');
    await session.page.locator('.quick-input-box input').fill('Handspan lesson');
    await steps.rows.filter({ hasText: 'Handspan lesson' }).first().click();
    await session.page.locator('[id="status.editor.mode"]', { hasText: 'Handspan lesson' }).waitFor();
    await session.page.locator('.editor-instance .monaco-editor').last().locator('.view-lines').click();
    // As pasted: typed line ends would be indented.
    await session.page.evaluate((text) => {
      const paste = new DataTransfer();
      paste.setData('text/plain', text);
      document.activeElement?.dispatchEvent(new ClipboardEvent('paste', { clipboardData: paste, bubbles: true }));
    }, `lesson New\n${ROLL}`);
    await session.page.locator('.editor-instance .view-line', { hasText: 'exercise' }).first().waitFor();
    await steps.askFor('Hand Out This Lesson…');
    await steps.choose('Plain-text tab');
    await steps.takeOfferedFolder();
    await steps.notice(/1 file written to .+\/handed-out\./).waitFor();
    const names = await filesIn('handed-out');
    expect(names.filter((name) => name.startsWith('Untitled-'))).toEqual([
      expect.stringMatching(/^Untitled-\d\/01 Roll\.txt$/),
    ]);
  });

  test('a folder that may not be written to is told by its name, and nothing is written', async () => {
    // The disk refuses what leads out of it, whoever asks; rights of files do not bind everybody.
    await mkdir(path.join(session.lessons, '..', 'elsewhere'));
    await symlink(path.join(session.lessons, '..', 'elsewhere'), onDisk('not-ours'));
    await steps.tab('lanterns.lesson').click();
    await steps.askFor('Hand Out This Lesson…');
    await steps.choose('Plain-text tab');
    await steps.takeOfferedFolder();
    const question = session.page.locator('.monaco-dialog-box');
    await question.getByRole('button', { name: 'Replace' }).click();
    await steps.notice(/0 files written to .+, 1 as before/).waitFor();
    await rm(onDisk('handed-out'), { recursive: true });
    await symlink(path.join(session.lessons, '..', 'elsewhere'), onDisk('handed-out'));
    await steps.clearNotices();
    await steps.askFor('Hand Out This Lesson…');
    await steps.choose('Plain-text tab');
    await steps.takeOfferedFolder();
    await steps.notice(/01 Roll the changes\.txt could not be made or written: .*leads out of the folder/).waitFor();
    await session.keepPicture('hand-out-refused');
    expect(await readdir(path.join(session.lessons, '..', 'elsewhere'))).toEqual([]);
    await rm(onDisk('handed-out'));
  });
});

describe('a folder', () => {
  test('all lessons in it and in folders inside are handed out, every edition of each', async () => {
    await mkdir(onDisk('term', 'week 2'), { recursive: true });
    await writeFile(onDisk('term', 'first.lesson'), `lesson First\n${ROLL}`);
    await writeFile(
      onDisk('term', 'week 2', 'second.lesson'),
      `lesson Second\nfor tenor ukulele, high G\nalso baritone ukulele, same shapes\n${ROLL}`,
    );
    await writeFile(onDisk('term', 'no-text.lesson'), Uint8Array.of(0xff, 0xfe, 0x00, 0xd8));
    await steps.pane('lessons', true);
    await steps.chooseInMenu('term', 'Hand Out All Lessons of This Folder…');
    await steps.rows.filter({ hasText: 'Print sheet (PDF)' }).waitFor();
    await session.page.locator('.quick-input-title', { hasText: 'Hand Out 2 Lessons' }).waitFor();
    await session.keepPicture('hand-out-folder');
    await steps.choose('Interactive page (HTML)', 'MIDI files', 'All editions');
    await steps.takeOfferedFolder();
    await steps.notice(/5 files written to .+\/term\/handed-out\. .*no-text\.lesson is not UTF-8 text/).waitFor();
    expect(await filesIn('term/handed-out')).toEqual([
      'first/01 Roll.mid',
      'first/first.html',
      'second/01 Roll - baritone ukulele.mid',
      'second/01 Roll.mid',
      'second/second - all editions.html',
    ]);
    // The command of the palette means the folder of the lesson in front, and what was handed out is no lesson.
    await steps.openFile('lanterns.lesson');
    await steps.askFor('Hand Out All Lessons of This Folder…');
    await session.page.locator('.quick-input-title', { hasText: /Hand Out \d+ Lessons/ }).waitFor();
    await session.page.keyboard.press('Escape');
  });

  test('one without lessons is told', async () => {
    await mkdir(onDisk('empty'));
    await steps.pane('lessons', true);
    await steps.chooseInMenu('empty', 'Hand Out All Lessons of This Folder…');
    await steps.notice('There is no lesson in empty.').waitFor();
  });
});

describe('the list beside the explorer', () => {
  beforeAll(async () => {
    await steps.pane('lessons', true);
    await steps.openFile('lanterns.lesson');
  });

  test('shows what the lesson yields, and opens texts without writing them', async () => {
    const { page } = session;
    const tree = await steps.list();
    await tree.locator('.monaco-list-row', { hasText: 'Plain-text tab' }).click();
    const file = tree.locator('.monaco-list-row', { hasText: '.txt' }).first();
    await file.click();
    await page.locator('.tab.active[data-resource-name$=".txt"]').waitFor();
    const line = page.locator('.editor-instance .view-line', { hasText: /[A-G]\|-/ });
    await line.first().waitFor();
    await session.keepPicture('hand-out-list');
    await tree.locator('.monaco-list-row', { hasText: 'Plain-text tab' }).click();
  });

  test.each([
    ['MIDI files', '01 Roll the changes.mid', '4d546864'],
    ['Pictures for the video', '01-01 C.png', '89504e47'],
    ['Interactive page (HTML)', 'lanterns.html', '3c21444f'],
  ])('%s: one of them is saved where the dialog says', async (kind, name, begins) => {
    const tree = await steps.list();
    await tree.locator('.monaco-list-row', { hasText: kind }).click();
    const file = tree.locator('.monaco-list-row', { hasText: name }).first();
    await file.hover();
    await file.getByRole('button', { name: 'Save As…' }).click();
    await session.page.locator('.quick-input-title', { hasText: `Save ${name}` }).waitFor();
    await steps.dialogShows(new RegExp(`/lessons/${name}$`));
    await session.page.getByRole('button', { name: 'OK', exact: true }).click();
    await steps.notice(`${name} is written.`).waitFor();
    // Sources: SMF 1.0, "MThd"; PNG, the signature; HTML, the doctype.
    expect((await readFile(onDisk(name))).subarray(0, 4).toString('hex')).toBe(begins);
    await tree.locator('.monaco-list-row', { hasText: kind }).click();
  });
});
