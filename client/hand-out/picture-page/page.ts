import type { FromPainter, ToPainter } from './messages.ts';

declare function acquireVsCodeApi(): { postMessage(message: FromPainter): void };

// Paints the SVG files that it is sent, in the size that they say, and sends them back as PNG. What is painted now is seen meanwhile.

const editor = acquireVsCodeApi();
const canvas = document.querySelector('canvas') as HTMLCanvasElement;
const caption = document.querySelector('figcaption') as HTMLElement;

// One after another, since all are painted on one canvas.
let last: Promise<void> = Promise.resolve();
window.addEventListener('message', ({ data }: MessageEvent<ToPainter>) => {
  last = last.then(async () => {
    const { id, name, svg } = data;
    caption.textContent = name;
    try {
      editor.postMessage({ kind: 'painted', id, png: await painted(svg) });
    } catch (reason) {
      editor.postMessage({ kind: 'refused', id, because: String(reason) });
    }
  });
});
editor.postMessage({ kind: 'ready' });

async function painted(svg: string): Promise<Uint8Array> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    // Setting the size wipes the canvas: nothing is behind what is drawn.
    canvas.width = image.naturalWidth;
    canvas.height = image.naturalHeight;
    canvas.getContext('2d')?.drawImage(image, 0, 0);
  } finally {
    URL.revokeObjectURL(address);
  }
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('the browser writes no picture of this size');
  return new Uint8Array(await blob.arrayBuffer());
}
