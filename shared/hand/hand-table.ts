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
 * Finger lengths of an adult hand, sexes pooled. Unit: mm. Source: Chatzioglou, Pinar & Govsa 2024, Anat Cell Biol
 * 57(2):172–182, n = 51. They are scaled by hand length for other hands, which is a model.
 */
export const INDEX_LENGTH_MM = 63.9;
export const LITTLE_LENGTH_MM = 53.3;

/** Hand length that the finger lengths above are taken to belong to. Unit: mm. Source: mean of the two sexes' means of ANSUR II. */
export const POOLED_HAND_LENGTH_MM = 187;

/**
 * Greatest sideways angle between neighbouring fingers: index to middle, middle to ring, ring to little. Unit: degrees.
 * Source: Chatzioglou, Pinar & Govsa 2024.
 */
export const INDEX_MIDDLE_DEGREES = 17.2;
export const MIDDLE_RING_DEGREES = 14.3;
export const RING_LITTLE_DEGREES = 32.1;

/**
 * Share of the flat hand's index-to-little reach that bent fingers on strings still have: at most, and at ease. Unit: none.
 * Common practice, no source: set so that frets 1 to 4 of a tenor ukulele are at ease for a medium hand, frets 1 to 4 of a
 * guitar its limit, and frets 1 to 5 of a baritone ukulele a stretch that only a large hand makes.
 */
export const GREATEST_SHARE = 0.8;
export const COMFORTABLE_SHARE = 0.6;

/**
 * Thumb tip to little finger tip of the spread medium hand. Unit: mm. Source: Boyle, Boyle & Booker 2015, n = 473 pianists:
 * women 201, men about 226 (second-hand); the mean of both.
 */
export const MEDIUM_HANDSPAN_MM = 213;

/** Spread hands that a lesson may ask for. Unit: mm. Source: common practice, no source: a small child's to a giant's. */
export const HANDSPAN_RANGE_MM = [110, 300] as const;
