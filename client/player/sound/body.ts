/** Where the wood and the air in it sound along. */
interface Resonance {
  readonly hertz: number;
  /** Sharpness. */
  readonly q: number;
  readonly gain: number;
}

export type Body = 'small' | 'large';

/**
 * Air, top, and a broad rise above. Common practice, no source: in the neighbourhood of what is measured on ukuleles (air near
 * 230 Hz, top near 430 Hz) and on guitars (near 100 Hz and 200 Hz).
 */
const RESONANCES: Readonly<Record<Body, readonly Resonance[]>> = {
  small: [
    { hertz: 232, q: 7, gain: 0.5 },
    { hertz: 428, q: 8, gain: 0.55 },
    { hertz: 760, q: 5, gain: 0.3 },
    { hertz: 1900, q: 1.4, gain: 0.25 },
  ],
  large: [
    { hertz: 102, q: 8, gain: 0.5 },
    { hertz: 204, q: 8, gain: 0.6 },
    { hertz: 410, q: 5, gain: 0.35 },
    { hertz: 1700, q: 1.4, gain: 0.2 },
  ],
};

/** What the body makes of the strings' force; the peak is brought back to 1. A linear filter, so that no pitch moves. */
export function throughBody(
  samples: Float32Array<ArrayBuffer>,
  body: Body,
  sampleRate: number,
): Float32Array<ArrayBuffer> {
  const sounding = new Float32Array(samples);
  for (const { hertz, q, gain } of RESONANCES[body]) addResonance(sounding, samples, hertz, q, gain, sampleRate);
  let peak = 1e-9;
  for (const sample of sounding) peak = Math.max(peak, Math.abs(sample));
  for (let index = 0; index < sounding.length; index += 1) sounding[index] = (sounding[index] ?? 0) / peak;
  return sounding;
}

/** A bandpass of two poles beside the direct sound. Source of the coefficients: R. Bristow-Johnson, Audio EQ Cookbook, from memory. */
function addResonance(
  into: Float32Array,
  from: Float32Array,
  hertz: number,
  q: number,
  gain: number,
  sampleRate: number,
): void {
  const turn = (2 * Math.PI * hertz) / sampleRate;
  const alpha = Math.sin(turn) / (2 * q);
  const scale = 1 / (1 + alpha);
  const b0 = alpha * scale * gain * 2;
  const a1 = -2 * Math.cos(turn) * scale;
  const a2 = (1 - alpha) * scale;
  let x1 = 0;
  let x2 = 0;
  let y1 = 0;
  let y2 = 0;
  for (let index = 0; index < from.length; index += 1) {
    const x = from[index] ?? 0;
    const y = b0 * (x - x2) - a1 * y1 - a2 * y2;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
    into[index] = (into[index] ?? 0) + y;
  }
}
