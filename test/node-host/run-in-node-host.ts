import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cp, mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { chromium } from 'playwright-core';
import { PROJECT_ROOT } from '../runner/project-root.mjs';
import { SUITE_DEADLINE_MS, within } from '../workbench/deadline.ts';
import { freePort } from '../workbench/editor-server.mjs';
import { findChromium } from '../workbench/find-chromium.mjs';
import type { HostResult } from '../workbench/host-suite/check.ts';
import { hostReportWritten, readHostReport } from '../workbench/host-suite-report.ts';
import { BROWSER_ARGUMENTS } from '../workbench/session.ts';
import { bundleForEditor, HOST_SUITE, stageProduct } from '../workbench/staged-extensions.mjs';
import { EDITOR, EDITORS_NODE } from './prepare.mjs';

/** What calls the suite: this editor has no way to be told of one, so it is handed in as an extension that runs it. */
const CALLER = {
  name: 'suite',
  publisher: 'handspan-test',
  version: '0.0.0',
  engines: { vscode: '^1.91.0' },
  main: './caller.js',
  activationEvents: ['onStartupFinished'],
};

/** The suite in an editor whose window is a web page and whose extensions run in Node. */
export async function runInNodeHost(): Promise<readonly HostResult[]> {
  const scratch = await realpath(await mkdtemp(path.join(tmpdir(), 'handspan-node-host-')));
  const [extensions, lessons] = [path.join(scratch, 'extensions'), path.join(scratch, 'lessons')];
  await cp(path.join(PROJECT_ROOT, 'test', 'workbench', 'lessons'), lessons, { recursive: true });
  await stageProduct(path.join(extensions, 'handspan.handspan-0.1.0'));
  await stageCaller(path.join(extensions, 'handspan-test.suite-0.0.0'));

  const port = await freePort();
  const server = spawn(
    EDITORS_NODE,
    [
      path.join(EDITOR, 'out', 'node', 'entry.js'),
      ...['--auth', 'none', '--bind-addr', `127.0.0.1:${port}`, '--config', path.join(scratch, 'config.yaml')],
      ...['--user-data-dir', path.join(scratch, 'data'), '--extensions-dir', extensions],
      ...['--disable-telemetry', '--disable-update-check', '--disable-workspace-trust'],
    ],
    // It listens on further sockets of its own; a fresh home keeps it from those of a user's.
    { stdio: ['ignore', 'pipe', 'inherit'], env: { ...process.env, HOME: scratch, XDG_DATA_HOME: scratch } },
  );
  const browser = await chromium.launch({ executablePath: await findChromium(), args: [...BROWSER_ARGUMENTS] });
  try {
    await within(SUITE_DEADLINE_MS, 'starting the editor', said(server.stdout, 'HTTP server listening'));
    const written = hostReportWritten(lessons);
    const page = await browser.newPage();
    await page.goto(`http://localhost:${port}/?${new URLSearchParams({ folder: lessons })}`);
    await within(SUITE_DEADLINE_MS, 'the suite', written);
    return await readHostReport(lessons);
  } finally {
    await browser.close();
    server.kill('SIGTERM');
    await once(server, 'exit');
    await rm(scratch, { recursive: true, force: true });
  }
}

async function stageCaller(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  await bundleForEditor(HOST_SUITE, path.join(folder, 'suite.js'));
  await writeFile(path.join(folder, 'caller.js'), "exports.activate = () => void require('./suite.js').run();\n");
  await writeFile(path.join(folder, 'package.json'), JSON.stringify(CALLER));
}

/** Waits for a word in what a program prints; the rest is read too, or the program would stand still. */
function said(stream: Readable, word: string): Promise<void> {
  return new Promise((resolve) => {
    stream.on('data', (piece) => {
      if (String(piece).includes(word)) resolve();
    });
  });
}
