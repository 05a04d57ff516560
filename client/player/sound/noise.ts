/** White noise from -1 to 1 that is the same for the same seed: a linear congruential generator, constants of Numerical Recipes. */
export function seededNoise(seed: number): () => number {
  let state = (seed ^ 0x5eed) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 0x80000000 - 1;
  };
}
