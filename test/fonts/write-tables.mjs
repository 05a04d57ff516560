// `npm run type-tables`: writes the engraver's tables of music signs and letter widths anew from the faces.
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const HERE = import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname);
const TYPE = path.join(HERE, '..', '..', 'shared', 'engrave', 'type');
const outfile = path.join(HERE, '..', 'output', 'faces.mjs');
mkdirSync(path.dirname(outfile), { recursive: true });
const entryPoints = [path.join(HERE, 'faces.ts')];
await build({
  entryPoints,
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  logLevel: 'warning',
});
/** @type {typeof import('./faces.ts')} */
const faces = await import(pathToFileURL(outfile).href);

write(
  'music-signs.ts',
  `import type { PathStep } from '../drawing.ts';

/** A sign of music as an outline around its origin. Unit: staff spaces, y down the page. */
export interface MusicSign {
  /** Where SMuFL 1.4 has it. */
  readonly code: number;
  readonly advance: number;
  readonly box: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };
  readonly steps: readonly PathStep[];
}

// Made by \`npm run type-tables\`; not to be edited by hand. Outlines of the face Bravura, Copyright 2019 Steinberg Media
// Technologies GmbH, under the SIL Open Font License 1.1 (client/media/fonts/OFL-music.txt). Names after SMuFL 1.4.
export const MUSIC_SIGNS = ${inHex(JSON.stringify(faces.musicSigns()))} satisfies Readonly<Record<string, MusicSign>>;
`,
);
write(
  'letter-widths.ts',
  `/** How wide the letters of a face are, by ranges of code points. Unit: thousandths of an em; −1 where the face lacks the letter. */
export type FaceWidths = readonly { readonly first: number; readonly widths: readonly number[] }[];

// Made by \`npm run type-tables\`; not to be edited by hand. Source: the faces Source Serif 4 and Source Sans 3.
export const FACE_WIDTHS = ${JSON.stringify(faces.letterWidths())} satisfies Readonly<Record<string, FaceWidths>>;
`,
);
execFileSync('npx', ['biome', 'check', '--write', TYPE], { stdio: 'inherit' });

/** @param {string} name @param {string} text */
function write(name, text) {
  writeFileSync(path.join(TYPE, name), text);
}

/** @param {string} table whose code points are to be read as the standard writes them */
function inHex(table) {
  return table.replace(/"code":(\d+)/g, (_, code) => `"code":0x${Number(code).toString(16)}`);
}
