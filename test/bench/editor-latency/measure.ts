import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Frame, Page } from 'playwright-core';
import { openSession } from '../../workbench/session.ts';
import { WorkbenchPage } from '../../workbench/workbench-page.ts';
import { generatedLesson } from '../generated-lesson.ts';

const LINES = 400;
const ROUNDS = 10;
const KEYS_A_ROUND = 20;
/** The product may take this many times what the plain echo takes, median against median. */
const BUDGET_RATIO = 1.5;

/** The two pages that take turns in one window, so that both meet the same machine in the same mood. */
const CONTENDERS = [
  { name: 'echo of the plain text', command: 'Echo: Show the Plain Text Beside', block: '#text' },
  { name: 'Handspan', command: 'Handspan: Show the Sheet Beside the Lesson', block: '#sheet [data-block]' },
] as const;

/** Measures from the key press to the frame that shows its change, and prints both contenders and their ratio. */
export async function measureEditor(): Promise<void> {
  const session = await openSession({ editor: 'oldest', helpers: ['test/bench/editor-latency/echo'] });
  try {
    const text = generatedLesson(LINES);
    await writeFile(path.join(session.lessons, 'long.lesson'), text);
    const workbench = new WorkbenchPage(session.page);
    await workbench.openFile('long.lesson');
    const line = middleProseLine(text);
    await session.page.evaluate(noteKeys);
    const times = CONTENDERS.map((): number[] => []);
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const [index, { command, block }] of CONTENDERS.entries()) {
        await workbench.runCommand(command);
        const frame = await workbench.frameHolding(block);
        await workbench.goTo(line, 4);
        times[index]?.push(...(await timeKeys(session.page, frame)));
      }
    }
    const [echo = [], product = []] = times;
    CONTENDERS.forEach(({ name }, index) => {
      const all = times[index] ?? [];
      console.log(`${name.padEnd(24)} ${all.length} keys   median ${ms(all, 0.5)}   p95 ${ms(all, 0.95)}`);
    });
    const ratio = quantile(product, 0.5) / quantile(echo, 0.5);
    const verdict = ratio <= BUDGET_RATIO ? 'kept' : 'MISSED';
    console.log(`median against median: ${ratio.toFixed(2)} (budget ${BUDGET_RATIO}: ${verdict})`);
  } finally {
    await session.close();
  }
}

/** Presses one key after the other, each when the one before is painted. The first warms up and is not counted. */
async function timeKeys(page: Page, frame: Frame): Promise<readonly number[]> {
  await frame.evaluate(notePaints);
  const times: number[] = [];
  for (let key = 0; key <= KEYS_A_ROUND; key += 1) {
    const before = await frame.evaluate(() => Number(document.documentElement.dataset.paintedVersion));
    await page.keyboard.press('a');
    await frame.waitForFunction(
      (version) => Number(document.documentElement.dataset.paintedVersion) > version,
      before,
      { polling: 'raf' },
    );
    const pressed = await page.evaluate(() => Number(Reflect.get(window, 'lastKeyAt')));
    const painted = await frame.evaluate(() => Number(Reflect.get(window, 'lastPaintAt')));
    if (key > 0) times.push(painted - pressed);
  }
  return times;
}

/** Runs in the editor's page. The clocks of two frames differ in their start only. */
function noteKeys(): void {
  window.addEventListener(
    'keydown',
    () => Object.assign(window, { lastKeyAt: performance.timeOrigin + performance.now() }),
    true,
  );
}

/** Runs in the contender's page. */
function notePaints(): void {
  if (Reflect.has(window, 'lastPaintAt')) return;
  Object.assign(window, { lastPaintAt: 0 });
  new MutationObserver(() => {
    Object.assign(window, { lastPaintAt: performance.timeOrigin + performance.now() });
  }).observe(document.documentElement, { attributes: true, attributeFilter: ['data-painted-version'] });
}

function middleProseLine(text: string): number {
  const lines = text.split('\n');
  const index = lines.findIndex((line, at) => at > lines.length / 2 && line.startsWith('> '));
  if (index < 0) throw new Error('the long lesson has no prose in its second half');
  return index + 1;
}

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

function ms(times: readonly number[], share: number): string {
  return `${quantile(times, share).toFixed(1)} ms`;
}
