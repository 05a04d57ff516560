import { atOnce, type InSteps } from '../in-steps.ts';
import { askedFamily } from './asked-family.ts';
import { bestWaysInSteps } from './best-ways.ts';
import type { Candidate } from './candidates.ts';
import { choicesInSteps } from './choices.ts';
import { USUAL_FAMILIES } from './family-table.ts';
import { inNumbers } from './in-numbers.ts';
import { reasonsAgainst } from './reasons.ts';
import type { Family, FamilyAnswer, FamilyRequest } from './request.ts';
import { toldFamily } from './told-family.ts';

/**
 * The best families for a progression: every chord in a shape that keeps to what is asked, each chord always the same, chosen as a
 * whole so that the shapes look alike and the hand goes a short way, mostly in one direction (see `family-table.ts`).
 *
 * Exact: the first family is the best of all, each further one the best of all those that are different from every one before it.
 * Two families are different when at least a third of the chords that have a choice are held otherwise, and at least two where three
 * or more have one. Shapes that differ on one string only are held otherwise only where both sound there and the tones are not the
 * same: neither a string more or less nor another doubling makes a new family.
 *
 * The harmony is judged without regard to register, and ways along the neck in frets: a progression and a tuning that are both moved
 * by as many semitones have the same families. Difficulty and reach are those of the hand on this neck.
 */
export function familiesOf(request: FamilyRequest): FamilyAnswer {
  return atOnce(familiesInSteps(request));
}

/** The same, cut into steps. */
export function* familiesInSteps(request: FamilyRequest): InSteps<FamilyAnswer> {
  const asked = askedFamily(request);
  const { held, limits, wanted, pins, chordOf } = asked;
  const choices: (readonly Candidate[])[] = [];
  for (const [chord, one] of wanted.entries()) choices.push(yield* choicesInSteps(held, limits, one, pins[chord]));
  if (choices.some(({ length }) => length === 0))
    return { kind: 'none', reasons: yield* reasonsAgainst(asked, choices) };
  const numbers = inNumbers(asked, choices);
  const count = request.count ?? USUAL_FAMILIES;
  const apart = yield* bestWaysInSteps(numbers, count);
  // Where two chords have but one shape between them, they share it.
  const { ways, settled } =
    apart.ways.length > 0 ? apart : yield* bestWaysInSteps({ ...numbers, excludes: () => false }, count);
  const families: Family[] = [];
  for (const way of ways) {
    yield;
    const shapes = chordOf.flatMap((chord) => choices[chord]?.[way.choices[chord] ?? 0] ?? []);
    families.push(toldFamily(asked, shapes));
  }
  return { kind: 'families', families, settled };
}
