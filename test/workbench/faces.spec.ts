import { appendFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { textWidth } from '../../shared/engrave/text-width.ts';
import { openSession, type Session, type WebEditor } from './session.ts';
import { whichEditor } from './which-editor.ts';
import { type SheetPage, WorkbenchPage } from './workbench-page.ts';

const LESSON = 'lanterns.lesson';
const COMMAND = 'Handspan: Show the Sheet Beside the Lesson';

/** Words in letters beyond the Latin ones, one of them with a sign that makes no letter of its own with the one before it. */
const WORDS = `
progression  song
  | C | F | G7 | C |
  words  свет, щу-ка, їжак, за\u0301-мок | әні, құс, Өвөл, үн | φως, χαρ-τί, Ψυ-χή | đèn giấy, Ổ, ự, Ở

exercise  Ёлка
  play  song
  with  roll
`;

let session: Session;
let sheet: SheetPage;

beforeAll(async () => {
  session = await openSession({ editor: whichEditor() as WebEditor });
  await appendFile(path.join(session.lessons, LESSON), WORDS);
  const workbench = new WorkbenchPage(session.page);
  await workbench.openFile(LESSON);
  await workbench.runCommand(COMMAND);
  sheet = await workbench.sheet(LESSON);
  await sheet.paintedVersion();
});

afterAll(() => session?.close());

test('the page has the faces that came with it, and none failed', async () => {
  const faces = await sheet.frame.evaluate(async () => {
    await document.fonts.ready;
    return [...document.fonts].map(({ family, status }) => ({ family: family.replaceAll('"', ''), status }));
  });
  expect(faces.filter(({ status }) => status === 'error')).toEqual([]);
  const loaded = new Set(faces.filter(({ status }) => status === 'loaded').map(({ family }) => family));
  expect([...loaded].sort()).toEqual(['Source Sans 3', 'Source Serif 4']);
});

test('the browser sets each text as wide as the sheet reckons it', async () => {
  const measured = await sheet.frame.evaluate(async () => {
    await document.fonts.ready;
    return [...document.querySelectorAll<SVGTextElement>('#sheet svg text')]
      .filter((text) => text.querySelector('tspan') === null && text.textContent !== '')
      .map((text) => ({
        text: text.textContent ?? '',
        role: /\b(num|name|count|word)\b/.exec(text.getAttribute('class') ?? '')?.[1] ?? '',
        size: Number(text.getAttribute('font-size')),
        bold: text.getAttribute('font-weight') === '700',
        width: text.getComputedTextLength(),
      }));
  });
  expect(measured.length).toBeGreaterThan(50);
  const texts = measured.map(({ text }) => text).join(' ');
  for (const word of ['їжак,', 'Өвөл,', 'φως,', 'giấy,']) expect(texts).toContain(word);
  const wrong = measured.filter(({ text, role, size, bold, width }) => {
    const named = role === 'num' ? 'number' : role;
    if (named !== 'number' && named !== 'name' && named !== 'count' && named !== 'word') return true;
    return Math.abs(textWidth(text, named, size, bold ? 'bold' : 'plain') - width) > size / 200;
  });
  expect(wrong).toEqual([]);
});
