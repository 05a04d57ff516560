import type { ChordKind } from '../theory/chord-kinds.ts';
import type { Role } from '../theory/role.ts';
import { rolePitchClass } from '../theory/role.ts';

/**
 * True when players leave this tone out of the chord and still call it by its name.
 * The plain fifth tells least and goes first; the third and the seventh settle the quality and stay; an altered fifth names the
 * chord; the root may go where four tones or more remain to tell it; in tall chords the ninth and eleventh below the top may go.
 * Sources: "Shell voicings", Learning Music with Ray, 2014; J. Morell, Theory III handout; Guitar World, "Omitting the 5th in
 * chords"; Wikipedia "Guitar chord"; the altered fifth and the eleventh: common practice, no source.
 */
function mayBeLeftOut(role: Role, roles: readonly Role[], kind: ChordKind): boolean {
  const has = (degree: number, alter?: number) =>
    roles.some((other) => other.degree === degree && (alter === undefined || other.alter === alter));
  switch (role.degree) {
    case 1:
      return roles.length >= 4;
    case 3:
      if (role.alter !== 0 || !has(7, -1)) return false;
      // A thirteenth with altered fifth and ninth is told by those two.
      return has(13) ? has(5, -1) && (has(9, -1) || has(9, 1)) : has(11, 0);
    case 5:
      return kind === 'altered-dominant' || (role.alter === 0 && roles.length >= 3);
    case 9:
      return kind === 'altered-dominant' || (role.alter === 0 && has(7) && (has(11) || has(13)));
    case 11:
      return role.alter === 0 && has(7) && has(13);
    default:
      return false;
  }
}

/**
 * Of the tones that do not sound, those without which the name is wrong: the ones that nobody leaves out, a root and a fifth
 * gone together from a chord of four tones, and every altered tone of an altered dominant at once.
 */
export function essentialOf(missing: readonly Role[], roles: readonly Role[], kind: ChordKind): readonly Role[] {
  const essential = missing.filter((role) => !mayBeLeftOut(role, roles, kind));
  const root = missing.find((role) => role.degree === 1);
  const fifth = missing.find((role) => role.degree === 5);
  if (root !== undefined && fifth !== undefined && roles.length <= 4 && essential.length === 0) return [root];
  if (kind === 'altered-dominant') {
    const colours = roles.filter((role) => role.alter !== 0 && role.degree !== 7);
    const gone = colours.filter((role) => missing.includes(role));
    // Two tones of it can be one sound: nothing is left of the alteration only when no colour sounds.
    if (gone.length === colours.length) return [...essential, ...gone];
  }
  return essential;
}

/** The roles whose pitch class is not in the mask. Bit n of the mask is the pitch class n semitones above the root. */
export function missingFrom(maskAboveRoot: number, roles: readonly Role[]): readonly Role[] {
  return roles.filter((role) => (maskAboveRoot & (1 << rolePitchClass(role))) === 0);
}
