/** To the page that paints pictures. `name` is what is being painted. */
export interface ToPainter {
  readonly id: number;
  readonly name: string;
  readonly svg: string;
}

/** From it: that it listens, and what became of each picture. */
export type FromPainter =
  | { readonly kind: 'ready' }
  | { readonly kind: 'painted'; readonly id: number; readonly png: Uint8Array }
  | { readonly kind: 'refused'; readonly id: number; readonly because: string };
