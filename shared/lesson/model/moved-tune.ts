import { type AddedNote, fingersForAdded, type KeptShape, keepingOnly } from '../../hand/added-notes.ts';
import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { compare, type Rational } from '../../theory/rational.ts';
import { lastFret, openMidi } from '../../voicing/tune/neck-range.ts';
import type { NoteMark, Technique } from '../syntax/marks.ts';
import { HAND_FRETS, MOVED_NOTE_POINTS as POINTS, RUN_NOTES, RUN_STEP_SEMITONES } from './moved-tune-table.ts';
import type { PitchedMark, PitchedNote } from './pitched-marks.ts';

const OCTAVE = 12;

/** Where a tune stands on another instrument. */
export interface TuneGround {
  readonly instrument: Instrument;
  /** The shape in the hand; nothing where nobody knows it. */
  readonly keptFor: (chord: string | undefined) => KeptShape | undefined;
  /** Where notes are already that another pattern gives. */
  readonly fixed: (mark: PitchedMark) => readonly NoteMark[] | undefined;
}

/** A mark of the tune in its new place. */
export interface MovedMark {
  readonly from: PitchedMark;
  /** As many as there are pitched notes. */
  readonly notes: readonly MovedNote[];
}

export interface MovedNote {
  readonly from: PitchedNote;
  readonly string: number;
  readonly fret: number;
  /** By how many octaves it sounds away from the lesson's own. */
  readonly octaves: number;
  /** What the left hand adds, at its new frets; empty where it cannot be added there. */
  readonly techniques: readonly Technique[];
  readonly withoutTechnique: boolean;
}

/** A tune moved to another instrument. */
export interface MovedTune {
  readonly marks: readonly MovedMark[];
  /** By how many octaves the tune as a whole sounds away. */
  readonly octaves: number;
  /** Runs across the strings that fall on one string now: the mark at which each begins. */
  readonly brokenRuns: readonly PitchedMark[];
}

/** Octaves that a whole tune may be moved by, the nearest first. */
const OCTAVES = [0, 1, -1, 2, -2];

/** One row of a tune. */
export interface RowToMove {
  readonly marks: readonly PitchedMark[];
  /** The chord that it is written for, whose shape is held meanwhile; absent where it goes over any. */
  readonly chord?: string;
}

/**
 * The rows of a tune with the same pitches on the strings and frets of another instrument: inside the shapes where it can be,
 * running across the strings where it did. The octave stays where the neck has all of it; but what is played while a shape is held
 * goes where the shape has it. What lies beyond the neck goes an octave away, the whole tune or single notes, whichever is the less
 * trouble. Exact: no other choice of places costs fewer points. `octaves` fixes the octave of the whole.
 */
export function moveTune(rows: readonly RowToMove[], ground: TuneGround, octaves?: number): readonly MovedTune[] {
  const runs = rows.map(({ marks }) => runsAcross(marks));
  const move = (by: number) => {
    const ways: { readonly points: number; readonly marks: readonly MovedMark[] }[] = [];
    for (const [at, { marks, chord }] of rows.entries()) {
      // Rows for two different chords never sound together.
      const beside = ways.filter((_, other) => {
        const over = rows[other]?.chord;
        return over === undefined || chord === undefined || over === chord;
      });
      const pointsBeside = pointsBesideOf(beside.map((way) => way.marks));
      ways.push(bestWay(marks, { ...ground, pointsBeside }, by, runs[at] ?? new Set()));
    }
    return ways;
  };
  let best:
    | {
        readonly octaves: number;
        readonly points: number;
        readonly ways: ReturnType<typeof move>;
        readonly isWhole: boolean;
      }
    | undefined;
  for (const by of octaves === undefined ? OCTAVES : [octaves]) {
    // Two octaves are only for what no nearer one has.
    if (Math.abs(by) > 1 && best?.isWhole === true) break;
    const ways = move(by);
    const sum = ways.reduce((all, { points }) => all + points, POINTS.octave * Math.abs(by) * rows.length);
    const isWhole = ways.every(({ marks }) => marks.every(({ notes }) => notes.every((note) => note.octaves === by)));
    if (best === undefined || sum < best.points) best = { octaves: by, points: sum, ways, isWhole };
    if (by === 0 && isWhole && rows.every(({ chord }) => chord === undefined)) break;
  }
  return (best?.ways ?? []).map(({ marks }, at) => ({
    marks,
    octaves: best?.octaves ?? 0,
    brokenRuns: brokenIn(marks, runs[at] ?? new Set()),
  }));
}

/** What it costs to begin on a string at a time, for what other voices have there. */
type PointsBeside = (at: Rational, string: number) => number;

function pointsBesideOf(voices: readonly (readonly MovedMark[])[]): PointsBeside {
  return (at, string) =>
    voices.reduce((sum, marks) => {
      const last = marks.findLast(({ from }) => compare(from.mark.at, at) <= 0);
      if (last === undefined || !last.notes.some((note) => note.string === string)) return sum;
      return sum + (compare(last.from.mark.at, at) === 0 ? POINTS.sameTime : POINTS.soundsOn);
    }, 0);
}

interface RowGround extends TuneGround {
  readonly pointsBeside: PointsBeside;
}

interface Candidate {
  readonly notes: readonly MovedNote[];
  readonly points: number;
}

function bestWay(
  marks: readonly PitchedMark[],
  ground: RowGround,
  octaves: number,
  runs: ReadonlySet<PitchedMark>,
): { readonly points: number; readonly marks: readonly MovedMark[] } {
  let sums: readonly number[] = [];
  const origins: number[][] = [];
  const layers = marks.map((mark) => candidatesFor(mark, ground, octaves));
  for (const [at, layer] of layers.entries()) {
    const before = layers[at - 1] ?? [];
    const origin: number[] = [];
    sums = layer.map((candidate, place) => {
      let least = at === 0 ? 0 : Number.POSITIVE_INFINITY;
      for (const [from, other] of before.entries()) {
        const points = (sums[from] ?? 0) + pointsBetween(other, candidate, runs.has(marks[at] as PitchedMark));
        if (points >= least) continue;
        least = points;
        origin[place] = from;
      }
      return candidate.points + least;
    });
    origins.push(origin);
  }
  const points = sums.length === 0 ? 0 : Math.min(...sums);
  let pick = sums.indexOf(points);
  const moved: MovedMark[] = [];
  for (let at = layers.length - 1; at >= 0; at -= 1) {
    const from = marks[at];
    const candidate = layers[at]?.[pick];
    if (from !== undefined && candidate !== undefined) moved.unshift({ from, notes: candidate.notes });
    pick = origins[at]?.[pick] ?? 0;
  }
  return { points, marks: moved };
}

/** So many ways to take the notes of one mark together are weighed. */
const MOST_TOGETHER = 40;

function candidatesFor(mark: PitchedMark, ground: RowGround, octaves: number): readonly Candidate[] {
  const fixed = ground.fixed(mark);
  const kept = ground.keptFor(mark.chord);
  let ways: readonly Candidate[] = [{ notes: [], points: 0 }];
  for (const [at, note] of mark.notes.entries()) {
    const isLast = at === mark.notes.length - 1;
    const given = fixed?.[note.index];
    const places =
      given === undefined ? placesFor(mark, note, isLast, ground, kept, octaves) : [fixedPlace(note, given, octaves)];
    ways = ways
      .flatMap((way) =>
        places
          .filter(({ notes: [one] }) => !way.notes.some(({ string }) => string === one?.string))
          .map((place) => ({ notes: [...way.notes, ...place.notes], points: way.points + place.points })),
      )
      .sort((one, other) => one.points - other.points)
      .slice(0, MOST_TOGETHER);
  }
  // What is struck together is held together.
  return ways.map((way) => {
    const beside = way.notes.reduce((sum, { string }) => sum + ground.pointsBeside(mark.mark.at, string), 0);
    return { ...way, points: way.points + pointsOfSpread(way.notes) + beside };
  });
}

function fixedPlace(from: PitchedNote, { string, fret, techniques }: NoteMark, octaves: number): Candidate {
  const place = { string: string ?? from.string, fret: fret ?? from.fret };
  return { notes: [{ from, ...place, octaves, techniques, withoutTechnique: false }], points: 0 };
}

/** Every place for one note: in its octave, or where there is none, in others. */
function placesFor(
  { techniques: following }: PitchedMark,
  from: PitchedNote,
  isLast: boolean,
  { instrument }: TuneGround,
  kept: KeptShape | undefined,
  octaves: number,
): readonly Candidate[] {
  const added = [
    ...from.note.techniques,
    ...(isLast ? following : []).flatMap(({ mark }) => (mark.kind === 'technique' ? [mark.technique] : [])),
  ];
  const at = (by: number, free: boolean): readonly Candidate[] =>
    placesOf(instrument, from.midi + OCTAVE * by)
      .filter(({ fret }) => free || canAdd(added, from.fret, fret, lastFret(instrument)))
      .map(({ stringIndex, fret }) => {
        const string = instrument.openStrings.length - stringIndex;
        const techniques = free ? [] : from.note.techniques.map((one) => movedTechnique(one, fret - from.fret));
        const note = { from, string, fret, octaves: by, techniques, withoutTechnique: free && added.length > 0 };
        const apart = by === octaves ? 0 : POINTS.noteApart * Math.abs(by - octaves);
        return {
          notes: [note],
          points: pointsOfPlace(from, note, kept) + apart + (note.withoutTechnique ? POINTS.withoutTechnique : 0),
        };
      });
  const here = at(octaves, false);
  if (here.length > 0) return preferringOwn(here);
  const elsewhere = OCTAVES.filter((by) => by !== octaves).flatMap((by) => at(by, false));
  return elsewhere.length > 0 && added.length === 0
    ? elsewhere
    : [...elsewhere, ...OCTAVES.flatMap((by) => at(by, true))];
}

/** Where the lesson's own place sounds the same, the teacher's choice is kept unless another one is much better. */
function preferringOwn(candidates: readonly Candidate[]): readonly Candidate[] {
  const isOwn = ({ notes: [note] }: Candidate) => note?.string === note?.from.string && note?.fret === note?.from.fret;
  if (!candidates.some(isOwn)) return candidates;
  return candidates.map((one) => (isOwn(one) ? one : { ...one, points: one.points + POINTS.otherPlace }));
}

function placesOf(instrument: Instrument, midi: number): readonly AddedNote[] {
  const neck = neckAboveCapo(instrument);
  return openMidi(neck).flatMap((open, stringIndex) => {
    const fret = midi - open;
    return fret >= 0 && fret <= lastFret(neck) ? [{ stringIndex, fret }] : [];
  });
}

/** What the left hand adds lies as far along the string as it did; a harmonic is touched at its own fret. */
function canAdd(techniques: readonly Technique[], ownFret: number, fret: number, last: number): boolean {
  return techniques.every((technique) => {
    if (technique.kind === 'harmonic') return fret === ownFret;
    if (!('fret' in technique)) return ownFret === 0 || fret > 0;
    const to = technique.fret + fret - ownFret;
    // Nothing slides from an open string.
    return to >= 0 && to <= last && (technique.kind !== 'slide' || fret > 0);
  });
}

export function movedTechnique(technique: Technique, frets: number): Technique {
  return 'fret' in technique ? { ...technique, fret: technique.fret + frets } : technique;
}

function pointsOfPlace(from: PitchedNote, { string, fret }: MovedNote, kept: KeptShape | undefined): number {
  const other = from.note.finger !== undefined && string !== from.string ? POINTS.otherString : 0;
  const height = POINTS.fret * fret;
  if (kept === undefined) return other + height;
  const { shape } = kept;
  const stringIndex = shape.length - string;
  const held = shape[stringIndex];
  if (held === fret) return other;
  const note = { stringIndex, fret };
  if (fret === 0) {
    const canRing = fingersForAdded(kept, note).length > 0;
    return other + (canRing ? (held === 'muted' ? POINTS.open : POINTS.letGo) : POINTS.outside);
  }
  if (fingersForAdded(kept, note).length > 0) return other + height + POINTS.added;
  const nearlyKept = keepingOnly(kept, (at) => at !== stringIndex);
  return other + height + (fingersForAdded(nearlyKept, note).length > 0 ? POINTS.letGo : POINTS.outside);
}

function pointsBetween(before: Candidate, after: Candidate, isRun: boolean): number {
  const moves = pointsOfSpread([...before.notes, ...after.notes]);
  const same = isRun && before.notes.at(-1)?.string === after.notes.at(-1)?.string;
  return moves + (same ? POINTS.sameString : 0);
}

/** Frets that a hand does not have under its fingers at once; open strings are free. */
function pointsOfSpread(notes: readonly MovedNote[]): number {
  const stopped = notes.flatMap(({ fret }) => (fret > 0 ? [fret] : []));
  const beyond = Math.max(...stopped) - Math.min(...stopped) - HAND_FRETS + 1;
  return stopped.length > 1 ? POINTS.move * Math.max(0, beyond) : 0;
}

/** Marks that come, by a small step, on another string than the one before, as a part of a run of several. */
function runsAcross(marks: readonly PitchedMark[]): ReadonlySet<PitchedMark> {
  const runs = new Set<PitchedMark>();
  let run: PitchedMark[] = [];
  for (const [at, mark] of marks.entries()) {
    const before = marks[at - 1];
    const [one, other] = [before?.notes[0], mark.notes[0]];
    const single = before?.notes.length === 1 && mark.notes.length === 1;
    const step = one === undefined || other === undefined ? 0 : Math.abs(other.midi - one.midi);
    const goesOn = single && step > 0 && step <= RUN_STEP_SEMITONES && one?.string !== other?.string;
    if (!goesOn) run = [];
    else run.push(mark);
    // The first note of a run has none before it.
    if (run.length >= RUN_NOTES - 1) for (const each of run) runs.add(each);
  }
  return runs;
}

function brokenIn(moved: readonly MovedMark[], runs: ReadonlySet<PitchedMark>): readonly PitchedMark[] {
  const broken: PitchedMark[] = [];
  let inRun = false;
  for (const [at, { from, notes }] of moved.entries()) {
    const isSame = runs.has(from) && notes[0]?.string === moved[at - 1]?.notes[0]?.string;
    if (!runs.has(from)) inRun = false;
    if (isSame && !inRun) {
      broken.push(from);
      inRun = true;
    }
  }
  return broken;
}
