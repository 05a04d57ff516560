import type { Finger } from './finger.ts';
import { widestReach } from './finger-reach.ts';
import type { Fingering, Press } from './fingering.ts';
import { costOf, handPosition } from './fingering-cost.ts';
import { reasonsOf } from './fingering-reasons.ts';
import type { HeldShape } from './held-shape.ts';
import { silentStrings } from './silent-strings.ts';

/** The fingering that these presses are. They stand by fret, then from the bass side, the thumb last. */
export function makeFingering(held: HeldShape, presses: readonly Press[]): Fingering {
  const widest = widestReach(held, presses);
  const position = handPosition(presses);
  const silent = silentStrings(held.shape, presses);
  return {
    fingers: fingersOn(held, presses),
    presses,
    cost: costOf(held, presses, widest, position, silent),
    verdict: widest?.verdict ?? 'comfortable',
    ...(widest === undefined ? {} : { widest }),
    ...(position === undefined ? {} : { positionFret: position.fret }),
    silent,
    reasons: reasonsOf(held, presses, widest, position, silent),
  };
}

function fingersOn({ shape }: HeldShape, presses: readonly Press[]): readonly (Finger | undefined)[] {
  const fingers = new Array<Finger | undefined>(shape.length).fill(undefined);
  for (const { finger, fret, from, to } of presses) {
    for (let stringIndex = from; stringIndex <= to; stringIndex += 1) {
      if (shape[stringIndex] === fret) fingers[stringIndex] = finger;
    }
  }
  return fingers;
}
