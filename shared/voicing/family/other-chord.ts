import type { Instrument } from '../../neck/instrument.ts';
import { soundingMidi } from '../../neck/pitches.ts';
import { printShape } from '../../neck/shape.ts';
import { listed } from '../../text/counted.ts';
import { chordTones, printChordSymbol } from '../../theory/chord-symbol.ts';
import { printNote } from '../../theory/note.ts';
import { sameRole } from '../../theory/role.ts';
import { judgeFit } from '../fit.ts';
import type { NamingContext } from '../naming.ts';
import { type Allowance, NOTHING_ALLOWED } from './allowance.ts';
import { familyName } from './names.ts';
import type { FamilyRequest, Pin } from './request.ts';
import { soundFit, wantedChord } from './sounding.ts';

/**
 * A pinned shape may be anything, but where it makes another chord of it than the one that it stands for, and than what is allowed, that
 * is told: `0-2-3-2 is not C but G: C and E are missing.` Nothing where it is that chord. The neck is the one above the capo.
 */
export function tellOtherChord(
  held: Instrument,
  { chord, shape }: Pin,
  allow: Allowance,
  context: NamingContext,
): string | undefined {
  if (shape.length !== held.openStrings.length) return undefined;
  const { verdict, missing, writtenBass } = judgeFit(held, shape, chord);
  if (verdict !== 'does-not-fit' && writtenBass !== 'missing') return undefined;
  if (soundFit(wantedChord(chord, allow, ANY_TONE), soundingMidi(held, shape)) !== undefined) return undefined;
  const tones = chordTones(chord).filter(({ role }) => missing.some((one) => sameRole(one, role)));
  const notes = [
    ...tones.map(({ note }) => note),
    ...(chord.bass === undefined || writtenBass !== 'missing' ? [] : [chord.bass]),
  ].map((note) => printNote(note));
  // With more tones than its own it is still that chord, as its name in the family tells.
  if (notes.length === 0) return undefined;
  const lacks = `${listed(notes)} ${notes.length === 1 ? 'is' : 'are'} missing`;
  return `${printShape(shape)} is not ${printChordSymbol(chord)} but ${familyName(held, shape, chord, context).as}: ${lacks}.`;
}

/** What is at home does not matter for whether a tone may sound. */
const ANY_TONE = 0xfff;

/** The same of every chord that is pinned, in the order of the pins. */
export function tellOtherChords(held: Instrument, { pins = [], allow, key }: FamilyRequest): readonly string[] {
  const context = key === undefined ? {} : { key };
  return pins.flatMap((pin) => tellOtherChord(held, pin, allow ?? NOTHING_ALLOWED, context) ?? []);
}
