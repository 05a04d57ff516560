import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { facesRead } from './face-files.ts';
import type { Rasteriser } from './pictures/rasteriser.ts';
import { type HandOutBundle, type HandOutTools, PAGE_FILE_NAMES } from './tools.ts';

/** Loads what writes files, and the faces, from the folder that the product's bundles lie in. */
export async function loadHandOut(folder: string): Promise<HandOutTools> {
  const handOut = createRequire(join(folder, 'hand-out.js'))('./hand-out.js') as HandOutBundle;
  const read = async (name: string): Promise<Uint8Array> => new Uint8Array(await readFile(join(folder, 'fonts', name)));
  const text = (name: string): Promise<string> => readFile(join(folder, name), 'utf8');
  const page = { script: await text(PAGE_FILE_NAMES.script), style: await text(PAGE_FILE_NAMES.style) };
  return { ...handOut, facesFor: facesRead(read), page };
}

/** Loads the painter of PNG pictures; a sentence where it does not lie beside the bundles, as in the packed extension. */
export async function loadRasteriser(
  folder: string,
): Promise<{ readonly ok: true; readonly rasteriser: Rasteriser } | { readonly ok: false; readonly sentence: string }> {
  let module: Uint8Array;
  try {
    module = await readFile(join(folder, 'rasteriser.wasm'));
  } catch {
    const sentence =
      'PNG pictures cannot be painted here: rasteriser.wasm does not come with this copy of Handspan. SVG pictures can be written.';
    return { ok: false, sentence };
  }
  const { startRasteriser } = await import('./pictures/rasteriser.ts');
  return { ok: true, rasteriser: await startRasteriser(module) };
}
