import type { PathStep } from '../../engrave/drawing.ts';

/** An outline and where it stands: two that look alike have the same `drawn`. Unit: px. */
export interface Shape {
  readonly x: number;
  readonly y: number;
  /** What follows the first point, each step counted from the one before, as path data. */
  readonly drawn: string;
}

/** Outlines are written in tenths of a pixel and placed in hundredths: finer than any screen. */
const STEPS_IN_PX = 10;
const PLACES_IN_PX = 100;

/** An outline as a shape; nothing where there is nothing to draw. */
export function shapeOf(steps: readonly PathStep[]): Shape | undefined {
  const [first] = steps;
  if (first === undefined || first[0] === 'Z') return undefined;
  const [originX, originY] = [first[1], first[2]];
  // Counted in whole tenths from the first point, so that nothing is lost from step to step.
  let [x, y, startX, startY] = [0, 0, 0, 0];
  const tenths = (value: number, origin: number): number => Math.round((value - origin) * STEPS_IN_PX);
  const from = (value: number, before: number): string => String((value - before) / STEPS_IN_PX);
  let drawn = '';
  for (const step of steps.slice(1)) {
    if (step[0] === 'Z') {
      drawn += 'z';
      [x, y] = [startX, startY];
      continue;
    }
    const points: number[] = [];
    for (let at = 1; at < step.length; at += 2)
      points.push(tenths(Number(step[at]), originX), tenths(Number(step[at + 1]), originY));
    const written = points.map((point, index) => from(point, index % 2 === 0 ? x : y));
    drawn += step[0].toLowerCase() + joined(written);
    [x, y] = [points.at(-2) ?? x, points.at(-1) ?? y];
    if (step[0] === 'M') [startX, startY] = [x, y];
  }
  return { x: placed(originX), y: placed(originY), drawn };
}

function placed(value: number): number {
  return Math.round(value * PLACES_IN_PX) / PLACES_IN_PX;
}

/** Numbers as path data: a minus parts as well as a blank, and no number needs a nought before its point. */
function joined(figures: readonly string[]): string {
  return figures
    .map((figure) => figure.replace(/^(-?)0\./, '$1.'))
    .reduce((line, figure) => (line === '' || figure.startsWith('-') ? line + figure : `${line} ${figure}`), '');
}
