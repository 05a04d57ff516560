import type { Fingering } from '../../hand/fingering.ts';
import type { HandSize } from '../../hand/hand.ts';
import { fingersOfSequence } from '../../hand/kept-fingerings.ts';
import type { SequenceChord } from '../../hand/sequence.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { Meter } from '../../theory/meter.ts';
import type { HandOnShape } from './inside-way.ts';
import type { Scale } from './scale.ts';

/** A chord that a tune goes over. */
export interface TuneChord {
  /** As the lesson calls it, and labels the rows of its tune: `D(add9)`, `Em.high`. */
  readonly name: string;
  readonly symbol: ChordSymbol;
  readonly shape: Shape;
  /** Fingers that the lesson gives, in chart order, 0 where no finger is. */
  readonly given?: readonly (number | 'T')[];
}

/** One bar of a progression. Ticks count from the start of the full bar, also in a pickup. */
export interface TuneBar {
  /** The signs of the order in which the bars are played, as a progression has them. */
  readonly signs?: BarSigns;
  /** Absent where it is the ground's. */
  readonly meter?: Meter;
  /** What is played of the full bar, `to` not included: a pickup begins late, the bar that it makes up for ends early. Unit: ticks. */
  readonly part?: { readonly from: number; readonly to: number };
  /** What begins when: a chord, or nothing where no chord is played and the tune rests. The first begins with the bar. */
  readonly chords: readonly { readonly tick: number; readonly chord?: TuneChord }[];
}

export interface BarSigns {
  /** `|:` before the bar. */
  readonly opens: boolean;
  /** The numbers of the ending that begins with the bar. */
  readonly ending?: readonly number[];
  /** The line behind the bar: `|`, `||`, `:|`, `:| x3`. */
  readonly closes: string;
}

/** What a tune stands on, whether it is found or given. */
export interface TuneGround {
  /** With the capo for its nut: see `neckAboveCapo`. */
  readonly instrument: Instrument;
  readonly hand: HandSize;
  /** Of all bars that have none of their own; its counts measure the time. */
  readonly meter: Meter;
  readonly bars: readonly TuneBar[];
  readonly scale: Scale;
  /** Nothing but the notes of the scale; else the tones of each chord as well. */
  readonly strictly?: boolean;
  /** Numbers of the strings that sound on: the tune stops none of them but where the shape does. */
  readonly ring?: readonly number[];
  /** Where a tempo is known: what is too quick for the fingers is left out. Unit: s. */
  readonly secondsPerCount?: number;
}

/** A chord in the hand. Two places have the same `key` when chord, shape and fingers are the same. */
export interface ChordInHand {
  readonly chord: TuneChord;
  readonly held: HandOnShape;
  readonly key: string;
}

/** A stretch of a bar over one chord. */
export interface ChordStretch {
  readonly bar: number;
  readonly fromTick: number;
  readonly inHand: ChordInHand;
  /** True where the chord before was another one. */
  readonly isChange: boolean;
}

/** A stretch without a chord: no shape is held, so a tune inside shapes rests. */
export interface RestStretch {
  readonly bar: number;
  readonly fromTick: number;
  readonly inHand?: undefined;
}

export type Stretch = ChordStretch | RestStretch;

export type HeldGround =
  | { readonly ok: true; readonly stretches: readonly Stretch[] }
  /** A chord that cannot be held: why, as a teacher would say it. */
  | { readonly ok: false; readonly message: string };

/** Every chord of the progression with the fingers that suit the whole of it; a chord that comes again has the same ones. */
export function holdGround({ instrument, hand, bars }: TuneGround): HeldGround {
  const all = bars.flatMap(({ chords }, bar) => chords.map(({ tick, chord }) => ({ bar, fromTick: tick, chord })));
  const places = all.flatMap(({ chord, ...where }) => (chord === undefined ? [] : [{ ...where, chord }]));
  const fingersFor = (given: (chord: TuneChord) => TuneChord['given']) => {
    const sequence = places.map(({ chord }): SequenceChord => {
      const fingers = given(chord);
      return { shape: chord.shape, ...(fingers === undefined ? {} : { given: fingers }) };
    });
    return fingersOfSequence(instrument, sequence, hand, false).chords;
  };
  const free = fingersFor(({ given }) => given);
  const first = new Map<string, TuneChord['given']>();
  for (const [at, { chord }] of places.entries()) {
    const one = free[at];
    if (one?.kind !== 'held' || first.has(shapeKey(chord))) continue;
    first.set(shapeKey(chord), chord.given ?? one.fingering.fingers.map((finger) => finger ?? 0));
  }
  const chords = fingersFor((chord) => first.get(shapeKey(chord)) ?? chord.given);
  const stretches: Stretch[] = [];
  let before: string | undefined;
  let at = -1;
  for (const { bar, fromTick, chord } of all) {
    if (chord === undefined) {
      stretches.push({ bar, fromTick });
      continue;
    }
    at += 1;
    const one = chords[at];
    if (one?.kind !== 'held') return { ok: false, message: `${chord.name}: ${one?.message ?? 'it cannot be held.'}` };
    const { fingering } = one;
    const inHand = { chord, held: { instrument, hand, shape: chord.shape, fingering }, key: keyOf(chord, fingering) };
    stretches.push({ bar, fromTick, inHand, isChange: before !== undefined && before !== inHand.key });
    before = inHand.key;
  }
  return { ok: true, stretches };
}

/** Each different chord once, in order. */
export function chordsInHand(stretches: readonly Stretch[]): readonly ChordInHand[] {
  const held = stretches.flatMap(({ inHand }) => inHand ?? []);
  return [...new Map(held.map((inHand) => [inHand.key, inHand])).values()];
}

function keyOf(chord: TuneChord, { fingers }: Fingering): string {
  return `${shapeKey(chord)} ${fingers.map((finger) => finger ?? 0).join('-')}`;
}

function shapeKey({ name, shape }: TuneChord): string {
  return `${name} ${printShape(shape)}`;
}
