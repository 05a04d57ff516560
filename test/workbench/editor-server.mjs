import { once } from 'node:events';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { open } from '@vscode/test-web';
import { serveDisk } from '../disk/disk-server.mjs';
import { EDITOR_BUILDS, layOutBuild } from './editor-builds.mjs';
import { bundleForEditor, stageHelper, stageProduct } from './staged-extensions.mjs';

/** The scheme of the folder, unless a test wants another. */
const DISK_SCHEME = 'handspan-disk';

/**
 * @typedef {object} EditorOptions
 * @property {keyof typeof EDITOR_BUILDS} editor
 * @property {string} lessons the folder to open; what is saved in the editor is written there
 * @property {readonly string[]} [helpers] further extensions of the tests, relative to the project
 * @property {string} [suite] a module with a run() that the extension host calls
 * @property {string} [scheme] under which the editor sees the folder
 * @property {number} [port] wished for; a free one is taken when somebody else has it
 *
 * @typedef {{ readonly address: string, readonly plainAddress: string, close(): Promise<void> }} EditorServer
 */

/**
 * Serves the web editor with the built extension and a folder on the disk, to this machine only.
 *
 * @param {EditorOptions} options
 * @returns {Promise<EditorServer>}
 */
export async function serveEditor({ editor, lessons, helpers = [], suite, scheme = DISK_SCHEME, port: wishedPort }) {
  const scratch = await mkdtemp(path.join(tmpdir(), 'handspan-editor-'));
  const builds = path.join(scratch, 'builds');
  const helping = path.join(scratch, 'helping');
  // Only for its tests is the product loaded as one under development: the editor then says so in its title.
  const product = suite === undefined ? path.join(helping, 'product') : path.join(scratch, 'product');
  const disk = await serveDisk(lessons);
  await mkdir(helping);
  await layOutBuild(EDITOR_BUILDS[editor], builds);
  await stageProduct(product);
  // The way to the disk stands in the helper's manifest, so that the folder keeps one address from start to start and
  // no address in the browser's history carries the token.
  await stageHelper('test/disk/extension', path.join(helping, 'disk'), {
    activationEvents: [`onFileSystem:${scheme}`],
    diskServer: { address: disk.address, token: disk.token, scheme },
  });
  for (const helper of helpers) await stageHelper(helper, path.join(helping, path.basename(helper)));
  const suiteFile = path.join(product, 'suite.js');
  if (suite !== undefined) await bundleForEditor(suite, suiteFile);

  const port = await freePort(wishedPort);
  const editorServer = await quietly(() =>
    open({
      browserType: 'none',
      quality: 'stable',
      commit: 'local',
      testRunnerDataDir: builds,
      host: '127.0.0.1',
      port,
      extensionPaths: [helping],
      folderUri: `${scheme}:/${encodeURIComponent(path.basename(lessons))}`,
      ...(suite === undefined ? {} : { extensionDevelopmentPath: product, extensionTestsPath: suiteFile }),
    }),
  );

  return {
    // A name below localhost: at the bare name the browser takes the preview for a third party and refuses it.
    address: `http://handspan.localhost:${port}/`,
    plainAddress: `http://localhost:${port}/`,
    async close() {
      editorServer.dispose();
      await disk.close();
      await rm(scratch, { recursive: true, force: true });
    },
  };
}

/**
 * The wished port when nobody has it, else any free one.
 *
 * @param {number} [wished]
 * @returns {Promise<number>}
 */
export async function freePort(wished = 0) {
  const probe = createServer();
  probe.listen(wished, '127.0.0.1');
  try {
    await once(probe, 'listening');
  } catch (error) {
    if (wished === 0) throw error;
    return freePort();
  }
  const address = probe.address();
  probe.close();
  await once(probe, 'close');
  if (address === null || typeof address === 'string') throw new Error('no port to listen on');
  return address.port;
}

/**
 * The test server tells of each thing it serves, which nobody who starts the editor needs to read.
 *
 * @template T
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
async function quietly(work) {
  const log = console.log;
  console.log = () => undefined;
  try {
    return await work();
  } finally {
    console.log = log;
  }
}
