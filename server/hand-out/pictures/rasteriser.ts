import { initWasm, Resvg } from '@resvg/resvg-wasm';

/** Paints an SVG file of ours as a PNG file of the same size, with nothing behind what is drawn. */
export type Rasteriser = (svg: string) => Uint8Array;

// The library's module can be started once in a process, whoever asks.
let started: Promise<void> | undefined;

/**
 * Starts the rasteriser. `module` is the library's WebAssembly, 2.5 MB: too large for the packed extension, so that only the command
 * line has it. The same file gives the same bytes on every system.
 */
export async function startRasteriser(module: Uint8Array): Promise<Rasteriser> {
  started ??= initWasm(module);
  await started;
  return (svg) => {
    const painter = new Resvg(svg, { font: { loadSystemFonts: false }, fitTo: { mode: 'original' } });
    try {
      const image = painter.render();
      try {
        return image.asPng();
      } finally {
        image.free();
      }
    } finally {
      painter.free();
    }
  };
}
