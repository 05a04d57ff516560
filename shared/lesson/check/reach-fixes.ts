import { waysToHold } from '../../hand/kept-fingerings.ts';
import { neckAboveCapo } from '../../neck/capo.ts';
import { type Fret, printShape, type Shape } from '../../neck/shape.ts';
import type { Fix } from '../../text/problem.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { judgeFit } from '../../voicing/fit.ts';
import { shapesFor } from '../../voicing/shapes.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { printFingers } from './check-fingers.ts';
import { bestVerdict, compareVerdicts, type HeldOnEdition, type HoldVerdict } from './held-on-editions.ts';
import { without } from './tell-missing.ts';

/** How many other shapes are offered; more would have to be compared by somebody who wants to play. */
const MOST_SHAPES = 3;

/**
 * Ways out of a shape that is a stretch or too far, on every edition that holds it: other fingers where the given ones are the cause,
 * the nearest shapes of the same chord, the same shape without one string. `held` is the shape on each edition, the own one first.
 */
export function reachFixes(
  held: readonly [HeldOnEdition, ...HeldOnEdition[]],
  statement: ChordStatement,
  symbol: ChordSymbol | undefined,
): readonly Fix[] {
  const fingers = otherFingers(held[0], statement);
  if (fingers.length > 0 || symbol === undefined) return fingers;
  const shapes = otherShapes(held, symbol);
  const less = withoutString(held, symbol).filter(
    ({ shape }) => !shapes.some((other) => sameShape(other.shape, shape)),
  );
  return [...shapes, ...less].map(({ title, shape }) => ({ title, edits: [reshape(held[0], shape, statement)] }));
}

/** Other fingers for the same frets, where they are easier than those that the lesson gives. */
function otherFingers({ instrument, shape, hand, verdict }: HeldOnEdition, statement: ChordStatement): readonly Fix[] {
  const [best] = waysToHold(instrument, shape, hand);
  if (statement.fingersWord === undefined || best === undefined) return [];
  if (compareVerdicts(best.verdict, verdict) >= 0) return [];
  const text = printFingers(best);
  return [{ title: `Use fingers ${text}`, edits: [{ span: statement.fingersWord.span, text }], preferred: true }];
}

/** Shapes that can be taken instead of one that no line gives. */
export function offersFor(held: HeldOnEdition, symbol: ChordSymbol): readonly Offer[] {
  return otherShapes([held], symbol);
}

/** A shape to take instead, and how a teacher would offer it. */
export interface Offer {
  readonly title: string;
  readonly shape: Shape;
}

/** The nearest shapes of the chord, those with all its tones first. */
function otherShapes(held: readonly [HeldOnEdition, ...HeldOnEdition[]], symbol: ChordSymbol): readonly Offer[] {
  const [{ instrument, shape }] = held;
  const now = worstOf(held, shape);
  const easier = shapesFor(symbol, neckAboveCapo(instrument), { near: shape })
    .map((voicing) => ({ ...voicing, verdict: worstOf(held, voicing.shape) }))
    .filter(({ verdict }) => compareVerdicts(verdict, now) < 0);
  const atEase = easier.filter(({ verdict }) => verdict === 'comfortable');
  const nearest = atEase.length > 0 ? atEase : easier;
  const whole = nearest.filter(({ omits }) => omits.length === 0);
  const everywhere = held.length > 1 ? ' on every instrument that holds it' : '';
  return [...whole, ...nearest.filter((one) => !whole.includes(one))].slice(0, MOST_SHAPES).map((other) => {
    const how = other.verdict === 'comfortable' ? `at ease${everywhere}` : `a stretch, but within reach${everywhere}`;
    const lacks = other.omits.length === 0 ? '' : `, ${without(other.omits)}`;
    return { title: `Take ${printShape(other.shape)} instead${lacks}: ${how}`, shape: other.shape };
  });
}

function sameShape(one: Shape, other: Shape): boolean {
  return one.every((fret, at) => fret === other[at]);
}

/** The same shape with one string left silent, where the name still fits and the hand is at ease; an outer string where one will do. */
function withoutString(held: readonly [HeldOnEdition, ...HeldOnEdition[]], symbol: ChordSymbol): readonly Offer[] {
  const [{ instrument, shape }] = held;
  const neck = neckAboveCapo(instrument);
  const tries = shape.flatMap((fret, index) => {
    if (fret === 'muted' || fret === 0) return [];
    const less = shape.map((other, at): Fret => (at === index ? 'muted' : other));
    const { verdict, missing } = judgeFit(neck, less, symbol);
    const names = verdict === 'fits' || verdict === 'fits-incomplete';
    if (!names || worstOf(held, less) !== 'comfortable') return [];
    const outer = index === 0 || index === shape.length - 1;
    return [{ less, missing, string: shape.length - index, rank: (verdict === 'fits' ? 0 : 2) + (outer ? 0 : 1) }];
  });
  const [best] = [...tries].sort((one, other) => one.rank - other.rank);
  if (best === undefined) return [];
  const lacks = best.missing.length === 0 ? '' : `, ${without(best.missing)}`;
  return [{ title: `Leave string ${best.string} out: ${printShape(best.less)}${lacks}`, shape: best.less }];
}

function worstOf(held: readonly HeldOnEdition[], shape: Shape): HoldVerdict {
  return held
    .map(({ instrument, hand }) => bestVerdict(instrument, shape, hand))
    .reduce((worst, verdict) => (compareVerdicts(verdict, worst) > 0 ? verdict : worst));
}

/** The edit that gives the line other frets, with fingers for them where it gave fingers. */
function reshape({ instrument, hand }: HeldOnEdition, shape: Shape, statement: ChordStatement): Fix['edits'][number] {
  const { frets, fingersWord, span } = statement;
  const start = frets?.span.start ?? span.end;
  const [best] = waysToHold(instrument, shape, hand);
  if (fingersWord === undefined || best === undefined) {
    return { span: { start, end: fingersWord?.span.end ?? frets?.span.end ?? span.end }, text: printShape(shape) };
  }
  return { span: { start, end: fingersWord.span.end }, text: `${printShape(shape)}  fingers ${printFingers(best)}` };
}
