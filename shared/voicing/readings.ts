import type { ChordKind } from '../theory/chord-kinds.ts';
import type { ChordParts } from '../theory/chord-parts.ts';
import { hasSeventh, rolesOfParts } from '../theory/chord-parts.ts';
import { readSuffix } from '../theory/chord-suffix.ts';
import type { Role } from '../theory/role.ts';
import { rolePitchClass } from '../theory/role.ts';
import { describeAbove, roleOnTop } from './describe.ts';
import { essentialOf, missingFrom } from './omission.ts';
import { VOCABULARY } from './vocabulary.ts';

/** A chord above its root, with what naming needs to know of it. */
export interface Template {
  readonly parts: ChordParts;
  readonly roles: readonly Role[];
  /** Role of the tone that many semitones above the root. */
  readonly roleAt: readonly (Role | undefined)[];
  /** Bit n is set when the chord has the tone n semitones above the root. */
  readonly mask: number;
  readonly difficulty: number;
  /** Semitones from the root up to the note behind a stroke, where the chord stands over a bass that is none of its tones. */
  readonly bassAbove?: number;
}

/** One way to hear the notes: a chord on a root, and what of it does not sound. */
export interface Reading {
  readonly rootPitchClass: number;
  readonly template: Template;
  readonly omits: readonly Role[];
  readonly rootless: boolean;
  /** Lower is better. */
  readonly cost: number;
}

type ReadingAbove = Omit<Reading, 'rootPitchClass'>;

/** A reading may cost this much more than the best one and still be offered, and no more readings than this are. */
const OFFER_WITHIN = 9;
const OFFER_MOST = 32;

/** What it costs to leave a tone out, and what a bass note away from the root costs. Unit: of difficulty. Common practice, no source. */
const COST = {
  rootLeftOut: 2.5,
  fifthLeftOutOfFew: 1.2,
  fifthLeftOutOfMany: 0.5,
  fifthLeftOutOfSuspended: 1.8,
  fifthLeftOutOfSixth: 2.2,
  thirdLeftOut: 1.6,
  /** The third of a chord that is told by its altered fifth and ninth alone. */
  thirdLeftOutOfAltered: 3.5,
  /** From an eleventh chord; a thirteenth is usually played without it. */
  ninthLeftOutOfEleventh: 1.05,
  ninthLeftOut: 0.45,
  /** A dominant thirteenth in which the plain eleventh sounds against the major third, with no ninth to explain it. */
  eleventhAgainstThird: 1.75,
  rootInBass: -1,
  seventhInBass: 0.2,
  tensionInBass: 0.4,
  /** Where the lowest note is a true bass, a tone added to a triad down there is rather a bass of its own: F/G, not F(add9). */
  additionInDeepBass: 1.6,
  strokeOverDeepBass: -0.5,
  /** For a chord that repeats itself on several roots, the root that is no white key. */
  blackRoot: 0.05,
};

/** Below this note a lowest note is heard as a bass, whatever the instrument. Unit: MIDI. C3; common practice, no source. */
export const DEEP_BASS_BELOW_MIDI = 48;

/** What sounds, as far as a name depends on it. */
export interface Heard {
  /** Bit n is pitch class n. */
  readonly mask: number;
  /** Pitch class of the lowest note, one of the mask's. */
  readonly bass: number;
  /** True when the lowest note lies in the register of a bass. */
  readonly deep: boolean;
}

/** What a name that is only a description costs: it comes behind every name of the vocabulary. */
const DESCRIPTION_DIFFICULTY = 9;

const EVEN_KINDS: readonly ChordKind[] = ['augmented', 'diminished-seventh'];
const BLACK_KEYS: readonly number[] = [1, 3, 6, 8, 10];

/** What a triad over a foreign bass asks of the reader: as much as a five-tone chord that is not quite common. */
const STROKE_DIFFICULTY = 3.4;

const TEMPLATES: readonly Template[] = VOCABULARY.flatMap(([suffix, difficulty]) => {
  const parts = readSuffix(suffix);
  return parts.ok ? [templateOf(parts.value, difficulty)] : [];
});

/** A major or minor triad over each bass that it does not have. */
const OVER_FOREIGN_BASS: readonly Template[] = (['', 'm'] as const).flatMap((suffix) => {
  const parts = readSuffix(suffix);
  if (!parts.ok) return [];
  const triad = templateOf(parts.value, STROKE_DIFFICULTY);
  return triad.roleAt.flatMap((role, bassAbove) => (role === undefined ? [overBass(triad, bassAbove)] : []));
});

/** Readings above a root by the notes that sound above it; at most 4,096 of them, made when first asked for. */
const above: (readonly ReadingAbove[] | undefined)[] = new Array(1 << 12).fill(undefined);

/** Ranked readings by what is heard; at most 2 · 12 · 4,096 of them, made when first asked for. */
const ranked: (readonly Reading[] | undefined)[] = [];

/** A number of its own for everything that can be heard, from 0 on. */
export function placeOfHeard({ mask, bass, deep }: Heard): number {
  return (mask * 12 + bass) * 2 + (deep ? 1 : 0);
}

/**
 * Every way to hear these pitch classes over this bass, best first.
 * Complete names on a sounding root come before those that leave something out, unless a musician would say otherwise.
 * Three or more different notes always have a reading; of two only a root with its fifth or its third has; one note has none.
 */
export function readingsOf(heard: Heard): readonly Reading[] {
  const place = placeOfHeard(heard);
  const known = ranked[place];
  if (known !== undefined) return known;
  const made = rank(heard);
  ranked[place] = made;
  return made;
}

/** The notes of a mask seen from a root: bit 0 is the root itself. */
export function maskAbove(mask: number, root: number): number {
  return ((mask >> root) | (mask << (12 - root))) & 0xfff;
}

function rank({ mask, bass, deep }: Heard): readonly Reading[] {
  const notes = bitsIn(mask);
  if (notes < 2) return [];
  const found: Reading[] = [];
  for (let root = 0; root < 12; root += 1) {
    const seen = maskAbove(mask, root);
    const bassAbove = (bass - root + 12) % 12;
    for (const reading of readingsAbove(seen)) {
      if (speaksOverBass(reading, bassAbove, notes)) found.push(withBass(reading, root, bassAbove, deep));
    }
    for (const template of OVER_FOREIGN_BASS) {
      if (template.mask === seen && template.bassAbove === bassAbove) {
        const cost = template.difficulty + (deep ? COST.strokeOverDeepBass : 0);
        found.push({ template, rootPitchClass: root, omits: [], rootless: false, cost });
      }
    }
  }
  if (notes > 2 && !found.some((reading) => !reading.rootless)) {
    for (let root = 0; root < 12; root += 1) {
      if ((mask & (1 << root)) === 0) continue;
      found.push(withBass(described(maskAbove(mask, root)), root, (bass - root + 12) % 12, deep));
    }
  }
  found.sort((a, b) => a.cost - b.cost);
  const best = found[0]?.cost ?? 0;
  return found.filter((reading) => reading.cost <= best + OFFER_WITHIN).slice(0, OFFER_MOST);
}

/**
 * Two notes are a chord only as root and fifth or root and third; else they are an interval. A sixth chord without its fifth has the
 * notes of the triad on its sixth, and is heard only over its own root.
 */
function speaksOverBass({ template, omits }: ReadingAbove, bassAbove: number, notes: number): boolean {
  const { kind, additions } = template.parts;
  if (notes === 2) return kind === 'power' || kind === 'major' || kind === 'minor';
  const bareSixth = kind.endsWith('-sixth') && additions.length === 0 && omits.some((role) => role.degree === 5);
  return !bareSixth || bassAbove === 0;
}

function readingsAbove(mask: number): readonly ReadingAbove[] {
  const known = above[mask];
  if (known !== undefined) return known;
  const made = TEMPLATES.flatMap((template) => {
    if ((mask & ~template.mask) !== 0) return [];
    const omits = missingFrom(mask, template.roles);
    if (essentialOf(omits, template.roles, template.parts.kind).length > 0) return [];
    const rootless = omits.some((role) => role.degree === 1);
    // Without its root a chord must still say more than the chord that is left: a seventh chord without root is a triad.
    if (rootless && !speaksWithoutRoot(template, omits)) return [];
    // A suspension with an added tone is told from other chords by its fifth alone.
    const fifthGone = omits.some((role) => role.degree === 5);
    if (fifthGone && template.parts.kind.includes('suspended') && template.parts.additions.length > 0) return [];
    const cost = omits.reduce(
      (sum, role) => sum + omissionCost(role, template),
      template.difficulty + clashOf(mask, template),
    );
    return [{ template, omits, rootless, cost }];
  });
  above[mask] = made;
  return made;
}

function described(mask: number): ReadingAbove {
  const template = templateOf(describeAbove(mask), DESCRIPTION_DIFFICULTY);
  const { parts } = template;
  const further = parts.alterations.length + parts.additions.length + parts.omissions.length;
  const omits = missingFrom(mask, template.roles);
  return { template, omits, rootless: false, cost: template.difficulty + further + omits.length };
}

function withBass(reading: ReadingAbove, root: number, bassAbove: number, deep: boolean): Reading {
  return { ...reading, rootPitchClass: root, cost: reading.cost + bassCost(reading.template, root, bassAbove, deep) };
}

/** A chord that divides the octave evenly has no bass that says which of its roots is meant. */
function bassCost({ parts, roleAt }: Template, root: number, bassAbove: number, deep: boolean): number {
  if (EVEN_KINDS.includes(parts.kind)) return BLACK_KEYS.includes(root) ? COST.blackRoot : 0;
  const degree = roleAt[bassAbove]?.degree ?? 1;
  if (degree === 1) return COST.rootInBass;
  if (degree === 7) return COST.seventhInBass;
  if (degree <= 5) return 0;
  return deep && parts.additions.length > 0 && !hasSeventh(parts.kind) ? COST.additionInDeepBass : COST.tensionInBass;
}

/**
 * A rootless chord still has three tones that tell it. Where its fifth is gone too, third and minor seventh make it a dominant all the
 * same, and third and seventh with two tensions any other tall chord. Without its third it needs fifth and ninth.
 */
function speaksWithoutRoot({ roles, roleAt, parts }: Template, omits: readonly Role[]): boolean {
  const sounding = roles.length - omits.length;
  if (sounding < 3) return false;
  if (omits.some((role) => role.degree === 3)) return omits.every(({ degree }) => degree !== 5 && degree !== 9);
  if (!omits.some((role) => role.degree === 5)) return roles.length >= 5 || parts.kind === 'dominant';
  const dominant = roleAt[4] !== undefined && roleAt[10] !== undefined;
  return dominant || sounding >= 4;
}

function omissionCost(role: Role, template: Template): number {
  if (role.degree === 1) return COST.rootLeftOut;
  if (role.degree === 3) {
    return template.parts.alterations.length > 0 ? COST.thirdLeftOutOfAltered : COST.thirdLeftOut;
  }
  if (role.degree === 9) return hasThirteenth(template) ? COST.ninthLeftOut : COST.ninthLeftOutOfEleventh;
  // The eleventh under a thirteenth is never missed.
  if (role.degree !== 5) return 0;
  if (template.parts.kind.includes('suspended')) return COST.fifthLeftOutOfSuspended;
  if (template.parts.kind.endsWith('-sixth')) return COST.fifthLeftOutOfSixth;
  return template.roles.length > 4 ? COST.fifthLeftOutOfMany : COST.fifthLeftOutOfFew;
}

function clashOf(mask: number, template: Template): number {
  const [ninth, third, eleventh, seventh] = [1 << 2, 1 << 4, 1 << 5, 1 << 10];
  const against = third | eleventh | seventh;
  return (mask & (against | ninth)) === against && hasThirteenth(template) ? COST.eleventhAgainstThird : 0;
}

function hasThirteenth({ roles }: Template): boolean {
  return roles.some(({ degree }) => degree === 13);
}

function templateOf(parts: ChordParts, difficulty: number): Template {
  const roles = rolesOfParts(parts);
  const roleAt: (Role | undefined)[] = new Array(12).fill(undefined);
  let mask = 0;
  for (const role of roles) {
    const at = rolePitchClass(role);
    mask |= 1 << at;
    roleAt[at] ??= role;
  }
  return { parts, roles, roleAt, mask, difficulty };
}

/** The bass has the role that it would have on top: the ♭7 of `Am/G`. */
function overBass(triad: Template, bassAbove: number): Template {
  const roleAt = triad.roleAt.map((role, at) => (at === bassAbove ? roleOnTop(at) : role));
  return { ...triad, roleAt, mask: triad.mask | (1 << bassAbove), bassAbove };
}

function bitsIn(mask: number): number {
  let bits = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) bits += 1;
  return bits;
}
