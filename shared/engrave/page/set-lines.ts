import { type Drawing, group, type Item } from '../drawing.ts';
import { ASCENT_EM, DESCENT_EM, styledText, styledWidth, type TypeStyle } from './type-style.ts';

/** Something within running text. Pieces with a place lead to it; blanks within their text are places to break a line. */
export type Inline =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly style: TypeStyle;
      readonly place?: number;
      /** Where the words are a link: the address that they lead to. */
      readonly address?: string;
      /** True where its words had better stand on one line. */
      readonly whole?: boolean;
    }
  /** A drawing at its own scale, and the word that it stands before. */
  | { readonly kind: 'drawing'; readonly drawing: Drawing; readonly place?: number }
  | { readonly kind: 'line-end' };

export interface SetRequest {
  /** The widest that a line may be. Unit: mm. */
  readonly measure: number;
  readonly size: number;
  /** From baseline to baseline, unless drawings need more. Unit: mm. */
  readonly leading: number;
}

/** A line of running text. Its items count from the baseline at the left. */
export interface SetLine {
  readonly items: readonly Item[];
  readonly width: number;
  readonly ascent: number;
  readonly descent: number;
}

/**
 * Running text set in lines that end ragged. Lines are broken for the whole text at once, so that they end as evenly as they can:
 * every way to break is weighed, the way D. E. Knuth and M. F. Plass describe in “Breaking paragraphs into lines” (1981). Words
 * are not parted, save after a hyphen or stroke, or where one alone is wider than the line.
 */
export function setLines(inlines: readonly Inline[], request: SetRequest): readonly SetLine[] {
  return paragraphsOf(inlines).flatMap((words) => {
    const parts = partsOf(words, request);
    return breaksOf(parts, request.measure).map(([from, to]) => drawLine(parts.slice(from, to), request));
  });
}

/** Text or a drawing that no line end parts. */
type Fragment =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly style: TypeStyle;
      readonly place?: number;
      readonly address?: string;
      readonly width: number;
    }
  | { readonly kind: 'drawing'; readonly drawing: Drawing; readonly place?: number; readonly width: number };

/** What stands between two places where a line may end. */
interface Part {
  readonly fragments: readonly Fragment[];
  readonly width: number;
  /** White before it, where no line begins with it. 0 where the line would be parted within a word. */
  readonly before: number;
  /** True where words that belong together would be torn apart before it. */
  readonly torn: boolean;
}

interface Word {
  readonly inlines: readonly Exclude<Inline, { kind: 'line-end' }>[];
  /** The style of the blank before it. */
  readonly blank?: TypeStyle;
  /** True where the blank lies within words that belong together. */
  readonly torn: boolean;
}

function paragraphsOf(inlines: readonly Inline[]): readonly (readonly Word[])[] {
  const paragraphs: Word[][] = [[]];
  let open: Exclude<Inline, { kind: 'line-end' }>[] = [];
  let blank: TypeStyle | undefined;
  let torn = false;
  const close = (): void => {
    if (open.length > 0) paragraphs.at(-1)?.push({ inlines: open, torn, ...(blank === undefined ? {} : { blank }) });
    open = [];
  };
  for (const inline of inlines) {
    if (inline.kind === 'line-end') {
      close();
      blank = undefined;
      torn = false;
      paragraphs.push([]);
    } else if (inline.kind === 'drawing') {
      open.push(inline);
    } else {
      for (const piece of inline.text.split(/([ \t\r\n]+)/)) {
        if (piece === '') continue;
        if (/^[ \t\r\n]/.test(piece)) {
          // Behind a comma words part easily.
          const last = open.at(-1);
          const parts = last?.kind === 'text' && last.text.endsWith(',');
          close();
          blank = inline.style;
          torn = inline.whole === true && !parts;
        } else {
          open.push({ ...inline, text: piece });
        }
      }
    }
  }
  close();
  return paragraphs;
}

/** White between a drawing and the word that goes with it. Unit: em. */
const DRAWING_GAP_EM = 0.22;

function partsOf(words: readonly Word[], { size, measure }: SetRequest): readonly Part[] {
  return words.flatMap((word): readonly Part[] => {
    const before = word.blank === undefined ? 0 : styledWidth(' ', word.blank, size);
    const fragments = word.inlines.flatMap((inline): readonly Fragment[] => {
      if (inline.kind === 'drawing') {
        return [{ ...inline, width: inline.drawing.width * inline.drawing.scale + DRAWING_GAP_EM * size }];
      }
      return pieces(inline.text).map((text) => ({ ...inline, text, width: styledWidth(text, inline.style, size) }));
    });
    return gathered(fragments, { before, torn: word.torn }, measure, size);
  });
}

/** The text cut after the strokes and hyphens within it. */
function pieces(text: string): readonly string[] {
  return text.split(/(?<=[^\s][-–—/])(?=[\p{L}\p{N}])/u);
}

/** The fragments of a word as parts: cut after a hyphen that is not the name of a shape, and within what is wider than a line. */
function gathered(
  fragments: readonly Fragment[],
  start: Pick<Part, 'before' | 'torn'>,
  measure: number,
  size: number,
): readonly Part[] {
  const parts: (Part & { fragments: Fragment[]; width: number })[] = [];
  let joins = true;
  const add = (fragment: Fragment, joined: boolean): void => {
    const last = parts.at(-1);
    if (last !== undefined && joined && last.width + fragment.width <= measure) {
      last.fragments.push(fragment);
      last.width += fragment.width;
    } else {
      const begins = parts.length === 0 ? start : { before: 0, torn: false };
      parts.push({ fragments: [fragment], width: fragment.width, ...begins });
    }
  };
  for (const fragment of fragments) {
    if (fragment.width <= measure || fragment.kind === 'drawing') {
      add(fragment, joins);
    } else {
      for (const character of fragment.text) {
        add({ ...fragment, text: character, width: styledWidth(character, fragment.style, size) }, true);
      }
    }
    // A mention is one name, and figures such as 0-4-3-2 are one shape.
    joins = fragment.kind === 'drawing' || fragment.place !== undefined || !/[\p{L}][-–—/]$/u.test(fragment.text);
  }
  return parts;
}

/** What speaks against a layout of lines; 1 is an empty line. Unit: none. Source: our own, tried on the samples. */
const COSTS = {
  /** One short word left over. */
  lonelyWord: 0.06,
  /** The last line is shorter than this share of the measure. */
  shortLast: 0.2,
  /** A word that is parted after its hyphen. */
  parted: 0.02,
  /** Words that belong together on two lines. */
  torn: 0.2,
} as const;

/** From which part to which each line goes, so that the squares of what is left at their ends sum to the least. */
function breaksOf(parts: readonly Part[], measure: number): readonly (readonly [number, number])[] {
  const cost: number[] = [0];
  const from: number[] = [0];
  for (let end = 1; end <= parts.length; end++) {
    let least = Number.POSITIVE_INFINITY;
    let width = 0;
    for (let start = end - 1; start >= 0; start--) {
      const part = parts[start];
      if (part === undefined) break;
      width += part.width + (start === end - 1 ? 0 : (parts[start + 1]?.before ?? 0));
      if (width > measure + 1e-6 && start < end - 1) break;
      const isLast = end === parts.length;
      const left = Math.max(0, 1 - width / measure);
      const lonely = isLast && start > 0 && width < COSTS.shortLast * measure ? COSTS.lonelyWord : 0;
      const parted = !isLast && parts[end]?.before === 0 ? COSTS.parted : 0;
      const torn = parts[end]?.torn === true ? COSTS.torn : 0;
      const total = (cost[start] ?? 0) + (isLast ? 0 : left ** 2) + lonely + parted + torn;
      if (total < least) {
        least = total;
        from[end] = start;
      }
    }
    cost[end] = least;
  }
  const lines: [number, number][] = [];
  for (let end = parts.length; end > 0; end = from[end] ?? 0) lines.unshift([from[end] ?? 0, end]);
  return lines;
}

/** A stretch of one line that is of one style and leads to one place and one address. */
interface Run {
  x: number;
  width: number;
  text: string;
  readonly style: TypeStyle;
  readonly place: number | undefined;
  readonly address: string | undefined;
}

/** Between a drawing in a line and the letters of the lines above and below it, of the size of the text. */
const WHITE_AROUND_DRAWING = 0.18;

function drawLine(parts: readonly Part[], { size, leading }: SetRequest): SetLine {
  const items: Item[] = [];
  let ascent = ASCENT_EM * size;
  let descent = Math.min(leading - ascent, DESCENT_EM * size);
  let x = 0;
  let run: Run | undefined;
  const close = (): void => {
    if (run === undefined) return;
    const { x, width, text, style, place, address } = run;
    const area = { x: 0, y: -ASCENT_EM * size, width, height: (ASCENT_EM + DESCENT_EM) * size };
    const set = styledText(text, style, { x: place === undefined ? x : 0, y: 0, size });
    const shown = place === undefined ? set : group(x, 0, [set], { place, alternative: text, area });
    items.push(address === undefined ? shown : { ...group(0, 0, [shown]), address });
    run = undefined;
  };
  parts.forEach((part, index) => {
    const blank = index === 0 ? 0 : part.before;
    for (const [at, fragment] of part.fragments.entries()) {
      const gap = at === 0 ? blank : 0;
      if (fragment.kind === 'drawing') {
        close();
        x += gap;
        const { drawing } = fragment;
        const height = drawing.height * drawing.scale;
        // In the middle of the capitals, so that it stands as far above the line as below it.
        const top = -height / 2 - 0.34 * size;
        items.push({ ...group(x, top, drawing.items), scale: drawing.scale, decorates: true });
        const white = WHITE_AROUND_DRAWING * size;
        ascent = Math.max(ascent, white - top);
        descent = Math.max(descent, height + top + white);
        x += fragment.width;
        continue;
      }
      const alike =
        run !== undefined &&
        run.place === fragment.place &&
        run.address === fragment.address &&
        sameStyle(run.style, fragment.style);
      if (run !== undefined && alike) {
        run.text += gap > 0 ? ` ${fragment.text}` : fragment.text;
        run.width += gap + fragment.width;
      } else {
        close();
        const { width, text, style, place, address } = fragment;
        run = { x: x + gap, width, text, style, place, address };
      }
      x += gap + fragment.width;
    }
  });
  close();
  return { items, width: x, ascent, descent };
}

function sameStyle(a: TypeStyle, b: TypeStyle): boolean {
  return a.role === b.role && a.bold === b.bold && a.soft === b.soft;
}
