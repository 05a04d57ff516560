import { spoiledBeside } from './barre.ts';
import type { FingeringReason, PairReach, Press, SilentString } from './fingering.ts';
import { type HandPosition, isCrowded, isReversed } from './fingering-cost.ts';
import type { HeldShape } from './held-shape.ts';

/** What a teacher would say about a fingering, most important first. The presses stand in a fingering's order. */
export function reasonsOf(
  held: HeldShape,
  presses: readonly Press[],
  widest: PairReach | undefined,
  position: HandPosition | undefined,
  silent: readonly SilentString[],
): readonly FingeringReason[] {
  if (presses.length === 0) return [{ kind: 'open-strings' }];
  const reasons: FingeringReason[] = [];
  if (widest !== undefined && widest.verdict !== 'comfortable') reasons.push({ kind: 'stretch', reach: widest });
  for (const press of presses) pushBarre(reasons, held, press);
  for (const [place, press] of presses.entries()) {
    const isFirst = press.finger !== 'T' && presses[place - 1]?.fret !== press.fret;
    if (isFirst) pushSideBySide(reasons, held, presses, place);
  }
  // One finger a fret is worth saying where fingers stand in several frets.
  if (position?.fretsOff === 0 && presses.some(({ fret }) => fret !== presses[0]?.fret)) {
    reasons.push({ kind: 'one-finger-a-fret', positionFret: position.fret });
  }
  for (const press of presses) if (press.finger === 'T') reasons.push({ kind: 'thumb', press });
  for (const { stringIndex, inner, by } of silent) {
    if (by !== undefined) reasons.push({ kind: 'touches-silent-string', finger: by, stringIndex });
    else if (inner) reasons.push({ kind: 'silent-string-untouched', stringIndex });
  }
  return reasons;
}

function pushBarre(reasons: FingeringReason[], { shape }: HeldShape, press: Press): void {
  if (press.from === press.to) return;
  const whole = press.to - press.from + 1 === shape.length;
  reasons.push({ kind: whole ? 'barre' : 'half-barre', press });
  const spoiled = spoiledBeside(shape, press.fret, press.to);
  if (spoiled !== undefined) reasons.push({ kind: 'lifted-barre', press, overString: spoiled.stringIndex });
}

function pushSideBySide(reasons: FingeringReason[], held: HeldShape, presses: readonly Press[], place: number): void {
  const fret = presses[place]?.fret;
  const beside = presses.filter((press) => press.fret === fret && press.finger !== 'T');
  if (fret === undefined || beside.length < 2) return;
  const fingers = beside.map(({ finger }) => finger);
  reasons.push({ kind: 'side-by-side', fret, fingers, crowded: isCrowded(held, presses, place) });
  for (const [at, press] of beside.entries()) {
    const next = beside[at + 1];
    if (next !== undefined && isReversed(press, next)) {
      reasons.push({ kind: 'reversed', fret, fingers: [press.finger, next.finger] });
    }
  }
}
