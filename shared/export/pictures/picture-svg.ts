import type { Ink } from '../../engrave/drawing.ts';
import { escapeText } from '../../engrave/escape.ts';
import { extentOf, type FlatPath, type FlatText, flatItems, WHOLE_PAPER } from '../flat-items.ts';
import { placedInFrame, VIDEO_FRAMES } from './frames.ts';
import type { LessonPicture } from './lesson-pictures.ts';
import { type Shape, shapeOf } from './shapes.ts';

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
  const colours = COLOURS[look.ink];
  const painted = paths.map((path) => ({ path, paint: paintOf(path, colours[path.ink]) }));
  const halo = look.halo ? haloOf(paths, colours.paper, Math.min(HALO_MM * placed.scale, MOST_HALO_PX)) : [];
  const written = writerOf([...halo, ...painted]);
  const around = `fill="none" stroke="${colours.paper}" stroke-linejoin="round" stroke-linecap="round"`;
  const edge = halo.length === 0 ? '' : `<g ${around}>${written.body(halo)}</g>`;
  const title = escapeText(picture.alternative);
  const head = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${size} role="img">`;
  return `${head}<title>${title}</title>${written.shapes}${edge}${written.body(painted)}</svg>\n`;
}

/** An outline and the attributes that it is painted with. */
interface Painted {
  readonly path: FlatPath;
  readonly paint: string;
}

/** Everything once more behind itself, thicker, in the colour of the ground that it wants. */
function haloOf(paths: readonly FlatPath[], colour: string, reach: number): readonly Painted[] {
  // What is painted in the colour of the ground stands on something that has an edge already.
  return paths
    .filter((path) => path.ink !== 'paper')
    .map((path) => {
      const width = `stroke-width="${figure((path.thickness ?? 0) + 2 * reach)}"`;
      return { path, paint: path.thickness === undefined ? `fill="${colour}" ${width}` : width };
    });
}

/**
 * Writes outlines, each shape that occurs several times only once: a line of music has its letters and figures over and over, and
 * its edge has them all again. `xlink:href` is what programs for videos know. Source: SVG 1.1, 5.6.
 */
function writerOf(all: readonly Painted[]): {
  readonly shapes: string;
  readonly body: (painted: readonly Painted[]) => string;
} {
  const shapes = new Map(all.map(({ path }) => [path, shapeOf(path.steps)] as const));
  const times = new Map<string, number>();
  for (const { path } of all) {
    const drawn = shapes.get(path)?.drawn;
    if (drawn !== undefined) times.set(drawn, (times.get(drawn) ?? 0) + 1);
  }
  const shared = [...times]
    .filter(([drawn, count]) => count > 1 && drawn.length > LEAST_SHARED)
    .map(([drawn]) => drawn);
  const names = new Map(shared.map((drawn, index) => [drawn, `s${index.toString(36)}`]));
  const defined = [...names].map(([drawn, name]) => `<path id="${name}" d="M0 0${drawn}"/>`).join('');
  const one = (shape: Shape): string => {
    const name = names.get(shape.drawn);
    if (name === undefined) return `<path d="M${shape.x} ${shape.y}${shape.drawn}"/>`;
    return `<use xlink:href="#${name}" x="${shape.x}" y="${shape.y}"/>`;
  };
  const body = (painted: readonly Painted[]): string => {
    const runs: { readonly paint: string; drawn: string }[] = [];
    for (const { path, paint } of painted) {
      const shape = shapes.get(path);
      if (shape === undefined) continue;
      const last = runs.at(-1);
      if (last?.paint === paint) last.drawn += one(shape);
      else runs.push({ paint, drawn: one(shape) });
    }
    return runs.map(({ paint, drawn }) => `<g ${paint}>${drawn}</g>`).join('');
  };
  return { shapes: defined === '' ? '' : `<defs>${defined}</defs>`, body };
}

/** A shape shorter than this is written as often as it occurs: to refer to it would take as much. Unit: characters. */
const LEAST_SHARED = 30;

function paintOf({ thickness, dash }: FlatPath, colour: string): string {
  if (thickness === undefined) return `fill="${colour}"`;
  const dashed = dash === undefined ? '' : ` stroke-dasharray="${dash.map(figure).join(' ')}"`;
  return `fill="none" stroke="${colour}" stroke-width="${figure(thickness)}"${dashed}`;
}

/** A hundredth of a pixel is finer than any screen. */
function figure(pixels: number): string {
  return String(Math.round(pixels * 100) / 100);
}
