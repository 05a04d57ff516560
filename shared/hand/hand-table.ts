/** Measures of a left hand that its reach along the neck is computed from. Unit: mm. */
export interface HandMeasures {
  /** Wrist crease to the tip of the middle finger. */
  readonly lengthMm: number;
  /** Across the knuckles, from the index finger's to the little finger's outer edge. */
  readonly breadthMm: number;
}

/**
 * Named hands. Source: ANSUR II (Gordon et al. 2014, Natick/TR-15/007), computed from its public files:
 * small is the women's 5th percentile, large the men's 95th, medium the mean of both sexes' means.
 */
export const ADULT_HANDS: Readonly<Record<'small' | 'medium' | 'large', HandMeasures>> = {
  small: { lengthMm: 165, breadthMm: 72 },
  medium: { lengthMm: 187, breadthMm: 83 },
  large: { lengthMm: 210, breadthMm: 96 },
};

/**
 * A child of about nine, as a share of the medium adult hand. Unit: none. A model, not a measurement: finger length grows by 37 %
 * from three to ten years ("Lengths, girths and diameters of children's fingers", Ann Anat 2010;192(3):156–161, n = 160).
 */
export const CHILD_SHARE = 0.78;

/**
 * Finger lengths of an adult hand, sexes pooled: thumb, index, middle, ring, little. Unit: mm. Source: Chatzioglou, Pinar & Govsa
 * 2024, Anat Cell Biol 57(2):172–182, n = 51. They are scaled by hand length for other hands, which is a model.
 */
export const FINGER_LENGTHS_MM = [49.5, 63.9, 70.7, 65.5, 53.3] as const;

/** Hand length that the finger lengths above are taken to belong to. Unit: mm. Source: mean of the two sexes' means of ANSUR II. */
export const POOLED_HAND_LENGTH_MM = 187;

/**
 * Greatest sideways angle between neighbouring fingers: index to middle, middle to ring, ring to little. Unit: degrees.
 * Source: Chatzioglou, Pinar & Govsa 2024.
 */
export const INDEX_MIDDLE_DEGREES = 17.2;
export const MIDDLE_RING_DEGREES = 14.3;
export const RING_LITTLE_DEGREES = 32.1;

/** What two fingers keep of the distance they have on the flat hand: at ease, and at most. Unit: none. */
export interface PairShare {
  readonly comfortable: number;
  readonly greatest: number;
}

/**
 * How far the thumb's tip over the edge of the neck stands from the index finger's along the neck, as a share of the thumb's length.
 * Source: common practice, no source. For the other fingers their knuckles' distance from the index finger's comes on top.
 */
export const THUMB_SHARE: PairShare = { comfortable: 0.6, greatest: 1 };

/**
 * Share of the flat hand's reach that fingers on strings have, by the lower and then the higher finger's row (0 is the thumb).
 * Unit: none. Common practice, no source. Set so that
 * - index to little: frets 1 to 4 of a tenor ukulele are at ease for a medium hand, frets 1 to 4 of a guitar its limit, and frets
 *   1 to 5 of a baritone ukulele a stretch that only a large hand makes;
 * - neighbours: one finger a fret at the first fret of a guitar is at ease for a small hand; two frets there are at ease for a
 *   medium hand's index and middle finger from fret 3 on (the barred shape of A), and a stretch for its middle and ring finger (the
 *   open chord of C minor). Neighbours have more than on the flat hand: one bends back while the other is straight, and the angles
 *   were measured with the others held still;
 * - one finger between: the open chord of C on a guitar is at ease for a medium hand's index and ring finger, and a stretch for a
 *   small hand's.
 * The tests hold each of these.
 */
export const PAIR_SHARES: readonly (readonly (PairShare | undefined)[])[] = [
  [undefined, THUMB_SHARE, THUMB_SHARE, THUMB_SHARE, THUMB_SHARE],
  [
    undefined,
    undefined,
    { comfortable: 1.5, greatest: 1.8 },
    { comfortable: 0.9, greatest: 1.2 },
    { comfortable: 0.6, greatest: 0.8 },
  ],
  [undefined, undefined, undefined, { comfortable: 1.2, greatest: 1.8 }, { comfortable: 0.78, greatest: 1.05 }],
  [undefined, undefined, undefined, undefined, { comfortable: 0.9, greatest: 1.3 }],
];

/**
 * How far two tips can be apart across the strings by bending one finger and straightening the other, before it costs anything
 * along the neck. Unit: share of the longer finger. Source: common practice, no source: any adult hand puts two fingers on the
 * outer strings of a guitar in neighbouring frets without a stretch.
 */
export const BEND_SHARE = 0.7;

/**
 * Across how much of the board a finger lies flat, as a share of its length: thumb, index, middle, ring, little. Source: common practice, no source: the index finger
 * across six strings in full barres, the ring finger across four of a ukulele or guitar, the middle and little finger across three.
 */
export const COVER_SHARES = [0, 0.95, 0.32, 0.45, 0.42] as const;

/**
 * Across how much of the board the end of a finger lies flat while its middle bends up again, so that open strings beside it ring.
 * Unit: share of the finger's length. Source: common practice, no source: three strings of a ukulele or guitar.
 */
export const END_JOINT_SHARE = 0.38;

/**
 * Room that a tip on a string takes from its neighbours, for a hand of the pooled length. Unit: mm. Source: common practice, no
 * source: narrower than the finger, because tips come down at an angle and give. Scaled by hand length.
 */
export const TIP_WIDTH_MM = 12;

/**
 * Thumb tip to little finger tip of the spread medium hand. Unit: mm. Source: Boyle, Boyle & Booker 2015, n = 473 pianists:
 * women 201, men about 226 (second-hand); the mean of both.
 */
export const MEDIUM_HANDSPAN_MM = 213;

/** Spread hands that a lesson may ask for. Unit: mm. Source: common practice, no source: a small child's to a giant's. */
export const HANDSPAN_RANGE_MM = [110, 300] as const;
