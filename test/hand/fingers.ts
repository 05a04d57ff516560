import type { Fingering, FingeringWishes } from '../../shared/hand/fingering.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { type JudgedFingers, judgeFingers } from '../../shared/hand/given-fingers.ts';
import type { HandSize } from '../../shared/hand/hand.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { shape } from '../neck/playing.ts';

/** `3211`: fingers in chart order, 0 where no finger is. */
export function printFingers({ fingers }: Pick<Fingering, 'fingers'>): string {
  return fingers.map((finger) => finger ?? 0).join('');
}

/** Every fingering of the frets, best first, as `printFingers` writes them. */
export function waysToHold(
  on: Instrument,
  frets: string,
  hand: HandSize = 'medium',
  wishes: FingeringWishes = {},
): readonly string[] {
  return fingeringsOf(on, shape(frets), hand, wishes).map(printFingers);
}

/** Judges fingers written as `3211`, `T` for the thumb. */
export function judged(on: Instrument, frets: string, fingers: string, hand: HandSize = 'medium'): JudgedFingers {
  const given = [...fingers].map((finger) => (finger === 'T' ? finger : Number(finger)));
  return judgeFingers(on, shape(frets), given, hand);
}

/** Codes of what speaks against the fingers, none where they work. */
export function faultsOf(on: Instrument, frets: string, fingers: string, hand: HandSize = 'medium'): readonly string[] {
  return judged(on, frets, fingers, hand).faults.map(({ code }) => code);
}
