import { nearest } from '../../text/nearest.ts';
import type { Outcome } from '../../text/problem.ts';
import { rolesOfParts } from '../../theory/chord-parts.ts';
import { readSuffix } from '../../theory/chord-suffix.ts';
import type { Role } from '../../theory/role.ts';
import { sameRole } from '../../theory/role.ts';

/** What may happen to a chord of the progression, so that a shape fits into the family. */
export interface Allowance {
  /** Every tone may come on top; the honest name says what the chord becomes. */
  readonly any: boolean;
  /** Tones that may come on top: the ninth of `add9`, the sixth and ninth of `6/9`. */
  readonly adds: readonly Role[];
  /** Tones that may take the third's place: the second of `sus2`, the fourth of `sus4`. */
  readonly suspensions: readonly Role[];
  /** Degrees that may be left out beyond what players leave out anyway: 3 for `5` or `no3`. */
  readonly omits: readonly number[];
}

/** The chords stay what they are; only what players leave out anyway may be missing. */
export const NOTHING_ALLOWED: Allowance = { any: false, adds: [], suspensions: [], omits: [] };

/** A word for all that a chord may become. */
const ANYTHING = 'any';

/** The usual words, as they are told to whoever wrote none; compounds of them are read too. Common practice, no source. */
const USUAL_WORDS = [
  'add9',
  'add11',
  '6',
  '6/9',
  '7',
  'maj7',
  '9',
  'maj9',
  '11',
  '13',
  'sus2',
  'sus4',
  '5',
  'no3',
  'no5',
  ANYTHING,
];

/**
 * Reads what may happen to the chords, each word written as behind a root: `add9`, `6`, `6/9`, `maj7`, `7`, `sus2`, `sus4`, `add11`,
 * `5` or `no3` (the third may go), `no5`; or `any`. The words are those of chord names, read as they are there. What bends a chord's
 * own tones (`m`, `dim`, `b5`) is refused: that would be another chord. Spans count from the start of the word.
 */
export function readAllowance(words: readonly string[]): Outcome<Allowance> {
  let allowance = NOTHING_ALLOWED;
  for (const word of words) {
    const read = readWord(word);
    if (!read.ok) return read;
    allowance = joined(allowance, read.value);
  }
  return { ok: true, value: allowance };
}

function readWord(word: string): Outcome<Allowance> {
  if (word.toLowerCase() === ANYTHING) return { ok: true, value: { ...NOTHING_ALLOWED, any: true } };
  const parts = readSuffix(word);
  const span = { start: 0, end: word.length };
  if (!parts.ok) {
    const near = nearest(word, USUAL_WORDS);
    const guess = near === undefined ? '' : ` Did you mean ${near}?`;
    const message = `"${word}" is nothing that can be added to a chord.${guess} Say it as behind a chord's root: ${USUAL_WORDS.slice(0, -1).join(', ')}, or ${ANYTHING}.`;
    return { ok: false, problem: { code: 'allow.unreadable', message, span } };
  }
  const { kind, omissions } = parts.value;
  const roles = rolesOfParts(parts.value);
  const bent = roles.some(({ degree, alter }) => alter !== 0 && (degree === 3 || degree === 5));
  const minorSeventh = kind === 'minor-seventh';
  if (bent && !minorSeventh) {
    const message = `"${word}" makes another chord of it: allow adds tones (add9, 6, maj7), or lets the third rest (sus2, sus4, 5).`;
    return { ok: false, problem: { code: 'allow.another-chord', message, span } };
  }
  const suspends = kind.includes('suspended');
  const suspensions = roles.filter(({ degree }) => suspends && (degree === 2 || degree === 4));
  const adds = roles.filter((role) => role.degree > 5 && !suspensions.includes(role));
  const omits = [...omissions.map(({ degree }) => degree), ...(kind === 'power' ? [3] : [])];
  if (suspensions.length + adds.length + omits.length === 0) {
    const message = `"${word}" adds nothing to a chord. Say what may be added: add9, 6, 6/9, maj7, sus2, sus4.`;
    return { ok: false, problem: { code: 'allow.nothing', message, span } };
  }
  return { ok: true, value: { any: false, adds, suspensions, omits } };
}

function joined(one: Allowance, other: Allowance): Allowance {
  return {
    any: one.any || other.any,
    adds: merged(one.adds, other.adds),
    suspensions: merged(one.suspensions, other.suspensions),
    omits: [...new Set([...one.omits, ...other.omits])],
  };
}

function merged(some: readonly Role[], more: readonly Role[]): readonly Role[] {
  return [...some, ...more.filter((role) => !some.some((known) => sameRole(known, role)))];
}
