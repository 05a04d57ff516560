import type { Stretch } from './bar-tree.ts';
import type { Beam, BeamSegment, NoteValue } from './rhythm-line.ts';
import type { TupletSpan } from './tuplet-spans.ts';

/** What a beam needs to know of a written note or rest. Unit of places: ticks. */
export interface BeamNote {
  readonly start: number;
  readonly end: number;
  readonly value: NoteValue;
  readonly isRest: boolean;
}

/** A stretch of a bar whose short notes share a beam. */
interface BeamWindow {
  readonly start: number;
  readonly end: number;
  /** One beat or one tuplet: a beam may then pass over a rest inside it. */
  readonly single: boolean;
}

/**
 * The beams of a line, by the meter:
 *
 * - eighths by half bars of two beats, by beats in 3/4, so that it is told from 6/8 at a glance, by dotted beats in compound meters,
 *   by groups in mixed ones;
 * - with shorter values, rests or tuplets among them by beats; a tuplet longer than a beat is a group of its own;
 * - a rest inside a beat lies under the beam, a longer note parts it;
 * - with 32nds the further beams show the parts of the beat.
 *
 * Source: E. Gould, Behind Bars (2011), on beaming, from memory. In 3/4 she allows one beam for all six; players who count aloud see
 * the beats in twos.
 */
export function beamsOf(
  notes: readonly BeamNote[],
  tree: Stretch,
  tuplets: readonly TupletSpan[],
  wholeTicks: number,
): readonly Beam[] {
  const windows = [
    ...windowsIn(tree, notes, tuplets, wholeTicks),
    ...tuplets
      .filter((tuplet) => !isInsideBeat(tree, tuplet, wholeTicks))
      .map((tuplet) => ({ ...tuplet, single: true })),
  ];
  return windows
    .sort((a, b) => a.start - b.start)
    .flatMap((window) =>
      runsIn(window, notes).map(([first, last]): Beam => {
        return { first, last, segments: segmentsOf(notes, first, last, window, tuplets, wholeTicks) };
      }),
    );
}

/** True for a stretch that is beamed as one whatever stands in it. */
function isSmallest({ start, end, division }: Stretch, wholeTicks: number): boolean {
  return end - start <= wholeTicks / 4 || division === 'beat-of-three';
}

function isInsideBeat(tree: Stretch, span: TupletSpan, wholeTicks: number): boolean {
  const around = tree.parts.find(({ start, end }) => span.start >= start && span.end <= end);
  if (isSmallest(tree, wholeTicks)) return true;
  return around !== undefined && isInsideBeat(around, span, wholeTicks);
}

function windowsIn(
  stretch: Stretch,
  notes: readonly BeamNote[],
  tuplets: readonly TupletSpan[],
  wholeTicks: number,
): readonly BeamWindow[] {
  const { start, end } = stretch;
  const touching = tuplets.filter((tuplet) => tuplet.start < end && tuplet.end > start);
  if (isSmallest(stretch, wholeTicks)) {
    const isTaken = touching.some((tuplet) => tuplet.start < start || tuplet.end > end);
    return isTaken ? [] : [{ start, end, single: true }];
  }
  if (touching.length === 0 && isJoined(stretch, notes, wholeTicks)) return [{ start, end, single: false }];
  return stretch.parts.flatMap((part) => windowsIn(part, notes, tuplets, wholeTicks));
}

/** Whether the beats of a stretch share one beam. */
function isJoined(stretch: Stretch, notes: readonly BeamNote[], wholeTicks: number): boolean {
  const { start, end, division } = stretch;
  const within = notes.filter((note) => note.start >= start && note.end <= end);
  return (
    division === 'pair' &&
    end - start <= wholeTicks / 2 &&
    within.every(({ value, isRest }) => value <= 8 && !(isRest && value === 8))
  );
}

/** First and last of the notes that a beam joins. */
function runsIn(window: BeamWindow, notes: readonly BeamNote[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  let open: [number, number] | undefined;
  notes.forEach(({ start, end, value, isRest }, index) => {
    if (start < window.start || end > window.end) return;
    const isShort = value >= 8;
    if (isShort && !isRest) {
      if (open === undefined) {
        open = [index, index];
        runs.push(open);
      } else open[1] = index;
    } else if (!isShort || !window.single) open = undefined;
  });
  return runs.filter(([first, last]) => first < last);
}

function beamCount(value: NoteValue): number {
  return Math.max(0, Math.log2(value) - 2);
}

function segmentsOf(
  notes: readonly BeamNote[],
  first: number,
  last: number,
  window: BeamWindow,
  tuplets: readonly TupletSpan[],
  wholeTicks: number,
): readonly BeamSegment[] {
  const group = notes.slice(first, last + 1);
  const most = Math.max(...group.map(({ value, isRest }) => (isRest ? 0 : beamCount(value))));
  const eighth = wholeTicks / 8;
  const bounds = new Set(tuplets.flatMap(({ start, end }) => [start, end]));
  if (most > 2) for (let at = window.start + eighth; at < window.end; at += eighth) bounds.add(at);
  const segments: BeamSegment[] = [];
  for (let level = 2; level <= most; level += 1) {
    let open: { level: number; first: number; last: number } | undefined;
    const levelSegments: { level: number; first: number; last: number }[] = [];
    group.forEach(({ start, value, isRest }, offset) => {
      const index = first + offset;
      if (isRest || beamCount(value) < level) open = undefined;
      else if (open === undefined || bounds.has(start)) {
        open = { level, first: index, last: index };
        levelSegments.push(open);
      } else open.last = index;
    });
    for (const segment of levelSegments) {
      const stub = segment.first === segment.last ? stubSide(notes, segment.first, first, last, window) : undefined;
      segments.push({ ...segment, ...(stub === undefined ? {} : { stub }) });
    }
  }
  return segments;
}

/** A short beam points into its group: toward the note that it makes up a longer value with. */
function stubSide(
  notes: readonly BeamNote[],
  index: number,
  first: number,
  last: number,
  window: BeamWindow,
): 'left' | 'right' {
  if (index === first) return 'right';
  if (index === last) return 'left';
  const note = notes[index];
  if (note === undefined) return 'left';
  return Math.round((note.start - window.start) / (note.end - note.start)) % 2 === 0 ? 'right' : 'left';
}
