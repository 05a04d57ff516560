import type { ChordParts } from '../theory/chord-parts.ts';
import { rolesOfParts } from '../theory/chord-parts.ts';
import { readSuffix } from '../theory/chord-suffix.ts';
import type { Role } from '../theory/role.ts';
import { rolePitchClass } from '../theory/role.ts';
import { describeAbove } from './describe.ts';
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

/** A reading may cost this much more than the best one and still be offered, and no more readings than this are. */
const OFFER_WITHIN = 5;
const OFFER_MOST = 16;

/** What it costs to leave a tone out, and what a bass note away from the root costs. Unit: of difficulty. Common practice, no source. */
const COST = {
  rootLeftOut: 2.5,
  fifthLeftOutOfFew: 1.2,
  fifthLeftOutOfMany: 0.6,
  fifthLeftOutOfSuspended: 2,
  thirdLeftOut: 1.6,
  tensionLeftOut: 0.4,
  rootInBass: -1,
  seventhInBass: 0.2,
  tensionInBass: 0.4,
};

/** What a name that is only a description costs: it comes behind every name of the vocabulary. */
const DESCRIPTION_DIFFICULTY = 9;

const TEMPLATES: readonly Template[] = VOCABULARY.flatMap(([suffix, difficulty]) => {
  const parts = readSuffix(suffix);
  return parts.ok ? [templateOf(parts.value, difficulty)] : [];
});

/** Readings above a root by the notes that sound above it; at most 4,096 of them, made when first asked for. */
const above: (readonly Omit<Reading, 'rootPitchClass'>[] | undefined)[] = new Array(1 << 12).fill(undefined);

/** Ranked readings by notes and bass; at most 12 · 4,096 of them, made when first asked for. */
const ranked: (readonly Reading[] | undefined)[] = [];

/**
 * Every way to hear these pitch classes over this bass, best first. Bit n of `mask` is pitch class n; the bass is one of them.
 * Complete names on a sounding root come before those that leave something out, unless a musician would say otherwise.
 * Three or more different notes always have a reading, two nearly always; one note alone has none.
 */
export function readingsOf(mask: number, bass: number): readonly Reading[] {
  const place = mask * 12 + bass;
  const known = ranked[place];
  if (known !== undefined) return known;
  const made = rank(mask, bass);
  ranked[place] = made;
  return made;
}

/** The notes of a mask seen from a root: bit 0 is the root itself. */
function maskAbove(mask: number, root: number): number {
  return ((mask >> root) | (mask << (12 - root))) & 0xfff;
}

function rank(mask: number, bass: number): readonly Reading[] {
  if ((mask & (mask - 1)) === 0) return [];
  const found: Reading[] = [];
  for (let root = 0; root < 12; root += 1) {
    for (const reading of readingsAbove(maskAbove(mask, root))) {
      found.push(withBass(reading, root, bass));
    }
  }
  if (!found.some((reading) => !reading.rootless)) {
    for (let root = 0; root < 12; root += 1) {
      if ((mask & (1 << root)) !== 0) found.push(withBass(described(maskAbove(mask, root)), root, bass));
    }
  }
  found.sort((a, b) => a.cost - b.cost);
  const best = found[0]?.cost ?? 0;
  return found.filter((reading) => reading.cost <= best + OFFER_WITHIN).slice(0, OFFER_MOST);
}

function readingsAbove(mask: number): readonly Omit<Reading, 'rootPitchClass'>[] {
  const known = above[mask];
  if (known !== undefined) return known;
  const made = TEMPLATES.flatMap((template) => {
    if ((mask & ~template.mask) !== 0) return [];
    const omits = missingFrom(mask, template.roles);
    if (essentialOf(omits, template.roles, template.parts.kind).length > 0) return [];
    const rootless = omits.some((role) => role.degree === 1);
    const sounding = template.roles.length - omits.length;
    // Without its root a chord must still say more than the chord that is left: a seventh chord without root is a triad.
    if (rootless && (sounding < 3 || !speaksWithoutRoot(template, omits))) return [];
    // A suspension with an added tone is told from other chords by its fifth alone.
    const fifthGone = omits.some((role) => role.degree === 5);
    if (fifthGone && template.parts.kind.includes('suspended') && template.parts.additions.length > 0) return [];
    // A sixth chord without its fifth is the triad on its sixth: Am6 without E is F sharp diminished.
    if (fifthGone && template.parts.kind.endsWith('-sixth')) return [];
    const cost = omits.reduce((sum, role) => sum + omissionCost(role, template), template.difficulty);
    return [{ template, omits, rootless, cost }];
  });
  above[mask] = made;
  return made;
}

function described(mask: number): Omit<Reading, 'rootPitchClass'> {
  const template = templateOf(describeAbove(mask), DESCRIPTION_DIFFICULTY);
  const { parts } = template;
  const further = parts.alterations.length + parts.additions.length + parts.omissions.length;
  const omits = missingFrom(mask, template.roles);
  return { template, omits, rootless: false, cost: template.difficulty + further + omits.length };
}

function withBass(reading: Omit<Reading, 'rootPitchClass'>, root: number, bass: number): Reading {
  const degree = reading.template.roleAt[(bass - root + 12) % 12]?.degree ?? 1;
  const bassCost =
    degree === 1 ? COST.rootInBass : degree === 7 ? COST.seventhInBass : degree > 5 ? COST.tensionInBass : 0;
  return { ...reading, rootPitchClass: root, cost: reading.cost + bassCost };
}

/** Root and fifth may both go only where third and minor seventh make the chord a dominant all the same. */
function speaksWithoutRoot(template: Template, omits: readonly Role[]): boolean {
  const dominant = template.roleAt[4] !== undefined && template.roleAt[10] !== undefined;
  if (omits.some((role) => role.degree === 5)) return dominant;
  return template.roles.length >= 5 || template.parts.kind === 'dominant';
}

function omissionCost(role: Role, template: Template): number {
  if (role.degree === 1) return COST.rootLeftOut;
  if (role.degree === 3) return COST.thirdLeftOut;
  if (role.degree !== 5) return COST.tensionLeftOut;
  if (template.parts.kind.includes('suspended')) return COST.fifthLeftOutOfSuspended;
  return template.roles.length > 4 ? COST.fifthLeftOutOfMany : COST.fifthLeftOutOfFew;
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
