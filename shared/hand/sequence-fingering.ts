import type { Instrument } from '../neck/instrument.ts';
import { arcsBetween } from './change-arcs.ts';
import { changeOf } from './change-between.ts';
import { judgeChange } from './change-speed.ts';
import type { ChangeTime } from './change-time.ts';
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
import { bestCycle, bestPath, type Link, type Path } from './sequence-path.ts';

/**
 * The fingers of a whole sequence, chosen together: first the fewest stretches, then the least effort of all fingerings and changes,
 * where a chord's own fingering counts more than a change. Exact: every fingering that the hand can hold takes part for every
 * chord, none is left out beforehand; equal choices are settled in favour of the fingering that comes first by itself.
 * So a larger hand never adds a stretch to a sequence whose chords can all be held. The tempo has no say: chords are learnt slowly,
 * and played fast with the same fingers; it only judges the changes, so that a slower one is never harder.
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
  const links = stations.map(({ choice, next }): Link => {
    const { layer } = choice;
    return next === undefined ? { layer } : { layer, arcs: arcs(choice, next.choice) };
  });
  const path = stations.at(-1)?.next === undefined ? bestPath(links) : bestCycle(links);
  return told(neck, chords, choices, stations, path);
}

/** A chord that is held, and the one that is held next; nothing next at the end. */
interface Station {
  readonly at: number;
  readonly choice: Choice;
  readonly next?: { readonly at: number; readonly choice: Choice };
  readonly time?: ChangeTime;
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
    const time = timeBetween(chords, at, next.at);
    return { at, choice, next, ...(time === undefined ? {} : { time }) };
  });
}

/**
 * From one chord to another that comes later, or sooner in the next round. Nothing where a chord on the way says no time. A string is
 * free as the chord left says, and needed as the last change says, which leads to the chord taken.
 */
function timeBetween(chords: readonly SequenceChord[], from: number, to: number): ChangeTime | undefined {
  let seconds = 0;
  let last = from;
  let at = from;
  do {
    const chord = chords[at]?.seconds;
    if (chord === undefined) return undefined;
    seconds += chord;
    last = at;
    at = (at + 1) % chords.length;
  } while (at !== to);
  const [leaving, arriving] = [chords[from]?.strings, chords[last]?.strings];
  if (leaving === undefined && arriving === undefined) return { seconds };
  const strings = (leaving ?? arriving ?? []).map((_, string) => ({
    before: leaving?.[string]?.before ?? 0,
    after: arriving?.[string]?.after ?? 0,
  }));
  return { seconds, strings };
}

/** What every change between two choices costs, worked out once. */
function arcsOnce(neck: NeckInMm): (from: Choice, to: Choice) => Float64Array {
  const known = new Map<string, Float64Array>();
  return (from, to) => {
    const pair = `${from.key} > ${to.key}`;
    const arcs = known.get(pair) ?? arcsBetween(neck, from.ways, to.ways);
    known.set(pair, arcs);
    return arcs;
  };
}

function told(
  neck: NeckInMm,
  chords: readonly SequenceChord[],
  choices: readonly (Choice | SkippedChord)[],
  stations: readonly Station[],
  { picks, stretches, effort }: Path,
): FingeredSequence {
  const pickAt = new Map(stations.map(({ at }, place) => [at, picks[place] ?? 0]));
  const changes = stations.flatMap(({ at, choice, next, time }): readonly SequenceChange[] => {
    const before = choice.ways.hands[pickAt.get(at) ?? 0];
    const after = next?.choice.ways.hands[pickAt.get(next.at) ?? 0];
    if (next === undefined || before === undefined || after === undefined) return [];
    const change = changeOf(neck, before, after);
    const speed = time === undefined ? {} : { speed: judgeChange(change, time) };
    return [{ from: at, to: next.at, change, ...speed }];
  });
  const fingered = chords.flatMap(({ shape }, at): readonly (HeldChord | SkippedChord)[] => {
    const choice = choices[at];
    if (choice?.kind !== 'choice') return choice === undefined ? [] : [choice];
    const fingering = choice.fingerings[pickAt.get(at) ?? 0];
    return fingering === undefined ? [] : [{ kind: 'held', shape, fingering }];
  });
  return { chords: fingered, changes, stretches, effort };
}
