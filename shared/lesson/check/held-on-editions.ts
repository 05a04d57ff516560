import type { Fingering } from '../../hand/fingering.ts';
import type { HandName, HandSize } from '../../hand/hand.ts';
import { givenFingers, waysToHold } from '../../hand/kept-fingerings.ts';
import type { ReachVerdict } from '../../hand/reach.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';

/** How a hand fares with a shape: what its fingers are to each other, or that four of them are not enough. */
export type HoldVerdict = ReachVerdict | 'too-few-fingers';

/** A shape in the lesson's hand on one edition's instrument. */
export interface HeldOnEdition {
  readonly instrument: Instrument;
  readonly hand: HandSize;
  readonly shape: Shape;
  /** The edition's name; absent for the one that the scope asks for. */
  readonly edition?: string;
  readonly verdict: HoldVerdict;
  /** The fingers that the lesson gives where they can work, else the best. Absent where four are not enough. */
  readonly fingering?: Fingering;
}

const FROM_EASY: readonly HoldVerdict[] = ['comfortable', 'stretched', 'out-of-reach', 'too-few-fingers'];

/** Below zero where the first is easier. */
export function compareVerdicts(one: HoldVerdict, other: HoldVerdict): number {
  return FROM_EASY.indexOf(one) - FROM_EASY.indexOf(other);
}

/**
 * The shape of a `chord` line on the scope's edition, and on each further edition that holds the same frets. Editions with shapes of
 * their own are checked where those stand.
 */
export function heldOnEditions(scope: Scope, shape: Shape, statement: ChordStatement): readonly HeldOnEdition[] {
  const own = heldOn(scope, shape, statement.fingers);
  const text = statement.chord?.text;
  if (scope.edition().keeps !== 'own' || text === undefined || scope.chord(text) !== statement) return [own];
  const others = scope.editions().flatMap((other): readonly HeldOnEdition[] => {
    const { name, keeps, instrument } = other.edition();
    const hasStrings = instrument.openStrings.length === shape.length;
    const last = instrument.frets - instrument.capoFret;
    const onNeck = shape.every((fret) => fret === 'muted' || fret <= last);
    if (keeps !== 'shapes' || !hasStrings || !onNeck || other.chord(text) !== statement) return [];
    return [{ ...heldOn(other, shape, statement.fingers), edition: name }];
  });
  return [own, ...others];
}

/** A shape on the scope's edition, with the fingers that the lesson gives where they can work. */
export function heldOn(scope: Scope, shape: Shape, given: ChordStatement['fingers']): HeldOnEdition {
  return heldBy(scope.edition().instrument, scope.setting('hand'), shape, given);
}

/** The same for any instrument and hand. */
export function heldBy(
  instrument: Instrument,
  hand: HandSize,
  shape: Shape,
  given: ChordStatement['fingers'],
): HeldOnEdition {
  const judged = given && givenFingers(instrument, shape, given, hand);
  const fingering = judged?.faults.length === 0 ? judged.fingering : waysToHold(instrument, shape, hand)[0];
  const base = { instrument, hand, shape };
  return fingering === undefined
    ? { ...base, verdict: 'too-few-fingers' }
    : { ...base, verdict: fingering.verdict, fingering };
}

/** How the best fingers of a hand fare with a shape. */
export function bestVerdict(instrument: Instrument, shape: Shape, hand: HandSize): HoldVerdict {
  return waysToHold(instrument, shape, hand)[0]?.verdict ?? 'too-few-fingers';
}

/** The named hands from the largest to the smallest, with what the shape is to each of them. */
export function handsOn(
  instrument: Instrument,
  shape: Shape,
): readonly { readonly hand: HandName; readonly verdict: HoldVerdict }[] {
  return FROM_LARGE.map((hand) => ({ hand, verdict: bestVerdict(instrument, shape, hand) }));
}

const FROM_LARGE: readonly HandName[] = ['large', 'medium', 'small', 'child'];
