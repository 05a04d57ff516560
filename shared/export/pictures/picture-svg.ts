import type { Ink, PathStep } from '../../engrave/drawing.ts';
import { escapeText } from '../../engrave/escape.ts';
import { extentOf, type FlatPath, type FlatText, flatItems, WHOLE_PAPER } from '../flat-items.ts';
import { placedInFrame, VIDEO_FRAMES } from './frames.ts';
import type { LessonPicture } from './lesson-pictures.ts';

/** What a picture is painted in: dark for bright footage, light for dark footage. */
export interface PictureLook {
  readonly ink: 'dark' | 'light';
  /** True for an edge of the other kind around everything, which can be read over anything. */
  readonly halo: boolean;
}

/** The outlines of a text, where it stands. What a face lacks is an empty box. */
export type OutlinesOf = (text: FlatText) => readonly FlatPath[];

/** Soft lines and letters are nearly as strong as others: footage moves behind them. Ours, tried over footage. */
const COLOURS: Readonly<Record<PictureLook['ink'], Readonly<Record<Ink, string>>>> = {
  dark: { strong: '#14120f', soft: '#2b2824', faint: '#4c4843', paper: '#ffffff', accent: '#8a3512' },
  light: { strong: '#ffffff', soft: '#f1efec', faint: '#d5d1ca', paper: '#14120f', accent: '#ffb08a' },
};

/** How far the edge reaches beyond what it is around. Unit: mm of the drawing. */
const HALO_MM = 0.75;
/** On large diagrams it need be no wider than this. Unit: px. */
const MOST_HALO_PX = 11;

/**
 * A picture as one SVG file of the size of a video's frame, nothing behind it. It stands alone: letters are outlines, since a
 * program for videos has none of our faces.
 */
export function pictureSvg(picture: LessonPicture, look: PictureLook, outlinesOf: OutlinesOf): string {
  const frame = VIDEO_FRAMES[picture.frame];
  const border = look.halo ? HALO_MM : 0;
  const natural = picture.items.flatMap((item) => flatItems(item, WHOLE_PAPER));
  const box = extentOf(natural) ?? { x: 0, y: 0, width: 1, height: 1 };
  const placed = placedInFrame(frame, box, frame.most[picture.kind], border);
  const items = picture.items.flatMap((item) => flatItems(item, placed));
  const paths = items.flatMap((item): readonly FlatPath[] => (item.kind === 'path' ? [item] : outlinesOf(item)));
  const size = `width="${frame.width}" height="${frame.height}" viewBox="0 0 ${frame.width} ${frame.height}"`;
  const halo = look.halo ? haloOf(paths, look, Math.min(HALO_MM * placed.scale, MOST_HALO_PX)) : '';
  const colours = COLOURS[look.ink];
  const painted = paths.map((path) => pathOf(path, paintOf(path, colours[path.ink]))).join('');
  const title = escapeText(picture.alternative);
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} role="img"><title>${title}</title>${halo}${painted}</svg>\n`;
}

/** Everything once more behind itself, thicker, in the colour of the ground that it wants. */
function haloOf(paths: readonly FlatPath[], { ink }: PictureLook, reach: number): string {
  const colour = COLOURS[ink].paper;
  // What is painted in the colour of the ground stands on something that has an edge already.
  const edges = paths.filter((path) => path.ink !== 'paper' && path.steps.length > 0);
  const drawn = edges.map((path) => {
    const width = `stroke-width="${figure((path.thickness ?? 0) + 2 * reach)}"`;
    return pathOf(path, path.thickness === undefined ? `fill="${colour}" ${width}` : width);
  });
  return `<g fill="none" stroke="${colour}" stroke-linejoin="round" stroke-linecap="round">${drawn.join('')}</g>`;
}

function paintOf({ thickness, dash }: FlatPath, colour: string): string {
  if (thickness === undefined) return `fill="${colour}"`;
  const dashed = dash === undefined ? '' : ` stroke-dasharray="${dash.map(figure).join(' ')}"`;
  return `fill="none" stroke="${colour}" stroke-width="${figure(thickness)}"${dashed}`;
}

function pathOf({ steps }: FlatPath, paint: string): string {
  return steps.length === 0 ? '' : `<path d="${steps.map(stepOf).join('')}" ${paint}/>`;
}

function stepOf(step: PathStep): string {
  const [command, ...figures] = step;
  return `${command}${(figures as readonly number[]).map(figure).join(' ')}`;
}

/** A hundredth of a pixel is finer than any screen. */
function figure(pixels: number): string {
  return String(Math.round(pixels * 100) / 100);
}
