import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import { unzipSync } from 'fflate';

const LESSON = `lesson  A packed lesson
chord  C  0003
progression  song
  | C | C |
pattern  beat
  strum  D  D  D  D
exercise  Four strokes
  play  song
  with  beat
`;

/**
 * Unpacks a package where none of the project's own files can be reached, and starts what is to run in Node there.
 *
 * @param {string} file the package
 * @param {string} folder an empty one, outside the project
 * @returns {Promise<readonly import('../runner/report.mjs').Case[]>}
 */
export async function startPacked(file, folder) {
  const dist = path.join(folder, 'extension', 'dist');
  for (const [name, bytes] of Object.entries(unzipSync(await readFile(file)))) {
    const target = path.join(folder, name);
    await mkdir(path.dirname(target), { recursive: true });
    await writeFile(target, bytes);
  }
  const { version } = JSON.parse(await readFile(path.join(folder, 'extension', 'package.json'), 'utf8'));
  const lesson = path.join(folder, 'packed.lesson');
  const out = path.join(folder, 'out');
  await writeFile(lesson, LESSON);
  return [
    await tried('its command line starts', async () => {
      const said = await handspan(dist, '--version');
      return said === `${version}\n` ? '' : `it said ${said}`;
    }),
    await tried('its command line hands out a sheet and a page', async () => {
      await handspan(dist, 'build', lesson, '--to', out, '--as', 'pdf,page,midi');
      const made = (await readdir(out, { recursive: true })).map((name) => path.extname(name));
      const missing = ['.pdf', '.html', '.mid'].filter((kind) => !made.includes(kind));
      return missing.length === 0 ? '' : `no file of ${missing.join(', ')}`;
    }),
    await tried('its server answers over both of its doors', async () => {
      const doors = [
        ['server.js', '--stdio'],
        ['handspan.js', 'serve', '--stdio'],
      ];
      const answers = await Promise.all(doors.map(([script = '', ...words]) => greet(path.join(dist, script), words)));
      const silent = answers.filter((answer) => !answer.includes('"serverInfo":{"name":"handspan"'));
      return silent.length === 0 ? '' : `it answered ${silent.join(' and ')}`;
    }),
  ];
}

/** @param {string} name @param {() => Promise<string>} fault what is wrong, empty where nothing is */
async function tried(name, fault) {
  const message = await fault().catch(String);
  return { name, ok: message === '', message };
}

/** @param {string} dist @param {readonly string[]} words */
async function handspan(dist, ...words) {
  const { stdout } = await promisify(execFile)(process.execPath, [path.join(dist, 'handspan.js'), ...words]);
  return stdout;
}

/**
 * What a server answers to the first message of an editor. Source of the form: Language Server Protocol 3.17, Base Protocol.
 *
 * @param {string} script
 * @param {readonly string[]} words
 */
async function greet(script, words) {
  const server = spawn(process.execPath, [script, ...words], { stdio: ['pipe', 'pipe', 'inherit'] });
  const message = JSON.stringify({
    ...{ jsonrpc: '2.0', id: 1, method: 'initialize' },
    params: { processId: null, rootUri: null, capabilities: {} },
  });
  let answer = '';
  server.stdout.setEncoding('utf8').on('data', (piece) => {
    answer += piece;
    // All is said: without its input the server ends.
    if (answer.endsWith('}')) server.stdin.end();
  });
  server.stdin.write(`Content-Length: ${Buffer.byteLength(message)}\r\n\r\n${message}`);
  await once(server, 'close');
  return answer;
}
