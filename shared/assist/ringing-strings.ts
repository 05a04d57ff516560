import { neckAboveCapo } from '../neck/capo.ts';
import type { Instrument } from '../neck/instrument.ts';
import { stringNumber } from '../neck/shape.ts';
import { type ChordSymbol, chordTones, sameChord } from '../theory/chord-symbol.ts';
import { pitchClass } from '../theory/note.ts';
import type { FamilyRequest } from '../voicing/family/request.ts';
import { shapesFor } from '../voicing/shapes.ts';

/** Strings that can ring open through a progression, and what must be allowed for that. */
export interface RingingStrings {
  readonly ring: readonly number[];
  readonly allow: readonly string[];
}

/** What an open string is to a chord: so many of its chords have it for a tone of their own, and what it adds to the others. */
interface OpenString {
  readonly number: number;
  readonly tones: number;
  readonly adds: ReadonlySet<string>;
}

/**
 * What a tone on top may be, by its semitones above the root, and how it is allowed: over a major and over a minor chord. Others make
 * chords that are seldom wanted, or take the third's place. Common practice, no source.
 */
const WELCOME: Readonly<Record<'major' | 'minor', Readonly<Record<number, string>>>> = {
  major: { 2: 'add9', 9: '6', 11: 'maj7' },
  minor: { 2: 'add9', 5: 'add11', 9: '6', 10: '7' },
};

/** On fewer strings two that ring leave a hand little to say. Common practice, no source. */
const STRINGS_FOR_TWO = 4;

/** What may be added beside that, so that more shapes look alike. Common practice, no source: what players add without asking. */
const ALWAYS_ALLOWED: readonly string[] = ['add9', '6'];

/**
 * The open strings that belong to most chords and for which every chord has a shape: two where each of them belongs to half of the chords
 * or more, else one, else none; of equals those nearest the floor. With them the words for what they add to the other chords.
 */
export function openStringsFor({ instrument, chords }: Pick<FamilyRequest, 'instrument' | 'chords'>): RingingStrings {
  const held = neckAboveCapo(instrument);
  const different = chords.filter((chord, at) => chords.findIndex((other) => sameChord(chord, other)) === at);
  const strings = openStringsOf(held, different).sort(
    (one, other) => other.tones - one.tones || one.number - other.number,
  );
  const common = strings.filter(({ tones }) => tones * 2 >= different.length);
  const pairs = common.flatMap((one, at) => common.slice(at + 1).map((other) => [one, other]));
  const sets = [...(held.openStrings.length < STRINGS_FOR_TWO ? [] : pairs), ...strings.map((one) => [one])];
  const byTones = sets.sort((one, other) => other.length - one.length || tonesOf(other) - tonesOf(one));
  const found = byTones.find((set) => different.every((chord) => hasShape(held, chord, set)));
  const adds = new Set((found ?? []).flatMap((one) => [...one.adds]));
  for (const word of ALWAYS_ALLOWED) adds.add(word);
  return { ring: (found ?? []).map(({ number }) => number).sort((one, other) => one - other), allow: [...adds] };
}

function tonesOf(strings: readonly OpenString[]): number {
  return strings.reduce((sum, { tones }) => sum + tones, 0);
}

function openStringsOf({ openStrings }: Instrument, chords: readonly ChordSymbol[]): OpenString[] {
  return openStrings.flatMap((open, at): OpenString[] => {
    const adds = new Set<string>();
    let tones = 0;
    for (const chord of chords) {
      const above = (pitchClass(open) - pitchClass(chord.root) + 12) % 12;
      if (chordTones(chord).some(({ note }) => pitchClass(note) === pitchClass(open))) {
        tones += 1;
        continue;
      }
      const word = wordFor(chord, above);
      if (word === undefined) return [];
      adds.add(word);
    }
    return [{ number: stringNumber(at, openStrings.length), tones, adds }];
  });
}

function wordFor(chord: ChordSymbol, above: number): string | undefined {
  const isMinor = chordTones(chord).some(({ role }) => role.degree === 3 && role.alter === -1);
  return WELCOME[isMinor ? 'minor' : 'major'][above];
}

/** A first answer, without regard to fingers: the search itself tells where no hand can hold it. */
function hasShape(held: Instrument, chord: ChordSymbol, strings: readonly OpenString[]): boolean {
  const mayAdd = [2, 5, 9, 10, 11].map((above) => ROLES[above]).flatMap((role) => role ?? []);
  return shapesFor(chord, held, { max: 1, ringOpen: strings.map(({ number }) => number), mayAdd }).length > 0;
}

const ROLES: Readonly<Record<number, { readonly degree: number; readonly alter: number }>> = {
  2: { degree: 9, alter: 0 },
  5: { degree: 11, alter: 0 },
  9: { degree: 13, alter: 0 },
  10: { degree: 7, alter: -1 },
  11: { degree: 7, alter: 0 },
};
