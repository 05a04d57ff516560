// The markup of a sheet for a page that holds many: what is drawn again and again, a fret figure or the sign of a stroke, is said once.

/** A group that is moved to its place and holds no other group. Its content is the same wherever it stands. */
const MOVED = /<g transform="translate\((-?\d+) (-?\d+)\)">((?:(?!<g[ >])[\s\S])*?)<\/g>/g;
/** Place and number of a piece. No tag begins with a figure, and text has no `<`, so it is like nothing else in markup. */
const PIECE = /<(-?\d+) (-?\d+) ([0-9a-z]+)>/g;

/** Pieces that were met, each once, in the order in which they came. */
export class Pieces {
  readonly #numbers = new Map<string, number>();

  list(): readonly string[] {
    return [...this.#numbers.keys()];
  }

  /** The markup with the numbers of its pieces in their place. */
  pack(markup: string): string {
    return markup.replace(MOVED, (_, x: string, y: string, content: string) => {
      const number = this.#numbers.get(content) ?? this.#numbers.size;
      this.#numbers.set(content, number);
      return `<${x} ${y} ${number.toString(36)}>`;
    });
  }
}

/** The markup as it was before it was packed. */
export function unpackMarkup(packed: string, pieces: readonly string[]): string {
  return packed.replace(PIECE, (_, x: string, y: string, number: string) => {
    const content = pieces[Number.parseInt(number, 36)] ?? '';
    return `<g transform="translate(${x} ${y})">${content}</g>`;
  });
}
