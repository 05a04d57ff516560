import type { PerformedSound, StringMaterial } from '../../../shared/score/performance.ts';
import { type Body, throughBody } from './body.ts';
import { type KnockName, knock } from './knocks.ts';
import { pluckedString } from './string-model.ts';

/** What a sound is made from. Equal recipes give equal samples, so that they are made once. */
export interface Recipe {
  /** The same for equal recipes. */
  readonly key: string;
  readonly make: (sampleRate: number) => Float32Array<ArrayBuffer>;
}

/** What all sounds of an exercise share. */
export interface Voice {
  readonly material: StringMaterial;
  readonly body: Body;
}

/** Source: ISO 16, A4 = 440 Hz; twelve equal steps to an octave. */
function hertzOf(midi: number): number {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** The lowest open string of an instrument with a large body. MIDI number: below all ukuleles, above a tenor guitar's. */
const LARGE_BODY_BELOW = 49;

export function voiceOf(performance: { readonly material: StringMaterial; readonly open: readonly number[] }): Voice {
  const body = Math.min(...performance.open, 127) < LARGE_BODY_BELOW ? 'large' : 'small';
  return { material: performance.material, body };
}

interface Touch {
  readonly brightness: number;
  readonly pluckedAt: number;
  readonly ringing: number;
}

/** Common practice, no source. A strum is brushed with the nail over the end of the neck; a slur gets its force from the left hand. */
const TOUCHES: Readonly<Record<'pluck' | 'strum' | 'hammer-on' | 'pull-off' | 'slide' | 'harmonic' | 'muted', Touch>> =
  {
    pluck: { brightness: 0.55, pluckedAt: 0.22, ringing: 1 },
    strum: { brightness: 0.62, pluckedAt: 0.28, ringing: 1 },
    'hammer-on': { brightness: 0.34, pluckedAt: 0.45, ringing: 0.9 },
    'pull-off': { brightness: 0.46, pluckedAt: 0.4, ringing: 0.9 },
    slide: { brightness: 0.4, pluckedAt: 0.35, ringing: 0.95 },
    harmonic: { brightness: 0.3, pluckedAt: 0.5, ringing: 1.3 },
    muted: { brightness: 0.5, pluckedAt: 0.25, ringing: 0.03 },
  };

/** Harder touches are brighter, in steps so that few different ones are made. */
const STEPS = 4;

export function recipeOf(sound: PerformedSound, { material, body }: Voice): Recipe {
  const { kind } = sound;
  if (kind === 'chunk' || kind === 'slap' || kind === 'palm' || kind === 'nails' || kind === 'body')
    return knockRecipe(kind);
  const touch = TOUCHES[kind];
  const midi = sound.midi ?? 60;
  const step = Math.round(sound.loudness * STEPS);
  const brightness = Math.min(1, Math.max(0.1, touch.brightness + (step / STEPS - 0.65) * 0.6));
  return {
    key: [kind, midi, step, material, body].join(' '),
    make: (sampleRate) =>
      throughBody(
        pluckedString({ ...touch, hertz: hertzOf(midi), material, brightness }, sampleRate),
        body,
        sampleRate,
      ),
  };
}

export function knockRecipe(name: KnockName): Recipe {
  return { key: name, make: (sampleRate) => knock(name, sampleRate) };
}
