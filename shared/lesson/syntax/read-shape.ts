import { type ReadShape, readFrets } from '../../neck/shape-reader.ts';
import type { Outcome } from '../../text/problem.ts';

/** Numbers of frets that are too few for any instrument. */
const HALF_TYPED = [1, 2, 3];

/**
 * Frets as far as they are typed: `0-4` is a shape that lacks strings, not a mistake. How many strings the instrument has, and
 * so how many frets are still to come, only the check knows.
 */
export function readShape(text: string): Outcome<ReadShape> {
  const whole = readFrets(text);
  if (whole.ok) return whole;
  const { problem } = whole;
  const wrong = text.slice(problem.span.start, problem.span.end);
  if (problem.code === 'shape.unreadable-fret' && /^[\dxX]{2,}$/.test(wrong)) {
    const message = `${wrong} is several frets run together; part these from each other too, as in ${[...wrong].join('-')}.`;
    return { ok: false, problem: { ...problem, message } };
  }
  if (problem.code !== 'shape.too-few-frets') return whole;
  return HALF_TYPED.map((count) => readFrets(text, count)).find((part) => part.ok) ?? whole;
}
