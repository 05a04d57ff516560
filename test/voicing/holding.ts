import type { Shape } from '../../shared/neck/shape.ts';

// The finder's limits once more, told another way than the finder does, to check it by.

/** Frets between the lowest and the highest that are stopped. */
export function spanOf(shape: Shape): number {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  return stopped.length === 0 ? 0 : Math.max(...stopped) - Math.min(...stopped);
}

/**
 * At the lowest fret a finger lies across all strings up to the next that is open or silent; at a higher one across neighbours.
 * Source: common practice, no source.
 */
export function fingersNeeded(shape: Shape): number {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  const low = Math.min(...stopped);
  const pieces: number[][] = [[]];
  for (const fret of shape) {
    if (fret === 'muted' || fret === 0) pieces.push([]);
    else pieces.at(-1)?.push(fret);
  }
  const across = pieces.filter((piece) => piece.includes(low)).length;
  const higher = pieces.flatMap((piece) => piece.filter((fret, at) => fret > low && piece[at - 1] !== fret));
  return across + higher.length;
}
