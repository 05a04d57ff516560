import type { Outcome } from '../text/problem.ts';
import { type HandModel, modelOf, pairLimit, type ReachLimit } from './hand-model.ts';
import type { HandMeasures } from './hand-table.ts';
import { ADULT_HANDS, CHILD_SHARE, HANDSPAN_RANGE_MM, MEDIUM_HANDSPAN_MM } from './hand-table.ts';

export type HandName = 'small' | 'medium' | 'large' | 'child';

/**
 * Whose hand a lesson is for: one of the named ones, or one that was measured.
 * `spanMm` is from the tip of the thumb to the tip of the little finger, the hand spread flat. Unit: mm.
 */
export type HandSize = HandName | { readonly spanMm: number };

export const HAND_NAMES: readonly HandName[] = ['small', 'medium', 'large', 'child'];

/** The hand of a lesson that names none. */
export const USUAL_HAND: HandSize = 'medium';

export type { ReachLimit } from './hand-model.ts';

/** Reads `small`, `medium`, `large`, `child`, `200` or `200 mm`. Spans in a fault count from the start of `text`. */
export function parseHand(text: string): Outcome<HandSize> {
  const word = text.trim().toLowerCase();
  const named = HAND_NAMES.find((name) => name === word);
  if (named !== undefined) return { ok: true, value: named };
  const [least, most] = HANDSPAN_RANGE_MM;
  const spanMm = Number(/^(\d+(?:\.\d+)?)\s*(?:mm)?$/.exec(word)?.[1]);
  if (spanMm >= least && spanMm <= most) return { ok: true, value: { spanMm } };
  const message = Number.isNaN(spanMm)
    ? `A hand is small, medium, large or child, or its span from thumb to little finger in millimetres, as in 200 mm.`
    : `A hand's span goes from thumb to little finger, spread flat: ${least} to ${most} mm.`;
  return { ok: false, problem: { code: 'hand.unreadable', message, span: { start: 0, end: text.length } } };
}

/** `medium`, or `200 mm`: what `parseHand` reads. */
export function printHand(hand: HandSize): string {
  return typeof hand === 'string' ? hand : `${hand.spanMm} mm`;
}

/** `a medium hand`, `a child's hand`, `a hand of 200 mm`: for messages. */
export function describeHand(hand: HandSize): string {
  if (hand === 'child') return "a child's hand";
  return typeof hand === 'string' ? `a ${hand} hand` : `a hand of ${hand.spanMm} mm`;
}

/** What this hand can do on a neck. */
export function handModel(hand: HandSize): HandModel {
  return modelOf(measuresOf(hand));
}

/** What index and little finger reach along a string, at ease and at most: the measure of a hand while no fingers are known. */
export function reachLimit(hand: HandSize): ReachLimit {
  return pairLimit(handModel(hand), 1, 4);
}

/** A hand given by its span is the medium one made larger or smaller, which is a model. */
function measuresOf(hand: HandSize): HandMeasures {
  if (hand === 'child') return scaled(ADULT_HANDS.medium, CHILD_SHARE);
  if (typeof hand === 'string') return ADULT_HANDS[hand];
  return scaled(ADULT_HANDS.medium, hand.spanMm / MEDIUM_HANDSPAN_MM);
}

function scaled(measures: HandMeasures, share: number): HandMeasures {
  return { lengthMm: measures.lengthMm * share, breadthMm: measures.breadthMm * share };
}
