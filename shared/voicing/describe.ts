import type { ChordKind } from '../theory/chord-kinds.ts';
import type { ChordParts } from '../theory/chord-parts.ts';
import { canonicalParts } from '../theory/chord-parts.ts';
import type { Role } from '../theory/role.ts';

/** What the twelve pitch classes above a root are called when they come on top of a triad. Source: common practice, no source. */
const ON_TOP: readonly (Role | undefined)[] = [
  undefined,
  { degree: 9, alter: -1 },
  { degree: 9, alter: 0 },
  { degree: 9, alter: 1 },
  undefined,
  { degree: 11, alter: 0 },
  { degree: 11, alter: 1 },
  undefined,
  { degree: 13, alter: -1 },
  { degree: 13, alter: 0 },
  { degree: 13, alter: 1 },
  { degree: 7, alter: 0 },
];

/** The role of a pitch class over the root when the chord's name does not say: the way a teacher would call an extra tone. */
export function roleOnTop(semitones: number): Role {
  if (semitones === 0) return { degree: 1, alter: 0 };
  if (semitones === 4) return { degree: 3, alter: 0 };
  if (semitones === 7) return { degree: 5, alter: 0 };
  if (semitones === 10) return { degree: 7, alter: -1 };
  return ON_TOP[semitones] ?? { degree: 1, alter: 0 };
}

/**
 * A chord that holds exactly these tones (bit n: n semitones above the root, which sounds), built up from its triad: for notes that
 * no usual chord is made of. Long but true: what is added is said, and what is missing is left out by name.
 */
export function describeAbove(mask: number): ChordParts {
  const left = new Set<number>();
  for (let semitones = 1; semitones < 12; semitones += 1) if ((mask & (1 << semitones)) !== 0) left.add(semitones);
  const third = left.delete(4)
    ? 'major'
    : left.delete(3)
      ? 'minor'
      : left.delete(5)
        ? 'fourth'
        : left.delete(2)
          ? 'second'
          : 'none';
  const alterations: Role[] = [];
  const omissions: Role[] = third === 'none' ? [{ degree: 3, alter: 0 }] : [];
  if (!left.delete(7)) {
    if (left.delete(6)) alterations.push({ degree: 5, alter: -1 });
    else if (left.delete(8)) alterations.push({ degree: 5, alter: 1 });
    else omissions.push({ degree: 5, alter: 0 });
  }
  const seventh = left.delete(10) ? 'minor' : left.delete(11) ? 'major' : 'none';
  const additions = [...left].flatMap((semitones) => ON_TOP[semitones] ?? []);
  return canonicalParts({ kind: kindOf(third, seventh), alterations, additions, omissions });
}

type Third = 'major' | 'minor' | 'fourth' | 'second' | 'none';
type Seventh = 'major' | 'minor' | 'none';

function kindOf(third: Third, seventh: Seventh): ChordKind {
  const kinds: Readonly<Record<Third, Readonly<Record<Seventh, ChordKind>>>> = {
    major: { none: 'major', minor: 'dominant', major: 'major-seventh' },
    minor: { none: 'minor', minor: 'minor-seventh', major: 'minor-major-seventh' },
    fourth: { none: 'suspended-fourth', minor: 'seventh-suspended-fourth', major: 'major-seventh-suspended-fourth' },
    second: { none: 'suspended-second', minor: 'seventh-suspended-second', major: 'major-seventh-suspended-second' },
    none: { none: 'major', minor: 'dominant', major: 'major-seventh' },
  };
  return kinds[third][seventh];
}
