import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { openSession, type Session, useSettings, type WebEditor } from './session.ts';
import { contrastOfText } from './sheet-watch.ts';
import { whichEditor } from './which-editor.ts';
import { type SheetPage, WorkbenchPage } from './workbench-page.ts';

const LESSON = 'lanterns.lesson';

let session: Session;
let workbench: WorkbenchPage;
let sheet: SheetPage;
let text: string;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  workbench = new WorkbenchPage(session.page);
  text = await readFile(path.join(session.lessons, LESSON), 'utf8');
  await workbench.openFile(LESSON);
  await workbench.runCommand('Handspan: Show the Sheet Beside the Lesson');
  sheet = await workbench.sheet(LESSON);
  await sheet.paintedVersion();
});

afterAll(() => session?.close());

afterEach(async (context) => {
  if (context.task.result?.state === 'fail') await session.keepPicture(`failed-${context.task.id}`);
});

const transport = () => sheet.frame.locator('.transport');
const button = (name: string) => transport().getByRole('button', { name, exact: true });
const playButton = () => sheet.frame.getByRole('button', { name: 'Play Roll the changes' });
const stopButton = () => sheet.frame.getByRole('button', { name: 'Stop Roll the changes' });
const press = (key: string) => session.page.keyboard.press(key);

/** A number that the bar of controls keeps for tests. */
async function measured(name: 'startMs' | 'latestMs'): Promise<number> {
  const attribute = name === 'startMs' ? 'data-start-ms' : 'data-latest-ms';
  await sheet.frame.locator(`.transport[${attribute}]`).waitFor({ state: 'attached' });
  return Number(await transport().getAttribute(attribute));
}

/** Waits until the bar is heard; bars of the performance count from 0. */
async function heardBar(bar: number): Promise<void> {
  await sheet.frame.locator(`.transport[data-bar="${bar}"]`).waitFor({ state: 'attached' });
}

/** Times through that the drift is measured over. */
const ROUNDS = Number(process.env.HANDSPAN_ROUNDS ?? 8);

/** When the bar of controls tells the next times through, by the wall clock of the page. Unit: ms. */
function nextRounds(count: number): Promise<readonly number[]> {
  return sheet.frame.evaluate(
    (wanted) =>
      new Promise<number[]>((resolve) => {
        const seen: number[] = [];
        const heard = document.querySelector('.transport-place');
        if (heard === null) throw new Error('the page has no bar of controls');
        const observer = new MutationObserver(() => {
          seen.push(performance.now());
          if (seen.length < wanted) return;
          observer.disconnect();
          resolve(seen);
        });
        observer.observe(heard, { childList: true, characterData: true, subtree: true });
      }),
    count,
  );
}

function lineOf(piece: string): number {
  return text.split('\n').findIndex((line) => line.includes(piece)) + 1;
}

describe('the command in the editor', () => {
  test('plays from the bar at the cursor; before any gesture on the sheet it says what is needed, and Enter plays', async () => {
    await workbench.goTo(lineOf('| C | F |'), 9);
    await workbench.runCommand('Handspan: Play from the Cursor');
    await transport().waitFor();
    const told = transport().locator('.held-back');
    await Promise.race([told.waitFor(), heardBar(1)]);
    if (await told.isVisible()) {
      expect(await told.textContent()).toMatch(/Press Play/);
      await transport().locator('.transport-play:focus').waitFor();
      await press('Enter');
      await told.waitFor({ state: 'hidden' });
    }
    await heardBar(1);
    await sheet.frame.locator('g[data-bar="1.1"].sounding').waitFor();
    await transport().locator('button').first().focus();
    await press('Escape');
    await transport().waitFor({ state: 'hidden' });
    await expect.poll(() => sheet.frame.locator('.sounding').count()).toBe(0);
  });
});

describe('by the keyboard alone', () => {
  test('a press beside the title plays within 100 ms, with a bar of clicks before', async () => {
    await sheet.frame.locator('h3[data-place]').focus();
    await press('Tab');
    await expect.poll(() => playButton().evaluate((element) => element === document.activeElement)).toBe(true);
    await press('Enter');
    const first = await measured('startMs');
    await press('Escape');
    await transport().waitFor({ state: 'hidden' });
    // The keyboard is back where it came from.
    await expect.poll(() => playButton().evaluate((element) => element === document.activeElement)).toBe(true);
    const starts: number[] = [first];
    for (let time = 0; time < 5; time += 1) {
      await press('Enter');
      starts.push(await measured('startMs'));
      if (time < 4) await press('Escape');
    }
    const middle = [...starts].sort((a, b) => a - b)[3] ?? 0;
    console.log(`from the press to the first sound, in ms: ${starts.join(', ')}`);
    expect(middle).toBeLessThan(100);
  });

  test('the bar, the moment in it and the chord are marked, and go on', async () => {
    await heardBar(0);
    await sheet.frame.locator('g[data-bar="1.0"].sounding').waitFor();
    await sheet.frame.locator('g[data-bar="1.0"] .sounding-moment').waitFor({ state: 'attached' });
    const place = () => sheet.frame.locator('.sounding-moment').getAttribute('x');
    const before = await place();
    await expect.poll(place).not.toBe(before);
    await sheet.frame.locator('g[data-held="C"].sounding').first().waitFor();
    await heardBar(1);
    await sheet.frame.locator('g[data-bar="1.1"].sounding').waitFor();
    expect(await sheet.frame.locator('g[data-bar].sounding').count()).toBe(1);
    await sheet.frame.locator('g[data-held="F"].sounding').first().waitFor();
    expect(await sheet.frame.locator('g[data-held="C"].sounding').count()).toBe(0);
    await session.keepPicture('playing-light');
  });

  test('tempo, loop from here to here, and once more from the seam', async () => {
    for (let step = 0; step < 10; step += 1) await press('+');
    await transport().getByText('150 %, 90 a minute').waitFor();
    await press('[');
    await press(']');
    expect(await button('Loop').getAttribute('aria-pressed')).toBe('true');
    await transport()
      .locator('.transport-place', { hasText: /bar \d, time 3/ })
      .waitFor();
    await press('m');
    expect(await button('Metronome').getAttribute('aria-pressed')).toBe('true');
  });

  test('bars keep time with the wall clock: what is marked does not drift by 20 ms', async () => {
    // One bar of four beats at 90 a minute, round and round: 2667 ms each.
    await transport().evaluate((element) => element.removeAttribute('data-latest-ms'));
    const times = await nextRounds(ROUNDS);
    const behind = times.map((time, round) => time - (times[0] ?? 0) - (round * 4 * 60_000) / 90);
    const middle = (some: readonly number[]): number =>
      [...some].sort((a, b) => a - b)[Math.floor(some.length / 2)] ?? 0;
    const half = Math.floor(behind.length / 2);
    const drift = middle(behind.slice(half)) - middle(behind.slice(0, half));
    const span = ((times.at(-1) ?? 0) - (times[0] ?? 0)) / 1000;
    console.log(
      `drift over ${span.toFixed(0)} s: ${drift.toFixed(1)} ms, at most ${Math.max(...behind.map(Math.abs)).toFixed(1)} ms off; latest mark ${await measured('latestMs')} ms after its sound`,
    );
    expect(Math.abs(drift)).toBeLessThan(20);
  });

  test('a ladder climbs a step each time round', async () => {
    await press('a');
    expect(await button('Ladder').getAttribute('aria-pressed')).toBe('true');
    const times = await nextRounds(4);
    const perMinute = times.slice(1).map((time, index) => (4 * 60_000) / (time - (times[index] ?? 0)));
    // 60 to 72 by 4, at 150 percent; a step is 6 %, and pictures of the screen come every 17 ms of 2500.
    for (const tempo of perMinute)
      expect([90, 96, 102, 108].some((step) => Math.abs(tempo - step) < step * 0.025)).toBe(true);
    expect(perMinute.at(-1)).toBeGreaterThan(98);
    await press('a');
  });

  test('the button beside the title stops what it has begun, and Escape on the sheet ends it', async () => {
    await stopButton().focus();
    await press('Enter');
    await sheet.frame.locator('.transport[data-state="stopped"]').waitFor({ state: 'attached' });
    await playButton().focus();
    await press('Enter');
    await stopButton().waitFor();
    await stopButton().focus();
    await press('Escape');
    await transport().waitFor({ state: 'hidden' });
    await expect.poll(() => playButton().evaluate((element) => element === document.activeElement)).toBe(true);
  });

  test('the sheet comes to what is to be heard at the press, while the bar before it is counted', async () => {
    const barInView = () =>
      sheet.frame.locator('g[data-bar="1.0"]').evaluate((bar) => {
        const { top, bottom } = bar.getBoundingClientRect();
        return (
          top >= 0 &&
          bottom <= window.innerHeight - (document.querySelector<HTMLElement>('.transport')?.offsetHeight ?? 0)
        );
      });
    await session.page.setViewportSize({ width: 1440, height: 600 });
    await sheet.frame.waitForFunction(() => window.innerHeight < 600);
    await playButton().focus();
    await sheet.frame.evaluate(() => window.scrollTo({ top: 0, behavior: 'instant' }));
    expect(await barInView()).toBe(false);
    await press('Enter');
    await expect.poll(barInView).toBe(true);
    // It is still being counted: nothing is marked.
    expect(await sheet.frame.locator('.sounding').count()).toBe(0);
    expect(await transport().getAttribute('data-state')).toBe('playing');
    await session.page.setViewportSize({ width: 1440, height: 900 });
  });

  test('pause, and stop', async () => {
    await transport().locator('.transport-play').focus();
    await press(' ');
    await button('Play').waitFor();
    await press('s');
    await sheet.frame.locator('.transport[data-state="stopped"]').waitFor({ state: 'attached' });
    await expect.poll(() => sheet.frame.locator('.sounding').count()).toBe(0);
  });
});

describe('how it looks', () => {
  test('what is edited while it plays is heard from there on, and the marks stay', async () => {
    await press('Enter');
    await sheet.frame.locator('g[data-bar].sounding').waitFor();
    await workbench.goTo(lineOf('chord  F'), text.split('\n')[lineOf('chord  F') - 1]?.length ?? 1);
    const before = await sheet.paintedVersion();
    await workbench.goTo(lineOf('pick   4p'), 1);
    await press('End');
    await press('Backspace');
    await session.page.keyboard.type('a');
    await sheet.paintedAfter(before);
    await sheet.frame.locator('g[data-bar].sounding').waitFor();
    await press('Control+z');
    await press('Control+z');
    await sheet.frame.locator('g[data-bar].sounding').waitFor();
  });

  test.each([
    ['dark', 'Default Dark Modern', 'vscode-dark'],
    ['high-contrast-dark', 'Default High Contrast', 'vscode-high-contrast'],
    ['light', 'Default Light Modern', 'vscode-light'],
  ])('%s: the words of the controls stand out', async (name, theme, bodyClass) => {
    await useSettings(session.lessons, { 'workbench.colorTheme': theme });
    await sheet.frame.locator(`body.${bodyClass}`).waitFor();
    await sheet.frame.locator('g[data-bar].sounding').waitFor();
    await session.keepPicture(`playing-${name}`);
    // Source of the least contrast: WCAG 2.2, success criterion 1.4.3. The play button has a ground of its own, dark on light turned over.
    for (const { what, ratio } of await sheet.frame.evaluate(contrastOfText)) {
      if (!what.includes('transport-play')) expect(ratio, what).toBeGreaterThanOrEqual(4.5);
    }
  });

  test('in pages the bars are marked too, and a button stands beside the title', async () => {
    await sheet.frame.locator('#paper').selectOption('a4');
    await sheet.frame.locator('.block.page').first().waitFor();
    await stopButton().waitFor();
    await sheet.frame.locator('.page g[data-bar].sounding').waitFor();
    await session.keepPicture('playing-pages');
    await sheet.frame.locator('#paper').selectOption('');
    await sheet.frame.locator('.block.system').first().waitFor();
    await sheet.frame.locator('g[data-bar].sounding').waitFor();
  });

  test('a narrow pane has no sideways scrolling', async () => {
    await session.page.setViewportSize({ width: 760, height: 900 });
    await sheet.frame.waitForFunction(() => window.innerWidth < 400);
    await sheet.frame.waitForFunction(() => document.documentElement.scrollWidth <= window.innerWidth);
    await sheet.frame.locator('g[data-bar].sounding').waitFor();
    await session.keepPicture('playing-narrow');
    const height = await transport().evaluate((element) => element.getBoundingClientRect().height);
    expect(height).toBeLessThan(320);
  });

  test('nothing of it is printed', async () => {
    await session.page.emulateMedia({ media: 'print' });
    expect(await transport().isVisible()).toBe(false);
    expect(await sheet.frame.locator('.play-exercise').count()).toBe(1);
    expect(await sheet.frame.locator('.play-exercise').isVisible()).toBe(false);
    await session.page.emulateMedia({ media: 'screen' });
    const refused = session.log.filter(
      (line) => /Content Security Policy|uncaught/i.test(line) && /preview|handspan/i.test(line),
    );
    expect(refused).toEqual([]);
  });
});
