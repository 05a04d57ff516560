/** 1 to 4 from index to little finger, `T` the thumb over the edge of the neck. Source of the numbers: SMuFL 1.4, "Fingering". */
export type Finger = 1 | 2 | 3 | 4 | 'T';

/** The thumb's row in tables by finger; the others have their own number. */
export function fingerRow(finger: Finger): number {
  return finger === 'T' ? 0 : finger;
}

const NAMES = ['thumb', 'index finger', 'middle finger', 'ring finger', 'little finger'] as const;

/** `index, middle and ring finger` */
export function fingerList(fingers: readonly Finger[]): string {
  const last = fingers.at(-1);
  if (last === undefined) return 'no finger';
  const others = fingers.slice(0, -1).map((finger) => fingerName(finger).replace(' finger', ''));
  return others.length === 0 ? fingerName(last) : `${others.join(', ')} and ${fingerName(last)}`;
}

/** `ring finger`, `thumb` */
export function fingerName(finger: Finger): string {
  return NAMES[fingerRow(finger)] ?? 'finger';
}
