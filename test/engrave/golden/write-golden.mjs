// `npm run golden`: draws the samples and keeps what is drawn as text, to be compared by golden.test.ts. Look at the pictures first.
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const HERE = import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname);
const SAMPLES = path.join(HERE, '..', '..', '..', 'client', 'samples');
const DRAWN = path.join(HERE, 'drawn');

const outfile = path.join(HERE, '..', '..', 'output', 'golden-text.mjs');
mkdirSync(path.dirname(outfile), { recursive: true });
await build({
  entryPoints: [path.join(HERE, 'golden-text.ts')],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  logLevel: 'warning',
});
/** @type {{ goldenText: (lesson: string) => string }} */
const { goldenText } = await import(pathToFileURL(outfile).href);
rmSync(DRAWN, { recursive: true, force: true });
mkdirSync(DRAWN);
for (const name of readdirSync(SAMPLES).filter((file) => file.endsWith('.lesson'))) {
  const text = goldenText(readFileSync(path.join(SAMPLES, name), 'utf8'));
  writeFileSync(path.join(DRAWN, name.replace('.lesson', '.txt')), text);
  console.log(`${name}: ${text.split('\n').length} lines`);
}
