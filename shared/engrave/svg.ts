import type { Rational } from '../theory/rational.ts';
import type {
  Drawing,
  GroupItem,
  Ink,
  Item,
  PathItem,
  PlaceMark,
  PlayedMark,
  TextItem,
  TextRole,
  TextRun,
} from './drawing.ts';
import { escapeAttribute, escapeText } from './escape.ts';
import { FIXED_COLOURS, FIXED_FACES, SIZES } from './sizes.ts';
import { textWidth } from './text-width.ts';

/**
 * `themed` takes its colours and faces from the page, through classes and `currentColor`, so a change of theme needs no new
 * drawing. `fixed` brings its own opaque paper, ink and frame, and stands in places that follow no theme.
 */
export type SvgInk = 'themed' | 'fixed';

const INK_CLASS: Readonly<Record<Ink, string>> = {
  strong: 'ink',
  soft: 'ink-soft',
  faint: 'ink-faint',
  paper: 'paper',
  accent: 'accent',
};

const ROLE_CLASS: Readonly<Record<TextRole, string>> = { number: 'num', name: 'name', count: 'count', word: 'word' };

/**
 * The drawing as one `svg` element, well-formed XML by itself. Width and height are in millimetres. Classes and presentation
 * attributes only, because the page's policy refuses `style`.
 */
export function svgOf(drawing: Drawing, ink: SvgInk): string {
  const { width, height, scale } = drawing;
  const role = drawing.items.some(holdsMark) ? 'group' : 'img';
  const size = `width="${millimetres(width * scale)}" height="${millimetres(height * scale)}" viewBox="0 0 ${figure(width)} ${figure(height)}"`;
  // A drawing without words of its own stands beside words that say the same.
  const name =
    drawing.alternative === ''
      ? 'aria-hidden="true"'
      : `role="${role}" aria-label="${escapeAttribute(drawing.alternative)}"`;
  const head = `<svg xmlns="http://www.w3.org/2000/svg" ${size} ${name} fill="${ink === 'themed' ? 'currentColor' : FIXED_COLOURS.strong}"`;
  const ground = ink === 'themed' ? '' : paper(width, height);
  return `${head}>${ground}${markupOfAll(drawing.items, ink)}</svg>`;
}

function holdsMark(item: Item): boolean {
  return item.kind === 'group' && (item.mark !== undefined || item.items.some(holdsMark));
}

/** Opaque ground with a thin frame, drawn inside the picture's edge so that no half of it is cut off. */
function paper(width: number, height: number): string {
  const thickness = SIZES.frameThickness;
  const rest = figure(thickness / 2);
  const size = `width="${figure(width - thickness)}" height="${figure(height - thickness)}"`;
  return `<rect x="${rest}" y="${rest}" ${size} rx="${figure(0.8)}" fill="${FIXED_COLOURS.paper}" stroke="${FIXED_COLOURS.faint}" stroke-width="${figure(thickness)}"/>`;
}

function itemOf(item: Item, ink: SvgInk): string {
  switch (item.kind) {
    case 'line': {
      const ends = `x1="${figure(item.x1)}" y1="${figure(item.y1)}" x2="${figure(item.x2)}" y2="${figure(item.y2)}"`;
      return `<line ${ends}${paintOf(item, ink)}/>`;
    }
    case 'rectangle': {
      const place = `x="${figure(item.x)}" y="${figure(item.y)}" width="${figure(item.width)}" height="${figure(item.height)}"`;
      const rounding = item.rounding > 0 ? ` rx="${figure(item.rounding)}"` : '';
      return `<rect ${place}${rounding}${paintOf(item, ink)}/>`;
    }
    case 'circle':
      return `<circle cx="${figure(item.x)}" cy="${figure(item.y)}" r="${figure(item.radius)}"${paintOf(item, ink)}/>`;
    case 'path':
      return `<path d="${stepsOf(item)}"${paintOf(item, ink)}/>`;
    case 'text':
      return textOf(item, ink);
    case 'group':
      return groupOf(item, ink);
  }
}

function paintOf(
  item: { readonly ink: Ink; readonly thickness?: number; readonly dashed?: boolean; readonly kind: string },
  ink: SvgInk,
): string {
  const colour = ink === 'themed' ? 'currentColor' : FIXED_COLOURS[item.ink];
  const dash = item.dashed === true ? ` stroke-dasharray="${SIZES.dash.map(figure).join(' ')}"` : '';
  if (item.thickness === undefined) {
    // A page may give both fill and stroke to an ink: a filled shape then has a stroke of no width.
    return ink === 'themed' ? ` class="${INK_CLASS[item.ink]}" stroke-width="0"` : ` fill="${colour}"`;
  }
  const hollow = item.kind === 'line' ? '' : ' fill-opacity="0"';
  const named = ink === 'themed' ? ` class="${INK_CLASS[item.ink]}${hollow === '' ? '' : ' outline'}"` : '';
  return `${named}${hollow} stroke="${colour}" stroke-width="${figure(item.thickness)}"${dash}`;
}

function textOf(item: TextItem, ink: SvgInk): string {
  const place = `x="${figure(item.x)}" y="${figure(item.y)}" font-size="${figure(item.size)}"`;
  const anchor = item.anchor === 'start' ? '' : ` text-anchor="${item.anchor}"`;
  const weight = item.bold === true ? ' font-weight="700"' : '';
  // Signs stand between the parts of a name, so where the face may be another the parts are fitted to the room reckoned for them.
  const fitted = ink === 'fixed' && item.role === 'name';
  const content = item.runs === undefined ? escapeText(item.text) : runsOf(item.runs, fitted);
  const length = fitted && item.runs === undefined ? lengthOf(item.text, item.size) : '';
  if (ink === 'themed') {
    const named = `${ROLE_CLASS[item.role]} ${INK_CLASS[item.ink]}`;
    return `<text class="${named}" ${place}${anchor}${weight}>${content}</text>`;
  }
  const face = FIXED_FACES[item.role];
  const slant = face.italic ? ' font-style="italic"' : '';
  const bold = face.bold || item.bold === true ? ' font-weight="700"' : '';
  const paint = ` font-family="${escapeAttribute(face.family)}"${bold}${slant} fill="${FIXED_COLOURS[item.ink]}"`;
  return `<text ${place}${anchor}${length}${paint}>${content}</text>`;
}

function runsOf(runs: readonly TextRun[], fitted: boolean): string {
  let lift = 0;
  return runs
    .map((run) => {
      const moved = run.lift === lift ? '' : ` dy="${figure(lift - run.lift)}"`;
      lift = run.lift;
      const length = fitted ? lengthOf(run.text, run.size) : '';
      return `<tspan font-size="${figure(run.size)}"${moved}${length}>${escapeText(run.text)}</tspan>`;
    })
    .join('');
}

function lengthOf(text: string, size: number): string {
  return text === '' ? '' : ` textLength="${figure(textWidth(text, 'name', size))}" lengthAdjust="spacingAndGlyphs"`;
}

function groupOf(item: GroupItem, ink: SvgInk): string {
  const moved = movedBy(item);
  const { mark } = item;
  const content = item.shared === true && ink === 'themed' ? sharedMarkup(item.items) : markupOfAll(item.items, ink);
  if (mark === undefined) return moved === '' ? content : `<g${moved}>${content}</g>`;
  // Places are for the page, which can be clicked; a picture on paper is only read aloud.
  const reach = ink === 'themed' && mark.place !== undefined ? ` data-place="${mark.place}" tabindex="0"` : '';
  const area =
    ink === 'themed' && mark.area !== undefined
      ? `<rect x="${figure(mark.area.x)}" y="${figure(mark.area.y)}" width="${figure(mark.area.width)}" height="${figure(mark.area.height)}" fill="none" pointer-events="all"/>`
      : '';
  const played = ink === 'themed' && mark.played !== undefined ? playedAs(mark.played) : '';
  return `<g${moved}${reach} ${readAs(mark)}${played}>${area}${content}</g>`;
}

/** Passes count from 1, bars from 0 in written order, moments are fractions of a whole note: `data-bar="1.3" data-moments="0:1650 1/8:2010"`. */
function playedAs(played: PlayedMark): string {
  switch (played.kind) {
    case 'bar': {
      const moments = played.moments.map(({ at, x }) => `${fraction(at)}:${figure(x)}`).join(' ');
      return ` data-bar="${played.pass}.${played.bar}" data-moments="${moments}"`;
    }
    case 'name': {
      const held = played.held === undefined ? '' : ` data-held="${escapeAttribute(played.held)}"`;
      return ` data-chord="${played.pass}.${played.bar}:${fraction(played.at)}"${held}`;
    }
    case 'diagram':
      return ` data-held="${escapeAttribute(played.held)}"`;
  }
}

function fraction({ numerator, denominator }: Rational): string {
  return denominator === 1 ? String(numerator) : `${numerator}/${denominator}`;
}

function movedBy({ x, y, scale }: GroupItem): string {
  const placed = x !== 0 || y !== 0;
  if (!placed && scale === undefined) return '';
  const place = placed ? `translate(${figure(x)} ${figure(y)})` : '';
  const size = scale === undefined ? '' : `${placed ? ' ' : ''}scale(${scale})`;
  return ` transform="${place}${size}"`;
}

function markupOfAll(items: readonly Item[], ink: SvgInk): string {
  let written = '';
  for (const item of items) written += itemOf(item, ink);
  return written;
}

// Items are values that never change, so the markup of a list may be kept as long as it lives.
const themedMarkup = new WeakMap<readonly Item[], string>();

function sharedMarkup(items: readonly Item[]): string {
  const known = themedMarkup.get(items);
  if (known !== undefined) return known;
  const markup = markupOfAll(items, 'themed');
  themedMarkup.set(items, markup);
  return markup;
}

function readAs({ alternative, reads }: PlaceMark): string {
  switch (reads?.kind) {
    case 'heading':
      return `role="heading" aria-level="${reads.level}"`;
    case 'text':
      return 'role="paragraph"';
    default:
      return `role="${reads === undefined ? 'img' : 'group'}" aria-label="${escapeAttribute(alternative)}"`;
  }
}

/** Written in one go: the outlines of signs have dozens of steps, and a lesson has hundreds of signs. */
function stepsOf({ steps }: PathItem): string {
  let written = '';
  for (const step of steps) {
    if (step[0] === 'Z') written += 'Z';
    else if (step[0] === 'C') {
      const [, x1, y1, x2, y2, x, y] = step;
      written += `C${units(x1)} ${units(y1)} ${units(x2)} ${units(y2)} ${units(x)} ${units(y)}`;
    } else written += `${step[0]}${units(step[1])} ${units(step[2])}`;
  }
  return written;
}

/**
 * Drawings are written in hundredths of a millimetre: whole numbers are short and quick to write, finer than any printer, and
 * keep type clear of the least font size that a browser may be set to.
 */
const UNITS_PER_MM = 100;

function figure(valueMm: number): string {
  return String(units(valueMm));
}

function units(valueMm: number): number {
  return Math.round(valueMm * UNITS_PER_MM);
}

/** A size on the sheet, for the picture's own width and height. */
function millimetres(value: number): string {
  return `${Math.round(value * 100) / 100}mm`;
}
