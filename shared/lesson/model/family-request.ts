import type { Shape } from '../../neck/shape.ts';
import type { Span } from '../../text/span.ts';
import { type ChordSymbol, printChordSymbol } from '../../theory/chord-symbol.ts';
import { readAllowance } from '../../voicing/family/allowance.ts';
import { FEWEST_CHORDS, MOST_CHORDS } from '../../voicing/family/family-table.ts';
import type { FamilyRequest, Pin } from '../../voicing/family/request.ts';
import type { FamilyStatement } from '../syntax/statement.ts';
import { chordsIn } from './chords-in.ts';
import type { Scope } from './scope.ts';
import { shapeMovedAlone } from './shape-moved-alone.ts';

/** A family of the lesson as it can be looked for, or what it still lacks and where. */
export type AskedOfLesson =
  | { readonly kind: 'request'; readonly request: FamilyRequest }
  | { readonly kind: 'not-yet'; readonly message: string; readonly span: Span };

/**
 * What a `family` block asks for on this edition: the chords of its progression as they are written, what must ring, the range, what
 * is allowed and what is kept, for the lesson's hand and key. In the same key it is asked anew: strings and frets are those of the
 * edition's instrument, and what is kept stands there in a shape of its own. What cannot be read is told as not there yet, in place of a family that
 * the teacher did not ask for; a `keep` without its shape is still being typed and pins nothing. Spans count like the statement's own.
 */
export function familyRequest(scope: Scope, statement: FamilyStatement): AskedOfLesson {
  const { from, ring, within } = statement;
  if (from === undefined) return notYet('Say from which progression: from verse.', statement.keyword.span);
  const progression = scope.progression(from.text);
  if (progression === undefined) return notYet(`There is no progression ${from.text}.`, from.span);
  const chords: ChordSymbol[] = [];
  for (const { symbol, text } of chordsIn(progression)) {
    if (symbol === undefined) return notYet(`In ${from.text}, ${text} is not a chord name.`, from.span);
    chords.push(symbol);
  }
  if (chords.length < FEWEST_CHORDS) {
    return notYet(`A family is made of two chords or more, and ${from.text} has ${chords.length}.`, from.span);
  }
  if (chords.length > MOST_CHORDS) {
    const message = `A family is made of ${MOST_CHORDS} chords at most, and ${from.text} has ${chords.length}.`;
    return notYet(message, from.span);
  }
  if (ring?.ring.kind === 'all') return notYet('Say which strings ring open in every shape: ring 1 2.', ring.span);
  for (const word of statement.allow) {
    const read = readAllowance([word.text]);
    if (!read.ok) return notYet(read.problem.message, word.span);
  }
  const allow = readAllowance(statement.allow.map(({ text }) => text));
  const { instrument } = scope.edition();
  const key = scope.setting('key');
  return {
    kind: 'request',
    request: {
      instrument,
      chords,
      hand: scope.setting('hand'),
      pins: pinsOf(scope, statement),
      ...(allow.ok ? { allow: allow.value } : {}),
      ...(ring?.ring.kind === 'strings' ? { ring: ring.ring.strings } : {}),
      ...(within === undefined ? {} : { within: [within.low, within.high] }),
      ...(key === undefined ? {} : { key }),
    },
  };
}

/** A chord that a family keeps in one shape. */
type Keep = FamilyStatement['keep'][number];

/**
 * The shape that a chord is kept in on the scope's edition: the frets that are written, or in the same key the shape for it there that
 * stands nearest to them. Nothing while it is not written yet, or where there is none.
 */
export function keptShape(scope: Scope, { chord, shape }: Keep): Shape | undefined {
  if (shape === undefined || chord.symbol === undefined || scope.edition().keeps !== 'key') return shape;
  return shape.length === scope.ownInstrument().openStrings.length
    ? shapeMovedAlone(scope, shape, chord.symbol)
    : undefined;
}

/** Where a chord is kept twice, its first shape counts. */
function pinsOf(scope: Scope, { keep }: FamilyStatement): readonly Pin[] {
  const pins: Pin[] = [];
  for (const one of keep) {
    const { symbol } = one.chord;
    const shape = keptShape(scope, one);
    if (symbol === undefined || shape === undefined) continue;
    const name = printChordSymbol(symbol);
    if (!pins.some((pin) => printChordSymbol(pin.chord) === name)) pins.push({ chord: symbol, shape });
  }
  return pins;
}

function notYet(message: string, span: Span): AskedOfLesson {
  return { kind: 'not-yet', message, span };
}
