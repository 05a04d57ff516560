import guitarFile from '@tombatossals/chords-db/lib/guitar.json' with { type: 'json' };
import ukuleleFile from '@tombatossals/chords-db/lib/ukulele.json' with { type: 'json' };
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordTones } from '../../shared/theory/chord-symbol.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import { chord } from '../theory/reading.ts';

// The open data set of shapes that naming and finding are measured on. Source: @tombatossals/chords-db 0.5.1 (MIT).

/** One shape of the set under the name that the set gives it. */
export interface LabelledShape {
  /** As the set writes it, with the number of the shape: `B madd9 1`. */
  readonly entry: string;
  readonly label: ChordSymbol;
  /** Sounding strings only, in chart order. */
  readonly midi: readonly number[];
  /** Absolute frets in chart order; `muted` where the string is silent. */
  readonly frets: readonly (number | 'muted')[];
}

interface Position {
  readonly frets: readonly number[];
  readonly baseFret: number;
  readonly midi: readonly number[];
}

interface File {
  readonly chords: Readonly<
    Record<
      string,
      readonly { readonly key: string; readonly suffix: string; readonly positions: readonly Position[] }[]
    >
  >;
}

/** Suffixes that are written otherwise here. */
const SUFFIXES: Readonly<Record<string, string>> = {
  major: '',
  minor: 'm',
  // Every shape of the set's "alt" sounds root, third, lowered fifth, and no seventh.
  alt: '(b5)',
  mmaj7: 'm(maj7)',
  mmaj7b5: 'dim(maj7)',
  mmaj9: 'm(maj9)',
  mmaj11: 'm(maj11)',
  b13b9: '7b13b9',
  'b13#9': '7b13#9',
};

/** The three guitar shapes of "7sg" are left out: nobody knows what it stands for. */
const UNKNOWN_SUFFIX = '7sg';

export const UKULELE_SHAPES: readonly LabelledShape[] = labelled(ukuleleFile as File);
export const GUITAR_SHAPES: readonly LabelledShape[] = labelled(guitarFile as unknown as File);

function labelled({ chords }: File): readonly LabelledShape[] {
  return Object.values(chords)
    .flat()
    .filter(({ suffix }) => suffix !== UNKNOWN_SUFFIX)
    .flatMap(({ key, suffix, positions }) => {
      const label = chord(key.replace('sharp', '#') + (SUFFIXES[suffix] ?? suffix));
      return positions.map(({ frets, baseFret, midi }, index) => ({
        entry: `${key.replace('sharp', '#')} ${suffix} ${index + 1}`,
        label,
        midi,
        frets: frets.map((fret) => (fret < 0 ? ('muted' as const) : fret === 0 ? 0 : fret + baseFret - 1)),
      }));
    });
}

/** Pitch classes that a name promises, the bass behind its stroke among them. */
export function soundsOf(label: Omit<ChordSymbol, 'text'>): ReadonlySet<number> {
  const sounds = chordTones(label).map((tone) => pitchClass(tone.note));
  return new Set(label.bass === undefined ? sounds : [...sounds, pitchClass(label.bass)]);
}
