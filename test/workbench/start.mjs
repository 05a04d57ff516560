// `npm start`: installs and builds what is missing, and opens the real editor on a folder of lessons in the browser.
//   npm start                     the folder ./lessons, filled with the samples when it is not there yet
//   npm start -- FOLDER           another folder
//   npm start -- --no-browser     only print the address
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { runNode } from '../runner/child.mjs';
import { installIfStale, requireNode } from '../runner/dependencies.mjs';
import { PROJECT_ROOT } from '../runner/project-root.mjs';

/** Kept from start to start where it is free, because the browser keeps the editor's settings by address. */
const WISHED_PORT = 4205;

requireNode();
const asked = process.argv.slice(2);
const folderAsked = asked.find((argument) => !argument.startsWith('--'));
process.exit(await start(folderAsked, !asked.includes('--no-browser')));

/**
 * @param {string | undefined} folderAsked
 * @param {boolean} withBrowser
 * @returns {Promise<number>} the exit code
 */
async function start(folderAsked, withBrowser) {
  const stopped = new Promise((resolve) => {
    // Ctrl-C reaches us twice, from the terminal and from npm: the second one must not cut the closing short.
    process.on('SIGINT', resolve);
    process.on('SIGTERM', resolve);
  });
  if (folderAsked !== undefined && !existsSync(folderAsked)) {
    console.error(`There is no folder ${folderAsked}.`);
    return 2;
  }
  await installIfStale(PROJECT_ROOT);
  console.log('Building …');
  if ((await runNode(['esbuild.mjs'])) !== 0) return 1;

  const lessons = folderAsked === undefined ? sampleFolder() : path.resolve(folderAsked);
  const { serveEditor } = await import('./editor-server.mjs');
  const editor = await serveEditor({
    editor: 'oldest',
    lessons,
    helpers: ['test/workbench/opener'],
    port: WISHED_PORT,
  });
  console.log(`\nHandspan is open at  ${editor.address}`);
  console.log(`If your system does not know that name, send handspan.localhost to 127.0.0.1 in its hosts file;`);
  console.log(`without that ${editor.plainAddress} shows the lessons, but browsers refuse the sheet there.`);
  console.log(`Lessons are saved in ${lessons}`);
  console.log('Stop with Ctrl-C.');
  if (withBrowser) openBrowser(editor.address);

  await stopped;
  await editor.close();
  console.log('\nStopped.');
  return 0;
}

/** The folder that the teacher keeps: the samples are copied once and never over anything. */
function sampleFolder() {
  const lessons = path.join(PROJECT_ROOT, 'lessons');
  if (existsSync(lessons)) return lessons;
  mkdirSync(lessons);
  const samples = path.join(PROJECT_ROOT, 'client', 'samples');
  if (existsSync(samples)) cpSync(samples, lessons, { recursive: true });
  return lessons;
}

/**
 * Shows the address in the user's browser. Where there is none, the printed address is all that is needed.
 *
 * @param {string} address
 */
function openBrowser(address) {
  const onLinux = process.platform === 'linux';
  if (onLinux && process.env.DISPLAY === undefined && process.env.WAYLAND_DISPLAY === undefined) return;
  const [program, args] =
    process.platform === 'darwin'
      ? ['open', [address]]
      : process.platform === 'win32'
        ? ['cmd', ['/c', 'start', '', address]]
        : ['xdg-open', [address]];
  const browser = spawn(program, args, { stdio: 'ignore', detached: true });
  browser.on('error', () => console.log('No browser could be started: open the address above in yours.'));
  browser.unref();
}
