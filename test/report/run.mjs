// `npm run report:harmony` and its like: measures, writes the report beside this file and prints it.
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const HERE = import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname);
const REPORTS = ['harmony', 'hand'];

const name = process.argv[2] ?? '';
if (!REPORTS.includes(name)) {
  console.error(`Say which report: ${REPORTS.join(', ')}.`);
  process.exit(2);
}
const outfile = path.join(HERE, '..', 'output', `${name}-report.mjs`);
mkdirSync(path.dirname(outfile), { recursive: true });
await build({
  entryPoints: [path.join(HERE, `${name}.ts`)],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  logLevel: 'warning',
});
/** @type {Record<string, () => string>} */
const made = await import(pathToFileURL(outfile).href);
const report = made[`${name}Report`];
if (report === undefined) throw new Error(`${name}.ts makes no report`);
const text = `${report()}\n`;
writeFileSync(path.join(HERE, `${name}.md`), text);
console.log(text);
