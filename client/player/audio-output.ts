import type { Ordered, Output, Sounding } from './output.ts';
import type { Recipe } from './sound/tone.ts';

interface Sound {
  readonly at: number;
  readonly source: AudioBufferSourceNode;
  readonly volume: GainNode;
  /** Nodes that only move its pitch. */
  readonly helpers: readonly AudioScheduledSourceNode[];
  /** When it begins to fall to nothing, where that is known. */
  endsAt?: number;
}

/** A string that is stopped is silent after about three times as long. Unit: s. */
const STOP_S = 0.012;
/** The same where another sound begins on the string. Unit: s. */
const STRUCK_S = 0.004;
/** A finger slides from fret to fret in this time. Unit: s. Common practice, no source. */
const GLIDE_S = 0.08;
const BEND_S = { from: 0.07, to: 0.22 } as const;
/** Common practice, no source: five to six times a second, a sixth of a semitone to either side. */
const VIBRATO = { hertz: 5.5, depth: 2 ** (1 / 72) - 1 } as const;
/** Samples that are kept; beyond it those that were used longest ago are made again. Unit: samples (4 bytes each). */
const MOST_KEPT = 16_000_000;
const VOLUME = 0.62;

/** Sound by the browser's own audio clock, exact to the sample. */
export class AudioOutput implements Output {
  #context: AudioContext | undefined;
  #out: AudioNode | undefined;
  /** Made samples by recipe, the one used longest ago first. */
  readonly #made = new Map<string, AudioBuffer>();
  #kept = 0;
  readonly #sounds = new Set<Sound>();
  readonly #onString = new Map<number, Sound>();

  now(): number {
    return this.#context?.currentTime ?? 0;
  }

  heard(): number {
    const context = this.#context;
    if (context === undefined) return 0;
    const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
    const reckoned =
      performanceTime > 0
        ? contextTime + (performance.now() - performanceTime) / 1000
        : context.currentTime - (context.outputLatency || context.baseLatency || 0);
    // What has not been made yet cannot be heard.
    return Math.min(reckoned, context.currentTime);
  }

  running(): boolean {
    return this.#context?.state === 'running';
  }

  wake(): void {
    const context = this.#open();
    if (context.state !== 'running') void context.resume().catch(() => undefined);
  }

  prepare(recipe: Recipe): void {
    this.#bufferOf(recipe);
  }

  order(ordered: Ordered): Sounding {
    const context = this.#open();
    const { at, end, string, loudness } = ordered;
    const source = context.createBufferSource();
    source.buffer = this.#bufferOf(ordered.recipe);
    const volume = context.createGain();
    // Twice as loud to the ear is about ten times the power: loudness goes with the square.
    volume.gain.value = loudness * loudness * 1.5;
    source.connect(volume).connect(this.#out ?? context.destination);
    const helpers = movePitch(context, source.playbackRate, ordered);
    const sound: Sound = { at, source, volume, helpers };
    if (string !== undefined) {
      const before = this.#onString.get(string);
      if (before !== undefined && before.at <= at) stopAt(before, at, STRUCK_S);
      this.#onString.set(string, sound);
    }
    this.#sounds.add(sound);
    source.onended = () => this.#forget(sound);
    source.start(at);
    if (end !== undefined) stopAt(sound, end, STOP_S);
    return {
      at,
      endAt: (time) => {
        if (this.#sounds.has(sound)) stopAt(sound, Math.max(time, context.currentTime), STOP_S);
      },
    };
  }

  takeBack(from: number): void {
    for (const sound of [...this.#sounds]) {
      if (sound.at < from) continue;
      sound.source.stop();
      this.#forget(sound);
    }
  }

  hush(at: number): void {
    for (const sound of [...this.#sounds]) {
      if (sound.at > at) {
        sound.source.stop();
        this.#forget(sound);
      } else stopAt(sound, at, STOP_S);
    }
    this.#onString.clear();
  }

  #open(): AudioContext {
    if (this.#context !== undefined) return this.#context;
    const context = new AudioContext({ latencyHint: 'interactive' });
    const volume = context.createGain();
    volume.gain.value = VOLUME;
    // Full strokes are rounded off rather than cut off.
    const round = context.createWaveShaper();
    round.curve = softCurve();
    volume.connect(round).connect(context.destination);
    this.#context = context;
    this.#out = volume;
    return context;
  }

  #forget(sound: Sound): void {
    this.#sounds.delete(sound);
    sound.volume.disconnect();
    for (const helper of sound.helpers) helper.stop();
    for (const [string, on] of this.#onString) if (on === sound) this.#onString.delete(string);
  }

  #bufferOf(recipe: Recipe): AudioBuffer {
    const context = this.#open();
    const known = this.#made.get(recipe.key);
    if (known !== undefined) {
      this.#made.delete(recipe.key);
      this.#made.set(recipe.key, known);
      return known;
    }
    const samples = recipe.make(context.sampleRate);
    const buffer = context.createBuffer(1, samples.length, context.sampleRate);
    buffer.copyToChannel(samples, 0);
    this.#made.set(recipe.key, buffer);
    this.#kept += samples.length;
    for (const [key, old] of this.#made) {
      if (this.#kept <= MOST_KEPT || key === recipe.key) break;
      this.#made.delete(key);
      this.#kept -= old.length;
    }
    return buffer;
  }
}

/** Falls to nothing from a time on, whatever was said before. */
function stopAt(sound: Sound, time: number, fall: number): void {
  const { gain } = sound.volume;
  gain.cancelScheduledValues(Math.min(time, sound.endsAt ?? time));
  gain.setTargetAtTime(0, time, fall);
  sound.endsAt = time;
  sound.source.stop(time + 8 * fall);
}

function movePitch(
  context: AudioContext,
  rate: AudioParam,
  { at, end, glide, bend, vibrato }: Ordered,
): readonly AudioScheduledSourceNode[] {
  if (glide !== undefined) {
    rate.setValueAtTime(2 ** (glide / 12), at);
    rate.exponentialRampToValueAtTime(1, at + GLIDE_S);
  }
  if (bend !== undefined) {
    rate.setValueAtTime(1, at + Math.max(BEND_S.from, glide === undefined ? 0 : GLIDE_S));
    rate.exponentialRampToValueAtTime(2 ** (bend / 12), at + BEND_S.to);
  }
  if (vibrato !== true) return [];
  const swing = context.createOscillator();
  swing.frequency.value = VIBRATO.hertz;
  const depth = context.createGain();
  depth.gain.value = VIBRATO.depth;
  swing.connect(depth).connect(rate);
  swing.start(at + 0.12);
  if (end !== undefined) swing.stop(end + 0.1);
  return [swing];
}

/** Straight in the middle, bending toward 1. */
function softCurve(): Float32Array<ArrayBuffer> {
  const points = 2049;
  const curve = new Float32Array(points);
  for (let index = 0; index < points; index += 1) {
    const x = (index / (points - 1)) * 2 - 1;
    curve[index] = Math.tanh(x * 1.3) / Math.tanh(1.3);
  }
  return curve;
}
