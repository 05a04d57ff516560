import type { ChordKind } from './chord-kinds.ts';
import { chordKindFacts } from './chord-kinds.ts';
import type { Role } from './role.ts';
import { compareRoles, rolePitchClass, sameRole } from './role.ts';

/** What a chord is above its root, whatever the root. */
export interface ChordParts {
  readonly kind: ChordKind;
  /** Tones that take the place of the kind's own tone of that degree, or colour a seventh chord: ♭5, ♭9, ♯11. */
  readonly alterations: readonly Role[];
  /** Tones that come on top: the 9 of add9. */
  readonly additions: readonly Role[];
  /** Tones that the name says are not there. */
  readonly omissions: readonly Role[];
}

/** A fifth bent this way gives the chord a name of its own. Source: common practice, no source. */
const BENT_FIFTH: readonly (readonly [ChordKind, number, ChordKind])[] = [
  ['major', 1, 'augmented'],
  ['minor', -1, 'diminished'],
  ['minor-seventh', -1, 'half-diminished'],
  ['minor-major-seventh', -1, 'diminished-major-seventh'],
  ['dominant', 1, 'augmented-seventh'],
];

/** A tone on top gives the chord a name of its own. Source: common practice, no source. */
const GROWN: readonly (readonly [ChordKind, number, ChordKind])[] = [
  ['major', 6, 'major-sixth'],
  ['minor', 6, 'minor-sixth'],
  ['major', 7, 'major-seventh'],
  ['minor', 7, 'minor-major-seventh'],
  ['suspended-second', 7, 'major-seventh-suspended-second'],
  ['suspended-fourth', 7, 'major-seventh-suspended-fourth'],
  ['major-sixth', 9, 'six-nine'],
  ['minor-sixth', 9, 'minor-six-nine'],
  ['dominant', 9, 'dominant-ninth'],
  ['major-seventh', 9, 'major-ninth'],
  ['minor-seventh', 9, 'minor-ninth'],
  ['minor-major-seventh', 9, 'minor-major-ninth'],
  ['dominant-ninth', 11, 'dominant-11th'],
  ['major-ninth', 11, 'major-11th'],
  ['minor-ninth', 11, 'minor-11th'],
  ['dominant-ninth', 13, 'dominant-13th'],
  ['major-ninth', 13, 'major-13th'],
  ['minor-ninth', 13, 'minor-13th'],
  ['dominant-11th', 13, 'dominant-13th'],
  ['major-11th', 13, 'major-13th'],
  ['minor-11th', 13, 'minor-13th'],
  ['suspended-fourth', 9, 'suspended-second-fourth'],
  ['suspended-second', 11, 'suspended-second-fourth'],
  ['power', 9, 'suspended-second'],
  ['power', 11, 'suspended-fourth'],
  ['seventh-suspended-fourth', 9, 'ninth-suspended-fourth'],
  ['seventh-suspended-second', 11, 'ninth-suspended-fourth'],
  ['ninth-suspended-fourth', 13, 'thirteenth-suspended-fourth'],
];

const SIXTH: Role = { degree: 6, alter: 0 };
const NINTH: Role = { degree: 9, alter: 0 };

/** Chords whose tones are told one by one where their third is left out: of C6(no3) a power chord with a sixth is left. */
const SIXTH_CHORDS: ReadonlyMap<ChordKind, readonly Role[]> = new Map([
  ['major-sixth', [SIXTH]],
  ['minor-sixth', [SIXTH]],
  ['six-nine', [SIXTH, NINTH]],
  ['minor-six-nine', [SIXTH, NINTH]],
]);

/** True when the kind has a seventh, so that what comes above it are tensions and not bare additions. */
export function hasSeventh(kind: ChordKind): boolean {
  return chordKindFacts(kind).roles.some((role) => role.degree === 7);
}

/** The tones of the chord, lowest degree first, with everything altered, added and left out. */
export function rolesOfParts(parts: ChordParts): readonly Role[] {
  return fullRoles(parts).filter((role) => !parts.omissions.some((omitted) => sameRole(omitted, role)));
}

/** The tones before anything is left out. */
function fullRoles(parts: Omit<ChordParts, 'omissions'>): readonly Role[] {
  const own = chordKindFacts(parts.kind).roles;
  const kept = own.filter((role) => !parts.alterations.some((altered) => altered.degree === role.degree));
  return unique([...kept, ...parts.alterations, ...parts.additions]);
}

/**
 * The one way of writing these parts: m7 with ♭5 is the half-diminished kind, a sixth chord with a ninth is 6/9.
 * Tones named twice are named once, and what is left out is what would be there.
 */
export function canonicalParts(parts: ChordParts): ChordParts {
  let { kind } = parts;
  let { omissions } = parts;
  const told: Role[] = [];
  // A bent fifth is taken out of the kind first, so that the chord grows the same way with and without it: C9#5 is a ninth chord.
  const straight = BENT_FIFTH.find(([, , to]) => to === kind);
  if (straight !== undefined) {
    kind = straight[0];
    told.push({ degree: 5, alter: straight[1] });
  }
  // Built from its fourth, the chord grows the same way however its second was told.
  if (kind === 'suspended-second-fourth') {
    kind = 'suspended-fourth';
    told.push(NINTH);
  }
  if (omissions.some((role) => role.degree === 3)) {
    const sixth = SIXTH_CHORDS.get(kind);
    if (sixth !== undefined) told.push(...sixth);
    if (sixth !== undefined || kind === 'major' || kind === 'minor') {
      kind = 'power';
      omissions = omissions.filter((role) => role.degree !== 3);
    }
  }
  const seventh = hasSeventh(kind);
  const named = [...told, ...parts.alterations, ...parts.additions.map((role) => additionOf(role, seventh))];
  let bent = unique(named.filter((role) => isAlteration(role, seventh)));
  let added = newTones(unique(named.filter((role) => !isAlteration(role, seventh))), kind, bent);
  const bentDegrees = new Set(bent.map((role) => role.degree));
  const doubled = new Set(added.map((role) => role.degree).filter((degree) => bentDegrees.has(degree)));
  for (;;) {
    // A plain ninth beside a bent one stays an added tone: in the kind it would give way to the bent one.
    const grows = GROWN.find(
      ([from, degree, to]) =>
        from === kind &&
        added.some((role) => isPlain(role, degree)) &&
        !chordKindFacts(to).roles.some(({ degree: own }) => doubled.has(own)),
    );
    if (grows === undefined) break;
    kind = grows[2];
    added = added.filter((role) => !isPlain(role, grows[1]));
  }
  const fifths = bent.filter((role) => role.degree === 5);
  const becomes = BENT_FIFTH.find(
    ([from, alter]) => from === kind && fifths.length === 1 && fifths[0]?.alter === alter,
  );
  if (becomes !== undefined) {
    kind = becomes[2];
    bent = bent.filter((role) => role.degree !== 5);
  }
  const own = chordKindFacts(kind).roles;
  const replaced = (role: Role) => bent.some((other) => other.degree === role.degree && !sameRole(other, role));
  bent = bent.filter((role) => !own.some((tone) => sameRole(tone, role)) || replaced(role));
  added = newTones(added, kind, bent);
  const full = fullRoles({ kind, alterations: bent, additions: added });
  const left = full.filter((role) => omissions.some((omitted) => omitted.degree === role.degree));
  const canonical = { kind, alterations: bent, additions: added, omissions: unique(left) };
  // An added major seventh makes tensions of what was added beside it: it is told once more, now as a seventh chord.
  return hasSeventh(kind) === seventh ? canonical : canonicalParts(canonical);
}

/** An added second is the ninth; an added sixth is the thirteenth where there is a seventh below it. */
function additionOf(role: Role, seventh: boolean): Role {
  if (role.degree === 2) return { ...role, degree: 9 };
  if (role.degree === 4) return { ...role, degree: 11 };
  if (role.degree === 6 && (seventh || role.alter !== 0)) return { ...role, degree: 13 };
  if (role.degree === 13 && !seventh && role.alter === 0) return { ...role, degree: 6 };
  return role;
}

/** A bent fifth is an alteration everywhere; a bent ninth only over a seventh, else it is an added tone. */
function isAlteration(role: Role, seventh: boolean): boolean {
  return role.alter !== 0 && (role.degree === 5 || seventh);
}

/** A ninth on top of a suspended second, or a sixth on top of a sixth, is the same tone once more. */
function newTones(added: readonly Role[], kind: ChordKind, alterations: readonly Role[]): readonly Role[] {
  const below = fullRoles({ kind, alterations, additions: [] });
  return added.filter((role) => !below.some((tone) => rolePitchClass(tone) === rolePitchClass(role)));
}

function isPlain(role: Role, degree: number): boolean {
  return role.degree === degree && role.alter === 0;
}

function unique(roles: readonly Role[]): readonly Role[] {
  const kept: Role[] = [];
  for (const role of roles) if (!kept.some((other) => sameRole(other, role))) kept.push(role);
  return kept.sort(compareRoles);
}
