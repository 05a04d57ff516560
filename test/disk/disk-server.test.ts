import {
  chmod,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  realpath,
  rename,
  rm,
  stat,
  symlink,
  writeFile,
} from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { serveDisk } from './disk-server.mjs';

let outside: string;
let folder: string;
let server: Awaited<ReturnType<typeof serveDisk>>;

beforeEach(async () => {
  outside = await realpath(await mkdtemp(path.join(tmpdir(), 'handspan-disk-')));
  folder = path.join(outside, 'lessons');
  await mkdir(path.join(folder, 'week-1'), { recursive: true });
  await writeFile(path.join(folder, 'a.lesson'), 'lesson  A\n');
  await writeFile(path.join(outside, 'secret.txt'), 'not for the page');
  server = await serveDisk(folder);
});

afterEach(async () => {
  await server.close();
  await rm(outside, { recursive: true, force: true });
});

interface Refusal {
  readonly code: string;
}

async function ask(
  method: string,
  what: string,
  asked: Readonly<Record<string, string>>,
  body?: string,
  headers: Readonly<Record<string, string>> = { 'x-handspan-token': server.token },
): Promise<Response> {
  const query = new URLSearchParams(asked);
  return fetch(`${server.address}/${what}?${query}`, { method, headers, ...(body === undefined ? {} : { body }) });
}

async function refusalOf(answer: Promise<Response>): Promise<[number, string]> {
  const response = await answer;
  const refusal: Refusal = JSON.parse(await response.text());
  return [response.status, refusal.code];
}

const overwrite = { create: 'yes', overwrite: 'yes' };

describe('who may ask', () => {
  test('listens on the loopback address only', () => {
    expect(new URL(server.address).hostname).toBe('127.0.0.1');
  });

  test.each([
    ['no token', {}],
    ['a wrong token', { 'x-handspan-token': 'guess' }],
  ])('%s is refused for every call', async (_name, headers) => {
    const calls = [
      ['GET', 'stat'],
      ['GET', 'list'],
      ['GET', 'file'],
      ['PUT', 'file'],
      ['POST', 'folder'],
      ['DELETE', 'entry'],
      ['POST', 'move'],
      ['GET', 'changes'],
    ] as const;
    for (const [method, what] of calls) {
      const answer = ask(method, what, { path: '/lessons/a.lesson', ...overwrite }, undefined, headers);
      expect(await refusalOf(answer), `${method} ${what}`).toEqual([401, 'NoPermissions']);
    }
    expect(await readFile(path.join(folder, 'a.lesson'), 'utf8')).toBe('lesson  A\n');
  });

  test('a page from another site is refused even with the token', async () => {
    const headers = { 'x-handspan-token': server.token, origin: 'http://localhost.example.org' };
    const response = await ask('GET', 'file', { path: '/lessons/a.lesson' }, undefined, headers);
    expect(response.status).toBe(401);
    expect(response.headers.get('access-control-allow-origin')).toBeNull();
  });

  test('the editor’s own page is let in', async () => {
    const origin = 'http://v--1a2b.handspan.localhost:4205';
    const headers = { 'x-handspan-token': server.token, origin };
    const response = await ask('GET', 'file', { path: '/lessons/a.lesson' }, undefined, headers);
    expect(await response.text()).toBe('lesson  A\n');
    expect(response.headers.get('access-control-allow-origin')).toBe(origin);
  });
});

describe('nothing outside the folder', () => {
  test.each([
    '/lessons/../secret.txt',
    '/lessons/week-1/../../secret.txt',
    '/../secret.txt',
    '/secret.txt',
    'lessons/a.lesson',
    '/lessons/..\\secret.txt',
    '/lessons/a.lesson\0',
    '',
  ])('%j cannot be read or written', async (editorPath) => {
    expect((await ask('GET', 'file', { path: editorPath })).status).toBeGreaterThanOrEqual(403);
    expect((await ask('PUT', 'file', { path: editorPath, ...overwrite }, 'x')).status).toBeGreaterThanOrEqual(403);
    expect(await readFile(path.join(outside, 'secret.txt'), 'utf8')).toBe('not for the page');
  });

  test('a link that leads out is neither read, listed through nor written', async () => {
    await symlink(path.join(outside, 'secret.txt'), path.join(folder, 'file-link'));
    await symlink(outside, path.join(folder, 'folder-link'));
    await symlink(path.join(outside, 'new.txt'), path.join(folder, 'dangling-link'));
    for (const name of ['file-link', 'folder-link/secret.txt', 'folder-link/new.txt', 'dangling-link']) {
      const editorPath = `/lessons/${name}`;
      expect(await refusalOf(ask('GET', 'file', { path: editorPath })), name).toEqual([403, 'NoPermissions']);
      const write = ask('PUT', 'file', { path: editorPath, ...overwrite }, 'x');
      expect(await refusalOf(write), name).toEqual([403, 'NoPermissions']);
    }
    expect(await refusalOf(ask('GET', 'list', { path: '/lessons/folder-link' }))).toEqual([403, 'NoPermissions']);
    expect((await readdir(outside)).sort()).toEqual(['lessons', 'secret.txt']);
  });

  test('deleting such a link takes the link and leaves its target', async () => {
    await symlink(outside, path.join(folder, 'folder-link'));
    expect((await ask('DELETE', 'entry', { path: '/lessons/folder-link', recursive: 'yes' })).status).toBe(200);
    expect(await readdir(folder)).not.toContain('folder-link');
    expect(await readFile(path.join(outside, 'secret.txt'), 'utf8')).toBe('not for the page');
  });

  test('the folder itself can be neither deleted nor moved', async () => {
    expect((await ask('DELETE', 'entry', { path: '/lessons', recursive: 'yes' })).status).toBe(403);
    expect((await ask('POST', 'move', { from: '/lessons', path: '/lessons/b' })).status).toBe(403);
  });
});

describe('reading and writing', () => {
  test('above the folder there is the folder and nothing else, as dialogs of the editor ask', async () => {
    expect(await (await ask('GET', 'stat', { path: '/' })).json()).toMatchObject({ type: 2 });
    expect(await (await ask('GET', 'list', { path: '/' })).json()).toEqual([['lessons', 2]]);
    expect(await refusalOf(ask('GET', 'stat', { path: '/secret.txt' }))).toEqual([404, 'FileNotFound']);
  });

  test('tells files, folders and links', async () => {
    await symlink(path.join(folder, 'a.lesson'), path.join(folder, 'link'));
    const entries: unknown = await (await ask('GET', 'list', { path: '/lessons' })).json();
    expect(entries).toEqual(
      expect.arrayContaining([
        ['a.lesson', 1],
        ['week-1', 2],
        ['link', 65],
      ]),
    );
    const answer: unknown = await (await ask('GET', 'stat', { path: '/lessons/a.lesson' })).json();
    expect(answer).toMatchObject({ type: 1, size: 10 });
  });

  test('answers with the editor’s own error names, and goes on after each', async () => {
    const cases: readonly [string, Promise<Response>][] = [
      ['FileNotFound', ask('GET', 'file', { path: '/lessons/none.lesson' })],
      ['FileNotFound', ask('GET', 'stat', { path: '/lessons/none/none.lesson' })],
      ['FileNotFound', ask('PUT', 'file', { path: '/lessons/none.lesson', overwrite: 'yes' }, 'x')],
      ['FileNotFound', ask('PUT', 'file', { path: '/lessons/none/b.lesson', ...overwrite }, 'x')],
      ['FileExists', ask('PUT', 'file', { path: '/lessons/a.lesson', create: 'yes' }, 'x')],
      ['FileExists', ask('POST', 'folder', { path: '/lessons/week-1' })],
      ['FileExists', ask('POST', 'move', { from: '/lessons/a.lesson', path: '/lessons/week-1' })],
      ['FileIsADirectory', ask('GET', 'file', { path: '/lessons/week-1' })],
      ['FileIsADirectory', ask('PUT', 'file', { path: '/lessons/week-1', ...overwrite }, 'x')],
      ['FileNotADirectory', ask('GET', 'list', { path: '/lessons/a.lesson' })],
      ['FileNotFound', ask('GET', 'nothing-of-ours', {})],
    ];
    for (const [code, answer] of cases) expect((await refusalOf(answer))[1]).toBe(code);
    expect(await (await ask('GET', 'file', { path: '/lessons/a.lesson' })).text()).toBe('lesson  A\n');
  });

  test('a file that the system will not let us read is a refusal, not a crash', async () => {
    const place = path.join(folder, 'a.lesson');
    await chmod(place, 0o000);
    // The superuser may read everything, so the system's refusal is then got from a path that is too long for it.
    const locked = await readFile(place).then(
      () => false,
      () => true,
    );
    const editorPath = locked ? '/lessons/a.lesson' : `/lessons/${'long'.repeat(100)}`;
    expect(await refusalOf(ask('GET', 'file', { path: editorPath }))).toEqual([403, 'NoPermissions']);
    expect((await ask('GET', 'list', { path: '/lessons' })).status).toBe(200);
  });

  test('a reader meets the old bytes or the new ones, never a part, and no rests stay behind', async () => {
    const texts = ['a', 'b'].map((letter) => letter.repeat(300_000));
    await ask('PUT', 'file', { path: '/lessons/a.lesson', ...overwrite }, texts[0]);
    let writing = true;
    const writers = Promise.all(
      texts.flatMap((text) =>
        Array.from({ length: 8 }, () => ask('PUT', 'file', { path: '/lessons/a.lesson', ...overwrite }, text)),
      ),
    ).finally(() => {
      writing = false;
    });
    let reads = 0;
    while (writing || reads === 0) {
      expect(texts).toContain(await readFile(path.join(folder, 'a.lesson'), 'utf8'));
      reads += 1;
    }
    expect((await writers).map((answer) => answer.status)).toEqual(Array.from({ length: 16 }, () => 200));
    expect(texts).toContain(await readFile(path.join(folder, 'a.lesson'), 'utf8'));
    expect((await readdir(folder)).sort()).toEqual(['a.lesson', 'week-1']);
  });

  test('a new text keeps the rights of the file, and a link inside the folder stays a link', async () => {
    await chmod(path.join(folder, 'a.lesson'), 0o640);
    await symlink(path.join(folder, 'a.lesson'), path.join(folder, 'link'));
    await ask('PUT', 'file', { path: '/lessons/link', ...overwrite }, 'lesson  B\n');
    expect(await readFile(path.join(folder, 'a.lesson'), 'utf8')).toBe('lesson  B\n');
    expect(await realpath(path.join(folder, 'link'))).toBe(path.join(folder, 'a.lesson'));
    if (process.platform !== 'win32') expect((await stat(path.join(folder, 'a.lesson'))).mode & 0o777).toBe(0o640);
  });

  test('folders, moves and deletions reach the disk', async () => {
    await ask('POST', 'folder', { path: '/lessons/week-2' });
    await ask('POST', 'move', { from: '/lessons/a.lesson', path: '/lessons/week-2/b.lesson' });
    expect(await readdir(path.join(folder, 'week-2'))).toEqual(['b.lesson']);
    expect((await ask('DELETE', 'entry', { path: '/lessons/week-2' })).status).toBe(403);
    expect((await ask('DELETE', 'entry', { path: '/lessons/week-2', recursive: 'yes' })).status).toBe(200);
    expect(await readdir(folder)).toEqual(['week-1']);
  });
});

describe('changes made by others', () => {
  interface News {
    readonly latest: number;
    readonly changes: readonly { readonly kind: string; readonly path: string }[];
  }

  /** Collects until the wanted change is told; the test's own time limit ends a wait that never succeeds. */
  async function until(after: number, kind: string, editorPath: string): Promise<number> {
    let latest = after;
    for (;;) {
      const news: News = await (await ask('GET', 'changes', { after: String(latest) })).json();
      latest = news.latest;
      if (news.changes.some((change) => change.kind === kind && change.path === editorPath)) return latest;
    }
  }

  test('a first question is answered at once, with nothing', async () => {
    expect(await (await ask('GET', 'changes', {})).json()).toEqual({ latest: 0, changes: [] });
  });

  test('is told of a file replaced by renaming, more than once', async () => {
    let after = 0;
    for (const text of ['one', 'two', 'three']) {
      await writeFile(path.join(outside, 'next'), text);
      await rename(path.join(outside, 'next'), path.join(folder, 'a.lesson'));
      after = await until(after, 'changed', '/lessons/a.lesson');
    }
  });

  test('is told of new folders, of what happens in them, and of their end', async () => {
    await mkdir(path.join(folder, 'week-2'));
    let after = await until(0, 'created', '/lessons/week-2');
    await writeFile(path.join(folder, 'week-2', 'b.lesson'), 'lesson  B\n');
    after = await until(after, 'created', '/lessons/week-2/b.lesson');
    await rm(path.join(folder, 'week-2'), { recursive: true });
    await until(after, 'deleted', '/lessons/week-2');
  });

  test('a link that leads out or in a circle is told as a link and not followed', async () => {
    await symlink(outside, path.join(folder, 'folder-link'));
    const after = await until(0, 'created', '/lessons/folder-link');
    await writeFile(path.join(outside, 'secret.txt'), 'changed outside');
    await writeFile(path.join(folder, 'b.lesson'), 'lesson  B\n');
    const news: News = await (await ask('GET', 'changes', { after: String(after) })).json();
    expect(news.changes.map((change) => change.path)).toEqual(Array.from(news.changes, () => '/lessons/b.lesson'));
  });

  test('closing ends a waiting question', async () => {
    const waiting = ask('GET', 'changes', { after: '0' }).then(
      () => 'ended',
      () => 'ended',
    );
    await server.close();
    expect(await waiting).toBe('ended');
    server = await serveDisk(folder);
  });
});
