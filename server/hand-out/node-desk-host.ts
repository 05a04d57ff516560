import type { DeskHost } from './desk.ts';
import { loadHandOut, loadRasteriser } from './node-tools.ts';
import type { HandOutTools } from './tools.ts';

/** Takes the large writers from the folder that the product's bundles lie in, once. */
export function nodeDeskHost(folder: string): DeskHost {
  let tools: Promise<HandOutTools> | undefined;
  return {
    tools: () => {
      tools ??= loadHandOut(folder);
      return tools;
    },
    rasteriser: async () => {
      const loaded = await loadRasteriser(folder);
      if (!loaded.ok) throw new Error(loaded.sentence);
      return loaded.rasteriser;
    },
  };
}
