import { changeBetween } from '../../hand/change-between.ts';
import { hurryOf, neededSecondsFor } from '../../hand/change-speed.ts';
import { type NeckInMm, neckInMm } from '../../hand/neck-in-mm.ts';
import { pitchClass } from '../../theory/note.ts';
import { type BarTime, barTimes, pickupBars } from './bar-times.ts';
import { type Candidate, type Candidates, pointsOfHold } from './candidates.ts';
import type { ChordInHand, Stretch, TuneGround } from './ground.ts';
import { keptCandidates } from './kept-candidates.ts';
import { type Contour, heightAt, lineSemitones, type Phrase, phrasesOf } from './line.ts';
import { type MelodyLink, melodyLink, type ShapeInTime } from './melody-links.ts';
import { type BarRhythm, restingRhythm, strongTicks, TICKS_OF_COUNT, usualRhythm } from './rhythm.ts';
import { type Slot, slotsOf } from './slots.ts';
import type { PathLink, PathProblem } from './tune-path.ts';
import { BREATH_BARS, DIRECTION_POINTS, NEAR_LINE_SEMITONES, TONE_POINTS } from './tune-table.ts';

export interface TuneRequest extends TuneGround {
  readonly contour: Contour;
  /** Where every bar has its notes; the usual rhythm, which breathes at the end of a phrase, where nothing is said. */
  readonly rhythm?: BarRhythm;
  /** Notes may come again at once, as in a tune with many syllables. */
  readonly mayRepeat?: boolean;
}

/** A moment of the tune: what stands there, and what is asked of it. */
export interface Moment {
  readonly slot: Slot;
  readonly candidates: Candidates;
  readonly strong: boolean;
  readonly beginsPhrase: boolean;
  readonly phrase: Phrase;
  readonly endsPhrase: boolean;
  readonly isLast: boolean;
  /** From 0 at the line's lowest to 1 at its highest. */
  readonly height: number;
}

/** A search for tunes without the line's place on the neck: all that stays the same wherever the line begins. */
export interface OpenProblem {
  readonly moments: readonly Moment[];
  readonly links: readonly PathLink[];
  /** By moment and candidate, all points but those for being off the line. */
  readonly points: readonly Float64Array[];
  /** From the line's lowest note to its highest. Unit: semitones. */
  readonly semitones: number;
}

/** The search that a request comes to, over chords that the hand holds. */
export function openProblem(request: TuneRequest, stretches: readonly Stretch[]): OpenProblem {
  const moments = momentsOf(request, stretches);
  return {
    moments,
    links: linksOf(request, neckInMm(request.instrument), moments),
    points: moments.map((moment) => pointsAt(request, moment)),
    semitones: lineSemitones(request.bars.length - pickupBars(request.bars)),
  };
}

/** The same with a line from this lowest note. */
export function problemWithLine({ moments, links, points, semitones }: OpenProblem, lowestMidi: number): PathProblem {
  const layers = moments.map(({ candidates, height }, at) => {
    const line = lowestMidi + semitones * height;
    const own = points[at] ?? new Float64Array();
    return {
      points: own.map((point, place) => {
        const off = Math.max(0, Math.abs((candidates.list[place]?.note.midi ?? line) - line) - NEAR_LINE_SEMITONES);
        return point + DIRECTION_POINTS.offLineSquared * off * off;
      }),
    };
  });
  return { layers, links };
}

function momentsOf(request: TuneRequest, stretches: readonly Stretch[]): readonly Moment[] {
  const { contour, bars } = request;
  const phrases = phrasesWithPickup(bars, contour);
  const times = barTimes(request);
  const slots = slotsOf(stretches, rhythmsOf(request, phrases, times), times);
  const strong = times.map(({ meter }) => new Set(strongTicks(meter)));
  const known = new Map<string, Candidates>();
  return slots.map((slot, at): Moment => {
    const { inHand, fromTick, bar } = slot.stretch;
    const candidates = known.get(inHand.key) ?? keptCandidates(request, inHand);
    known.set(inHand.key, candidates);
    const phrase = phrases.find(({ toBar }) => slot.bar < toBar) ?? {
      fromBar: 0,
      toBar: bars.length,
      staysOpen: false,
    };
    const inPhrase = slots.filter((other) => other.bar >= phrase.fromBar && other.bar < phrase.toBar);
    const [first, last] = [inPhrase[0]?.onset ?? slot.onset, inPhrase.at(-1)?.onset ?? slot.onset];
    const share = last === first ? 0 : (slot.onset - first) / (last - first);
    return {
      slot,
      candidates,
      phrase,
      strong:
        strong[slot.bar]?.has(slot.tick) === true || (bar === slot.bar && fromTick === slot.tick) || slot.isChange,
      beginsPhrase: slot.onset === first,
      endsPhrase: slot.onset === last,
      isLast: at === slots.length - 1,
      height: heightAt(contour, phrase, phrases[phrases.indexOf(phrase) - 1]?.staysOpen === true, share),
    };
  });
}

/** A pickup belongs to the phrase that it leads into. */
function phrasesWithPickup(bars: TuneGround['bars'], contour: Contour): readonly Phrase[] {
  const lead = pickupBars(bars);
  return phrasesOf(bars.length - lead, contour).map(({ fromBar, toBar, staysOpen }) => ({
    fromBar: fromBar === 0 ? 0 : fromBar + lead,
    toBar: toBar + lead,
    staysOpen,
  }));
}

/** What each bar sounds like: as it is asked for, else the usual, and at the end of a phrase and halfway a rest. */
function rhythmsOf(
  { bars, rhythm }: TuneRequest,
  phrases: readonly Phrase[],
  times: readonly BarTime[],
): readonly BarRhythm[] {
  const lead = pickupBars(bars);
  const breathes = (bar: number) =>
    phrases.some(
      ({ fromBar, toBar }) =>
        bar >= fromBar && bar < toBar && (bar === toBar - 1 || isBreath(bar - Math.max(fromBar, lead))),
    );
  return times.map(({ meter, from, to }, bar) => {
    if (rhythm !== undefined) return rhythm;
    const usual = usualRhythm(meter);
    const played = (breathes(bar) ? restingRhythm(meter, usual) : usual).filter((tick) => tick >= from && tick < to);
    return played.length === 0 ? [from] : played;
  });
}

function isBreath(barOfPhrase: number): boolean {
  return barOfPhrase >= 0 && (barOfPhrase + 1) % BREATH_BARS === 0;
}

function linksOf(request: TuneRequest, neck: NeckInMm, moments: readonly Moment[]): readonly PathLink[] {
  const known = new Map<string, MelodyLink>();
  const slopes = moments.map((moment, at) => {
    const before = moments[at - 1];
    return before === undefined || moment.beginsPhrase ? 0 : signOf(moment.height - before.height);
  });
  return moments.slice(1).map((moment, place): PathLink => {
    const at = place + 1;
    const before = moments[place];
    const from = before?.candidates ?? moment.candidates;
    const { isChange } = moment.slot;
    const seconds = secondsAt(request, moments, at);
    const brings = isChange ? shapeInTime(request, moments, at) : undefined;
    const key = [
      from.inHand.key,
      moment.candidates.inHand.key,
      isChange,
      moment.beginsPhrase,
      seconds?.between,
      seconds?.fromBefore,
      ...[false, true].flatMap((leaves) => [false, true].map((arrives) => brings?.(leaves, arrives))),
    ].join('|');
    const link =
      known.get(key) ??
      melodyLink(neck, request.scale, {
        from,
        to: moment.candidates,
        isChange,
        beginsPhrase: moment.beginsPhrase,
        mayRepeat: request.mayRepeat === true,
        ...(seconds === undefined ? {} : { seconds }),
        ...(brings === undefined ? {} : { brings }),
      });
    known.set(key, link);
    const slope = slopes[at] ?? 0;
    const begins = moment.beginsPhrase || before?.beginsPhrase === true;
    return { ...link, slope, mayTurn: begins || slope !== slopes[place] };
  });
}

function secondsAt(
  { secondsPerCount }: TuneGround,
  moments: readonly Moment[],
  at: number,
): { readonly between: number; readonly fromBefore: number } | undefined {
  const [here, before, first] = [moments[at], moments[at - 1], moments[at - 2]];
  if (secondsPerCount === undefined || here === undefined || before === undefined) return undefined;
  const perTick = secondsPerCount / TICKS_OF_COUNT;
  const from = first ?? before;
  return {
    between: (here.slot.onset - before.slot.onset) * perTick,
    fromBefore: (here.slot.onset - from.slot.onset) * perTick,
  };
}

/**
 * Whether the hand has time for the whole of the shape that begins at a moment, as an exercise is judged: from the last stopped note
 * over the chord before to the first stopped note over the new one. Where a note is open, the one beside it is taken for stopped.
 */
function shapeInTime(
  { instrument, secondsPerCount }: TuneGround,
  moments: readonly Moment[],
  at: number,
): ShapeInTime | undefined {
  const [before, here, after] = [moments[at - 1], moments[at], moments[at + 1]];
  if (secondsPerCount === undefined || before === undefined || here === undefined) return undefined;
  const [old, next] = [before.candidates.inHand, here.candidates.inHand];
  const change = changeBetween(instrument, old.held.fingering, next.held.fingering);
  const needed = neededSecondsFor(change);
  const staysOver = (inHand: ChordInHand, moment: Moment | undefined) => moment?.candidates.inHand.key === inHand.key;
  const earlier = staysOver(old, moments[at - 2]) ? moments[at - 2] : before;
  const later = staysOver(next, after) ? after?.slot.onset : here.slot.onset + here.slot.length;
  return (leavesOpen, arrivesOpen) => {
    const leaves = (leavesOpen ? earlier : before)?.slot.onset ?? before.slot.onset;
    const arrives = (arrivesOpen ? later : undefined) ?? here.slot.onset;
    return hurryOf(needed, ((arrives - leaves) / TICKS_OF_COUNT) * secondsPerCount) <= 1;
  };
}

/** What every candidate of a moment costs, whatever the line; without end for those that may not stand there. */
function pointsAt({ scale }: TuneRequest, moment: Moment): Float64Array {
  const { list, inHand } = moment.candidates;
  const home = pitchClass(scale.tonic);
  const mayRest = moment.isLast && list.some((candidate) => rests(candidate));
  return Float64Array.from(list, (candidate) => {
    const { tone } = candidate.note;
    if ((moment.strong || moment.isLast) && !tone.inChord) return Number.POSITIVE_INFINITY;
    if (mayRest && !rests(candidate)) return Number.POSITIVE_INFINITY;
    let points = pointsOfHold(inHand, candidate) + pointsOfTone(candidate, moment.strong);
    if (moment.isLast) points += pointsOfLast(candidate);
    else if (moment.endsPhrase && moment.phrase.staysOpen) {
      if (pitchClass(tone.note) === home) points += TONE_POINTS.closedTooSoon;
    } else if (moment.endsPhrase && !rests(candidate)) points += TONE_POINTS.leftOpen;
    return points;
  });
}

function pointsOfTone({ note: { tone } }: Candidate, strong: boolean): number {
  if (!strong) return tone.inChord ? TONE_POINTS.weakInChord : TONE_POINTS.passing;
  const { degree } = tone.role;
  const table = TONE_POINTS.strong;
  return degree === 1 || degree === 3 || degree === 5 || degree === 7 ? table[degree] : table.other;
}

function pointsOfLast({ note: { tone } }: Candidate): number {
  if (!tone.inChord) return TONE_POINTS.last.other;
  if (tone.role.degree === 1) return TONE_POINTS.last.root;
  return tone.role.degree === 3 ? TONE_POINTS.last.third : TONE_POINTS.last.other;
}

/** True for the root and the third of the chord, on which a tune can end. */
function rests({ note: { tone } }: Candidate): boolean {
  return tone.inChord && (tone.role.degree === 1 || tone.role.degree === 3);
}

function signOf(difference: number): -1 | 0 | 1 {
  return difference > 1e-9 ? 1 : difference < -1e-9 ? -1 : 0;
}
