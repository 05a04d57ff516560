import type { Span } from '../../text/span.ts';
import { type ChordSymbol, printChordSymbol } from '../../theory/chord-symbol.ts';
import { readAllowance } from '../../voicing/family/allowance.ts';
import { FEWEST_CHORDS, MOST_CHORDS } from '../../voicing/family/family-table.ts';
import type { FamilyRequest, Pin } from '../../voicing/family/request.ts';
import type { FamilyStatement } from '../syntax/statement.ts';
import { chordsIn } from './chords-in.ts';
import type { Scope } from './scope.ts';

/** A family of the lesson as it can be looked for, or what it still lacks and where. */
export type AskedOfLesson =
  | { readonly kind: 'request'; readonly request: FamilyRequest }
  | { readonly kind: 'not-yet'; readonly message: string; readonly span: Span };

/**
 * What a `family` block asks for on this edition: the chords of its progression as they are written, what must ring, the range, what
 * is allowed and what is kept, for the lesson's hand and key. What cannot be read is told as not there yet, in place of a family that
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
      pins: pinsOf(statement),
      ...(allow.ok ? { allow: allow.value } : {}),
      ...(ring?.ring.kind === 'strings' ? { ring: ring.ring.strings } : {}),
      ...(within === undefined ? {} : { within: [within.low, within.high] }),
      ...(key === undefined ? {} : { key }),
    },
  };
}

/** Where a chord is kept twice, its first shape counts. */
function pinsOf({ keep }: FamilyStatement): readonly Pin[] {
  const pins: Pin[] = [];
  for (const { chord, shape } of keep) {
    const { symbol } = chord;
    if (symbol === undefined || shape === undefined) continue;
    const name = printChordSymbol(symbol);
    if (!pins.some((pin) => printChordSymbol(pin.chord) === name)) pins.push({ chord: symbol, shape });
  }
  return pins;
}

function notYet(message: string, span: Span): AskedOfLesson {
  return { kind: 'not-yet', message, span };
}
