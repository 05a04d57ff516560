import type { Shape } from '../neck/shape.ts';
import { leastEffort } from './shape-effort.ts';
import { MOST_SPAN_FRETS } from './shape-limits.ts';
import type { ChordTones } from './shape-tones.ts';
import { toneOf } from './shape-tones.ts';
import type { TuningIndex } from './shape-tuning.ts';
import type { ShapeWishes } from './shape-wishes.ts';

/** What a string may do in the chord. Sets of frets are masks: bit n for fret n. */
export interface StringChoice {
  /** MIDI number of the open string. */
  readonly openMidi: number;
  /** Frets that sound a tone that may sound. */
  readonly stopped: number;
  readonly open: boolean;
  readonly muted: boolean;
}

/** Neighbouring frets of which the lowest is stopped; or, for fret 0, the open strings alone. So no shape lies in two windows. */
export interface Window {
  readonly low: number;
  /** What moving there costs. Unit: points. */
  readonly shift: number;
  /** For each string the frets of the window that it may be stopped at. */
  readonly stopped: readonly number[];
  /** For each string what it and those after it can sound, tones as bits above the root. */
  readonly reachable: readonly number[];
  /** For each string whether it or one after it can be stopped at the lowest fret. */
  readonly anchors: readonly boolean[];
}

/** Where a window lies and what a shape in it costs at least. Unit: points. */
interface Place {
  readonly low: number;
  readonly shift: number;
  readonly least: number;
}

/** What moving the hand from the shape before costs for every fret. Unit: points, as of effort. Common practice, no source. */
const FRET_OF_SHIFT = 70;

export function choicesOf(index: TuningIndex, tones: ChordTones, wishes: ShapeWishes): readonly StringChoice[] {
  const { openMidi, highestFret } = index;
  const [lowFret, highFret] = wishes.within ?? [1, highestFret];
  return openMidi.map((midi, at) => {
    const number = openMidi.length - at;
    const has = (numbers: readonly number[] | undefined) => numbers?.includes(number) === true;
    const rings = has(wishes.ringOpen);
    const silent = has(wishes.muted);
    let stopped = 0;
    for (let fret = Math.max(1, lowFret); fret <= Math.min(highestFret, highFret); fret += 1) {
      if ((tones.allowed & toneOf(tones, midi + fret)) !== 0) stopped |= 1 << fret;
    }
    return {
      openMidi: midi,
      stopped: rings || silent ? 0 : stopped,
      open: !silent && (tones.allowed & toneOf(tones, midi)) !== 0,
      muted: !rings && !has(wishes.sounding),
    };
  });
}

/** Every place of a window; those that cost the hand least come first, so that the search soon knows what is good. */
export function placesOf({ highestFret, neck }: TuningIndex, near: Shape | undefined): readonly Place[] {
  const nearLow = near === undefined ? undefined : lowestStopped(near);
  const places = Array.from({ length: highestFret + 1 }, (_, low) => {
    const shift = nearLow === undefined || low === 0 ? 0 : Math.abs(low - nearLow) * FRET_OF_SHIFT;
    return { low, shift, least: shift + leastEffort(neck, low, low, low === 0 ? 0 : 1) };
  });
  return places.sort((a, b) => a.least - b.least);
}

export function windowAt(strings: readonly StringChoice[], tones: ChordTones, { low, shift }: Place): Window {
  const inWindow = low === 0 ? 0 : ((1 << (MOST_SPAN_FRETS + 1)) - 1) << low;
  const stopped = strings.map((string) => string.stopped & inWindow);
  const reachable: number[] = strings.map(() => 0);
  const anchors: boolean[] = strings.map(() => false);
  let heard = 0;
  let anchored = low === 0;
  for (let at = strings.length - 1; at >= 0; at -= 1) {
    const { openMidi = 0, open = false } = strings[at] ?? {};
    const frets = stopped[at] ?? 0;
    if (open) heard |= toneOf(tones, openMidi);
    for (let rest = frets; rest !== 0; rest &= rest - 1) heard |= toneOf(tones, openMidi + lowestOf(rest));
    anchored ||= (frets & (1 << low)) !== 0;
    reachable[at] = heard;
    anchors[at] = anchored;
  }
  return { low, shift, stopped, reachable, anchors };
}

/** The lowest fret of a set that is not empty. */
export function lowestOf(frets: number): number {
  return 31 - Math.clz32(frets & -frets);
}

function lowestStopped(shape: Shape): number | undefined {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  return stopped.length === 0 ? undefined : Math.min(...stopped);
}
