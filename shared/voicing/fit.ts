import type { Instrument } from '../neck/instrument.ts';
import { soundingMidi } from '../neck/pitches.ts';
import type { Shape } from '../neck/shape.ts';
import { rolesOfParts } from '../theory/chord-parts.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { Note } from '../theory/note.ts';
import { pitchClass } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole, rolePitchClass } from '../theory/role.ts';
import { roleOnTop } from './describe.ts';
import { essentialOf, missingFrom } from './omission.ts';

/** A sounding note that the name does not have. */
export interface ForeignTone {
  readonly note: Note;
  /** What it would be over the root of the name: the ♭7 that makes C a C7. */
  readonly role: Role;
  /** In chart order. */
  readonly stringIndex: number;
}

/** Where the bass note behind a stroke is: lowest as asked, on another string, not sounding at all; or there is no stroke. */
export type WrittenBass = 'none' | 'lowest' | 'elsewhere' | 'missing';

/** How a written name and a shape agree. */
export interface NameFit {
  readonly foreign: readonly ForeignTone[];
  /** Tones of the name that no string sounds. */
  readonly missing: readonly Role[];
  /** Those of them without which the name is wrong. */
  readonly essentialMissing: readonly Role[];
  readonly rootless: boolean;
  readonly writtenBass: WrittenBass;
}

/**
 * `fits`: exactly the tones of the name. `fits-incomplete`: root, fifth or an inner tension left out, as players do.
 * `fits-with-added`: everything the name needs, and a ninth or the like on top that a player may or may not name.
 * `does-not-fit`: tones that make another chord, or the name's own tone missing.
 */
export type FitVerdict = 'fits' | 'fits-incomplete' | 'fits-with-added' | 'does-not-fit';

export interface JudgedFit extends NameFit {
  readonly verdict: FitVerdict;
}

/** Compares what the shape sounds with what the name says. A bass note behind a stroke may sound without being a tone of the chord. */
export function fitName(instrument: Instrument, shape: Shape, symbol: ChordSymbol): NameFit {
  const root = pitchClass(symbol.root);
  const roles = rolesOfParts(symbol);
  const belongs = new Set(roles.map(rolePitchClass));
  const bass = symbol.bass === undefined ? undefined : pitchClass(symbol.bass);
  const strangers: { readonly above: number; readonly stringIndex: number }[] = [];
  let heard = 0;
  let lowest: number | undefined;
  for (const [stringIndex, midi] of soundingMidi(instrument, shape).entries()) {
    if (midi === undefined) continue;
    if (lowest === undefined || midi < lowest) lowest = midi;
    const above = (midi - root + 120) % 12;
    heard |= 1 << above;
    if (!belongs.has(above) && midi % 12 !== bass) strangers.push({ above, stringIndex });
  }
  const missing = missingFrom(heard, roles);
  const foreign = strangers.map(({ above, stringIndex }) => {
    const role = roleOfStranger(above, missing);
    return { note: noteOfRole(symbol.root, role), role, stringIndex };
  });
  return {
    foreign,
    missing,
    essentialMissing: essentialOf(missing, roles, symbol.kind),
    rootless: missing.some((role) => role.degree === 1),
    writtenBass: bass === undefined ? 'none' : bassAt(bass, heard, root, lowest),
  };
}

/** The same with a verdict. */
export function judgeFit(instrument: Instrument, shape: Shape, symbol: ChordSymbol): JudgedFit {
  const fit = fitName(instrument, shape, symbol);
  return { ...fit, verdict: verdictOf(fit, symbol) };
}

function verdictOf(fit: NameFit, symbol: ChordSymbol): FitVerdict {
  if (fit.essentialMissing.length > 0) return 'does-not-fit';
  if (fit.foreign.length > 0) {
    const mild = !fit.rootless && fit.foreign.every((tone) => isMildAddition(tone.role, symbol));
    return mild ? 'fits-with-added' : 'does-not-fit';
  }
  return fit.missing.length > 0 ? 'fits-incomplete' : 'fits';
}

/**
 * A tone that colours the chord without making it another one: the ninth everywhere, the eleventh over a minor third, the
 * thirteenth over a dominant. A sixth or seventh on a triad makes a chord of its own. Source: common practice, no source.
 */
function isMildAddition(role: Role, symbol: ChordSymbol): boolean {
  if (role.alter !== 0) return false;
  const above = rolesOfParts(symbol).map(rolePitchClass);
  if (role.degree === 9) return above.includes(3) || above.includes(4);
  if (role.degree === 11) return above.includes(3);
  return role.degree === 13 && above.includes(4) && above.includes(10);
}

/** A stranger takes the place of the tone it displaces: without its E, a C with an E flat has a minor third and no raised ninth. */
function roleOfStranger(above: number, missing: readonly Role[]): Role {
  const lacks = (degree: number) => missing.some((role) => role.degree === degree);
  if (above === 3 && lacks(3)) return { degree: 3, alter: -1 };
  if (above === 6 && lacks(5)) return { degree: 5, alter: -1 };
  if (above === 8 && lacks(5)) return { degree: 5, alter: 1 };
  if (above === 5 && lacks(3)) return { degree: 4, alter: 0 };
  return roleOnTop(above);
}

function bassAt(bass: number, heardAboveRoot: number, root: number, lowest: number | undefined): WrittenBass {
  if (lowest !== undefined && lowest % 12 === bass) return 'lowest';
  return (heardAboveRoot & (1 << ((bass - root + 12) % 12))) === 0 ? 'missing' : 'elsewhere';
}
