/** A way of tuning one kind of instrument. The first of a kind is its usual one. */
export interface TuningFacts {
  /** As a lesson says it behind the comma: `low G`. */
  readonly name: string;
  readonly aliases: readonly string[];
  /** Open strings, highest-numbered first. */
  readonly strings: string;
}

/** A kind of instrument as builders make it. */
export interface InstrumentFacts {
  readonly kind: string;
  readonly aliases: readonly string[];
  /** Nut to saddle. Unit: mm. */
  readonly scaleLengthMm: number;
  readonly frets: number;
  /** Between neighbouring strings (or courses) at the nut. Unit: mm. */
  readonly stringPitchMm: number;
  /** The same at the bridge, where strings stand wider. Unit: mm. */
  readonly bridgePitchMm: number;
  readonly tunings: readonly [TuningFacts, ...TuningFacts[]];
}

/** Unit: mm. Source: definition. */
export const MM_PER_INCH = 25.4;

/**
 * Unit: mm. Source: a traditional fingerboard 1 3/8 in wide at the nut (Griffin Ukuleles, "How wide the fretboard") with the outer
 * strings 3.3 mm in from the edges (Ukulele Guild of Hawaii, newsletter Feb 2002): (34.9 − 2 · 3.3) / 3.
 */
const UKULELE_STRING_PITCH_MM = 9.4;

/** Unit: mm. Source: common practice, no source: outer strings 41 apart at the bridge of any size. */
const UKULELE_BRIDGE_PITCH_MM = 13.7;

function tuning(name: string, strings: string, ...aliases: readonly string[]): TuningFacts {
  return { name, aliases, strings };
}

/**
 * Source of the C and D tunings: Wikipedia "Ukulele" (copies of 2011 and 2015), Mele Ukulele; of E flat and slack key:
 * ukulele.space wiki, "Tuning". The low D and low fourths: the same an octave down.
 */
const UKULELE_TUNINGS: readonly [TuningFacts, ...TuningFacts[]] = [
  tuning('high G', 'G4 C4 E4 A4', 're-entrant', 'reentrant', 'gcea', 'c tuning', 'standard'),
  tuning('low G', 'G3 C4 E4 A4', 'linear', 'low g tuning'),
  tuning('D tuning', 'A4 D4 F#4 B4', 'high A', 'd6', 'adf#b'),
  tuning('low A', 'A3 D4 F#4 B4', 'low d tuning', 'd tuning low a'),
  tuning('Eb tuning', 'Bb4 Eb4 G4 C5', 'e flat tuning', 'eb6', 'high Bb'),
  tuning('slack key', 'G4 C4 E4 G4', 'open C', 'taro patch', 'gceg'),
];

/** Source: Wikipedia "Ukulele"; re-entrant stringing: J. Wildwood, string gauge notes, 2012. */
const BARITONE_TUNINGS: readonly [TuningFacts, ...TuningFacts[]] = [
  tuning('standard', 'D3 G3 B3 E4', 'low D', 'dgbe', 'linear'),
  tuning('high D', 'D4 G3 B3 E4', 're-entrant', 'reentrant'),
];

/** Source: "Guitar Scale Length", Georgia Luthier Supply (standard); the altered ones: common practice, no source. */
const GUITAR_TUNINGS: readonly [TuningFacts, ...TuningFacts[]] = [
  tuning('standard', 'E2 A2 D3 G3 B3 E4', 'eadgbe'),
  tuning('drop D', 'D2 A2 D3 G3 B3 E4', 'dropped D'),
  tuning('double drop D', 'D2 A2 D3 G3 B3 D4'),
  tuning('open G', 'D2 G2 D3 G3 B3 D4', 'slack key'),
  tuning('open D', 'D2 A2 D3 F#3 A3 D4'),
  tuning('DADGAD', 'D2 A2 D3 G3 A3 D4'),
  tuning('half step down', 'Eb2 Ab2 Db3 Gb3 Bb3 Eb4', 'eb tuning'),
];

/**
 * Every instrument that a lesson can name. Sources of scale lengths and frets: Wikipedia "Ukulele" (copy of 2011), New England
 * Luthiers, Pō Mahina Ukulele, Bounty Music, Mele Ukulele "Uke Sizes", Georgia Luthier Supply, Metalute documentation
 * "The fretboard", Wikipedia "Tenor guitar" (copy of 2009); what is marked so is common practice without a source.
 */
export const INSTRUMENTS: readonly InstrumentFacts[] = [
  {
    kind: 'soprano ukulele',
    aliases: ['soprano'],
    // 13 5/8 in.
    scaleLengthMm: 346,
    frets: 12,
    stringPitchMm: UKULELE_STRING_PITCH_MM,
    bridgePitchMm: UKULELE_BRIDGE_PITCH_MM,
    tunings: UKULELE_TUNINGS,
  },
  {
    kind: 'concert ukulele',
    aliases: ['concert'],
    // 15 in; 15 frets are traditional, 17 and 18 are also built.
    scaleLengthMm: 15 * MM_PER_INCH,
    frets: 15,
    stringPitchMm: UKULELE_STRING_PITCH_MM,
    bridgePitchMm: UKULELE_BRIDGE_PITCH_MM,
    tunings: UKULELE_TUNINGS,
  },
  {
    kind: 'tenor ukulele',
    aliases: ['tenor', 'ukulele'],
    // 17 in.
    scaleLengthMm: 432,
    frets: 19,
    stringPitchMm: UKULELE_STRING_PITCH_MM,
    bridgePitchMm: UKULELE_BRIDGE_PITCH_MM,
    tunings: UKULELE_TUNINGS,
  },
  {
    kind: 'baritone ukulele',
    aliases: ['baritone'],
    // 20 in as builders make it; 18 to 21 frets, common practice, no source.
    scaleLengthMm: 20 * MM_PER_INCH,
    frets: 19,
    stringPitchMm: UKULELE_STRING_PITCH_MM,
    bridgePitchMm: UKULELE_BRIDGE_PITCH_MM,
    tunings: BARITONE_TUNINGS,
  },
  {
    kind: 'guitalele',
    aliases: ['guitarlele'],
    // 17 in; tuned a fourth above the guitar. Frets: common practice, no source.
    scaleLengthMm: 432,
    frets: 18,
    // (47.6 − 2 · 3.3) / 5, for the narrowest board of "Understanding String Spacing on Classical Guitars".
    stringPitchMm: 8.2,
    // Outer strings 52 apart at the bridge, common practice, no source.
    bridgePitchMm: 10.4,
    tunings: [tuning('standard', 'A2 D3 G3 C4 E4 A4', 'adgcea')],
  },
  {
    kind: 'guitar',
    aliases: ['classical guitar', 'nylon-string guitar', 'nylon guitar', 'spanish guitar'],
    scaleLengthMm: 650,
    // Common practice, no source.
    frets: 19,
    // Outer strings 42 apart, "Understanding String Spacing on Classical Guitars": 42 / 5.
    stringPitchMm: 8.4,
    // Outer strings 58 apart at the bridge, same source (it gives 53.3 to 58.4).
    bridgePitchMm: 11.6,
    tunings: GUITAR_TUNINGS,
  },
  {
    kind: 'steel-string guitar',
    aliases: ['steel guitar', 'steel string guitar', 'acoustic guitar', 'western guitar', 'folk guitar'],
    // 25.5 in.
    scaleLengthMm: 648,
    // Common practice, no source.
    frets: 20,
    // Nut 44.5 wide (general builders' table): (44.5 − 2 · 3.3) / 5.
    stringPitchMm: 7.6,
    // Outer strings 54 apart at the bridge, common practice, no source.
    bridgePitchMm: 10.8,
    tunings: GUITAR_TUNINGS,
  },
  {
    kind: 'electric guitar',
    aliases: ['electric'],
    // 25.5 in.
    scaleLengthMm: 648,
    // Common practice, no source.
    frets: 22,
    // Nut 43 wide (general builders' table): (43 − 2 · 3.3) / 5.
    stringPitchMm: 7.3,
    // Outer strings 52.5 apart at the bridge, common practice, no source.
    bridgePitchMm: 10.5,
    tunings: GUITAR_TUNINGS,
  },
  {
    kind: 'tenor guitar',
    aliases: [],
    // 23 in, the longest of 21 to 23 in.
    scaleLengthMm: 23 * MM_PER_INCH,
    // Frets and string spacing: common practice, no source.
    frets: 19,
    stringPitchMm: 8.0,
    // Common practice, no source.
    bridgePitchMm: 11.0,
    tunings: [
      tuning('standard', 'C3 G3 D4 A4', 'cgda', 'fifths'),
      tuning('Chicago', 'D3 G3 B3 E4', 'dgbe', 'chicago tuning'),
      tuning('Irish', 'G2 D3 A3 E4', 'gdae', 'octave mandolin'),
    ],
  },
  {
    kind: 'mandolin',
    aliases: [],
    // 13.75 in; scale, frets and course spacing: common practice, no source. The two strings of a course count as one.
    scaleLengthMm: 13.75 * MM_PER_INCH,
    frets: 20,
    stringPitchMm: 7.5,
    // Common practice, no source.
    bridgePitchMm: 11.5,
    tunings: [tuning('standard', 'G3 D4 A4 E5', 'gdae')],
  },
];
