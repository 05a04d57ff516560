import { type ChordKind, chordKindFacts } from '../../theory/chord-kinds.ts';
import type { ChordParts } from '../../theory/chord-parts.ts';
import { compareRoles, type Role } from '../../theory/role.ts';

/** A degree beside the kind. `alter` of an added one is counted from a dominant chord, of another one from the kind's own tone. */
export interface HarmonyDegree {
  readonly value: number;
  readonly alter: number;
  readonly type: 'add' | 'alter' | 'subtract';
}

export interface HarmonyKind {
  /** A `kind-value` of the standard. */
  readonly kind: string;
  readonly degrees: readonly HarmonyDegree[];
}

/**
 * The standard's kinds nearest to those that it has no name for; the rest is told in degrees. Source: MusicXML 4.0, musicxml.xsd, type
 * `kind-value`; which of them is nearest: common practice, no source.
 */
const NEAREST: Readonly<Partial<Record<ChordKind, ChordKind>>> = {
  'suspended-second-fourth': 'suspended-fourth',
  'six-nine': 'major-sixth',
  'minor-six-nine': 'minor-sixth',
  'diminished-major-seventh': 'diminished',
  'seventh-suspended-second': 'suspended-second',
  'seventh-suspended-fourth': 'suspended-fourth',
  'major-seventh-suspended-second': 'suspended-second',
  'major-seventh-suspended-fourth': 'suspended-fourth',
  'minor-major-ninth': 'minor-major-seventh',
  'ninth-suspended-fourth': 'suspended-fourth',
  'thirteenth-suspended-fourth': 'suspended-fourth',
  'altered-dominant': 'dominant',
};

/** How the standard says a chord: a kind, and the degrees that differ from it. */
export function kindOf({ kind, alterations, additions, omissions }: ChordParts): HarmonyKind {
  const facts = chordKindFacts(NEAREST[kind] ?? kind);
  const own = facts.roles;
  const meant = chordKindFacts(kind).roles.filter((role) => !alterations.some(({ degree }) => degree === role.degree));
  const wanted = [...meant, ...alterations, ...additions].filter(
    (role) => !omissions.some((left) => left.degree === role.degree && left.alter === role.alter),
  );
  const degrees: HarmonyDegree[] = [];
  for (const degree of new Set([...own, ...wanted].map((role) => role.degree))) {
    const has = own.filter((role) => role.degree === degree);
    const wants = wanted.filter((role) => role.degree === degree).sort(compareRoles);
    const same = wants.find(({ alter }) => has.some((role) => role.alter === alter));
    const [first] = has;
    if (first !== undefined && wants.length === 0) degrees.push({ value: degree, alter: 0, type: 'subtract' });
    // The kind's own tone gives way to the first of those that take its place.
    const moved = first !== undefined && same === undefined ? wants[0] : undefined;
    if (first !== undefined && moved !== undefined)
      degrees.push({ value: degree, alter: moved.alter - first.alter, type: 'alter' });
    for (const role of wants)
      if (role !== same && role !== moved)
        degrees.push({ value: degree, alter: role.alter - alterInDominant(role), type: 'add' });
  }
  return { kind: facts.musicxml ?? facts.kind, degrees: degrees.sort((a, b) => a.value - b.value) };
}

/** A dominant chord has major and perfect intervals but for its seventh, which is minor. */
function alterInDominant({ degree }: Role): number {
  return degree === 7 ? -1 : 0;
}
