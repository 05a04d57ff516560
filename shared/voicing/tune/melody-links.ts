import type { NeckInMm } from '../../hand/neck-in-mm.ts';
import { pitchClass } from '../../theory/note.ts';
import { type Candidate, type Candidates, crossEachOther, pointsOfPair } from './candidates.ts';
import { linksBetween } from './kept-candidates.ts';
import type { Scale } from './scale.ts';
import { trendOf } from './tune-path.ts';
import { HAND_POINTS, INTERVAL_POINTS, WIDEST_SEMITONES } from './tune-table.ts';

/** What a link between two moments is, whatever line the tune follows. */
export interface LinkKind {
  readonly from: Candidates;
  readonly to: Candidates;
  readonly isChange: boolean;
  readonly beginsPhrase: boolean;
  readonly mayRepeat: boolean;
  /** Between the two notes, and from the note before the first to the second. Absent without a tempo. Unit: s. */
  readonly seconds?: { readonly between: number; readonly fromBefore: number };
  /** Where the chord changes and there is a tempo: whether the hand has time to bring the whole of the next shape. */
  readonly brings?: ShapeInTime;
}

/** Whether there is time for a change of shapes between two notes, by which of the two sound open. */
export type ShapeInTime = (leavesOpen: boolean, arrivesOpen: boolean) => boolean;

export interface MelodyLink {
  readonly points: Float64Array;
  readonly trends: Uint8Array;
  /** By the earlier note, the later ones that may follow: most of all pairs may not. */
  readonly follows: readonly Uint16Array[];
}

/**
 * What every note costs after every other, and where the tune may not go: tones outside the chord come and go by step, nothing is wider
 * than an octave, the fingers of a shape are not crossed and in time, also for the whole of a new shape. A string that sounds open needs no finger, so that the
 * hand may leave before it.
 */
export function melodyLink(neck: NeckInMm, scale: Scale, kind: LinkKind): MelodyLink {
  const { from, to, seconds, brings } = kind;
  const width = to.list.length;
  const points = new Float64Array(from.list.length * width);
  const trends = new Uint8Array(points.length);
  const hands = linksBetween(neck, from, to);
  const follows: Uint16Array[] = [];
  const steps = scaleSteps(scale);
  for (const [row, one] of from.list.entries()) {
    const there = seconds === undefined ? 0 : one.way.finger === undefined ? seconds.fromBefore : seconds.between;
    const allowed: number[] = [];
    for (const [column, other] of to.list.entries()) {
      const at = row * width + column;
      const change = (from.handOf[row] ?? 0) * to.hands.hands.length + (to.handOf[column] ?? 0);
      const semitones = other.note.midi - one.note.midi;
      trends[at] = trendOf(semitones);
      const tooQuick =
        (seconds !== undefined && (hands.seconds[change] ?? 0) > there) ||
        brings?.(one.note.fret === 0, other.note.fret === 0) === false;
      const isClosed = tooQuick || (!kind.isChange && crossEachOther(one, other));
      const melodic = isClosed ? Number.POSITIVE_INFINITY : pointsOfInterval(steps, one, other, kind);
      const pair = kind.isChange ? 0 : pointsOfPair(one, other);
      points[at] = melodic + pair + HAND_POINTS.changeEffort * (hands.effort[change] ?? 0);
      if (melodic !== Number.POSITIVE_INFINITY) allowed.push(column);
    }
    follows.push(Uint16Array.from(allowed));
  }
  return { points, trends, follows };
}

type Steps = (midi: number) => number | undefined;

function pointsOfInterval(
  steps: Steps,
  { note: one }: Candidate,
  { note: other }: Candidate,
  { isChange, beginsPhrase, mayRepeat }: LinkKind,
): number {
  const semitones = Math.abs(other.midi - one.midi);
  if (semitones > WIDEST_SEMITONES.octave) return Number.POSITIVE_INFINITY;
  const step = isStep(steps, one.midi, other.midi);
  // A tone that waits for its chord may stay: over the change it becomes a tone of the chord.
  const arrives = isChange && semitones === 0 && other.tone.inChord;
  if (!(one.tone.inChord || arrives) && !step) return Number.POSITIVE_INFINITY;
  if (!other.tone.inChord && !step) return Number.POSITIVE_INFINITY;
  if (semitones === 0) {
    if (mayRepeat) return INTERVAL_POINTS.repeatedAsWished;
    return isChange ? INTERVAL_POINTS.repeatedOverChange : INTERVAL_POINTS.repeated;
  }
  if (step) return INTERVAL_POINTS.step;
  const leads = beginsPhrase ? INTERVAL_POINTS.leapIntoPhrase : isChange ? INTERVAL_POINTS.leapIntoChange : 0;
  if (semitones <= WIDEST_SEMITONES.third) return leads + INTERVAL_POINTS.third;
  if (semitones <= WIDEST_SEMITONES.fifth) return leads + INTERVAL_POINTS.fifth;
  return leads + (semitones <= WIDEST_SEMITONES.sixth ? INTERVAL_POINTS.sixth : INTERVAL_POINTS.octave);
}

/** A second, or the next note of a scale that has wider steps. */
export function isStep(steps: Steps, one: number, other: number): boolean {
  const semitones = Math.abs(one - other);
  if (semitones === 1 || semitones === 2) return true;
  const [here, there] = [steps(one), steps(other)];
  return semitones > 0 && here !== undefined && there !== undefined && Math.abs(here - there) === 1;
}

/** The place of a MIDI number in the scale, counted through the octaves; nothing where the scale has no such note. */
export function scaleSteps({ notes }: Scale): Steps {
  const sounds = [...new Set(notes.map(pitchClass))].sort((a, b) => a - b);
  return (midi) => {
    const at = sounds.indexOf(midi % 12);
    return at < 0 ? undefined : Math.floor(midi / 12) * sounds.length + at;
  };
}
