import { unpackMarkup } from './packed-markup.ts';
import type { PageLesson } from './page-lesson.ts';

/** Of the widths that the page has, the one whose lines fit a telephone held upright, and twice beside each other on paper. Unit: mm. */
const WIDTH_MM = 90;

/** Place and number of a piece in packed markup; see `packed-markup.ts`. */
const PIECE = /<(-?\d+) (-?\d+) ([0-9a-z]+)>/g;

/**
 * The sheet of the first edition as markup for a reader whose program runs no scripts, such as one that shows what hangs on a mail. What
 * is drawn several times is drawn once and used, so that it stays small.
 */
export function staticSheet(page: PageLesson): string {
  const at = Math.max(0, page.widthsMm.indexOf(WIDTH_MM));
  const numbers = page.editions[0]?.sheets.right[at] ?? [];
  const blocks = numbers.flatMap((number) => page.blocks[number] ?? []);
  const shared = sharedPieces(blocks.map(({ packed }) => packed));
  const level = headingLevels();
  const drawn = blocks.map(({ kind, packed }) => {
    const used = packed.replace(PIECE, (piece, x: string, y: string, number: string) =>
      shared.has(number) ? `<use href="#piece-${number}" x="${x}" y="${y}"/>` : piece,
    );
    return `<div class="block ${kind}">${level(forReading(unpackMarkup(used, page.pieces)))}</div>`;
  });
  const pieces = [...shared].map((number) => {
    const content = page.pieces[Number.parseInt(number, 36)] ?? '';
    return `<g id="piece-${number}">${forReading(content)}</g>`;
  });
  const store = `<svg width="0" height="0" aria-hidden="true"><defs>${pieces.join('')}</defs></svg>`;
  return `<div class="static-sheet">${store}\n${drawn.join('\n')}\n</div>`;
}

/** Numbers of the pieces that are met more than once. */
function sharedPieces(packed: readonly string[]): ReadonlySet<string> {
  const met = new Set<string>();
  const shared = new Set<string>();
  for (const markup of packed) {
    for (const [, , , number = ''] of markup.matchAll(PIECE)) {
      if (met.has(number)) shared.add(number);
      met.add(number);
    }
  }
  return shared;
}

/** Without what only a script reads. Text has no `<` or `>` of its own, so these are tags and nothing else. */
function forReading(markup: string): string {
  return markup.replace(/<[^<>]*>/g, (tag) =>
    tag.startsWith('<rect ') && tag.includes('pointer-events')
      ? ''
      : tag.replace(/ (?:data-[a-z]+|xmlns)="[^"]*"/g, ''),
  );
}

/** No level of headings is left out, whatever parts a lesson has, so that who goes from heading to heading finds them all. */
function headingLevels(): (markup: string) => string {
  let before = 1;
  return (markup) =>
    markup.replace(/<h([234])(?=[ >])/g, (tag, own: string) => {
      const level = Math.min(Number(own), before + 1);
      before = level;
      return level === Number(own) ? tag : `${tag} aria-level="${level}"`;
    });
}
