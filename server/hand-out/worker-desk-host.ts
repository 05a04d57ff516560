import type { DeskHost } from './desk.ts';
import { readFaceFiles } from './face-files.ts';
import type { HandOutBundle, HandOutTools } from './tools.ts';

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
    rasteriser: () => Promise.reject(new Error('PNG pictures are painted by the command line only.')),
  };
}

async function loadTools(address: string, load: (script: string) => void): Promise<HandOutTools> {
  load(`${address}/hand-out.js`);
  const { handspanHandOut } = globalThis as typeof globalThis & { handspanHandOut?: HandOutBundle };
  if (handspanHandOut === undefined) throw new Error('What writes files could not be loaded.');
  const read = async (name: string): Promise<Uint8Array> => {
    const answer = await fetch(`${address}/fonts/${name}`);
    if (!answer.ok) throw new Error(`The face ${name} could not be loaded (${answer.status}).`);
    return new Uint8Array(await answer.arrayBuffer());
  };
  return { ...handspanHandOut, faces: await readFaceFiles(read) };
}
