import { isCompound, type Meter } from '../theory/meter.ts';

/**
 * How a stretch of a bar falls into parts.
 *
 * - `pairs`: four beats as two and two
 * - `pair`: two beats
 * - `compound-pair`, `compound-pairs`: two or four beats of three
 * - `three`: three beats
 * - `groups`: beats in groups of different lengths, or bars on end
 * - `beat`: one beat or a part of one, in halves
 * - `beat-of-three`: a dotted beat, in thirds
 */
type Division = 'pairs' | 'pair' | 'compound-pair' | 'compound-pairs' | 'three' | 'groups' | 'beat' | 'beat-of-three';

/** A stretch of a bar, and the stretches it falls into by its meter. Places and lengths are ticks. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
  readonly division: Division;
  /** Empty for the shortest. */
  readonly parts: readonly Stretch[];
}

/**
 * A bar as its meter divides it, from the whole bar to 64ths.
 *
 * Beats go in pairs where their number allows it, 5 is 3 + 2 and 7 is 2 + 2 + 3 where the lesson says nothing else.
 * Source: E. Gould, Behind Bars (2011), on beaming and on grouping by the meter, from memory.
 *
 * @param length Of the bar; one that is longer than its meter goes on as if the next began. Unit: ticks.
 * @param wholeTicks Ticks of a whole note, a multiple of 128.
 */
export function barTree(meter: Meter, length: number, wholeTicks: number): Stretch {
  const count = wholeTicks / meter.unit;
  const bar = meter.counts * count;
  const shortest = wholeTicks / 64;
  const bars: Stretch[] = [];
  for (let start = 0; start < length || bars.length === 0; start += bar)
    bars.push(oneBar(meter, start, count, shortest));
  const [first] = bars;
  return bars.length === 1 && first !== undefined ? first : joined('groups', bars);
}

function oneBar(meter: Meter, start: number, count: number, shortest: number): Stretch {
  if (isCompound(meter)) {
    const beats = beatsFrom(start, meter.counts / 3, (at) => ofThree(at, count, shortest), 3 * count);
    return grouped(beats);
  }
  // In eighths and shorter counts a group of two or three is what the foot beats.
  if (meter.unit >= 8) {
    const beats: Stretch[] = [];
    let at = start;
    for (const size of groupSizes(meter.counts)) {
      beats.push(size === 3 ? ofThree(at, count, shortest) : inHalves(at, size * count, shortest));
      at += size * count;
    }
    return grouped(beats);
  }
  // A half note is beaten as two quarters would be, so that 2/2 is written like 4/4.
  const beatAt = (at: number): Stretch => {
    const beat = inHalves(at, count, shortest);
    return count > 16 * shortest ? { ...beat, division: 'pair', parts: beat.parts } : beat;
  };
  return grouped(beatsFrom(start, meter.counts, beatAt, count));
}

function beatsFrom(start: number, beats: number, beatAt: (at: number) => Stretch, length: number): readonly Stretch[] {
  return Array.from({ length: beats }, (_, index) => beatAt(start + index * length));
}

/** Beats joined to a bar: two by two, by three, or in the usual groups of other numbers. */
function grouped(beats: readonly Stretch[]): Stretch {
  const [first] = beats;
  if (beats.length === 1 && first !== undefined) return first;
  const lengths = new Set(beats.map(({ start, end }) => end - start));
  if (lengths.size > 1) return joined('groups', beats);
  if (beats.length === 2) return joined(PAIRED[first?.division ?? 'beat'], beats);
  if (beats.length === 3) return joined('three', beats);
  if (beats.length === 4) {
    const halves = [grouped(beats.slice(0, 2)), grouped(beats.slice(2))];
    return joined(PAIRED[halves[0]?.division ?? 'pair'], halves);
  }
  let at = 0;
  const groups = groupSizes(beats.length).map((size) => {
    const group = grouped(beats.slice(at, at + size));
    at += size;
    return group;
  });
  return joined('groups', groups);
}

/** What two of a kind are together. */
const PAIRED: Readonly<Record<Division, Division>> = {
  beat: 'pair',
  pair: 'pairs',
  pairs: 'pairs',
  'beat-of-three': 'compound-pair',
  'compound-pair': 'compound-pairs',
  'compound-pairs': 'compound-pairs',
  three: 'groups',
  groups: 'groups',
};

/** How many counts go together: even numbers in equal halves, odd ones in threes and twos. */
function groupSizes(counts: number): readonly number[] {
  if (counts <= 3) return [counts];
  if (counts % 2 === 0) return [...groupSizes(counts / 2), ...groupSizes(counts / 2)];
  if (counts === 7) return [2, 2, 3];
  const threes = counts % 3 === 0 ? counts / 3 : Math.floor(counts / 3) - (counts % 3 === 1 ? 1 : 0);
  return [...Array<number>(threes).fill(3), ...Array<number>((counts - 3 * threes) / 2).fill(2)];
}

function joined(division: Division, parts: readonly Stretch[]): Stretch {
  return { start: parts[0]?.start ?? 0, end: parts.at(-1)?.end ?? 0, division, parts };
}

function ofThree(start: number, count: number, shortest: number): Stretch {
  const parts = beatsFrom(start, 3, (at) => inHalves(at, count, shortest), count);
  return joined('beat-of-three', parts);
}

/** A beat in halves, quarters and so on; made when it is looked into. */
function inHalves(start: number, length: number, shortest: number): Stretch {
  let parts: readonly Stretch[] | undefined;
  return {
    start,
    end: start + length,
    division: 'beat',
    get parts() {
      parts ??=
        length <= shortest
          ? []
          : [inHalves(start, length / 2, shortest), inHalves(start + length / 2, length / 2, shortest)];
      return parts;
    },
  };
}
