import type { Ink, TextRole } from './drawing.ts';

/**
 * The measures of the sheet, all in one table. Unit: mm. Source: our own, tried on screen at life size and on paper; where a
 * rule of the trade stands behind a value the comment says so.
 */
export const SIZES = {
  /** Between two strings of the tab staff. A figure must stand on its string without touching the next. */
  stringGap: 3.5,
  /** A fret number: about 10 pt, read from a music stand at arm's length. */
  fretNumber: 3.9,
  /** The fret that a hammer-on, pull-off, slide or trill arrives at. */
  arrivalNumber: 3,
  /** White on both sides of a figure, where the string line is left open. */
  openString: 0.45,
  /** Chord name over the staff. */
  chordName: 4.4,
  /** What is counted aloud, and finger letters. */
  count: 3.1,
  /** Syllables of a song. */
  word: 3.85,
  /** Words of a tempo, and the space between the lines of the staff that its note is drawn for. */
  tempo: 3.6,
  tempoSpace: 1.15,
  /** Bar numbers and other small print: not below 7 pt. */
  small: 2.5,
  /** Space between the lines of the staff that the meter's figures are drawn for; a figure is two of it high. */
  meterSpace: 2.35,
  /** Strings: thin, they are ground rather than figure. */
  stringThickness: 0.16,
  barLineThickness: 0.28,
  /** The heavy line of a repeat or an end. */
  heavyLineThickness: 0.9,
  strokeThickness: 0.5,
  thinStrokeThickness: 0.26,
  /** The bow between two figures of a string: where it ends over the string, and its shape. */
  slur: { level: 1.52, rise: -0.72, thickness: 0.4, inset: 1.2 },
  frameThickness: 0.2,
  /** A dash and the gap behind it. */
  dash: [0.8, 0.6],
  /** Room kept between things of one row. */
  clearance: { staff: 1, name: 1.8, text: 1.7 },
  /** From a bar line to the first column. */
  afterBarLine: 1.6,
  /** From the middle of a meter's figures to the first column, beside the room that both need. */
  afterMeter: 3.4,
  /** Between columns an eighth apart, before a line is stretched or squeezed. */
  eighth: 6.6,
  /** Stems, beams and what belongs to them, counted from the edge of their row that is turned to the staff. */
  rhythm: {
    stem: 5,
    /** A half note's. */
    shortStem: 2.5,
    stemThickness: 0.22,
    beam: 0.72,
    /** From one beam or flag to the next. */
    beamStep: 1.16,
    /** A beam that belongs to one stem alone. */
    stub: 1.5,
    /** Space between the lines of the staff that flags and rests are drawn for. */
    signSpace: 1.45,
    dotFrom: 0.95,
    dotStep: 0.95,
    dotRadius: 0.34,
    dotLevel: 1.9,
    tieGap: 0.5,
    tieLevel: 0.4,
    tieRise: 1.35,
    tieThickness: 0.34,
    /** A tie from the line before begins this far before the note it reaches. */
    tieFromBefore: 4.2,
    /** Space between the lines of the staff that a tuplet's figure is drawn for. */
    tupletSpace: 1.25,
    /** White between the figures of `4:6`, which lean into each other. */
    tupletGap: 0.35,
    /** From the outer edge of the beam to the middle of a tuplet's figure. */
    tupletLevel: 1.45,
    bracketThickness: 0.2,
    /** Room kept beyond the stems. */
    beyond: 0.5,
    /** The same where a tuplet's figure stands there. */
    beyondTuplet: 2.9,
  },
  /** Half the height that a ringed figure or the tip of a stroke needs over the top string and under the last one. */
  staffMargin: 2,
  /** The narrowest that a single bar may become by shrinking the whole line: figures of 2.5 mm are the least we print. */
  leastScale: 0.7,
  /** Between diagrams of a row. */
  diagramGap: 4.5,
  diagram: {
    stringGap: 3.5,
    fretGap: 4.3,
    dotRadius: 1.5,
    /** A finger number inside a dot. */
    finger: 2.5,
    /** A tone's role inside a dot, `♭3`. */
    dotRole: 2.1,
    nutThickness: 1,
    fretThickness: 0.22,
    stringThickness: 0.3,
    barreThickness: 2.4,
    /** An open ring or a cross above a string. */
    signRadius: 0.85,
    name: 4.8,
    caption: 2.7,
    role: 2.7,
    position: 2.9,
    /** Fewest frets shown, so that diagrams of one row look alike. Common practice, no source. */
    leastFrets: 4,
    /** Within a line of prose: no higher than it must be, its number large enough to be read on paper, words not too near. */
    inLine: { leastFrets: 3, position: 4.8, margin: 0.9 },
  },
  /** A diagram over the staff: dots alone, no finger numbers. */
  smallDiagram: {
    stringGap: 2.05,
    fretGap: 2.35,
    dotRadius: 0.78,
    nutThickness: 0.55,
    lineThickness: 0.18,
    barreThickness: 1.1,
    signRadius: 0.5,
    position: 2.5,
  },
  /** A diagram within a line of prose, against its full size. */
  inlineDiagramScale: 0.62,
} as const;

/**
 * How the distance between columns grows with the time between them: a note twice as long gets about half as much again.
 * Common practice of engraving, no source.
 */
export const SPACING_EXPONENT = 0.6;

/**
 * Stretch of a line against its natural width: the least before a bar moves to the next line, and the most of any line. The last
 * line fills the width like the others where that takes no more than `filled`, by itself and against the line before it; else it
 * ends where it likes, hardly looser than they are.
 */
export const STRETCH = {
  comfortable: 0.82,
  most: 2.2,
  filled: 1.9,
  filledAgainstBefore: 1.75,
  lastLine: 1.3,
  lastAgainstBefore: 1.15,
} as const;

/** Colours of drawings that bring their own paper. The soft ink keeps 4.5 to 1 on the paper. Source: WCAG 2.2, 1.4.3. */
export const FIXED_COLOURS: Readonly<Record<Ink, string>> = {
  strong: '#1f1c18',
  soft: '#5f5a52',
  faint: '#8d877d',
  paper: '#fffdf8',
  accent: '#8a3512',
};

/** Typefaces of drawings that bring their own, most wanted first; every system has one of each list. */
export const FIXED_FACES: Readonly<
  Record<TextRole, { readonly family: string; readonly bold: boolean; readonly italic: boolean }>
> = {
  number: {
    family: "'Source Sans 3', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif",
    bold: false,
    italic: false,
  },
  name: { family: "'Source Serif 4', 'Times New Roman', 'Liberation Serif', Times, serif", bold: true, italic: false },
  count: { family: "'Source Serif 4', 'Times New Roman', 'Liberation Serif', Times, serif", bold: false, italic: true },
  word: { family: "'Source Serif 4', 'Times New Roman', 'Liberation Serif', Times, serif", bold: false, italic: false },
};

/** CSS pixels in a millimetre. Source: CSS Values and Units, 96 px = 1 in = 25.4 mm. */
export const PX_PER_MM = 96 / 25.4;
