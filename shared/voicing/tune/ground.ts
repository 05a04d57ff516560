import type { Fingering } from '../../hand/fingering.ts';
import type { HandSize } from '../../hand/hand.ts';
import { fingersOfSequence } from '../../hand/kept-fingerings.ts';
import type { SequenceChord } from '../../hand/sequence.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { Meter } from '../../theory/meter.ts';
import type { HandOnShape } from './inside-way.ts';
import type { BarRhythm } from './rhythm.ts';
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

/** One bar of a progression: chords and when they begin, in ticks from the bar's start; the first at 0. */
export interface TuneBar {
  /** The signs of the order in which the bars are played, as a progression has them. */
  readonly signs?: BarSigns;
  readonly chords: readonly { readonly tick: number; readonly chord: TuneChord }[];
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
  readonly meter: Meter;
  readonly bars: readonly TuneBar[];
  readonly scale: Scale;
  /** Nothing but the notes of the scale; else the tones of each chord as well. */
  readonly strictly?: boolean;
  /** Numbers of the strings that must not be stopped. */
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

export type HeldGround =
  | { readonly ok: true; readonly stretches: readonly ChordStretch[] }
  /** A chord that cannot be held: why, as a teacher would say it. */
  | { readonly ok: false; readonly message: string };

/** Every chord of the progression with the fingers that suit the whole of it; a chord that comes again has the same ones. */
export function holdGround({ instrument, hand, bars }: TuneGround): HeldGround {
  const places = bars.flatMap(({ chords }, bar) => chords.map(({ tick, chord }) => ({ bar, fromTick: tick, chord })));
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
  const stretches: ChordStretch[] = [];
  for (const [at, { bar, fromTick, chord }] of places.entries()) {
    const one = chords[at];
    if (one?.kind !== 'held') return { ok: false, message: `${chord.name}: ${one?.message ?? 'it cannot be held.'}` };
    const { fingering } = one;
    const inHand = { chord, held: { instrument, hand, shape: chord.shape, fingering }, key: keyOf(chord, fingering) };
    const isChange = stretches.length > 0 && stretches.at(-1)?.inHand.key !== inHand.key;
    stretches.push({ bar, fromTick, inHand, isChange });
  }
  return { ok: true, stretches };
}

/** Each different chord once, in order. */
export function chordsInHand(stretches: readonly ChordStretch[]): readonly ChordInHand[] {
  return [...new Map(stretches.map(({ inHand }) => [inHand.key, inHand])).values()];
}

function keyOf(chord: TuneChord, { fingers }: Fingering): string {
  return `${shapeKey(chord)} ${fingers.map((finger) => finger ?? 0).join('-')}`;
}

function shapeKey({ name, shape }: TuneChord): string {
  return `${name} ${printShape(shape)}`;
}

/** A moment at which the tune has a note. */
export interface Slot {
  readonly bar: number;
  /** From the bar's start. */
  readonly tick: number;
  /** From the start of the music, and how long until the next note or the end. Unit: ticks. */
  readonly onset: number;
  readonly length: number;
  readonly stretch: ChordStretch;
  /** The first note over a chord that was not there before. */
  readonly isChange: boolean;
}

/** The notes of the rhythms, one rhythm for each bar, over the chords that they meet. */
export function slotsOf(
  stretches: readonly ChordStretch[],
  rhythms: readonly BarRhythm[],
  ticksOfBar: number,
): readonly Slot[] {
  const moments = rhythms.flatMap((rhythm, bar) =>
    rhythm.map((tick) => ({ bar, tick, onset: bar * ticksOfBar + tick })),
  );
  const end = rhythms.length * ticksOfBar;
  let before: ChordStretch | undefined;
  return moments.flatMap((moment, at): readonly Slot[] => {
    const stretch = stretches.findLast(
      ({ bar, fromTick }) => bar < moment.bar || (bar === moment.bar && fromTick <= moment.tick),
    );
    if (stretch === undefined) return [];
    const isChange = before !== undefined && before.inHand.key !== stretch.inHand.key;
    before = stretch;
    return [{ ...moment, length: (moments[at + 1]?.onset ?? end) - moment.onset, stretch, isChange }];
  });
}
