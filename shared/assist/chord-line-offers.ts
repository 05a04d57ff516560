import { difficultyOfShape, levelWord } from '../hand/difficulty.ts';
import type { Fingering } from '../hand/fingering.ts';
import { roundedPoints } from '../hand/tell-difficulty.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import type { ChordStatement } from '../lesson/syntax/statement.ts';
import type { ChordName } from '../lesson/syntax/words.ts';
import { printShape } from '../neck/shape.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { usualFingering } from '../voicing/playable.ts';
import type { Voicing } from '../voicing/shapes.ts';
import { chordOffers } from './chord-offers.ts';
import { shapeBefore, shapesOf, takenShapes } from './further-shapes.ts';
import { printFingers } from './hold-lines.ts';
import type { Offer } from './offer.ts';
import type { TypingPlace } from './typing-place.ts';

/** How many shapes of a chord are offered: one list, readable without scrolling. */
const MOST_SHAPES = 12;

/** Behind `chord`: names; behind the name: its shapes, the ones worth playing first; behind `as`, on an edition, names again. */
export function chordLineOffers(
  scope: Scope,
  place: TypingPlace,
  shapes: (chord: ChordName) => readonly Voicing[],
): readonly Offer[] {
  const [, written, joint, other, ...rest] = place.before;
  if (written === undefined) return chordOffers(scope, place.typed);
  if (joint === 'as' && other === undefined) return chordOffers(scope, place.typed, scope.setting('key'));
  if (joint === 'as' ? rest.length > 0 : joint !== undefined)
    return place.before.includes('fingers')
      ? []
      : [{ kind: 'keyword', label: 'fingers', detail: 'Left-hand fingers, string by string.', insert: 'fingers ' }];
  const text = other ?? written;
  return shapes(readChordName({ text, span: { start: 0, end: text.length } })).map((voicing) =>
    shapeOffer(scope, text, voicing),
  );
}

/** For a line of its own: near the shape that the hand comes from, and none that another line gives the same name. */
export function lineShapes(scope: Scope, chord: ChordName, above: ChordStatement | undefined): readonly Voicing[] {
  if (chord.symbol === undefined) return [];
  const near = shapeBefore(scope, chord, above);
  const taken = takenShapes(scope, chord);
  return shapesOf(scope, chord.symbol, { max: MOST_SHAPES + taken.size, ...(near === undefined ? {} : { near }) })
    .filter(({ shape }) => !taken.has(printShape(shape)))
    .slice(0, MOST_SHAPES);
}

function shapeOffer(scope: Scope, chord: string, { shape, omits }: Voicing): Offer {
  const fingering = usualFingering(scope.edition().instrument, shape, scope.setting('hand'));
  const left = omits.length === 0 ? '' : ', not all tones';
  return { kind: 'shape', label: printShape(shape), detail: `${tellHold(fingering)}${left}`, chord };
}

/** Fingers and how hard it is, in a few words. */
function tellHold(fingering: Fingering | undefined): string {
  if (fingering === undefined) return 'more than four fingers';
  if (fingering.presses.length === 0) return 'no finger';
  const fingers = `fingers ${printFingers(fingering)}`;
  switch (fingering.verdict) {
    case 'comfortable':
      return `${fingers}, ${levelWord(roundedPoints(difficultyOfShape(fingering).total))}`;
    case 'stretched':
      return `${fingers}, a stretch`;
    case 'out-of-reach':
      return 'out of reach';
  }
}

/** The shapes of the chord in their usual order. */
export function usualShapes(scope: Scope, symbol: ChordSymbol | undefined): readonly Voicing[] {
  return symbol === undefined ? [] : shapesOf(scope, symbol, { max: MOST_SHAPES });
}
