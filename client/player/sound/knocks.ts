import { seededNoise } from './noise.ts';

/** Something struck that rings with tones of its own, and how it begins. */
interface Knock {
  /** Tones that die away. `fallS`: to fall by 60 dB. */
  readonly tones: readonly { readonly hertz: number; readonly fallS: number; readonly gain: number }[];
  /** The touch itself: noise around a frequency. */
  readonly touch: { readonly hertz: number; readonly q: number; readonly fallS: number; readonly gain: number };
}

export type KnockName = 'chunk' | 'slap' | 'palm' | 'nails' | 'body' | 'click' | 'strong-click';

/** Common practice, no source: chosen so that each is told from the others, and clicks from everything that is played. */
const KNOCKS: Readonly<Record<KnockName, Knock>> = {
  // The stroke is stopped in the moment it is made: strings clack, nothing rings.
  chunk: {
    tones: [
      { hertz: 196, fallS: 0.11, gain: 0.35 },
      { hertz: 415, fallS: 0.07, gain: 0.25 },
    ],
    touch: { hertz: 2100, q: 0.8, fallS: 0.09, gain: 1 },
  },
  // The thumb falls on strings and top.
  slap: {
    tones: [
      { hertz: 138, fallS: 0.2, gain: 0.8 },
      { hertz: 232, fallS: 0.15, gain: 0.5 },
    ],
    touch: { hertz: 900, q: 0.7, fallS: 0.06, gain: 0.7 },
  },
  palm: {
    tones: [
      { hertz: 112, fallS: 0.22, gain: 1 },
      { hertz: 205, fallS: 0.14, gain: 0.4 },
    ],
    touch: { hertz: 380, q: 0.7, fallS: 0.07, gain: 0.5 },
  },
  nails: {
    tones: [{ hertz: 2350, fallS: 0.05, gain: 0.25 }],
    touch: { hertz: 4200, q: 1.2, fallS: 0.05, gain: 1 },
  },
  body: {
    tones: [
      { hertz: 232, fallS: 0.16, gain: 0.9 },
      { hertz: 428, fallS: 0.12, gain: 0.7 },
      { hertz: 760, fallS: 0.07, gain: 0.35 },
    ],
    touch: { hertz: 1500, q: 0.8, fallS: 0.03, gain: 0.5 },
  },
  click: {
    tones: [{ hertz: 1568, fallS: 0.06, gain: 0.8 }],
    touch: { hertz: 3000, q: 1, fallS: 0.012, gain: 0.4 },
  },
  'strong-click': {
    tones: [{ hertz: 2349, fallS: 0.075, gain: 1 }],
    touch: { hertz: 3000, q: 1, fallS: 0.012, gain: 0.4 },
  },
};

/** The knock as samples from -1 to 1. The same name gives the same samples. */
export function knock(name: KnockName, sampleRate: number): Float32Array<ArrayBuffer> {
  const { tones, touch } = KNOCKS[name];
  const longest = Math.max(touch.fallS, ...tones.map(({ fallS }) => fallS));
  const samples = new Float32Array(Math.ceil(longest * 1.1 * sampleRate));
  for (const { hertz, fallS, gain } of tones) {
    const turn = (2 * Math.PI * hertz) / sampleRate;
    const fall = 10 ** (-3 / (fallS * sampleRate));
    let size = gain;
    for (let index = 0; index < samples.length; index += 1) {
      samples[index] = (samples[index] ?? 0) + size * Math.sin(turn * index);
      size *= fall;
    }
  }
  addTouch(samples, touch, sampleRate);
  let peak = 1e-9;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  for (let index = 0; index < samples.length; index += 1) samples[index] = (samples[index] ?? 0) / peak;
  return samples;
}

function addTouch(samples: Float32Array, { hertz, q, fallS, gain }: Knock['touch'], sampleRate: number): void {
  const noise = seededNoise(hertz);
  const turn = (2 * Math.PI * hertz) / sampleRate;
  const alpha = Math.sin(turn) / (2 * q);
  const scale = 1 / (1 + alpha);
  const fall = 10 ** (-3 / (fallS * sampleRate));
  let size = gain * 2;
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let index = 0; index < samples.length; index += 1) {
    const x = noise() * size;
    const y = (alpha * (x - x2) + 2 * Math.cos(turn) * y1 - (1 - alpha) * y2) * scale;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
    samples[index] = (samples[index] ?? 0) + y;
    size *= fall;
  }
}
