import type { Instrument } from '../neck/instrument.ts';
import { printShape } from '../neck/shape.ts';
import { type Arcs, arcsBetween, type PlacedHands, placedHands } from './change-arcs.ts';
import { changeOf, placedHand } from './change-between.ts';
import { hurryOf, judgeChange, judgeSeconds } from './change-speed.ts';
import { EASY_SHARE, GREATEST_HURRY, HURRY_EFFORT } from './change-table.ts';
import type { Fingering } from './fingering.ts';
import { fingeringsOf } from './fingering-search.ts';
import { judgeFingers } from './given-fingers.ts';
import type { HandSize } from './hand.ts';
import { type NeckInMm, neckInMm } from './neck-in-mm.ts';
import { CAUTION_ON_STRETCH } from './reach.ts';
import type {
  FingeredSequence,
  HeldChord,
  SequenceChange,
  SequenceChord,
  SequenceOptions,
  SkippedChord,
} from './sequence.ts';
import { bestCycle, bestPath, type Layer, type Link, type Path, type TimedArcs } from './sequence-path.ts';
import { tellReach } from './tell-fingering.ts';

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

/** What a chord can be held with. */
interface Choice {
  readonly kind: 'choice';
  readonly key: string;
  /** As many as ways; best first. */
  readonly fingerings: readonly Fingering[];
  readonly ways: PlacedHands;
  readonly layer: Layer;
}

/** Equal shapes with equal given fingers are looked at once. */
function choicesOf(
  instrument: Instrument,
  chords: readonly SequenceChord[],
  hand: HandSize,
  options: SequenceOptions,
): readonly (Choice | SkippedChord)[] {
  const known = new Map<string, Choice | SkippedChord>();
  const keys = chords.map(({ shape, given }) => `${printShape(shape)} ${given?.join('-') ?? ''}`);
  for (const [at, chord] of chords.entries()) {
    const key = keys[at] ?? '';
    if (!known.has(key)) known.set(key, choiceOf(instrument, chord, key, hand, options));
  }
  const ways = [...known.values()].flatMap((choice) => (choice.kind === 'choice' ? choice.ways.positions : []));
  const positions = [...new Set(ways.flatMap((fret) => fret ?? []))].sort((a, b) => a - b);
  return keys.flatMap((key) => {
    const choice = known.get(key);
    return choice?.kind === 'choice' ? withPositions(choice, positions) : (choice ?? []);
  });
}

/**
 * A hand that presses nothing is still somewhere on the neck: it may be wherever one of the sequence's chords has it, or a jump would
 * cost nothing when open strings come between.
 */
function withPositions(choice: Choice, positions: readonly number[]): Choice {
  const [open] = choice.fingerings;
  if (open === undefined || open.presses.length > 0 || positions.length === 0) return choice;
  const ways = placedHands(positions.map((positionFret) => ({ presses: [], positionFret })));
  const layer = positions.map(() => ({ effort: open.cost.total, warns: false }));
  return { ...choice, fingerings: positions.map(() => open), ways, layer };
}

function choiceOf(
  instrument: Instrument,
  { shape, given }: SequenceChord,
  key: string,
  hand: HandSize,
  options: SequenceOptions,
): Choice | SkippedChord {
  const skipped = (why: SkippedChord['why'], message: string): SkippedChord => ({
    kind: 'skipped',
    shape,
    why,
    message,
  });
  if (given !== undefined) {
    const { fingering, faults } = judgeFingers(instrument, shape, given, hand);
    if (fingering !== undefined && faults.length === 0) return choiceFrom(key, [fingering]);
    const tooWide = faults.every(({ code }) => code === 'fingers.out-of-reach');
    return skipped(tooWide ? 'out-of-reach' : 'given-fingers', faults.map(({ message }) => message).join(' '));
  }
  const all = fingeringsOf(instrument, shape, hand, options);
  const [first] = all;
  if (first === undefined) {
    return skipped('too-few-fingers', `Four fingers are not enough for ${printShape(shape)}, however they lie.`);
  }
  const holdable = all.filter(({ verdict }) => verdict !== 'out-of-reach');
  if (holdable.length > 0) return choiceFrom(key, holdable);
  const reach = first.widest === undefined ? '' : `${tellReach(first.widest, hand)} `;
  return skipped('out-of-reach', `${reach}${CAUTION_ON_STRETCH}`);
}

function choiceFrom(key: string, fingerings: readonly Fingering[]): Choice {
  const layer = fingerings.map(({ cost, verdict }) => ({ effort: cost.total, warns: verdict === 'stretched' }));
  return {
    kind: 'choice',
    key,
    fingerings,
    ways: placedHands(fingerings.map(({ presses }) => placedHand(presses))),
    layer,
  };
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
