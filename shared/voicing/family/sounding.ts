import type { ChordKind } from '../../theory/chord-kinds.ts';
import { rolesOfParts } from '../../theory/chord-parts.ts';
import { type ChordSymbol, chordTones } from '../../theory/chord-symbol.ts';
import { pitchClass } from '../../theory/note.ts';
import type { Role } from '../../theory/role.ts';
import { rolePitchClass } from '../../theory/role.ts';
import { roleOnTop } from '../describe.ts';
import { type ChordName, nameSounding } from '../naming.ts';
import { essentialOf, missingFrom } from '../omission.ts';
import type { Allowance } from './allowance.ts';
import { FAMILY_POINTS } from './family-table.ts';

/** A chord of the progression, as sounding strings are compared with it. Sets of tones are masks above the root: bit n for n semitones. */
export interface WantedChord {
  readonly symbol: ChordSymbol;
  /** Pitch class. */
  readonly root: number;
  readonly roles: readonly Role[];
  readonly own: number;
  /** Semitones above the root, where a bass is written behind a stroke. */
  readonly bass: number | undefined;
  /** What may come on top, and what may take the third's place. */
  readonly adds: number;
  readonly suspensions: number;
  /** Tones that are at home here: of the key, or of the progression's chords. */
  readonly home: number;
  readonly allow: Allowance;
  readonly thirdMissing: boolean;
  /** The other chords of the progression, as tones above this root. */
  readonly others: readonly { readonly root: number; readonly tones: number }[];
}

/** What the sounding strings are to the chord. */
export interface SoundFit {
  readonly adds: readonly Role[];
  readonly omits: readonly Role[];
  /** Unit: points. */
  readonly cost: number;
}

const SECOND = 2;
const FOURTH = 5;
const MAJOR_THIRD = 4;

/** Six octaves up nothing is a bass: what a chord is called does not hang on its register. Unit: semitones. */
const OUT_OF_THE_BASS = 72;

/** `others` are the other chords of the progression, where the chord stands in one. */
export function wantedChord(
  symbol: ChordSymbol,
  allow: Allowance,
  homePitchClasses: number,
  others: readonly ChordSymbol[] = [],
): WantedChord {
  const root = pitchClass(symbol.root);
  const roles = rolesOfParts(symbol);
  const own = maskOf(roles);
  return {
    symbol,
    root,
    roles,
    own,
    bass: symbol.bass === undefined ? undefined : (pitchClass(symbol.bass) - root + 12) % 12,
    adds: allow.any ? 0xfff & ~own : maskOf(allow.adds) & ~own,
    suspensions: allow.any ? (1 << SECOND) | (1 << FOURTH) : maskOf(allow.suspensions),
    home: ((homePitchClasses >> root) | (homePitchClasses << (12 - root))) & 0xfff,
    allow,
    thirdMissing: !roles.some(({ degree }) => degree === 3),
    others: others.map((other) => ({
      root: (pitchClass(other.root) - root + 12) % 12,
      tones: chordTones(other).reduce((mask, { note }) => mask | (1 << ((pitchClass(note) - root + 12) % 12)), 0),
    })),
  };
}

/**
 * How what sounds agrees with a chord and with what is allowed; nothing where it does not. The third stays, unless a second or
 * fourth that is allowed stands in its place; and a musician might still call it by the chord's root.
 */
export function soundFit(wanted: WantedChord, midi: readonly (number | undefined)[]): SoundFit | undefined {
  const heard = heardAbove(wanted, midi);
  const { symbol, roles, own, bass, allow } = wanted;
  const ofBass = bass === undefined ? 0 : 1 << bass;
  if ((heard & ofBass) !== ofBass) return undefined;
  const missing = missingFrom(heard, roles);
  const suspended = suspendedBy(wanted, heard, missing);
  const extra = heard & ~(own | ofBass | suspended);
  if ((extra & ~wanted.adds) !== 0) return undefined;
  const gone = essentialOf(missing, roles, symbol.kind).filter(
    ({ degree }) => !(degree === 3 && suspended !== 0) && !allow.omits.includes(degree),
  );
  if (gone.length > 0) return undefined;
  const fit = fitOf(wanted, heard, missing, suspended, extra);
  if (isCalledByItsRoot(wanted, midi)) return fit;
  return allow.any ? { ...fit, cost: fit.cost + FAMILY_POINTS.renamed } : undefined;
}

/** The same for a shape that is held by order: whatever it sounds is told, and nothing is refused. */
export function soundOfPinned(wanted: WantedChord, midi: readonly (number | undefined)[]): SoundFit {
  const heard = heardAbove(wanted, midi);
  const { roles, own, bass } = wanted;
  const missing = missingFrom(heard, roles);
  const anything = { ...wanted, suspensions: (1 << SECOND) | (1 << FOURTH) };
  const suspended = suspendedBy(anything, heard, missing);
  const extra = heard & ~(own | (bass === undefined ? 0 : 1 << bass) | suspended);
  return fitOf(wanted, heard, missing, suspended, extra);
}

function heardAbove({ root }: WantedChord, midi: readonly (number | undefined)[]): number {
  return midi.reduce<number>((mask, one) => (one === undefined ? mask : mask | (1 << ((one - root + 120) % 12))), 0);
}

/** Seconds and fourths that stand in the place of a third that does not sound. */
function suspendedBy({ suspensions, thirdMissing }: WantedChord, heard: number, missing: readonly Role[]): number {
  return !thirdMissing && missing.some(({ degree }) => degree === 3) ? heard & suspensions : 0;
}

/** A plain triad on another root is heard as that and nothing else: a C with its sixth and without its fifth is an Am. */
function isCalledByItsRoot({ root }: WantedChord, midi: readonly (number | undefined)[]): boolean {
  const lifted = midi.map((one) => (one === undefined ? undefined : one + OUT_OF_THE_BASS));
  const names = nameSounding(lifted);
  const isOwn = ({ symbol }: ChordName) => pitchClass(symbol.root) === root;
  const isTriad = ({ symbol, omits }: ChordName) =>
    omits.length === 0 && symbol.bass === undefined && TRIADS.includes(symbol.kind) && symbol.additions.length === 0;
  const [first] = names;
  if (first !== undefined && isTriad(first) && !isOwn(first)) return false;
  return names.some((name) => name.ready && isOwn(name));
}

const TRIADS: readonly ChordKind[] = ['major', 'minor', 'diminished'];

function fitOf(
  wanted: WantedChord,
  heard: number,
  missing: readonly Role[],
  suspended: number,
  extra: number,
): SoundFit {
  const { home } = wanted;
  const adds: Role[] = [];
  let cost = 0;
  for (let above = 0; above < 12; above += 1) {
    const bit = 1 << above;
    if ((suspended & bit) !== 0) adds.push({ degree: above === SECOND ? 2 : 4, alter: 0 });
    else if ((extra & bit) !== 0) {
      adds.push(roleOfAddition(wanted, above));
      cost += FAMILY_POINTS.toneAdded;
    } else continue;
    if ((home & bit) === 0) cost += FAMILY_POINTS.toneAddedOutside;
  }
  const clash = (1 << MAJOR_THIRD) | (1 << FOURTH);
  if ((extra & (1 << FOURTH)) !== 0 && (heard & clash) === clash) cost += FAMILY_POINTS.eleventhOverThird;
  for (const { degree } of missing) cost += costOfMissing(degree, suspended !== 0, wanted.roles.length + adds.length);
  return { adds, omits: missing, cost };
}

/** An added sixth is a sixth where there is no seventh under it. */
function roleOfAddition({ roles, allow }: WantedChord, above: number): Role {
  const allowed = allow.adds.find((role) => rolePitchClass(role) === above);
  if (allowed !== undefined) return allowed;
  if (above === 9 && !roles.some(({ degree }) => degree === 7)) return { degree: 6, alter: 0 };
  return roleOnTop(above);
}

function costOfMissing(degree: number, isSuspended: boolean, tones: number): number {
  if (degree === 3) return isSuspended ? FAMILY_POINTS.thirdSuspended : FAMILY_POINTS.thirdLost;
  if (degree === 5) return tones > 3 ? FAMILY_POINTS.fifthLost : FAMILY_POINTS.fifthLostOfTriad;
  return degree === 1 ? FAMILY_POINTS.rootLost : FAMILY_POINTS.otherLost;
}

function maskOf(roles: readonly Role[]): number {
  return roles.reduce((mask, role) => mask | (1 << rolePitchClass(role)), 0);
}
