/** 1 to 4 from index to little finger, `T` the thumb over the edge of the neck. Source of the numbers: SMuFL 1.4, "Fingering". */
export type Finger = 1 | 2 | 3 | 4 | 'T';

/** The thumb's row in tables by finger; the others have their own number. */
export function fingerRow(finger: Finger): number {
  return finger === 'T' ? 0 : finger;
}

const NAMES = ['thumb', 'index finger', 'middle finger', 'ring finger', 'little finger'] as const;

/** `ring finger`, `thumb` */
export function fingerName(finger: Finger): string {
  return NAMES[fingerRow(finger)] ?? 'finger';
}
