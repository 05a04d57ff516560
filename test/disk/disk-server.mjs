import { randomBytes, timingSafeEqual } from 'node:crypto';
import { once } from 'node:events';
import { realpath } from 'node:fs/promises';
import { createServer } from 'node:http';
import { DiskError, HTTP_STATUS, toDiskError } from './disk-error.mjs';
import { diskFolder } from './disk-folder.mjs';
import { watchFolder } from './folder-changes.mjs';

/** A page asks again when no change came for this long: shorter than the minute after which idle connections die. */
const LONG_POLL_MS = 25_000;

/** No lesson comes near this size; a larger body is a mistake and must not fill the memory. */
const BODY_LIMIT_BYTES = 16 * 1024 * 1024;

/** The editor's pages live at names below localhost. A page from anywhere else has no business here. */
const OUR_ORIGIN = /^http:\/\/([\w-]+\.)*(localhost|127\.0\.0\.1)(:\d+)?$/;

const CORS = {
  'Access-Control-Allow-Methods': 'GET, PUT, POST, DELETE',
  'Access-Control-Allow-Headers': 'x-handspan-token',
  'Access-Control-Max-Age': '600',
};

/**
 * @typedef {{ readonly address: string, readonly token: string, close(): Promise<void> }} DiskServer
 */

/**
 * Serves one folder to the editor's page on a free loopback port. Every call must carry the token.
 *
 * @param {string} folderPath
 * @returns {Promise<DiskServer>}
 */
export async function serveDisk(folderPath) {
  const folder = await realpath(folderPath);
  const disk = diskFolder(folder);
  const changes = await watchFolder(folder);
  const token = randomBytes(24).toString('base64url');
  const closing = new AbortController();

  const server = createServer((request, response) => {
    const origin = request.headers.origin;
    if (origin !== undefined && OUR_ORIGIN.test(origin)) {
      response.setHeader('Access-Control-Allow-Origin', origin);
      response.setHeader('Vary', 'Origin');
    }
    if (request.method === 'OPTIONS') {
      response.writeHead(204, CORS).end();
      return;
    }
    answer(request, response).catch((error) => {
      // The answer is only begun once its content is known, so a failure can always still be told.
      const { code, message } = toDiskError(error);
      sendJson(response, HTTP_STATUS[code], { code, message });
    });
  });

  /**
   * @param {import('node:http').IncomingMessage} request
   * @param {import('node:http').ServerResponse} response
   */
  async function answer(request, response) {
    const origin = request.headers.origin;
    if (!sameToken(request.headers['x-handspan-token'], token) || (origin !== undefined && !OUR_ORIGIN.test(origin))) {
      sendJson(response, 401, { code: 'NoPermissions', message: 'the token is missing or wrong' });
      return;
    }
    const url = new URL(request.url ?? '/', 'http://disk');
    /** @param {string} name */
    const asked = (name) => url.searchParams.get(name) ?? '';
    /** @param {string} name */
    const wants = (name) => url.searchParams.get(name) === 'yes';
    switch (`${request.method} ${url.pathname}`) {
      case 'GET /stat':
        return sendJson(response, 200, await disk.stat(asked('path')));
      case 'GET /list':
        return sendJson(response, 200, await disk.list(asked('path')));
      case 'GET /file': {
        const bytes = await disk.read(asked('path'));
        response.writeHead(200, { 'Content-Type': 'application/octet-stream' }).end(bytes);
        return;
      }
      case 'PUT /file':
        await disk.write(asked('path'), await bodyOf(request), {
          create: wants('create'),
          overwrite: wants('overwrite'),
        });
        return sendJson(response, 200, {});
      case 'POST /folder':
        await disk.makeFolder(asked('path'));
        return sendJson(response, 200, {});
      case 'DELETE /entry':
        await disk.remove(asked('path'), { recursive: wants('recursive') });
        return sendJson(response, 200, {});
      case 'POST /move':
        await disk.move(asked('from'), asked('path'), { overwrite: wants('overwrite') });
        return sendJson(response, 200, {});
      case 'GET /changes': {
        const gone = new AbortController();
        response.on('close', () => gone.abort());
        const after = url.searchParams.has('after') ? Number(asked('after')) : changes.latest();
        const nothingNew = url.searchParams.has('after') ? AbortSignal.timeout(LONG_POLL_MS) : AbortSignal.abort();
        const signal = AbortSignal.any([nothingNew, closing.signal, gone.signal]);
        return sendJson(response, 200, await changes.after(after, signal));
      }
      default:
        throw new DiskError('FileNotFound', `${request.method} ${url.pathname} is not offered`);
    }
  }

  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const bound = server.address();
  if (bound === null || typeof bound === 'string') throw new Error('the disk server got no port');

  return {
    address: `http://127.0.0.1:${bound.port}`,
    token,
    async close() {
      closing.abort();
      changes.close();
      const closed = once(server, 'close');
      server.close();
      server.closeAllConnections();
      await closed;
    },
  };
}

/**
 * @param {import('node:http').ServerResponse} response
 * @param {number} status
 * @param {unknown} body
 */
function sendJson(response, status, body) {
  response.writeHead(status, { 'Content-Type': 'application/json' }).end(JSON.stringify(body));
}

/**
 * @param {string | readonly string[] | undefined} given
 * @param {string} token
 */
function sameToken(given, token) {
  if (typeof given !== 'string') return false;
  const [left, right] = [Buffer.from(given), Buffer.from(token)];
  return left.length === right.length && timingSafeEqual(left, right);
}

/** @param {import('node:http').IncomingMessage} request */
async function bodyOf(request) {
  /** @type {Buffer[]} */
  const parts = [];
  let size = 0;
  for await (const part of request) {
    size += part.length;
    if (size > BODY_LIMIT_BYTES) throw new DiskError('Unavailable', 'the file is too large');
    parts.push(part);
  }
  return Buffer.concat(parts);
}
