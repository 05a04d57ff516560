/** Which of the widths that lines are laid out for is shown, and how large a millimetre of it is. */
export interface Layout {
  readonly width: number;
  readonly zoom: number;
}

/** Lines may be drawn so much smaller or larger than the reader has chosen, to fill their room. */
const LEAST = 0.88;
const MOST = 1.1;

/** The widest lines that fit into a room at a size of print, drawn to fill it. Unit of the room: mm at zoom 1. */
export function layoutFor(roomMm: number, print: number, widthsMm: readonly number[]): Layout {
  const fits = widthsMm.filter((widthMm) => widthMm * print * LEAST <= roomMm);
  const width = Math.max(0, fits.length - 1);
  return { width, zoom: Math.min(print * MOST, roomMm / (widthsMm[width] ?? roomMm)) };
}
