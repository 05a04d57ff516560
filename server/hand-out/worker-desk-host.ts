import type { DeskHost } from './desk.ts';
import { facesRead } from './face-files.ts';
import { type HandOutBundle, type HandOutTools, PAGE_FILE_NAMES } from './tools.ts';

/** Takes the large writers from where the product's bundles are served, once. `address` is that of their folder. */
export function workerDeskHost(address: string, load: (script: string) => void): DeskHost {
  let tools: Promise<HandOutTools> | undefined;
  return {
    tools: () => {
      tools ??= loadTools(address, load);
      // What failed may come through the next time.
      tools.catch(() => {
        tools = undefined;
      });
      return tools;
    },
    rasteriser: () =>
      Promise.reject(new Error('This service paints no PNG pictures: ask for the SVG, and paint that.')),
  };
}

async function loadTools(address: string, load: (script: string) => void): Promise<HandOutTools> {
  load(`${address}/hand-out.js`);
  const { handspanHandOut } = globalThis as typeof globalThis & { handspanHandOut?: HandOutBundle };
  if (handspanHandOut === undefined) throw new Error('What writes files could not be loaded.');
  const fetched = async (name: string): Promise<Response> => {
    const answer = await fetch(`${address}/${name}`);
    if (!answer.ok) throw new Error(`${name}, which files are written with, could not be loaded (${answer.status}).`);
    return answer;
  };
  const text = async (name: string): Promise<string> => (await fetched(name)).text();
  const page = { script: await text(PAGE_FILE_NAMES.script), style: await text(PAGE_FILE_NAMES.style) };
  const read = async (name: string): Promise<Uint8Array> =>
    new Uint8Array(await (await fetched(`fonts/${name}`)).arrayBuffer());
  return { ...handspanHandOut, facesFor: facesRead(read), page };
}
