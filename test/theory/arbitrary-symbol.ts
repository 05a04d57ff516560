import fc from 'fast-check';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import { rolesOfParts } from '../../shared/theory/chord-parts.ts';
import { chordSymbol } from '../../shared/theory/chord-symbol.ts';
import type { Letter, Note } from '../../shared/theory/note.ts';
import { LETTERS } from '../../shared/theory/note.ts';
import type { Role } from '../../shared/theory/role.ts';

/** Notes up to double sharps and flats. */
export const noteArbitrary: fc.Arbitrary<Note> = fc.record({
  letter: fc.constantFrom<Letter>(...LETTERS),
  accidental: fc.integer({ min: -2, max: 2 }),
});

const addedOrBent: fc.Arbitrary<Role> = fc.oneof(
  fc.record({ degree: fc.constantFrom(5, 9, 11, 13), alter: fc.integer({ min: -1, max: 1 }) }),
  fc.constantFrom({ degree: 6, alter: 0 }, { degree: 7, alter: 0 }, { degree: 3, alter: 0 }),
);

/** Every kind, with up to three tones bent or added, up to two left out, with and without a bass. */
export const symbolArbitrary = fc
  .record({
    root: noteArbitrary,
    kind: fc.constantFrom(...CHORD_KINDS.map((facts) => facts.kind)),
    roles: fc.array(addedOrBent, { maxLength: 3 }),
    omitted: fc.array(fc.constantFrom(1, 3, 5, 7, 9, 11, 13), { maxLength: 2 }),
    bass: fc.option(noteArbitrary, { nil: undefined }),
  })
  .map(({ root, kind, roles, omitted, bass }) => {
    const alterations = roles.filter((role) => role.alter !== 0);
    const additions = roles.filter((role) => role.alter === 0 && role.degree !== 5);
    const omissions = omitted.map((degree) => ({ degree, alter: 0 }));
    return chordSymbol(root, { kind, alterations, additions, omissions }, bass);
  })
  // What is left of a chord without its last tone is no chord, and no name is made for it.
  .filter((symbol) => rolesOfParts(symbol).length > 0);
