import type { Shape } from '../neck/shape.ts';
import { spoiledBeside } from './barre.ts';
import type { Press, SilentString } from './fingering.ts';

/** The strings of a shape that are not to sound, and which finger keeps each of them silent by touching it. */
export function silentStrings(shape: Shape, presses: readonly Press[]): readonly SilentString[] {
  const silent: SilentString[] = [];
  for (const [stringIndex, fret] of shape.entries()) {
    if (fret !== 'muted') continue;
    const by = presses.find((press) => touches(shape, press, stringIndex))?.finger;
    silent.push({ stringIndex, inner: isInner(shape, stringIndex), ...(by === undefined ? {} : { by }) });
  }
  return silent;
}

/**
 * A finger touches what lies under it, and the strings right beside: with its tip the one on the bass side, with its pad the other.
 * A finger laid flat comes from string 1's side and touches everything up to there.
 */
function touches(shape: Shape, { from, to, fret }: Press, stringIndex: number): boolean {
  if (stringIndex >= from - 1 && stringIndex <= to + 1) return true;
  return from !== to && stringIndex > to && spoiledBeside(shape, fret, to) === undefined;
}

function isInner(shape: Shape, stringIndex: number): boolean {
  const sounds = (fret: Shape[number]) => fret !== 'muted';
  return shape.slice(0, stringIndex).some(sounds) && shape.slice(stringIndex + 1).some(sounds);
}
