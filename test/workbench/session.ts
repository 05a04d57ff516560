import { cp, mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { OUTPUT, PROJECT_ROOT } from '../runner/project-root.mjs';
import { serveEditor } from './editor-server.mjs';
import { findChromium } from './find-chromium.mjs';

export type WebEditor = 'oldest' | 'newest';

/** Chromium with nothing in it that calls home, changes itself, or needs more than a container gives. */
export const BROWSER_ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** One browser with a fresh profile, showing the editor on a folder of its own. */
export interface Session {
  readonly page: Page;
  /** Where the lessons lie on the disk. */
  readonly lessons: string;
  /** What the page and its frames wrote to the console so far. */
  readonly log: readonly string[];
  /** Hosts other than this machine that something on the page asked for. */
  readonly strangers: readonly string[];
  keepPicture(name: string): Promise<void>;
  close(): Promise<void>;
}

export interface SessionOptions {
  readonly editor: WebEditor;
  readonly helpers?: readonly string[];
  readonly suite?: string;
  /** The folder that is copied for the session, relative to the project. */
  readonly lessonsFrom?: string;
  /** The scheme under which the editor sees the folder, where it is to be another than usual. */
  readonly scheme?: string;
  /** Called on the page before the editor is loaded. */
  readonly prepare?: (page: Page) => Promise<void>;
}

export async function openSession(options: SessionOptions): Promise<Session> {
  const { editor, helpers = [], suite, lessonsFrom = 'test/workbench/lessons', scheme, prepare } = options;
  const scratch = await realpath(await mkdtemp(path.join(tmpdir(), 'handspan-lessons-')));
  const lessons = path.join(scratch, 'lessons');
  await cp(path.join(PROJECT_ROOT, lessonsFrom), lessons, { recursive: true });
  await useSettings(lessons, {});
  const asked = { ...(suite === undefined ? {} : { suite }), ...(scheme === undefined ? {} : { scheme }) };
  const server = await serveEditor({ editor, lessons, helpers, ...asked });
  const browser = await chromium.launch({ executablePath: await findChromium(), args: BROWSER_ARGUMENTS });
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const strangers = await refuseStrangers(context);
  const page = await context.newPage();
  const log: string[] = [];
  page.on('console', (message) => log.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => log.push(`uncaught: ${error.message}`));
  await prepare?.(page);
  await page.goto(server.address);
  return {
    page,
    lessons,
    log,
    strangers,
    async keepPicture(name) {
      await mkdir(OUTPUT, { recursive: true });
      await page.screenshot({ path: path.join(OUTPUT, `${editor}-${name}.png`) });
      await writeFile(path.join(OUTPUT, `${editor}-${name}.log`), `${log.join('\n')}\n`);
    },
    async close() {
      await browser.close();
      await server.close();
      await rm(scratch, { recursive: true, force: true });
    },
  };
}

/** The editor's own pages look for its makers' services; the tests hold that nothing is needed from anywhere. */
async function refuseStrangers(context: BrowserContext): Promise<readonly string[]> {
  const strangers: string[] = [];
  await context.route(
    (url) => /^(https?|wss?):$/.test(url.protocol) && !/(^|\.)localhost$|^127\.0\.0\.1$/.test(url.hostname),
    (route) => {
      strangers.push(new URL(route.request().url()).hostname);
      return route.abort();
    },
  );
  return strangers;
}

/**
 * Writes the folder's settings, which reach the editor through the disk as a user's own would. Nothing is saved by
 * itself, so that a test knows what the disk holds.
 */
export async function useSettings(lessons: string, settings: Readonly<Record<string, unknown>>): Promise<void> {
  const always = { 'files.autoSave': 'off', 'editor.minimap.enabled': false };
  await mkdir(path.join(lessons, '.vscode'), { recursive: true });
  await writeFile(path.join(lessons, '.vscode', 'settings.json'), JSON.stringify({ ...always, ...settings }));
}
