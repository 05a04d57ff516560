import type { StringMaterial } from '../../../shared/score/performance.ts';
import { seededNoise } from './noise.ts';

// A plucked string as a loop of delay: what runs round comes back after one period, a little softer and duller each time. Extended
// Karplus–Strong synthesis: K. Karplus and A. Strong (1983), D. Jaffe and J. O. Smith, "Extensions of the Karplus-Strong
// Plucked-String Algorithm", Computer Music Journal 7:2 (1983), from memory. Small and exact in pitch; recordings would weigh
// megabytes and could not be tuned.

export interface PluckedString {
  /** Fundamental. Unit: Hz. */
  readonly hertz: number;
  readonly material: StringMaterial;
  /** 0 to 1: a soft touch is dull, a hard one bright. */
  readonly brightness: number;
  /** Where it is plucked, as a part of its length from the bridge. */
  readonly pluckedAt: number;
  /** How much shorter than free it rings: 1 for a free string. */
  readonly ringing: number;
}

interface Damping {
  /** Time to fall by 60 dB at middle C, free and open. Unit: s. */
  readonly atMiddleC: number;
  /** How fast that falls with pitch, as a power. */
  readonly slope: number;
  /** The same time for partials at 4 kHz. Unit: s. */
  readonly at4kHz: number;
}

/** Common practice, no source: chosen by ear and by measure, so that a nylon string is gone after two or three seconds. */
const DAMPING: Readonly<Record<StringMaterial, Damping>> = {
  nylon: { atMiddleC: 3.4, slope: 0.7, at4kHz: 0.34 },
  steel: { atMiddleC: 5.5, slope: 0.8, at4kHz: 1.1 },
};

const MIDDLE_C_HZ = 261.63;
/** Nothing is kept beyond it. Unit: s. */
const LONGEST_S = 4;

/** The string as samples from -1 to 1, as long as it is heard. The same string gives the same samples. */
export function pluckedString(string: PluckedString, sampleRate: number): Float32Array<ArrayBuffer> {
  const { material, ringing } = string;
  const damping = DAMPING[material];
  const free = Math.min(8, damping.atMiddleC * (MIDDLE_C_HZ / string.hertz) ** damping.slope);
  const fallS = free * ringing;
  const samples = new Float32Array(Math.ceil(Math.min(LONGEST_S, fallS * 1.05 + 0.02) * sampleRate));
  const burst = pluck(string, sampleRate);
  // A string swings in two planes. Toward the top it gives its sound away fast, along the top slowly: first loud, then long.
  loop(
    samples,
    burst,
    { ...string, fallS: fallS * 0.5, dullS: damping.at4kHz * ringing * 0.65, gain: 0.62 },
    sampleRate,
  );
  loop(samples, burst, { ...string, fallS, dullS: damping.at4kHz * ringing, gain: 0.38 }, sampleRate);
  fadeOut(samples, sampleRate);
  return samples;
}

/** What the finger gives to the string: a push with some noise in it, duller for a softer touch, without the partials that have a node there. */
function pluck({ hertz, brightness, pluckedAt }: PluckedString, sampleRate: number): Float32Array {
  const period = sampleRate / hertz;
  const length = Math.max(8, Math.round(period));
  const noise = seededNoise(Math.round(hertz * 16));
  const burst = new Float32Array(length + Math.ceil(period * pluckedAt) + 2);
  // The corner of the first lowpass makes partials fall as those of a string that is let go; the flesh of the finger is the second.
  const slope = keptBy(280 + 1000 * brightness ** 2, sampleRate);
  const flesh = keptBy(1400 + 6000 * brightness ** 2, sampleRate);
  let first = 0;
  let second = 0;
  for (let index = 0; index < length; index += 1) {
    const given = (index === 0 ? PUSH * Math.sqrt(length) : 0) + noise();
    first = given * (1 - slope) + first * slope;
    second = first * (1 - flesh) + second * flesh;
    burst[index] = second;
  }
  // Comb: what goes toward the bridge comes back turned over.
  const lag = Math.max(1, Math.round(period * pluckedAt));
  for (let index = burst.length - 1; index >= lag; index -= 1) {
    burst[index] = (burst[index] ?? 0) - (burst[index - lag] ?? 0) * 0.95;
  }
  level(burst);
  return burst;
}

/** How much stronger the push is than the noise in it. */
const PUSH = 2.2;

/** What a lowpass of one pole keeps of its last sample. Unit of its corner: Hz. */
function keptBy(corner: number, sampleRate: number): number {
  return Math.exp((-2 * Math.PI * Math.min(corner, sampleRate * 0.4)) / sampleRate);
}

/** No direct current, and a peak of 1. */
function level(samples: Float32Array): void {
  const mean = samples.reduce((sum, sample) => sum + sample, 0) / samples.length;
  let peak = 1e-9;
  for (let index = 0; index < samples.length; index += 1) {
    const sample = (samples[index] ?? 0) - mean;
    samples[index] = sample;
    peak = Math.max(peak, Math.abs(sample));
  }
  for (let index = 0; index < samples.length; index += 1) samples[index] = (samples[index] ?? 0) / peak;
}

interface Loop {
  readonly hertz: number;
  /** To fall by 60 dB at the fundamental, and at 4 kHz. Unit: s. */
  readonly fallS: number;
  readonly dullS: number;
  readonly gain: number;
}

/** Adds what runs round the string. Delay, lowpass and allpass together take exactly one period at the fundamental. */
function loop(into: Float32Array, burst: Float32Array, { hertz, fallS, dullS, gain }: Loop, sampleRate: number): void {
  const turn = (2 * Math.PI * hertz) / sampleRate;
  const period = sampleRate / hertz;
  const { keep, level: round } = loss(hertz, fallS, dullS, sampleRate);
  // Phase delay of the lowpass round·(1-keep)/(1-keep·z⁻¹) at the fundamental.
  const lowpassDelay = Math.atan2(keep * Math.sin(turn), 1 - keep * Math.cos(turn)) / turn;
  const rest = period - lowpassDelay;
  const whole = Math.max(1, Math.floor(rest - 0.4));
  const part = rest - whole;
  // First-order allpass with exactly this phase delay at the fundamental.
  const turned = Math.sin(((1 - part) * turn) / 2) / Math.sin(((1 + part) * turn) / 2);
  const line = new Float64Array(whole);
  let at = 0;
  let low = 0;
  let passedIn = 0;
  let passedOut = 0;
  for (let index = 0; index < into.length; index += 1) {
    const back = line[at] ?? 0;
    low = round * (1 - keep) * back + keep * low;
    const out = turned * low + passedIn - turned * passedOut;
    passedIn = low;
    passedOut = out;
    const now = out + (index < burst.length ? (burst[index] ?? 0) * gain : 0);
    line[at] = now;
    at = at + 1 === whole ? 0 : at + 1;
    into[index] = (into[index] ?? 0) + now;
  }
}

/** The lowpass of one round: so much quieter at the fundamental, so much more at 4 kHz. */
function loss(
  hertz: number,
  fallS: number,
  dullS: number,
  sampleRate: number,
): { readonly keep: number; readonly level: number } {
  const perRound = (seconds: number): number => 10 ** (-3 / (hertz * seconds));
  const wanted = perRound(fallS);
  const high = Math.max(4000, hertz * 3);
  const ratio = Math.min(0.9999, perRound(Math.min(dullS, fallS * 0.98)) / wanted);
  const size = (keep: number, at: number): number => {
    const turn = (2 * Math.PI * at) / sampleRate;
    return (1 - keep) / Math.sqrt(1 - 2 * keep * Math.cos(turn) + keep * keep);
  };
  let least = 0;
  let most = 0.98;
  for (let step = 0; step < 40; step += 1) {
    const keep = (least + most) / 2;
    if (size(keep, high) / size(keep, hertz) > ratio) least = keep;
    else most = keep;
  }
  return { keep: least, level: Math.min(0.99999, wanted / size(least, hertz)) };
}

/** The last hundredth of a second goes to nothing, so that the end makes no click. */
function fadeOut(samples: Float32Array, sampleRate: number): void {
  const length = Math.min(samples.length, Math.round(sampleRate * 0.03));
  for (let index = 0; index < length; index += 1) {
    const place = samples.length - 1 - index;
    samples[place] = (samples[place] ?? 0) * (index / length);
  }
}
