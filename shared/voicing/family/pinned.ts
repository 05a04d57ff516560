import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import type { FamilyLimits } from './candidates.ts';
import { tellStrings } from './why.ts';

/** Which limit of a family a pinned shape does not keep to. */
export type PinFault =
  | { readonly kind: 'strings' }
  /** Numbers of strings that are to ring and that it stops, the lowest first. */
  | { readonly kind: 'stops'; readonly strings: readonly number[] }
  | { readonly kind: 'outside'; readonly fret: number; readonly low: number; readonly high: number };

/** A pinned shape is what the teacher wants, but the strings that ring and the range hold for it as well. The neck is the one above the capo. */
export function faultOfPin(
  shape: Shape,
  { openStrings, frets }: Instrument,
  { ring, within }: Pick<FamilyLimits, 'ring' | 'within'>,
): PinFault | undefined {
  if (shape.length !== openStrings.length) return { kind: 'strings' };
  const strings = ring.filter((number) => shape[shape.length - number] !== 0).sort((one, other) => one - other);
  if (strings.length > 0) return { kind: 'stops', strings };
  const [low, high] = [within?.[0] ?? 0, Math.min(within?.[1] ?? frets, frets)];
  const fret = shape.find((one) => one !== 'muted' && one > 0 && (one < low || one > high));
  return fret === undefined || fret === 'muted' ? undefined : { kind: 'outside', fret, low, high };
}

/** `which does not let strings 1 and 2 ring` */
export function tellPinFault(fault: Exclude<PinFault, { readonly kind: 'strings' }>): string {
  return fault.kind === 'stops'
    ? `which does not let ${tellStrings(fault.strings)} ring`
    : `which goes to fret ${fault.fret}, outside of ${fault.low} to ${fault.high}`;
}
