import type { Role } from './role.ts';

/** The chords that have a name of their own. Everything else is one of these with something altered, added or left out. */
export type ChordKind =
  | 'major'
  | 'minor'
  | 'augmented'
  | 'diminished'
  | 'power'
  | 'suspended-second'
  | 'suspended-fourth'
  | 'suspended-second-fourth'
  | 'major-sixth'
  | 'minor-sixth'
  | 'six-nine'
  | 'minor-six-nine'
  | 'dominant'
  | 'major-seventh'
  | 'minor-seventh'
  | 'minor-major-seventh'
  | 'diminished-seventh'
  | 'diminished-major-seventh'
  | 'half-diminished'
  | 'augmented-seventh'
  | 'seventh-suspended-second'
  | 'seventh-suspended-fourth'
  | 'major-seventh-suspended-second'
  | 'major-seventh-suspended-fourth'
  | 'dominant-ninth'
  | 'major-ninth'
  | 'minor-ninth'
  | 'minor-major-ninth'
  | 'ninth-suspended-fourth'
  | 'dominant-11th'
  | 'major-11th'
  | 'minor-11th'
  | 'dominant-13th'
  | 'major-13th'
  | 'minor-13th'
  | 'thirteenth-suspended-fourth'
  | 'altered-dominant';

export interface ChordKindFacts {
  readonly kind: ChordKind;
  /** What stands behind the root in the canonical spelling. */
  readonly suffix: string;
  /** Lowest degree first. */
  readonly roles: readonly Role[];
  /** `musicxml`: tones of the `kind-value` of MusicXML 4.0 with the name below; `practice`: common practice, no source. */
  readonly source: 'musicxml' | 'practice';
  /** The standard's name where it differs from ours. */
  readonly musicxml?: string;
}

function roles(text: string): readonly Role[] {
  return text.split(' ').map((word) => {
    const degree = Number(word.replace(/[b#]/g, ''));
    const alter = (word.match(/#/g)?.length ?? 0) - (word.match(/b/g)?.length ?? 0);
    return { degree, alter };
  });
}

function standard(kind: ChordKind, suffix: string, tones: string, musicxml?: string): ChordKindFacts {
  const facts = { kind, suffix, roles: roles(tones), source: 'musicxml' as const };
  return musicxml === undefined ? facts : { ...facts, musicxml };
}

function practice(kind: ChordKind, suffix: string, tones: string): ChordKindFacts {
  return { kind, suffix, roles: roles(tones), source: 'practice' };
}

/** Source: MusicXML 4.0, musicxml.xsd, type `kind-value`, where marked as the standard's; else common practice, no source. */
export const CHORD_KINDS: readonly ChordKindFacts[] = [
  standard('major', '', '1 3 5'),
  standard('minor', 'm', '1 b3 5'),
  standard('augmented', 'aug', '1 3 #5'),
  standard('diminished', 'dim', '1 b3 b5'),
  standard('power', '5', '1 5'),
  standard('suspended-second', 'sus2', '1 2 5'),
  standard('suspended-fourth', 'sus4', '1 4 5'),
  practice('suspended-second-fourth', 'sus2sus4', '1 2 4 5'),
  standard('major-sixth', '6', '1 3 5 6'),
  standard('minor-sixth', 'm6', '1 b3 5 6'),
  practice('six-nine', '6/9', '1 3 5 6 9'),
  practice('minor-six-nine', 'm6/9', '1 b3 5 6 9'),
  standard('dominant', '7', '1 3 5 b7'),
  standard('major-seventh', 'maj7', '1 3 5 7'),
  standard('minor-seventh', 'm7', '1 b3 5 b7'),
  standard('minor-major-seventh', 'm(maj7)', '1 b3 5 7', 'major-minor'),
  standard('diminished-seventh', 'dim7', '1 b3 b5 bb7'),
  practice('diminished-major-seventh', 'dim(maj7)', '1 b3 b5 7'),
  standard('half-diminished', 'm7b5', '1 b3 b5 b7'),
  standard('augmented-seventh', 'aug7', '1 3 #5 b7'),
  practice('seventh-suspended-second', '7sus2', '1 2 5 b7'),
  practice('seventh-suspended-fourth', '7sus4', '1 4 5 b7'),
  practice('major-seventh-suspended-second', 'maj7sus2', '1 2 5 7'),
  practice('major-seventh-suspended-fourth', 'maj7sus4', '1 4 5 7'),
  standard('dominant-ninth', '9', '1 3 5 b7 9'),
  standard('major-ninth', 'maj9', '1 3 5 7 9'),
  standard('minor-ninth', 'm9', '1 b3 5 b7 9'),
  practice('minor-major-ninth', 'm(maj9)', '1 b3 5 7 9'),
  practice('ninth-suspended-fourth', '9sus4', '1 4 5 b7 9'),
  standard('dominant-11th', '11', '1 3 5 b7 9 11'),
  standard('major-11th', 'maj11', '1 3 5 7 9 11'),
  standard('minor-11th', 'm11', '1 b3 5 b7 9 11'),
  standard('dominant-13th', '13', '1 3 5 b7 9 11 13'),
  standard('major-13th', 'maj13', '1 3 5 7 9 11 13'),
  standard('minor-13th', 'm13', '1 b3 5 b7 9 11 13'),
  practice('thirteenth-suspended-fourth', '13sus4', '1 4 5 b7 9 13'),
  // "Altered" leaves the player the choice of fifth and ninth, so all of them belong to it.
  practice('altered-dominant', '7alt', '1 3 b5 #5 b7 b9 #9'),
];

const FACTS_BY_KIND: ReadonlyMap<ChordKind, ChordKindFacts> = new Map(CHORD_KINDS.map((facts) => [facts.kind, facts]));
const MAJOR_TRIAD = standard('major', '', '1 3 5');

/** Suffix, tones and source of a kind. */
export function chordKindFacts(kind: ChordKind): ChordKindFacts {
  return FACTS_BY_KIND.get(kind) ?? MAJOR_TRIAD;
}
