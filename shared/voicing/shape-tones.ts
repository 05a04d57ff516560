import { rolesOfParts } from '../theory/chord-parts.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { Note } from '../theory/note.ts';
import { pitchClass } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole, rolePitchClass, sameRole } from '../theory/role.ts';
import { essentialOf, missingFrom } from './omission.ts';
import type { SilenceCost } from './shape-silence.ts';
import { silenceCost } from './shape-silence.ts';
import type { TuningIndex } from './shape-tuning.ts';
import type { ShapeWishes } from './shape-wishes.ts';

/**
 * What a voicing loses by what it lacks or has too much of, beside the effort of holding it. Unit: points, as of effort.
 * Common practice, no source.
 */
const COST = {
  rootLeftOut: 300,
  /** From a chord of more tones than there are strings: something must go, and then the root is as well played by somebody else. */
  rootLeftOutOfTall: 120,
  fifthLeftOut: 70,
  fifthLeftOutOnMore: 40,
  /** Two tones are left of the chord: it is hardly told from others. */
  fifthOfTriadLeftOut: 200,
  otherLeftOut: 120,
  tensionLeftOut: 40,
  tensionLeftOutOnMore: 20,
  toneAdded: 200,
  /** A tone that two strings sound, when it is neither root nor fifth: the third, and what has less need of weight still. */
  thirdTwice: 10,
  otherTwiceOnFour: 20,
  otherTwiceOnMore: 35,
  bassNotRootOnFour: 25,
  bassNotRootOnMore: 260,
  writtenBassNotLowest: 250,
  /** The same where the strings are tuned in order: more than all else together, so that what has it lowest comes first. */
  writtenBassNotLowestInOrder: 4000,
  /** A plain eleventh over a major third and a seventh: a semitone apart, they cover the third. */
  eleventhOverThird: 250,
  /** A chord of two tones on more than four strings without the octave of its root. */
  oneRoot: 100,
};

/** The answer for tones that are not the chord. */
export const NOT_THE_CHORD = -1;

/** A chord as the search needs it. Sets of tones are masks: bit n for the tone n semitones above the root. */
export interface ChordTones {
  readonly symbol: ChordSymbol;
  readonly stringCount: number;
  /** Pitch class. */
  readonly root: number;
  readonly roles: readonly Role[];
  readonly added: readonly Role[];
  readonly mayOmit: readonly Role[] | undefined;
  /** Tones of the chord, its written bass, and what may be added. */
  readonly allowed: number;
  readonly addedMask: number;
  /** The third, and what is neither root, third nor fifth. */
  readonly thirds: number;
  readonly others: number;
  readonly otherTwice: number;
  readonly silence: SilenceCost;
  /** A plain eleventh and the major third under it, in a chord with a seventh that has both; empty in any other. */
  readonly clash: number;
  /** What it costs when only one string sounds the root. Unit: points. */
  readonly oneRoot: number;
  /** Semitones above the root, when a bass is written behind a stroke. */
  readonly writtenBass: number | undefined;
  /** For each tone that can sound lowest what that costs. Unit: points. */
  readonly bassCost: readonly number[];
  /** What each set of sounding tones costs, one more than that; 0 where it has not been asked for yet. */
  readonly known: Int16Array;
}

export function chordTonesFor(
  symbol: ChordSymbol,
  { openMidi, inOrder }: TuningIndex,
  wishes: ShapeWishes,
): ChordTones {
  const stringCount = openMidi.length;
  const root = pitchClass(symbol.root);
  const roles = rolesOfParts(symbol);
  const own = maskOf(roles);
  const writtenBass = symbol.bass === undefined ? undefined : (pitchClass(symbol.bass) - root + 12) % 12;
  const bass = writtenBass === undefined ? 0 : 1 << writtenBass;
  const added = (wishes.mayAdd ?? []).filter((role) => ((own | bass) & (1 << rolePitchClass(role))) === 0);
  const addedMask = maskOf(added);
  const otherBass = stringCount > 4 ? COST.bassNotRootOnMore : COST.bassNotRootOnFour;
  const notLowest = inOrder ? COST.writtenBassNotLowestInOrder : COST.writtenBassNotLowest;
  const bassCost = Array.from({ length: 12 }, (_, above) => {
    if (writtenBass !== undefined) return above === writtenBass ? 0 : notLowest;
    return above === 0 ? 0 : otherBass;
  });
  const allowed = own | bass | addedMask;
  const known = new Int16Array(1 << 12);
  const thirds = maskOf(roles.filter(({ degree }) => degree === 3));
  const others = allowed & ~maskOf(roles.filter(({ degree }) => degree === 1 || degree === 3 || degree === 5));
  return {
    otherTwice: stringCount > 4 ? COST.otherTwiceOnMore : COST.otherTwiceOnFour,
    silence: silenceCost(stringCount, roles.length),
    clash: clashIn(roles),
    oneRoot: stringCount > 4 && roles.length <= 2 ? COST.oneRoot : 0,
    thirds,
    others,
    symbol,
    stringCount,
    root,
    roles,
    added,
    mayOmit: wishes.mayOmit,
    allowed,
    addedMask,
    writtenBass,
    bassCost,
    known,
  };
}

/** The tone of a pitch as a bit. */
export function toneOf({ root }: ChordTones, midi: number): number {
  return 1 << ((midi - root + 120) % 12);
}

/** What it costs that these tones sound and no others; `NOT_THE_CHORD` where the name would be wrong for them. */
export function costOfTones(tones: ChordTones, heard: number): number {
  const known = tones.known[heard] ?? 0;
  if (known !== 0) return known - 2;
  const cost = reckonTones(tones, heard);
  tones.known[heard] = cost + 2;
  return cost;
}

/** What it costs that more than one string sounds these tones. Root and fifth are doubled freely; the rest stands out twice. */
export function costOfTwice({ thirds, others, otherTwice }: ChordTones, twice: number): number {
  let cost = 0;
  for (let rest = twice & thirds; rest !== 0; rest &= rest - 1) cost += COST.thirdTwice;
  for (let rest = twice & others; rest !== 0; rest &= rest - 1) cost += otherTwice;
  return cost;
}

/** What it costs that the plain eleventh sounds over the major third. More tones never make it less. */
export function costOfClash({ clash }: ChordTones, heard: number): number {
  return clash !== 0 && (heard & clash) === clash ? COST.eleventhOverThird : 0;
}

/** What it costs a chord of two tones that only one string sounds its root, where more than four could sound it. */
export function costOfOneRoot({ oneRoot }: ChordTones, twice: number): number {
  return (twice & 1) === 0 ? oneRoot : 0;
}

/** Of the tones of the chord those that do not sound. */
export function omittedFrom(tones: ChordTones, heard: number): readonly Role[] {
  return missingFrom(heard, tones.roles);
}

/** Of the tones beyond the chord those that sound. */
export function addedIn({ added }: ChordTones, heard: number): readonly Role[] {
  return added.filter((role) => (heard & (1 << rolePitchClass(role))) !== 0);
}

/** The tone so many semitones above the root, as the chord spells it. */
export function noteAbove({ symbol, roles, added, writtenBass }: ChordTones, above: number): Note {
  if (symbol.bass !== undefined && above === writtenBass) return symbol.bass;
  const role = [...roles, ...added].find((candidate) => rolePitchClass(candidate) === above);
  return role === undefined ? symbol.root : noteOfRole(symbol.root, role);
}

function reckonTones(tones: ChordTones, heard: number): number {
  const { roles, symbol, mayOmit, writtenBass, addedMask } = tones;
  if (writtenBass !== undefined && (heard & (1 << writtenBass)) === 0) return NOT_THE_CHORD;
  const missing = missingFrom(heard, roles);
  const forbidden =
    mayOmit === undefined
      ? essentialOf(missing, roles, symbol.kind)
      : missing.filter((role) => !mayOmit.some((allowed) => sameRole(allowed, role)));
  if (forbidden.length > 0) return NOT_THE_CHORD;
  let cost = 0;
  for (const role of missing) {
    cost += costOfOmission(role, tones);
  }
  for (let extra = heard & addedMask; extra !== 0; extra &= extra - 1) cost += COST.toneAdded;
  return cost;
}

function costOfOmission(role: Role, { roles, stringCount, clash }: ChordTones): number {
  const { degree } = role;
  // One of the two that clash is better left out: it is missed by nobody.
  if ((clash & (1 << rolePitchClass(role))) !== 0) return 0;
  if (degree === 1)
    return roles.length - (clash === 0 ? 0 : 1) > stringCount ? COST.rootLeftOutOfTall : COST.rootLeftOut;
  const more = stringCount > 4;
  if (degree === 5 && roles.length <= 3) return COST.fifthOfTriadLeftOut;
  if (degree === 5) return more ? COST.fifthLeftOutOnMore : COST.fifthLeftOut;
  if (degree > 7) return more ? COST.tensionLeftOutOnMore : COST.tensionLeftOut;
  return COST.otherLeftOut;
}

function clashIn(roles: readonly Role[]): number {
  const both = roles.filter(({ degree, alter }) => alter === 0 && (degree === 3 || degree === 11));
  return both.length === 2 && roles.some(({ degree }) => degree === 7) ? maskOf(both) : 0;
}

function maskOf(roles: readonly Role[]): number {
  return roles.reduce((mask, role) => mask | (1 << rolePitchClass(role)), 0);
}
