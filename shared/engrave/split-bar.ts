import type { RhythmLine } from '../score/rhythm-line.ts';
import type { ScoreBar } from '../score/timeline.ts';
import { beatLength, countLength } from '../theory/meter.ts';
import { compare, over, type Rational, ZERO } from '../theory/rational.ts';
import { SIZES } from './sizes.ts';
import type { ReadyBar, ReadyRhythm } from './tab-bar.ts';
import { closingSlot, type LinesRequest, lineStart, namesWidth } from './tab-line.ts';
import type { Staff } from './tab-piece.ts';
import { placeSlots } from './tab-spacing.ts';

/**
 * The bars, each that is wider than the page even when it is squeezed and shrunk as far as may be in parts that are not. A bar is
 * parted at a beat where no beam and no tuplet would be torn; one that has no such place stays whole.
 */
export function splitWideBars(bars: readonly ReadyBar[], request: LinesRequest, staff: Staff): readonly ReadyBar[] {
  const page = request.widthMm / SIZES.leastScale;
  const names = namesWidth(request.stringNames);
  const split = bars.map((bar, index) => partsOf(bar, index === 0 ? page - names : page, staff));
  return split.every((parts) => parts.length === 1) ? bars : split.flat();
}

function partsOf(bar: ReadyBar, width: number, staff: Staff): readonly ReadyBar[] {
  if (roomFor(bar) <= width || leastWidth(bar, staff) <= width) return [bar];
  const pairs = cutsOf(bar).map((cut) => {
    const pair = [partOf(bar, cut, 'before'), partOf(bar, cut, 'after')] as const;
    return { pair, wider: Math.max(...pair.map((part) => leastWidth(part, staff))) };
  });
  const [first] = pairs;
  if (first === undefined) return [bar];
  const best = pairs.reduce((least, pair) => (pair.wider < least.wider ? pair : least), first);
  return best.pair.flatMap((part) => partsOf(part, width, staff));
}

/** More than the bar can need, quickly told: room for each of its slots beside the one before. */
function roomFor({ slots }: ReadyBar): number {
  let room = LINE_ENDS_MM;
  for (const { rigid, pieces } of slots) {
    let widest = 0;
    for (const { left, right } of pieces) widest = Math.max(widest, left + right);
    room += rigid + widest + SIZES.clearance.name;
  }
  return room;
}

/** More than the bar lines at both ends of a line take, with a repeat that begins and one that ends. Unit: mm. */
const LINE_ENDS_MM = 20;

/** Width of a line of this bar alone, when only things that would touch keep apart. */
function leastWidth(bar: ReadyBar, staff: Staff): number {
  const { slots, taken } = lineStart([bar], 0, staff);
  return placeSlots([...slots, ...bar.slots.slice(taken), closingSlot([bar], 0, true, staff)], 0).width;
}

/** A moment at which a bar can be parted, and the slot that stands there. */
interface Cut {
  readonly at: Rational;
  readonly slot: number;
}

/** The places to part a bar: its beats; in meters with a beat of three counts, its counts where no beat will do. */
function cutsOf(bar: ReadyBar): readonly Cut[] {
  const places = [
    ...bar.rhythm.flatMap(({ line, slots }) => line.entries.map(({ at }, index) => ({ at, slot: slots[index] ?? 0 }))),
    ...bar.names.map(({ chord, slot }) => ({ at: chord.at, slot })),
  ].filter(({ slot }) => slot > 0 && slot < bar.slots.length);
  const bySlot = [...new Map(places.map((place) => [place.slot, place])).values()];
  const starts = firstMoment(bar);
  const whole = bySlot.filter(({ at, slot }) => compare(at, starts) > 0 && !tears(bar, slot));
  const onBeats = whole.filter(({ at }) => over(at, beatLength(bar.bar.meter)).denominator === 1);
  if (onBeats.length > 0) return onBeats;
  return whole.filter(({ at }) => over(at, countLength(bar.bar.meter)).denominator === 1);
}

function firstMoment(bar: ReadyBar): Rational {
  const moments = bar.rhythm.flatMap(({ line }) => line.entries.slice(0, 1).map(({ at }) => at));
  return moments.reduce((least, at) => (compare(at, least) < 0 ? at : least), moments[0] ?? ZERO);
}

/** True where a beam or a tuplet reaches over the slot's left edge. */
function tears({ rhythm }: ReadyBar, slot: number): boolean {
  return rhythm.some(({ line, slots }) => {
    const isLeft = (entry: number): boolean => (slots[entry] ?? 0) < slot;
    return [...line.beams, ...line.tuplets].some(({ first, last }) => isLeft(first) && !isLeft(last));
  });
}

/** What lies before or after the cut. Its bar has what is heard, counted and sung there, and keeps the number. */
function partOf(whole: ReadyBar, { at, slot }: Cut, side: 'before' | 'after'): ReadyBar {
  const isBefore = side === 'before';
  const isHere = (moment: { readonly at: Rational }): boolean => compare(moment.at, at) < 0 === isBefore;
  const cut = {
    before: isBefore ? whole.cut?.before === true : true,
    after: isBefore ? true : whole.cut?.after === true,
  };
  const first = whole.slots[slot];
  const slots = isBefore
    ? whole.slots.slice(0, slot)
    : whole.slots
        .slice(slot)
        .map((one, index) => (index === 0 ? { ...one, rigid: SIZES.afterBarLine, spring: 0 } : one));
  return {
    ...whole,
    bar: barPart(whole.bar, isHere, isBefore),
    slots,
    names: whole.names
      .filter((name) => name.slot < slot === isBefore)
      .map((name) => (isBefore ? name : { ...name, slot: name.slot - slot })),
    moments: whole.moments
      .filter((moment) => moment.slot < slot === isBefore)
      .map((moment) => (isBefore ? moment : { ...moment, slot: moment.slot - slot })),
    closingSpring: isBefore ? (first?.spring ?? 0) : whole.closingSpring,
    rhythm: whole.rhythm.map((line) => rhythmPart(line, slot, isBefore)).filter(({ line }) => line.entries.length > 0),
    cut,
  };
}

function barPart(bar: ScoreBar, isHere: (moment: { readonly at: Rational }) => boolean, isBefore: boolean): ScoreBar {
  const { times, ending, ...rest } = bar;
  const part = {
    ...rest,
    chords: bar.chords.filter(isHere),
    counts: bar.counts.filter(isHere),
    events: bar.events.filter(isHere),
    syllables: bar.syllables.filter(isHere),
    calls: bar.calls.filter(isHere),
  };
  if (isBefore)
    return { ...part, closes: '|', ...(ending === undefined ? {} : { ending: { ...ending, ends: false } }) };
  return {
    ...part,
    opens: undefined,
    showsMeter: false,
    ...(times === undefined ? {} : { times }),
    ...(ending === undefined ? {} : { ending: { ...ending, begins: false } }),
  };
}

function rhythmPart({ line, slots }: ReadyRhythm, slot: number, isBefore: boolean): ReadyRhythm {
  const from = slots.findIndex((one) => one >= slot);
  const middle = from === -1 ? slots.length : from;
  const shift = isBefore ? 0 : middle;
  const isHere = ({ first }: { readonly first: number }): boolean => first < middle === isBefore;
  const moved = <T extends { readonly first: number; readonly last: number }>(group: T): T => ({
    ...group,
    first: group.first - shift,
    last: group.last - shift,
  });
  const part: RhythmLine = {
    ...line,
    entries: isBefore ? line.entries.slice(0, middle) : line.entries.slice(middle),
    beams: line.beams.filter(isHere).map((beam) => ({ ...moved(beam), segments: beam.segments.map(moved) })),
    tuplets: line.tuplets.filter(isHere).map(moved),
  };
  return {
    line: part,
    slots: isBefore ? slots.slice(0, middle) : slots.slice(middle).map((one) => one - slot),
  };
}
