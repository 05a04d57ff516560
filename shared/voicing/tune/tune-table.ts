// What makes a tune a good one, in points: less is better. Common practice of teachers of melody, no source, unless said otherwise;
// the tunes that come of it were sung, and the tests hold their rules.

/** What a step from one note to the next costs, beside its direction. Unit: points. */
export const INTERVAL_POINTS = {
  /** The same note again, where nobody asked for it; over a change of chord the common tone is welcome. */
  repeated: 6.5,
  repeatedOverChange: 1.2,
  /** Where it is wished that notes may come again. */
  repeatedAsWished: 0.2,
  /** A step of the scale. */
  step: 0,
  /** Up to a major third that is no step of the scale. */
  third: 1,
  /** Up to a fifth. */
  fifth: 2.6,
  /** Up to a major sixth. */
  sixth: 5,
  /** Up to an octave; nothing is wider. */
  octave: 7,
  /** More than a step into a new chord: the tune is to lead there. */
  leapIntoChange: 9,
  /** The same into the first note of a new phrase, which may begin anew. */
  leapIntoPhrase: 1.5,
} as const;

/** Widest intervals of each row above. Unit: semitones. Source: definition of the intervals. */
export const WIDEST_SEMITONES = { third: 4, fifth: 7, sixth: 9, octave: 12 } as const;

/** From this on an interval is a leap, which wants a step back. Unit: semitones. Source: any primer of melody: a fourth and wider. */
export const LEAP_FROM_SEMITONES = 5;

/** Where the tune goes. Unit: points. */
export const DIRECTION_POINTS = {
  /** It turns: once or twice in a phrase is a shape, at every note it is aimless. */
  turn: 0.9,
  /** There and back to the same note. */
  returns: 2.6,
  /** It goes against the line that was asked for. */
  against: 0.7,
  /** After a leap it does not step back. */
  leapLeftOpen: 1.2,
  /** For the square of each semitone that a note is off the line beyond `NEAR_LINE_SEMITONES`. */
  offLineSquared: 0.16,
} as const;

/** So far from the line a note is still on it. Unit: semitones. Common practice, no source: a second. */
export const NEAR_LINE_SEMITONES = 1.5;

/** What a note is to its chord. Unit: points. */
export const TONE_POINTS = {
  /** On a strong beat, by degree: the third tells the chord, the root rests in it, the fifth is hollow, the others colour it. */
  strong: { 1: 0.4, 3: 0, 5: 0.7, 7: 0.8, other: 0.9 },
  /** Between the beats a tone that is none of the chord is a passing tone: it costs nothing but must come and go by step. */
  passing: 0,
  /** A tone of the chord between the beats. */
  weakInChord: 0.15,
  /** The last note: the root is at rest, the third nearly; others only where the shape has neither. */
  last: { root: 0, third: 0.8, other: 6 },
  /** The end of a phrase that is to stay open sits on the home note. */
  closedTooSoon: 4,
  /** The end of a phrase that is to rest does not sit on the root or third of its chord. */
  leftOpen: 2,
} as const;

/** What the hand does for it. Unit: points, for one each or for each effort (see `effort-table.ts` and `change-table.ts`). */
export const HAND_POINTS = {
  /** For each effort of change from note to note. */
  changeEffort: 1.6,
  /** For each effort of holding the note beyond that of the shape. */
  holdEffort: 0.35,
  /** One finger for two different notes in a row over one chord: a finger for each sings better. */
  sameFinger: 1.1,
  /** For each string between two notes in a row, which the plucking hand skips. */
  skippedString: 0.5,
  lifted: 2.2,
  /** For each other string of the shape that a lifted finger gives up: the chord under the tune grows thin. */
  givenUp: 1.5,
  flat: 0.8,
  /** What the shape sounds by itself rings on with it; for another note a string of the shape is stopped. */
  free: 0.4,
  stretched: 3,
} as const;

/**
 * Given notes: a whole tune is placed with as few notes as can be outside the shape, then as few lifted fingers, then with ease. Unit:
 * points; each is more than all below it in a tune of usual length.
 */
export const PLACE_POINTS = { tooQuick: 4000, outside: 400, lifted: 20, stretched: 12, flat: 2.5, free: 2 } as const;

/** How high a line goes from its lowest note, for each bar up to a phrase. Unit: semitones. Common practice, no source: an octave is sung. */
export const LINE_SEMITONES = { perBar: 3, least: 7, most: 12 } as const;

/** Where an arch has its top, as a share of the phrase. Unit: none. Common practice, no source: past the middle. */
export const ARCH_TOP_SHARE = 0.6;

/** How much of a rise or a fall each of its two waves has. Unit: none. Common practice, no source. */
export const WAVE_SHARE = 0.7;

/** Bars of a phrase, where a tune is longer. Source: common practice, no source. */
export const PHRASE_BARS = 4;

/** A tune that nobody gave a rhythm breathes after so many bars: a longer note ends them. Source: common practice, no source. */
export const BREATH_BARS = 2;

/** So many notes of a tune must be others before it counts as another tune. Unit: none. */
export const DIFFERENT_SHARE = 0.3;

/** A further tune is offered where it has at most so many more than the best one for each note. Unit: points. */
export const WORSE_POINTS_PER_NOTE = 1;
