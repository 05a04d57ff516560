import { rolesOfParts } from '../theory/chord-parts.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { Note } from '../theory/note.ts';
import { pitchClass } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole, rolePitchClass, sameRole } from '../theory/role.ts';
import { essentialOf, missingFrom } from './omission.ts';
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
  /** Two tones are left of the chord: it is hardly told from others. */
  fifthOfTriadLeftOut: 200,
  otherLeftOut: 120,
  tensionLeftOut: 40,
  toneAdded: 200,
  /** A tone that two strings sound, when it is neither root nor fifth: the third, and what has less need of weight still. */
  thirdTwice: 10,
  otherTwiceOnFour: 20,
  otherTwiceOnMore: 35,
  bassNotRootOnFour: 25,
  bassNotRootOnMore: 200,
  writtenBassNotLowest: 250,
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
  /** Semitones above the root, when a bass is written behind a stroke. */
  readonly writtenBass: number | undefined;
  /** For each tone that can sound lowest what that costs. Unit: points. */
  readonly bassCost: readonly number[];
  /** What each set of sounding tones costs, one more than that; 0 where it has not been asked for yet. */
  readonly known: Int16Array;
}

export function chordTonesFor(symbol: ChordSymbol, stringCount: number, wishes: ShapeWishes): ChordTones {
  const root = pitchClass(symbol.root);
  const roles = rolesOfParts(symbol);
  const own = maskOf(roles);
  const writtenBass = symbol.bass === undefined ? undefined : (pitchClass(symbol.bass) - root + 12) % 12;
  const bass = writtenBass === undefined ? 0 : 1 << writtenBass;
  const added = (wishes.mayAdd ?? []).filter((role) => ((own | bass) & (1 << rolePitchClass(role))) === 0);
  const addedMask = maskOf(added);
  const otherBass = stringCount > 4 ? COST.bassNotRootOnMore : COST.bassNotRootOnFour;
  const bassCost = Array.from({ length: 12 }, (_, above) => {
    if (writtenBass !== undefined) return above === writtenBass ? 0 : COST.writtenBassNotLowest;
    return above === 0 ? 0 : otherBass;
  });
  const allowed = own | bass | addedMask;
  const known = new Int16Array(1 << 12);
  const thirds = maskOf(roles.filter(({ degree }) => degree === 3));
  const others = allowed & ~maskOf(roles.filter(({ degree }) => degree === 1 || degree === 3 || degree === 5));
  return {
    otherTwice: stringCount > 4 ? COST.otherTwiceOnMore : COST.otherTwiceOnFour,
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

function costOfOmission({ degree }: Role, { roles, stringCount }: ChordTones): number {
  if (degree === 1) return roles.length > stringCount ? COST.rootLeftOutOfTall : COST.rootLeftOut;
  if (degree === 5) return roles.length <= 3 ? COST.fifthOfTriadLeftOut : COST.fifthLeftOut;
  return degree > 7 ? COST.tensionLeftOut : COST.otherLeftOut;
}

function maskOf(roles: readonly Role[]): number {
  return roles.reduce((mask, role) => mask | (1 << rolePitchClass(role)), 0);
}
