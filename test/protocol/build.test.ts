import { type ChildProcess, spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import midi from '@tonejs/midi';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { faultOf } from '../export/musicxml/schema.ts';
import { SERVER } from './lesson-editor.ts';

const HANDSPAN = path.join(path.dirname(SERVER), 'handspan.js');
const SAMPLES = fileURLToPath(new URL('../../client/samples/', import.meta.url));

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'handspan-build-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly complaints: string;
}

/** Starts the command line in the folder of the test. `during` may do what a person would do meanwhile. */
function handspan(
  words: readonly string[],
  during?: (running: ChildProcess, seen: () => string) => void,
): Promise<Ran> {
  return new Promise((resolve) => {
    const running = spawn(process.execPath, [HANDSPAN, ...words], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let complaints = '';
    running.stdout.setEncoding('utf8').on('data', (part: string) => {
      out += part;
      during?.(running, () => out + complaints);
    });
    running.stderr.setEncoding('utf8').on('data', (part: string) => {
      complaints += part;
      during?.(running, () => out + complaints);
    });
    running.on('close', (code) => resolve({ code, out, complaints }));
  });
}

/** All files below a folder, by their names from there. */
async function filesIn(root: string): Promise<ReadonlyMap<string, Buffer>> {
  const found = new Map<string, Buffer>();
  for (const entry of await readdir(path.join(folder, root), { withFileTypes: true, recursive: true })) {
    const file = path.join(entry.parentPath, entry.name);
    if (entry.isFile()) found.set(path.relative(path.join(folder, root), file), await readFile(file));
  }
  return found;
}

/** Width and height. Source: PNG (third edition), 5.2 and 11.2.1: the signature, then the image header. */
function pngSize(bytes: Buffer): readonly number[] {
  expect(bytes.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}

const LIGHT = 'pdf,page,midi,musicxml,text,json,chapters';

describe('the sample term', () => {
  test('every file of every kind is one that others read', { timeout: 300_000 }, async () => {
    const { code, out, complaints } = await handspan([
      'build',
      SAMPLES,
      '--to',
      'term',
      '--edition',
      'all',
      '--as',
      LIGHT,
    ]);
    expect(complaints).toMatch(/^(\d of 7 lessons: .+\.lesson, \d+ files written\n){7}$/);
    expect(out).toMatch(/^term: 7 lessons; \d+ files written, 0 as before\n$/);
    expect(code).toBe(0);
    const files = await filesIn('term');
    const count: Record<string, number> = {};
    for (const [name, bytes] of files) {
      const ending = path.extname(name);
      count[ending] = (count[ending] ?? 0) + 1;
      if (ending === '.pdf') {
        // Source: ISO 32000-1, 7.5.2 and 7.5.5: header and end of a file.
        expect(bytes.subarray(0, 8).toString('latin1'), name).toBe('%PDF-1.7');
        expect(bytes.subarray(-6).toString('latin1'), name).toMatch(/%%EOF\n?$/);
      }
      // Source: HTML standard, 13.1.1 and 13.1.2: the doctype, and the end tag of the outermost element.
      if (ending === '.html') expect(bytes.toString('utf8'), name).toMatch(/^<!doctype html>[\s\S]*<\/html>\s*$/i);
      if (ending === '.musicxml') expect(faultOf(bytes.toString('utf8')), name).toBeUndefined();
      if (ending === '.mid') expect(new midi.Midi(bytes).tracks.length, name).toBeGreaterThan(0);
      if (ending === '.json') expect(JSON.parse(bytes.toString('utf8')), name).toHaveProperty('format');
      if (ending === '.txt') expect(bytes.toString('utf8'), name).not.toMatch(/\bundefined\b|\bNaN\b|^$/);
    }
    for (const ending of ['.pdf', '.mid', '.musicxml', '.json', '.txt'])
      expect(count[ending], ending).toBeGreaterThan(6);
    expect(count['.mid']).toBe(count['.musicxml']);
    expect(count['.html']).toBe(7);

    const again = await handspan(['build', SAMPLES, '--to', 'term', '--edition', 'all', '--as', LIGHT, '--json']);
    expect(again.code).toBe(0);
    const told = JSON.parse(again.out) as { lessons: { written: string[]; unchanged: number }[] };
    expect(told.lessons.flatMap(({ written }) => written)).toEqual([]);

    const other = await handspan(['build', SAMPLES, '--to', 'other', '--edition', 'all', '--as', LIGHT]);
    expect(other.code).toBe(0);
    const others = await filesIn('other');
    expect([...others.keys()].sort()).toEqual([...files.keys()].sort());
    for (const [name, bytes] of files) expect(others.get(name)?.equals(bytes), name).toBe(true);
  });

  test('pictures are as large as frames of a video, and come out the same one by one', {
    timeout: 300_000,
  }, async () => {
    const lesson = path.join(SAMPLES, '1-paper-lanterns.lesson');
    expect((await handspan(['build', lesson, '--to', 'pictures', '--as', 'pictures'])).code).toBe(0);
    const files = await filesIn('pictures');
    const pngs = [...files].filter(([name]) => name.endsWith('.png'));
    expect(pngs.length).toBeGreaterThan(20);
    for (const [name, bytes] of pngs) {
      expect(pngSize(bytes), name).toEqual(name.includes(`${path.sep}wide${path.sep}`) ? [1920, 1080] : [1080, 1920]);
      expect(files.has(name.replace(/png$/, 'svg')), name).toBe(true);
    }
    // The last one alone, by a writer that has met none of the others.
    const [last, bytes] = pngs.at(-1) ?? ['', Buffer.alloc(0)];
    await rm(path.join(folder, 'pictures', last));
    expect((await handspan(['build', lesson, '--to', 'pictures', '--as', 'pictures'])).out).toContain(
      ' 1 file written',
    );
    expect((await readFile(path.join(folder, 'pictures', last))).equals(bytes)).toBe(true);
  });
});

describe('cut off', () => {
  beforeAll(async () => {
    await mkdir(path.join(folder, 'long'));
    for (let number = 1; number <= 3; number += 1) {
      for (const name of ['1-paper-lanterns', '5-window-waltz'])
        await cp(path.join(SAMPLES, `${name}.lesson`), path.join(folder, 'long', `${name} ${number}.lesson`));
    }
    expect((await handspan(['build', 'long', '--to', 'whole', '--as', LIGHT])).code).toBe(0);
  }, 120_000);

  async function expectWholeFiles(root: string): Promise<void> {
    const whole = await filesIn('whole');
    for (const [name, bytes] of await filesIn(root)) {
      if (name.endsWith('.part') || name === '.handspan-build.json') continue;
      expect(whole.get(name)?.equals(bytes), name).toBe(true);
    }
  }

  test('killed: no file is half written, and the next build completes the rest', { timeout: 180_000 }, async () => {
    for (const [turn, after] of [1, 2, 4].entries()) {
      const root = `killed-${turn}`;
      const killed = await handspan(['build', 'long', '--to', root, '--as', LIGHT], (running, seen) => {
        if (seen().includes(`${after} of 6`)) running.kill('SIGKILL');
      });
      expect(killed.code).toBeNull();
      await expectWholeFiles(root);
      expect((await filesIn(root)).size).toBeLessThan((await filesIn('whole')).size);
      expect((await handspan(['build', 'long', '--to', root, '--as', LIGHT])).code).toBe(0);
      const [completed, whole] = [await filesIn(root), await filesIn('whole')];
      expect([...completed.keys()].sort()).toEqual([...whole.keys()].sort());
      for (const [name, bytes] of whole) expect(completed.get(name)?.equals(bytes), name).toBe(true);
    }
  });

  test('Ctrl-C: nothing half written stays, and that is said', { timeout: 60_000 }, async () => {
    let pressed = false;
    const stopped = await handspan(['build', 'long', '--to', 'stopped', '--as', LIGHT], (running, seen) => {
      if (!pressed && /1 of 6/.test(seen())) pressed = running.kill('SIGINT');
    });
    expect(stopped.code).toBe(2);
    expect(stopped.complaints).toMatch(/\nhandspan: stopped before all was made; what is written is whole\n$/);
    await expectWholeFiles('stopped');
    expect([...(await filesIn('stopped')).keys()].filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

test('watching: makes again what changes, tells errors, and ends with Ctrl-C', { timeout: 60_000 }, async () => {
  await mkdir(path.join(folder, 'watched'));
  const lesson = path.join(folder, 'watched', 'a.lesson');
  const text = (pattern: string): string =>
    `lesson A\nchord C 0-0-0-3\nprogression v\n  | C |\npattern roll\n  count 1 2 3 4\n  pick 4p 3i 2m 1a\nexercise Roll\n  play v\n  with ${pattern}\n`;
  await writeFile(lesson, text('roll'));
  let round = 0;
  const { code, out } = await handspan(
    ['build', 'watched', '--to', 'seen', '--as', 'text', '--watch'],
    (running, seen) => {
      const rounds = seen().split('Watching for changes').length - 1;
      if (rounds === round) return;
      round = rounds;
      if (round === 1) void writeFile(lesson, text('rol'));
      // An editor may put a new file in the place of the old one.
      if (round === 2) void writeFile(`${lesson}.new`, text('roll')).then(() => rename(`${lesson}.new`, lesson));
      if (seen().match(/1 file written, 0 as before/g)?.length === 2) running.kill('SIGINT');
    },
  );
  expect(code).toBe(0);
  expect(out).toContain(`a.lesson:10:8: error: There is no pattern or melody called rol`);
  expect(out).toContain('1 removed');
  expect((await stat(path.join(folder, 'seen/a/01 Roll.txt'))).size).toBeGreaterThan(0);
});

describe('refusals', () => {
  test.each([
    [['build'], /name at least one lesson/],
    [['build', '.'], /say where to: --to DIR/],
    [['build', '.', '--to', 'x', '--as', 'pfd'], /--as: "pfd" is not known; did you mean pdf\?/],
    [['build', '.', '--to', 'x', '--paper', 'a3'], /--paper: "a3" is not known/],
    [['build', 'nowhere', '--to', 'x'], /^handspan: nowhere: there is no such file\n$/],
    [
      ['build', SAMPLES, '--to', '/dev/null/x'],
      /^handspan: \/dev\/null\/x: cannot be a folder, since there is a file in its place\n$/,
    ],
    [
      ['build', SAMPLES, '--to', '/proc/handspan', '--as', 'text'],
      /^handspan: \/proc\/handspan: no folder can be made there\n$/,
    ],
    [['build', SAMPLES, '--to', 'x', '--as', 'text', '--edition', 'kazoo'], /no lesson has an edition called kazoo\n$/],
  ])('%j', async (words, complaint) => {
    const { code, complaints } = await handspan(words);
    expect(complaints).toMatch(complaint);
    expect(code).toBe(2);
  });
});
