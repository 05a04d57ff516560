/**
 * The frequency near the one expected at which a sound is strongest: peak of its Fourier transform under a Hann window, found by
 * halving. Unit: Hz. Independent of how the sound was made.
 */
export function strongestNear(samples: Float32Array, sampleRate: number, expected: number): number {
  const start = Math.round(sampleRate * 0.05);
  const count = Math.min(samples.length - start, Math.round(sampleRate * 0.6));
  const power = (hertz: number): number => {
    let real = 0;
    let imaginary = 0;
    const turn = (2 * Math.PI * hertz) / sampleRate;
    for (let index = 0; index < count; index += 1) {
      const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / count);
      const sample = (samples[start + index] ?? 0) * window;
      real += sample * Math.cos(turn * index);
      imaginary -= sample * Math.sin(turn * index);
    }
    return real * real + imaginary * imaginary;
  };
  // A third of a semitone to either side: a note that is off by more would be found at the edge.
  let low = expected * 2 ** (-35 / 1200);
  let high = expected * 2 ** (35 / 1200);
  for (let step = 0; step < 30; step += 1) {
    const left = low + (high - low) / 3;
    const right = high - (high - low) / 3;
    if (power(left) < power(right)) low = left;
    else high = right;
  }
  return (low + high) / 2;
}

/** From one frequency to another. Unit: cents. */
export function cents(from: number, to: number): number {
  return 1200 * Math.log2(to / from);
}

/** Mean power of a stretch, in seconds. Unit: dB. */
export function levelBetween(samples: Float32Array, sampleRate: number, from: number, to: number): number {
  const part = samples.subarray(Math.round(from * sampleRate), Math.round(to * sampleRate));
  const power = part.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, part.length);
  return 10 * Math.log10(power + 1e-12);
}
