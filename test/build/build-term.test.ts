import * as fileSystem from 'node:fs/promises';
import { mkdir, mkdtemp, readdir, readFile, realpath, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type BuiltTerm, buildTerm } from '../../server/command-line/build/build-term.ts';
import { type Files, OutputFolder } from '../../server/command-line/build/output-folder.ts';
import { lessonLines, summaryLine } from '../../server/command-line/build/tell-build.ts';
import type { Desk } from '../../server/hand-out/desk.ts';
import { HandOutDesk } from '../../server/hand-out/desk.ts';
import type { HandOutChoice } from '../../shared/export/hand-out/hand-out-choice.ts';

const CHOICE: HandOutChoice = {
  kinds: ['midi', 'text'],
  editions: 'own',
  page: { paper: 'a4', print: 'normal' },
  look: { ink: 'light', halo: true },
  pictures: ['svg'],
};

function lesson(title: string, exercises: readonly string[] = ['Roll']): string {
  const head = `lesson ${title}\nchord C 0-0-0-3\nprogression verse\n  | C | C |\npattern roll\n  count 1 2 3 4\n  pick 4p 3i 2m 1a\n`;
  return head + exercises.map((one) => `exercise ${one}\n  play verse\n  with roll\n`).join('');
}

/** What pages are written with, in place of the bundles: no faces, and a script that does nothing. */
const PAGE_TOOLS = {
  facesFor: async () => ({}),
  pictureWriter: () => undefined,
  pageParts: () => ({
    script: '0',
    style: 'p{}',
    deflate: (text: string) => Buffer.from(text),
    sha256: () => new Uint8Array(32),
  }),
} as never;

/** A desk in this thread, counting what it makes. */
function countingDesk(): Desk & { made: number } {
  const nobody = (): never => {
    throw new Error('No large writer is needed here.');
  };
  const desk = new HandOutDesk({ tools: async () => PAGE_TOOLS, rasteriser: nobody });
  return {
    made: 0,
    list: async (job) => desk.list(job),
    make(job, name) {
      this.made += 1;
      return desk.make(job, name);
    },
    end: async () => undefined,
  };
}

let folder: string;
let term: string;
let out: string;
beforeEach(async () => {
  folder = await realpath(await mkdtemp(path.join(tmpdir(), 'handspan-build-')));
  term = path.join(folder, 'term');
  out = path.join(folder, 'out');
  await mkdir(term);
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const put = (name: string, text: string): Promise<void> => writeFile(path.join(folder, name), text);

interface Wish {
  readonly paths?: readonly string[];
  readonly choice?: Partial<HandOutChoice>;
  readonly files?: Partial<Files>;
  readonly to?: string;
  readonly stop?: AbortSignal;
}

async function built({
  paths = [term],
  choice = {},
  files = {},
  to = out,
  stop,
}: Wish = {}): Promise<BuiltTerm & { readonly made: number }> {
  const desk = countingDesk();
  const asked = { paths, to: new OutputFolder(to, { ...fileSystem, ...files }), choice: { ...CHOICE, ...choice } };
  const result = await buildTerm(asked, { desks: [desk], stop: stop ?? new AbortController().signal });
  return { ...result, made: desk.made };
}

/** All files below a folder with what is in them. */
async function filesIn(root: string): Promise<ReadonlyMap<string, string>> {
  const found = new Map<string, string>();
  for (const entry of await readdir(root, { withFileTypes: true, recursive: true })) {
    const file = path.join(entry.parentPath, entry.name);
    if (entry.isFile()) found.set(path.relative(root, file).split(path.sep).join('/'), await readFile(file, 'latin1'));
  }
  return new Map([...found].sort(([one], [other]) => (one < other ? -1 : 1)));
}

const namesIn = async (root: string): Promise<readonly string[]> =>
  [...(await filesIn(root)).keys()].filter((name) => name !== '.handspan-build.json');

describe('only what changed', () => {
  test('nothing is made twice; what is missing or edited is made again', async () => {
    await put('term/a.lesson', lesson('A', ['Roll', 'Again']));
    await put('term/b.lesson', lesson('B'));
    const first = await built();
    expect(first.lessons.map(({ written }) => written)).toEqual([
      ['a/01 Roll.mid', 'a/01 Roll.txt', 'a/02 Again.mid', 'a/02 Again.txt'],
      ['b/01 Roll.mid', 'b/01 Roll.txt'],
    ]);
    const before = await filesIn(out);
    const written = await stat(path.join(out, 'a/01 Roll.mid'));

    expect(await built()).toMatchObject({
      made: 0,
      lessons: [
        { written: [], unchanged: 4 },
        { written: [], unchanged: 2 },
      ],
    });

    await rm(path.join(out, 'a/01 Roll.txt'));
    await writeFile(path.join(out, 'b/01 Roll.mid'), 'edited');
    const mended = await built();
    expect(mended.lessons.flatMap((one) => one.written)).toEqual(['a/01 Roll.txt', 'b/01 Roll.mid']);
    expect(mended.made).toBe(2);
    expect(await filesIn(out)).toEqual(before);
    expect((await stat(path.join(out, 'a/01 Roll.mid'))).mtimeMs).toBe(written.mtimeMs);
  });

  test('a changed lesson writes the files that come out otherwise, and no others', async () => {
    await put('term/a.lesson', lesson('A', ['Roll', 'Again']));
    await built();
    await put('term/a.lesson', lesson('A', ['Roll', 'Once more']));
    const { lessons } = await built();
    expect(lessons[0]).toMatchObject({
      written: ['a/02 Once more.mid', 'a/02 Once more.txt'],
      unchanged: 2,
      removed: ['a/02 Again.mid', 'a/02 Again.txt'],
    });
    expect(await namesIn(out)).toEqual(['a/01 Roll.mid', 'a/01 Roll.txt', 'a/02 Once more.mid', 'a/02 Once more.txt']);
  });

  test('kinds that are not asked for stay as they are', async () => {
    await put('term/a.lesson', lesson('A'));
    await built({ choice: { kinds: ['text'] } });
    await built({ choice: { kinds: ['midi'] } });
    expect(await namesIn(out)).toEqual(['a/01 Roll.mid', 'a/01 Roll.txt']);
    expect((await built()).made).toBe(0);
  });

  test('a lesson that is no more takes its files with it, and nothing else', async () => {
    await put('term/a.lesson', lesson('A'));
    await put('term/b.lesson', lesson('B'));
    await built();
    await put('out/b/own notes.txt', 'mine');
    await put('out/mine.mid', 'mine');
    await rm(path.join(term, 'b.lesson'));
    await rm(path.join(term, 'a.lesson'));
    await put('term/c.lesson', lesson('C'));
    const { removed } = await built();
    expect(removed).toEqual(['a/01 Roll.mid', 'a/01 Roll.txt', 'b/01 Roll.mid', 'b/01 Roll.txt']);
    expect(await namesIn(out)).toEqual(['b/own notes.txt', 'c/01 Roll.mid', 'c/01 Roll.txt', 'mine.mid']);
    expect(await readdir(out)).not.toContain('a');
  });

  test('lessons that are not asked for keep theirs', async () => {
    await put('term/a.lesson', lesson('A'));
    await put('term/b.lesson', lesson('B'));
    await built();
    expect((await built({ paths: [path.join(term, 'a.lesson')] })).removed).toEqual([]);
    expect(await namesIn(out)).toHaveLength(4);
  });

  test('the same bytes for the same lessons, also of the notes', async () => {
    for (const name of ['a', 'b', 'c']) await put(`term/${name}.lesson`, lesson(name, ['One', 'Two']));
    await built();
    await built({ to: path.join(folder, 'other') });
    expect(await filesIn(path.join(folder, 'other'))).toEqual(await filesIn(out));
  });
});

describe('pages of one edition and of all', () => {
  const TWO = lesson('A').replace(
    'chord C',
    'for tenor ukulele, high G\nalso baritone ukulele, same shapes, called bari\nchord C',
  );
  const pages = (editions: HandOutChoice['editions']): Partial<HandOutChoice> => ({ kinds: ['page'], editions });

  test('each has a name that says what is in it, and none takes the place of another', async () => {
    await put('term/a.lesson', TWO);
    await built({ choice: pages('own') });
    const own = await filesIn(out);
    await built({ choice: pages('all') });
    await built({ choice: pages({ name: 'bari' }) });
    expect(await namesIn(out)).toEqual(['a/a - all editions.html', 'a/a - bari.html', 'a/a.html']);
    expect((await filesIn(out)).get('a/a.html')).toBe(own.get('a/a.html'));
    // All three stay known: nothing is made again, whichever is asked for.
    for (const editions of ['own', 'all', { name: 'bari' }] as const) {
      expect(await built({ choice: pages(editions) })).toMatchObject({
        made: 0,
        lessons: [{ unchanged: 1, removed: [] }],
      });
    }
    await rm(path.join(out, 'a/a - all editions.html'));
    expect((await built({ choice: pages('all') })).lessons[0]?.written).toEqual(['a/a - all editions.html']);
  });

  test('a lesson of one edition has one page, whatever is asked for; the page of editions that are no more goes', async () => {
    await put('term/a.lesson', TWO);
    await built({ choice: pages('all') });
    await put('term/a.lesson', lesson('A'));
    expect((await built({ choice: pages('all') })).lessons[0]).toMatchObject({
      written: ['a/a.html'],
      removed: ['a/a - all editions.html'],
    });
    expect((await built({ choice: pages('own') })).lessons[0]).toMatchObject({ written: [], removed: [] });
    expect(await namesIn(out)).toEqual(['a/a.html']);
  });

  test('what was made of another text and is not asked for now stays, and that is told', async () => {
    await put('term/a.lesson', TWO);
    await built({ choice: pages('own') });
    await built({ choice: { kinds: ['text'], page: { paper: 'letter', print: 'normal' } } });
    await put('term/a.lesson', TWO.replace('exercise Roll', 'exercise Rolling'));
    for (const _ of ['at once', 'and when nothing has changed']) {
      const { lessons } = await built({ choice: pages('all') });
      expect(lessons[0]).toMatchObject({ removed: [], older: ['a/01 Roll.txt', 'a/a.html'] });
      expect(lessons.flatMap(lessonLines)).toEqual([
        `${path.join(term, 'a.lesson')}: note: made by an earlier build from another text of the lesson, and left as it was: a/01 Roll.txt and 1 more\n`,
      ]);
    }
    await built({ choice: { kinds: ['text', 'page'] } });
    expect((await built({ choice: pages('all') })).lessons[0]?.older).toEqual([]);
    expect(await namesIn(out)).toEqual(['a/01 Rolling.txt', 'a/a - all editions.html', 'a/a.html']);
  });

  test('an edition that is left out of the page of all is told', async () => {
    // The low string of the other edition is silent in the shape that is asked of it by its name alone.
    await put('term/a.lesson', `${TWO}\nedition bari\n  chord C 0-0-0-99\n`);
    const { lessons } = await built({ choice: pages('all') });
    expect(lessons[0]?.told.remarks).toEqual([
      'a/a - all editions.html: not on the page, since something of it is left out: bari',
    ]);
  });
});

describe('lessons with errors', () => {
  test('F-4: of forty lessons 38 are written whole, 2 are listed with file and line', async () => {
    for (let number = 1; number <= 40; number += 1) {
      const text = lesson(`Lesson ${number}`, ['Roll', 'Again']);
      const faulty = number === 7 || number === 23;
      const name = `term/${String(number).padStart(2, '0')}.lesson`;
      await put(name, faulty ? text.replace(/with roll\n$/, 'with rol\n') : text);
    }
    const result = await built();
    expect(result.complaints).toEqual([]);
    expect(result.lessons).toHaveLength(40);
    const whole = result.lessons.filter(({ written, told }) => written.length === 4 && told.errors.length === 0);
    expect(whole).toHaveLength(38);
    const lines = result.lessons.flatMap(lessonLines);
    const at = (name: string): string => path.join(term, name);
    expect(lines).toEqual(
      ['07.lesson', '23.lesson'].flatMap((name) => [
        `${at(name)}:13:8: error: There is no pattern or melody called rol; did you mean roll? [name.unknown]\n`,
        `${at(name)}:11: left out: exercise 2, Again, because of line 13: There is no pattern or melody called rol; did you mean roll?\n`,
      ]),
    );
    // What is sound of the two is there.
    expect(await namesIn(path.join(out, '07'))).toEqual(['01 Roll.mid', '01 Roll.txt']);
    expect(summaryLine(result, 'out')).toBe('out: 40 lessons, 2 with errors; 156 files written, 0 as before\n');
    // And is told again when nothing has changed.
    const again = await built();
    expect(again.made).toBe(0);
    expect(again.lessons.flatMap(lessonLines)).toEqual(lines);
  });

  test('a file that is no text is told, and the others are made', async () => {
    await put('term/a.lesson', lesson('A'));
    await writeFile(path.join(term, 'b.lesson'), Uint8Array.of(0xff, 0xfe, 0x00, 0xd8));
    const { complaints, lessons } = await built();
    expect(complaints).toEqual([`${path.join(term, 'b.lesson')}: is not UTF-8 text`]);
    expect(lessons).toHaveLength(1);
  });
});

describe('where files go', () => {
  test('folders in the term stay folders; names that systems take for the same do not meet', async () => {
    await mkdir(path.join(term, 'week 1'));
    await mkdir(path.join(term, 'con'));
    await put('term/week 1/a.lesson', lesson('A'));
    await put('term/con/nul.lesson', lesson('A'));
    await put('term/Ä.lesson', lesson('A'));
    await put('term/A\u0308.lesson', lesson('A'));
    await put('term/roll.lesson', lesson('A'));
    await put('term/ROLL.lesson', lesson('A'));
    await built({ choice: { kinds: ['midi'] } });
    expect((await namesIn(out)).map((name) => path.posix.dirname(name))).toEqual([
      'ROLL',
      'con_/nul_',
      'roll 2',
      'week 1/a',
      'Ä 2',
      'Ä',
    ]);
    expect((await built({ choice: { kinds: ['midi'] } })).made).toBe(0);
  });

  test('a title that leads out, and one of two letters that is in no way a name', async () => {
    await put('term/a.lesson', lesson('../../x', ['../../../../tmp/evil', '..', '/etc/passwd', '.']));
    await built({ choice: { kinds: ['midi'] } });
    expect(await namesIn(out)).toEqual(['a/01 tmp evil.mid', 'a/02.mid', 'a/03 etc passwd.mid', 'a/04.mid']);
    expect(await readdir(folder)).toEqual(['out', 'term']);
  });

  test('what is handed out is not read as a lesson', async () => {
    await put('term/a.lesson', lesson('A'));
    const to = path.join(term, 'out');
    await built({ to });
    await put('term/out/copy.lesson', lesson('B'));
    const again = await built({ to });
    expect(again.lessons.map(({ file }) => path.basename(file))).toEqual(['a.lesson']);
    expect(again.removed).toEqual([]);
  });

  test('into the term itself', async () => {
    await put('term/a.lesson', lesson('A'));
    await built({ to: term });
    expect(await namesIn(term)).toEqual(['a.lesson', 'a/01 Roll.mid', 'a/01 Roll.txt']);
    expect((await built({ to: term })).made).toBe(0);
  });

  test('a link that leads out of the folder is not followed, neither to write nor to remove', async () => {
    await put('term/a.lesson', lesson('A'));
    await built();
    const elsewhere = path.join(folder, 'elsewhere');
    await fileSystem.rename(path.join(out, 'a'), elsewhere);
    await symlink(elsewhere, path.join(out, 'a'));
    const before = await filesIn(elsewhere);
    await put('term/a.lesson', lesson('A', ['Other']));
    const { complaints } = await built();
    expect(complaints.join()).toContain(`${path.join(out, 'a')}: is a link to another folder`);
    expect(await filesIn(elsewhere)).toEqual(before);
  });

  test('a link in the place of a file is replaced, and what it leads to stays', async () => {
    await put('term/a.lesson', lesson('A'));
    await built();
    await put('precious', 'precious');
    await rm(path.join(out, 'a/01 Roll.txt'));
    await symlink(path.join(folder, 'precious'), path.join(out, 'a/01 Roll.txt'));
    await built();
    expect(await readFile(path.join(folder, 'precious'), 'utf8')).toBe('precious');
    expect(await readFile(path.join(out, 'a/01 Roll.txt'), 'utf8')).toContain('Roll');
  });

  test('notes that name files outside lead nowhere', async () => {
    await put('term/a.lesson', lesson('A'));
    await put('precious.mid', 'precious');
    await built();
    const notes = path.join(out, '.handspan-build.json');
    const text = await readFile(notes, 'utf8');
    await writeFile(notes, text.replace('"a/01 Roll.mid": {', '"../precious.mid": {'));
    await rm(path.join(out, 'a/01 Roll.mid'));
    const { complaints } = await built();
    expect(complaints.join()).toContain('../precious.mid: is no name of a file in');
    expect(await readFile(path.join(folder, 'precious.mid'), 'utf8')).toBe('precious');
  });

  test('a file that is there already and is not ours stays', async () => {
    await put('term/a.lesson', lesson('A'));
    await mkdir(path.join(out, 'a'), { recursive: true });
    await put('out/a/01 Roll.txt', 'mine');
    const { complaints } = await built();
    expect(complaints).toEqual([
      `${path.join(out, 'a/01 Roll.txt')}: is there already and was not made here; it is left as it is`,
    ]);
    expect(await readFile(path.join(out, 'a/01 Roll.txt'), 'utf8')).toBe('mine');
    await rm(path.join(out, 'a/01 Roll.txt'));
    expect((await built()).complaints).toEqual([]);
  });
});

describe('what cannot be read or written', () => {
  test.each([
    ['no such path', async () => [path.join(folder, 'nowhere')], 'there is no such file'],
    ['a folder without lessons', async () => [term], 'there is no lesson in this folder'],
  ])('%s', async (_what, paths, sentence) => {
    const { complaints, lessons } = await built({ paths: await paths() });
    expect(complaints).toHaveLength(1);
    expect(complaints[0]).toContain(sentence);
    expect(lessons).toEqual([]);
  });

  test('a file in the place of the folder', async () => {
    await put('term/a.lesson', lesson('A'));
    await put('out', 'mine');
    expect((await built()).complaints).toEqual([`${out}: cannot be a folder, since there is a file in its place`]);
    expect((await built({ to: path.join(out, 'deep') })).complaints).toHaveLength(1);
    expect(await readFile(out, 'utf8')).toBe('mine');
  });

  /** A file system that refuses from the write of this number on, in the middle of a file. */
  function failing(code: string, after: number): Partial<Files> {
    let opened = 0;
    return {
      open: async (file, flags, mode) => {
        const handle = await fileSystem.open(file, flags, mode);
        opened += 1;
        if (opened <= after) return handle;
        handle.writeFile = async (data) => {
          await handle.write(Buffer.from(data as Uint8Array).subarray(0, 5));
          throw Object.assign(new Error(code), { code, syscall: 'write' });
        };
        return handle;
      },
    };
  }

  test.each([0, 1, 2, 3, 4, 5])('a disk that is full after %i files', async (after) => {
    for (const name of ['a', 'b', 'c']) await put(`term/${name}.lesson`, lesson(name));
    const whole = path.join(folder, 'whole');
    await built({ to: whole });
    const expected = await filesIn(whole);
    const { complaints, finished } = await built({ files: failing('ENOSPC', after) });
    expect(complaints).toHaveLength(1);
    expect(complaints[0]).toMatch(/: does not fit: the disk is full$/);
    expect(finished).toBe(false);
    // Whatever is there is whole, and once there is room the rest comes.
    for (const [name, content] of await filesIn(out)) {
      if (name !== '.handspan-build.json') expect(content, name).toBe(expected.get(name));
    }
    expect((await built()).complaints).toEqual([]);
    expect(await filesIn(out)).toEqual(expected);
  });

  test('a folder that may not be written to', async () => {
    await put('term/a.lesson', lesson('A'));
    const refuse = async (): Promise<never> => {
      throw Object.assign(new Error('EACCES'), { code: 'EACCES', syscall: 'open' });
    };
    const { complaints } = await built({ files: { open: refuse } });
    expect(complaints).toEqual([`${out}: may not be opened by you`]);
  });

  test('stopped: what is written is whole, and the next build goes on from there', async () => {
    for (const name of ['a', 'b', 'c']) await put(`term/${name}.lesson`, lesson(name));
    const stop = new AbortController();
    let opened = 0;
    const open: Files['open'] = (file, flags, mode) => {
      if (++opened === 4) stop.abort();
      return fileSystem.open(file, flags, mode);
    };
    const { finished, complaints } = await built({ files: { open }, stop: stop.signal });
    expect({ finished, complaints }).toEqual({ finished: false, complaints: [] });
    expect((await namesIn(out)).length).toBeLessThan(6);
    expect((await namesIn(out)).every((name) => !name.endsWith('.part'))).toBe(true);
    await built();
    expect(await namesIn(out)).toHaveLength(6);
  });

  test('what a process that is no more has left half written is taken away; what another one writes now is not', async () => {
    await put('term/a.lesson', lesson('A'));
    await built();
    // Source: Linux, proc(5), pid_max is at most 2^22: no process has this number.
    await put('out/a/.handspan-99999999-1.part', 'half');
    await put(`out/a/.handspan-${process.pid}-999.part`, 'half');
    await built();
    expect(await readdir(path.join(out, 'a'))).toEqual([
      `.handspan-${process.pid}-999.part`,
      '01 Roll.mid',
      '01 Roll.txt',
    ]);
  });
});
