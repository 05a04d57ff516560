import type { Pitch } from '../theory/note.ts';

/** One instrument as a lesson names it: what sounds when a string is stopped, and how far apart things are. */
export interface Instrument {
  /** As printed: `tenor ukulele, high G`. Reading it again gives the same instrument. */
  readonly name: string;
  /** `tenor ukulele` */
  readonly kind: string;
  /** Open strings in chart order (highest-numbered string first), without capo. */
  readonly openStrings: readonly Pitch[];
  /** Nut to saddle. Unit: mm. */
  readonly scaleLengthMm: number;
  /** Number of frets on the neck. */
  readonly frets: number;
  /** Distance between neighbouring strings at the nut. Unit: mm. */
  readonly stringPitchMm: number;
  /** The same at the saddle; between the two it grows evenly. Unit: mm. */
  readonly bridgePitchMm: number;
  /** 0 without a capo. Frets of shapes count from the capo. */
  readonly capoFret: number;
}
