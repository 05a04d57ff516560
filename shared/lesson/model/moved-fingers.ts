import { fingersForAdded, type KeptShape } from '../../hand/added-notes.ts';
import { areCrossed, type FingeredNote } from '../../hand/crossed.ts';
import { compare } from '../../theory/rational.ts';
import type { Mark } from '../syntax/marks.ts';
import type { Word } from '../syntax/words.ts';
import type { MovedTune } from './moved-tune.ts';
import type { TimedRow } from './timed-grid.ts';

/** The shape in the hand under a chord of the lesson; nothing where nobody knows it. */
type KeptFor = (chord: string | undefined) => KeptShape | undefined;

/**
 * Fingers for the notes of a tune in their new places, chosen for all that is played over one shape together; a note that stays where
 * it is keeps the teacher's own. Nothing is written where no finger of the shape is at hand.
 */
export function writeFingers(fingers: TimedRow, moved: MovedTune, keptFor: KeptFor, marks: Map<Word, Mark>): void {
  for (const run of runsOf(fingers, moved)) {
    const chosen = fingersOf(run.map((note) => waysOf(note, keptFor(note.chord))));
    for (const [at, { word, stays }] of run.entries()) {
      const finger = chosen[at];
      if (!stays) marks.set(word, finger === undefined ? { kind: 'hold' } : { kind: 'finger', finger });
    }
  }
}

/** One note of the tune with its mark in the row of fingers. */
interface MovedNoteToFinger {
  readonly word: Word;
  readonly chord: string | undefined;
  readonly string: number;
  readonly fret: number;
  /** It has not moved, and keeps the finger that the lesson gives it. */
  readonly stays: boolean;
  readonly given: number | 'T';
}

/** The notes with fingers, parted where the chord changes. */
function runsOf(fingers: TimedRow, { marks }: MovedTune): readonly (readonly MovedNoteToFinger[])[] {
  const runs: MovedNoteToFinger[][] = [];
  for (const { mark, at, word } of fingers.marks) {
    if (mark.kind !== 'finger') continue;
    const there = marks.find(({ from }) => compare(from.mark.at, at) === 0);
    const [note, ...others] = there?.notes ?? [];
    if (there === undefined || note === undefined || others.length > 0) continue;
    const { string, fret, from } = note;
    const { chord } = there.from;
    const stays = fret === from.fret && string === from.string;
    const one: MovedNoteToFinger = { word, chord, string, fret, stays, given: mark.finger };
    const run = runs.at(-1);
    if (run !== undefined && run[0]?.chord === chord) run.push(one);
    else runs.push([one]);
  }
  return runs;
}

/** How one note can be had, the best first; one way without a finger where there is none. */
type Ways = readonly FingeredNote[];

function waysOf({ string, fret, stays, given }: MovedNoteToFinger, kept: KeptShape | undefined): Ways {
  const stringIndex = kept === undefined ? -string : kept.shape.length - string;
  const by = (finger: FingeredNote['finger']): FingeredNote => ({ stringIndex, fret, finger });
  if (stays) return [by(given)];
  if (fret === 0) return [by(0)];
  if (kept === undefined) return [by(undefined)];
  const own = kept.fingers[stringIndex];
  if (kept.shape[stringIndex] === fret && own !== undefined && own !== 0) return [by(own)];
  const ways = fingersForAdded(kept, { stringIndex, fret }).filter((finger) => finger !== 0);
  return ways.length === 0 ? [by(undefined)] : ways.map(by);
}

/**
 * One finger for each note, so that as few as can be are crossed, then the same place has the same finger, then the first ways are
 * taken. Exact, by branch and bound over the different places: a shape leaves a finger or two free.
 */
function fingersOf(notes: readonly Ways[]): readonly FingeredNote['finger'][] {
  const places = new Map<string, Ways>();
  for (const ways of notes) places.set(placeOf(ways), ways);
  const list = [...places.entries()];
  let best: readonly FingeredNote[] = [];
  let least = Number.POSITIVE_INFINITY;
  const go = (chosen: readonly FingeredNote[], points: number): void => {
    if (points >= least) return;
    const next = list[chosen.length];
    if (next === undefined) {
      best = chosen;
      least = points;
      return;
    }
    for (const [rank, way] of next[1].entries()) {
      const crossed = chosen.filter((other) => areCrossed(other, way)).length;
      go([...chosen, way], points + CROSSED_POINTS * crossed + rank);
    }
  };
  go([], 0);
  const byPlace = new Map(list.map(([place], at) => [place, best[at]?.finger]));
  return notes.map((ways) => byPlace.get(placeOf(ways)));
}

/** More than all ranks of a run together. */
const CROSSED_POINTS = 1000;

/** A note that stays may have another finger than the same note elsewhere. */
function placeOf(ways: Ways): string {
  const [first] = ways;
  return `${first?.stringIndex} ${first?.fret} ${ways.map(({ finger }) => finger).join()}`;
}
