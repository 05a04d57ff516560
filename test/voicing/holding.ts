import type { Shape } from '../../shared/neck/shape.ts';

// The finder's limits once more, told another way than the finder does, to check it by.

/** Frets between the lowest and the highest that are stopped. */
export function spanOf(shape: Shape): number {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  return stopped.length === 0 ? 0 : Math.max(...stopped) - Math.min(...stopped);
}

/**
 * At each fret one finger takes the strings of that fret up to the next that is open or stopped lower, which it would spoil.
 * Source: common practice, no source.
 */
export function fingersNeeded(shape: Shape): number {
  const frets = new Set(shape.filter((fret): fret is number => fret !== 'muted' && fret > 0));
  return [...frets].reduce((fingers, fret) => {
    const marks = shape.map((other) => (other === fret ? '*' : other !== 'muted' && other < fret ? ' ' : '-'));
    return (
      fingers +
      marks
        .join('')
        .split(' ')
        .filter((piece) => piece.includes('*')).length
    );
  }, 0);
}
