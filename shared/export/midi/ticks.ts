/** Parts of a quarter that a file counts: twos to a 256th, threes and fives come out whole. */
export const TICKS_PER_QUARTER = 960;

/**
 * The tick of the file nearest to a moment of a performance, which counts so many to a whole note. Each is rounded by itself from its
 * exact time, so that no error adds up.
 */
export function fileTick(moment: number, perWhole: number): number {
  return Math.round((moment * 4 * TICKS_PER_QUARTER) / perWhole);
}
