import { spawn } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';
import { expect, test } from 'vitest';

test('the client for a Node host loads and starts the server over IPC', async () => {
  const script = path.join(import.meta.dirname, 'load-node-client.mjs');
  const host = spawn(process.execPath, [script], { stdio: ['ignore', 'pipe', 'pipe'] });
  let printed = '';
  let complained = '';
  host.stdout.on('data', (piece) => {
    printed += piece;
  });
  host.stderr.on('data', (piece) => {
    complained += piece;
  });
  const [code] = await once(host, 'close');
  expect(code, complained).toBe(0);
  expect(JSON.parse(printed)).toEqual({ faults: [], running: true, serverFile: path.join('dist', 'server.js') });
});
