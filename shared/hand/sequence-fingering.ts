import type { Instrument } from '../neck/instrument.ts';
import { type Arcs, arcsBetween } from './change-arcs.ts';
import { changeOf } from './change-between.ts';
import { hurryOf, judgeChange, judgeSeconds } from './change-speed.ts';
import { EASY_SHARE, GREATEST_HURRY, HURRY_EFFORT } from './change-table.ts';
import type { HandSize } from './hand.ts';
import { type NeckInMm, neckInMm } from './neck-in-mm.ts';
import type {
  FingeredSequence,
  HeldChord,
  SequenceChange,
  SequenceChord,
  SequenceOptions,
  SkippedChord,
} from './sequence.ts';
import { type Choice, choicesOf } from './sequence-choices.ts';
import { bestCycle, bestPath, type Link, type Path, type TimedArcs } from './sequence-path.ts';

/**
 * The fingers of a whole sequence, chosen together: first the fewest warnings (stretches, and changes for which there is no time),
 * then the least effort of all fingerings, changes and hurry. Exact: every fingering that the hand can hold takes part for every
 * chord, none is left out beforehand; equal choices are settled in favour of the fingering that comes first by itself.
 * So a larger hand or a slower tempo never adds a warning to a sequence whose chords can all be held.
 *
 * Chords that cannot be held are told and passed over: their time is added to the change that goes past them.
 * Effort is a load: where it is shown, `CAUTION_ON_STRETCH` belongs.
 */
export function fingerSequence(
  instrument: Instrument,
  chords: readonly SequenceChord[],
  hand: HandSize,
  options: SequenceOptions = {},
): FingeredSequence {
  const neck = neckInMm(instrument);
  const choices = choicesOf(instrument, chords, hand, options);
  const stations = stationsOf(chords, choices, options.repeats === true);
  const arcs = arcsOnce(neck);
  const links = stations.map(({ choice, next, seconds }): Link => {
    const { layer } = choice;
    return next === undefined ? { layer } : { layer, arcs: arcs(choice, next.choice, seconds) };
  });
  const path = stations.at(-1)?.next === undefined ? bestPath(links) : bestCycle(links);
  return told(neck, chords, choices, stations, path);
}

/** A chord that is held, and the one that is held next; nothing next at the end. */
interface Station {
  readonly at: number;
  readonly choice: Choice;
  readonly next?: { readonly at: number; readonly choice: Choice };
  readonly seconds?: number;
}

function stationsOf(
  chords: readonly SequenceChord[],
  choices: readonly (Choice | SkippedChord)[],
  repeats: boolean,
): readonly Station[] {
  const held = choices.flatMap((choice, at) => (choice.kind === 'choice' ? [{ at, choice }] : []));
  return held.map(({ at, choice }, place): Station => {
    const next = held[place + 1] ?? (repeats && held.length > 1 ? held[0] : undefined);
    if (next === undefined) return { at, choice };
    const seconds = secondsBetween(chords, at, next.at);
    return { at, choice, next, ...(seconds === undefined ? {} : { seconds }) };
  });
}

/** From one chord to another that comes later, or sooner in the next round. Nothing where a chord on the way says no time. */
function secondsBetween(chords: readonly SequenceChord[], from: number, to: number): number | undefined {
  let sum = 0;
  let at = from;
  do {
    const seconds = chords[at]?.seconds;
    if (seconds === undefined) return undefined;
    sum += seconds;
    at = (at + 1) % chords.length;
  } while (at !== to);
  return sum;
}

/** Every change between two choices, worked out once for equal times. */
function arcsOnce(neck: NeckInMm): (from: Choice, to: Choice, seconds: number | undefined) => TimedArcs {
  const untimed = new Map<string, Arcs>();
  const timed = new Map<string, TimedArcs>();
  return (from, to, seconds) => {
    const pair = `${from.key} > ${to.key}`;
    const arcs = untimed.get(pair) ?? arcsBetween(neck, from.ways, to.ways);
    untimed.set(pair, arcs);
    const key = `${pair} ${seconds}`;
    const inTime = timed.get(key) ?? timedArcs(arcs, seconds);
    timed.set(key, inTime);
    return inTime;
  };
}

function timedArcs({ effort, neededSeconds }: Arcs, seconds: number | undefined): TimedArcs {
  if (seconds === undefined) return { effort, warns: new Uint8Array(effort.length) };
  return {
    effort: effort.map((each, at) => each + hurryEffort(neededSeconds[at] ?? 0, seconds)),
    warns: Uint8Array.from(neededSeconds, (needed) => Number(judgeSeconds(needed, seconds) === 'too-quick')),
  };
}

/** Never falls with the time needed, never grows with the time there is. Unit: effort. */
function hurryEffort(neededSeconds: number, seconds: number): number {
  const hurry = Math.min(GREATEST_HURRY, hurryOf(neededSeconds, seconds));
  return HURRY_EFFORT * Math.max(0, hurry - EASY_SHARE);
}

function told(
  neck: NeckInMm,
  chords: readonly SequenceChord[],
  choices: readonly (Choice | SkippedChord)[],
  stations: readonly Station[],
  { picks, warnings, effort }: Path,
): FingeredSequence {
  const pickAt = new Map(stations.map(({ at }, place) => [at, picks[place] ?? 0]));
  const changes = stations.flatMap(({ at, choice, next, seconds }): readonly SequenceChange[] => {
    const before = choice.ways.hands[pickAt.get(at) ?? 0];
    const after = next?.choice.ways.hands[pickAt.get(next.at) ?? 0];
    if (next === undefined || before === undefined || after === undefined) return [];
    const change = changeOf(neck, before, after);
    const speed = seconds === undefined ? {} : { speed: judgeChange(change, seconds) };
    return [{ from: at, to: next.at, change, ...speed }];
  });
  const fingered = chords.flatMap(({ shape }, at): readonly (HeldChord | SkippedChord)[] => {
    const choice = choices[at];
    if (choice?.kind !== 'choice') return choice === undefined ? [] : [choice];
    const fingering = choice.fingerings[pickAt.get(at) ?? 0];
    return fingering === undefined ? [] : [{ kind: 'held', shape, fingering }];
  });
  return { chords: fingered, changes, warnings, effort };
}
