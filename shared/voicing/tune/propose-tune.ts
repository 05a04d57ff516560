import { atOnce, type InSteps } from '../in-steps.ts';
import { type ChordInHand, chordsInHand, holdGround } from './ground.ts';
import { goesAsAsked } from './line.ts';
import { tellTune } from './tell-tune.ts';
import type { Tune, TuneNote } from './tune.ts';
import type { TunePath } from './tune-path.ts';
import { type Moment, type OpenProblem, openProblem, problemWithLine, type TuneRequest } from './tune-problem.ts';
import { DIFFERENT_SHARE, WORSE_POINTS_PER_NOTE } from './tune-table.ts';
import { bestUncrossedPath, runsOf } from './uncrossed-path.ts';
import { whyNoTune } from './why-no-tune.ts';

/** Tunes, best first, and how the chords are held under them; or why there is none, as a teacher would say it. */
export type TuneProposals =
  | { readonly ok: true; readonly tunes: readonly [Tune, ...Tune[]]; readonly chords: readonly ChordInHand[] }
  | { readonly ok: false; readonly message: string };

/** So many are shown side by side. Source: common practice, no source. */
const USUAL_MOST = 3;

/**
 * Tunes over the progression inside its shapes. The line that the contour asks for is laid from each tone of the first chord, and for
 * each line the tune with the fewest points is found, which no other choice of notes and fingers beats (see `bestUncrossedPath`); of these
 * the best few that differ in about a third of their notes are given.
 *
 * Always: chord tones on strong beats and where a chord begins, other tones come and go by step, no ringing string is stopped, all of
 * it can be held by the hand with fingers that are not crossed and, with a tempo, the fingers are in time; the last note is the root or the third of its chord, where the
 * shape has one of them.
 */
export function proposeTune(request: TuneRequest, most = USUAL_MOST): TuneProposals {
  return atOnce(tunesInSteps(request, most));
}

/** The same, cut into steps. */
export function* tunesInSteps(request: TuneRequest, most = USUAL_MOST): InSteps<TuneProposals> {
  const ground = holdGround(request);
  if (!ground.ok) return ground;
  yield;
  const problem = openProblem(request, ground.stretches);
  const found = yield* linesOver(request, problem);
  const different: Line[] = [];
  const worst = (found[0]?.points ?? 0) + WORSE_POINTS_PER_NOTE * problem.moments.length;
  for (const line of found) {
    if (different.length >= most || line.points > worst) break;
    if (different.every((other) => shareOfOthers(line, other) >= DIFFERENT_SHARE)) different.push(line);
  }
  const [first, ...others] = different.map((line) => tuneOf(request, problem, line));
  if (first !== undefined) return { ok: true, tunes: [first, ...others], chords: chordsInHand(ground.stretches) };
  const tries = (changed: TuneRequest) => atOnce(linesOver(changed, openProblem(changed, ground.stretches))).length > 0;
  return { ok: false, message: whyNoTune(request, problem.moments, tries) };
}

/** The best tune along one line. */
interface Line extends TunePath {
  /** MIDI numbers of its notes. */
  readonly midi: readonly number[];
}

/** For every place of the line the best tune: first those that are heard to go as asked, of these fewest points first. */
function* linesOver(request: TuneRequest, problem: OpenProblem): InSteps<readonly Line[]> {
  const { moments } = problem;
  const candidates = moments.map((moment) => moment.candidates.list);
  const runs = runsOf(moments.map((moment) => moment.candidates.inHand.key));
  const lines: Line[] = [];
  for (const lowestMidi of lowestNotes(request, problem)) {
    yield;
    const onLine = problemWithLine(problem, lowestMidi);
    const path = yield* bestUncrossedPath({ problem: onLine, candidates, runs });
    if (path === undefined) continue;
    const midi = path.picks.map((pick, at) => moments[at]?.candidates.list[pick]?.note.midi ?? 0);
    lines.push({ ...path, midi });
  }
  const strays = ({ midi }: Line) => Number(!goesAsAsked(request.contour, midi));
  return lines.sort((one, other) => strays(one) - strays(other) || one.points - other.points);
}

function tuneOf(request: TuneRequest, { moments }: OpenProblem, { picks, points }: Line): Tune {
  const notes = picks.flatMap((pick, at) => noteAt(moments[at], pick) ?? []);
  return { notes, points, why: tellTune(request, notes) };
}

/** Where the line may begin, told by its lowest note: so that its first note is a tone of the first chord, and the neck has its notes. */
function lowestNotes({ contour }: TuneRequest, { moments, semitones }: OpenProblem): readonly number[] {
  const chords = new Set(moments.map(({ candidates }) => candidates));
  const all = [...chords].flatMap(({ list }) => list.map(({ note }) => note.midi));
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const first = moments[0];
  if (first === undefined) return [];
  const tones = first.candidates.list.flatMap(({ note }) => (note.tone.inChord ? [note.midi] : []));
  const beginsAt = contour === 'fall' ? semitones : 0;
  const lows = [...new Set(tones)].map((midi) => midi - beginsAt).sort((a, b) => a - b);
  const within = lows.filter((lowest) => lowest >= low - NEAR && lowest + semitones <= high + NEAR);
  // A neck or a shape with few notes: the line goes over what there is.
  return within.length > 0 ? within : [low];
}

/** So far a line may go beyond the notes there are. Unit: semitones. */
const NEAR = 3;

function noteAt(moment: Moment | undefined, pick: number): TuneNote | undefined {
  const candidate = moment?.candidates.list[pick];
  if (moment === undefined || candidate === undefined) return undefined;
  const { bar, tick, length, stretch } = moment.slot;
  return { ...candidate.note, bar, tick, length, chord: stretch.inHand.chord, way: candidate.way };
}

function shareOfOthers(one: Line, other: Line): number {
  return one.midi.filter((midi, at) => other.midi[at] !== midi).length / Math.max(1, one.midi.length);
}
