/**
 * What makes one family of shapes less welcome than another. Unit: points, whole numbers, where one finger that differs between
 * neighbouring shapes is 100. Common practice, no source: teachers who play one shape along the neck under ringing strings keep the
 * outline first, then the chord's third, then the hand's ease. Whole, so that sums are equal in whatever order they are made.
 */
export const FAMILY_POINTS = {
  /**
   * Each string of the outline that differs between neighbours, once one is moved along the neck to lie like the other as far as it
   * can: stopped in both within `NEARBY_FRETS` of each other, or farther off or in one of them only; and no more than this in all.
   */
  stringNearby: 75,
  stringDiffers: 100,
  mostOutline: 260,
  /** Neighbours, of two different chords, that sound the same tones: nothing changes for the ear. */
  nothingChanges: 250,
  /** The lowest stopped fret stays where it is though the chord changes: a family walks. */
  staysPut: 6,
  /** Each fret that it moves by, and each beyond `LEAP_FRETS` again. */
  fretOfWay: 8,
  fretOfLeap: 16,
  /** The hand turns round on the neck: as much as five frets of way. */
  turn: 40,
  /** Each effort of the change of fingers (see `change-table.ts`). */
  changeEffort: 22,
  /** Each semitone that the highest sounding note moves by beyond a whole tone. */
  semitoneOnTop: 4,
  /** A tone beyond the chord that belongs to the key, or to the chords of the progression; and one that does not. */
  toneAdded: 30,
  toneAddedOutside: 150,
  /** A tone of the chord that does not sound: the third with a second or fourth in its place, or without; and the others. */
  thirdSuspended: 120,
  thirdLost: 150,
  fifthLost: 25,
  fifthLostOfTriad: 70,
  rootLost: 90,
  otherLost: 60,
  /** An added eleventh over a major third: a semitone apart, they blur the quality. */
  eleventhOverThird: 90,
  /** The lowest note is not the root, or not the bass that is written; by whether low strings stand for a bass. */
  bassElsewhere: 5,
  bassElsewhereOnMore: 40,
  /**
   * On five and more strings in order, a lowest note that the chord does not have; and one that makes another chord of the progression
   * of it: a G6 over E beside an Em is an Em7 to every ear.
   */
  bassForeign: 140,
  bassOfNeighbour: 220,
  writtenBassElsewhere: 40,
  writtenBassElsewhereInOrder: 120,
  /** With everything allowed: no musician would call it by the chord's root any more. */
  renamed: 200,
  /** A string that is not to sound. */
  silentString: 120,
  silentStringOnMore: 45,
  /** Each point of the shape's difficulty (0 to 10), and each beyond `HARD_FROM` again. */
  difficultyPoint: 16,
  hardPoint: 40,
  /** All strings open: such a shape is like no other, and the hand comes and goes unseen. */
  nothingHeld: 80,
  /** For each fret that the shape lies up the neck: of equals, the nearer the nut; and for each beyond `BODY_FRET`. */
  fretUpTheNeck: 1,
  fretBeyondBody: 12,
  /** An open string that was not asked to ring, for each fret above `OPEN_FRET` that its neighbours are stopped: it sounds apart. */
  fretAboveOpen: 4,
} as const;

/** A way of more frets than these is a leap. Unit: frets. Source: four fingers and a stretch, common practice, no source. */
export const LEAP_FRETS = 5;

/** So far a top line moves by step. Unit: semitones. Source: a whole tone, common practice, no source. */
export const STEP_SEMITONES = 2;

/** From here on a shape is hard for its own sake. Unit: points of difficulty, 0 to 10. Common practice, no source. */
export const HARD_FROM = 5;

/** Beyond this fret most necks are over the body. Unit: frets. Source: the octave, common practice, no source. */
export const BODY_FRET = 12;

/** Up to here open and stopped strings sound together as in any first position. Unit: frets. Common practice, no source. */
export const OPEN_FRET = 3;

/** A progression has so many chords, at least and at most. Source: two are needed to compare; eight lines of four bars, common practice, no source. */
export const FEWEST_CHORDS = 2;
export const MOST_CHORDS = 32;

/** Families that are told where no number is said, and the most that may be asked for. */
export const USUAL_FAMILIES = 5;
export const MOST_FAMILIES = 20;

/** A finger that lies so far from where its neighbour shape has it goes there without the hand. Unit: frets. Common practice, no source. */
export const NEARBY_FRETS = 2;

/**
 * Of the chords that have a choice, families must differ in this share at least, and in two where three or more have one.
 * Unit: none. Common practice, no source: two of four.
 */
export const SHARE_THAT_DIFFERS = 1 / 3;

/**
 * On more than four strings so many shapes of each chord take part, best first as the finder of shapes ranks them; on four strings
 * all do. Unit: shapes. There are tens of thousands on six strings, and each must be fingered.
 */
export const MOST_SHAPES_ON_MORE = 250;
