import { existsSync } from 'node:fs';
import path from 'node:path';
import { run } from '../runner/child.mjs';

/** The commands that Chromium and its kin go by on Linux. */
const COMMANDS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];

/** Where the installers of macOS and Windows put it. */
const KNOWN_PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ...[process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA].flatMap((folder) =>
    folder === undefined
      ? []
      : [
          path.join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe'),
          path.join(folder, 'Microsoft', 'Edge', 'Application', 'msedge.exe'),
        ],
  ),
];

/**
 * The browser for the workbench tests: the one that CHROME or CHROMIUM names, else an installed one, else one that
 * Debian's package manager brings when we may use it.
 *
 * @returns {Promise<string>}
 * @throws with one plain line when there is none
 */
export async function findChromium() {
  const named = process.env.CHROME ?? process.env.CHROMIUM;
  if (named !== undefined) {
    if (existsSync(named)) return named;
    throw new Error(`CHROME or CHROMIUM names ${named}, and there is no such file.`);
  }
  const found = installed();
  if (found !== undefined) return found;
  if (existsSync('/usr/bin/apt-get') && process.getuid?.() === 0) {
    console.log('No Chromium found; installing it with apt-get …');
    await run('apt-get', ['update', '-qq']);
    await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium', 'fonts-dejavu-core']);
    const now = installed();
    if (now !== undefined) return now;
  }
  throw new Error('No Chrome or Chromium found: install one, or name its program in the environment variable CHROME.');
}

function installed() {
  const folders = (process.env.PATH ?? '').split(path.delimiter).filter((folder) => folder !== '');
  const commands = folders.flatMap((folder) => COMMANDS.map((command) => path.join(folder, command)));
  return [...commands, ...KNOWN_PLACES].find((place) => existsSync(place));
}
