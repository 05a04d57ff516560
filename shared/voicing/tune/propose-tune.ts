import { type ChordInHand, type ChordStretch, chordsInHand, holdGround } from './ground.ts';
import { tellTune } from './tell-tune.ts';
import type { Tune, TuneNote } from './tune.ts';
import { bestTunePath } from './tune-path.ts';
import { type Moment, type OpenProblem, openProblem, problemWithLine, type TuneRequest } from './tune-problem.ts';
import { DIFFERENT_SHARE, WORSE_POINTS_PER_NOTE } from './tune-table.ts';
import { whyNoTune } from './why-no-tune.ts';

/** Tunes, best first, and how the chords are held under them; or why there is none, as a teacher would say it. */
export type TuneProposals =
  | { readonly ok: true; readonly tunes: readonly [Tune, ...Tune[]]; readonly chords: readonly ChordInHand[] }
  | { readonly ok: false; readonly message: string };

/** So many are shown side by side. Source: common practice, no source. */
const USUAL_MOST = 3;

/**
 * Tunes over the progression inside its shapes. The line that the contour asks for is laid from each tone of the first chord, and for
 * each line the tune with the fewest points is found, which no other choice of notes and fingers beats (see `bestTunePath`); of these
 * the best few that differ in about a third of their notes are given.
 *
 * Always: chord tones on strong beats and where a chord begins, other tones come and go by step, no ringing string is stopped, all of
 * it can be held by the hand and, with a tempo, the fingers are in time; the last note is the root or the third of its chord, where the
 * shape has one of them.
 */
export function proposeTune(request: TuneRequest, most = USUAL_MOST): TuneProposals {
  const ground = holdGround(request);
  if (!ground.ok) return ground;
  const found = tunesOver(request, ground.stretches);
  const different: Tune[] = [];
  const worst = (found[0]?.points ?? 0) + WORSE_POINTS_PER_NOTE * (found[0]?.notes.length ?? 0);
  for (const tune of found) {
    if (different.length >= most || tune.points > worst) break;
    if (different.every((other) => shareOfOthers(tune, other) >= DIFFERENT_SHARE)) different.push(tune);
  }
  const [first, ...others] = different;
  if (first !== undefined) return { ok: true, tunes: [first, ...others], chords: chordsInHand(ground.stretches) };
  const tries = (changed: TuneRequest) => tunesOver(changed, ground.stretches).length > 0;
  return { ok: false, message: whyNoTune(request, openProblem(request, ground.stretches).moments, tries) };
}

/** For every place of the line the best tune, fewest points first. */
function tunesOver(request: TuneRequest, stretches: readonly ChordStretch[]): readonly Tune[] {
  const problem = openProblem(request, stretches);
  const tunes = lowestNotes(request, problem).flatMap((lowestMidi): readonly Tune[] => {
    const path = bestTunePath(problemWithLine(problem, lowestMidi));
    if (path === undefined) return [];
    const notes = path.picks.flatMap((pick, at) => noteAt(problem.moments[at], pick) ?? []);
    return [{ notes, points: path.points, why: tellTune(request, notes) }];
  });
  return tunes.sort((one, other) => one.points - other.points);
}

/** Where the line may begin, told by its lowest note: so that its first note is a tone of the first chord, and the neck has its notes. */
function lowestNotes({ contour }: TuneRequest, { moments, semitones }: OpenProblem): readonly number[] {
  const all = moments.flatMap(({ candidates }) => candidates.list.map(({ note }) => note.midi));
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

function shareOfOthers(one: Tune, other: Tune): number {
  const differing = one.notes.filter(({ midi }, at) => other.notes[at]?.midi !== midi).length;
  return differing / Math.max(1, one.notes.length);
}
