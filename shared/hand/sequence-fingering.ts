import type { Instrument } from '../neck/instrument.ts';
import { printShape } from '../neck/shape.ts';
import { changeOf, type PlacedHand, placedHand } from './change-between.ts';
import { judgeChange, neededSecondsFor } from './change-speed.ts';
import type { Fingering } from './fingering.ts';
import { fingeringsOf } from './fingering-search.ts';
import { judgeFingers } from './given-fingers.ts';
import type { HandSize } from './hand.ts';
import { CAUTION_ON_STRETCH } from './reach.ts';
import type {
  FingeredSequence,
  HeldChord,
  SequenceChange,
  SequenceChord,
  SequenceOptions,
  SkippedChord,
} from './sequence.ts';
import { type Arcs, bestCycle, bestPath, type Layer, type Link, type Path } from './sequence-path.ts';
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
  const choices = choicesOf(instrument, chords, hand, options);
  const stations = stationsOf(chords, choices, options.repeats === true);
  const arcs = arcsBetween();
  const links = stations.map(({ choice, next, seconds }): Link => {
    const arc = next === undefined ? undefined : arcs(choice, next.choice);
    return { layer: choice.layer, ...(arc && { arc }), ...(seconds === undefined ? {} : { seconds }) };
  });
  const path = options.repeats === true && links.length > 1 ? bestCycle(links) : bestPath(links);
  return told(chords, choices, stations, path);
}

/** What a chord can be held with. */
interface Choice {
  readonly kind: 'choice';
  readonly fingerings: readonly Fingering[];
  readonly hands: readonly PlacedHand[];
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
    if (!known.has(key)) known.set(key, choiceOf(instrument, chord, hand, options));
  }
  const hands = [...known.values()].flatMap((choice) => (choice.kind === 'choice' ? choice.hands : []));
  const positions = [...new Set(hands.flatMap(({ positionFret }) => positionFret ?? []))].sort((a, b) => a - b);
  for (const [key, choice] of known) if (choice.kind === 'choice') known.set(key, withPositions(choice, positions));
  return keys.flatMap((key) => known.get(key) ?? []);
}

/**
 * A hand that presses nothing is still somewhere on the neck: it may be wherever one of the sequence's chords has it, or a jump would
 * cost nothing when open strings come between.
 */
function withPositions(choice: Choice, positions: readonly number[]): Choice {
  const [open] = choice.fingerings;
  if (open === undefined || open.presses.length > 0 || positions.length === 0) return choice;
  const [hand] = choice.hands;
  const hands = positions.flatMap((positionFret) => (hand === undefined ? [] : [{ ...hand, positionFret }]));
  const [way] = choice.layer;
  return {
    ...choice,
    hands,
    fingerings: positions.map(() => open),
    layer: positions.flatMap(() => way ?? []),
  };
}

function choiceOf(
  instrument: Instrument,
  { shape, given }: SequenceChord,
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
    if (fingering !== undefined && faults.length === 0) return choiceFrom(instrument, [fingering]);
    const tooWide = faults.every(({ code }) => code === 'fingers.out-of-reach');
    return skipped(tooWide ? 'out-of-reach' : 'given-fingers', faults.map(({ message }) => message).join(' '));
  }
  const all = fingeringsOf(instrument, shape, hand, options);
  const [first] = all;
  if (first === undefined) {
    return skipped('too-few-fingers', `Four fingers are not enough for ${printShape(shape)}, however they lie.`);
  }
  const holdable = all.filter(({ verdict }) => verdict !== 'out-of-reach');
  if (holdable.length > 0) return choiceFrom(instrument, holdable);
  const reach = first.widest === undefined ? '' : `${tellReach(first.widest, hand)} `;
  return skipped('out-of-reach', `${reach}${CAUTION_ON_STRETCH}`);
}

function choiceFrom(instrument: Instrument, fingerings: readonly Fingering[]): Choice {
  const layer = fingerings.map(({ cost, verdict }) => ({ effort: cost.total, warns: verdict === 'stretched' }));
  return { kind: 'choice', fingerings, hands: fingerings.map((one) => placedHand(instrument, one)), layer };
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

/** Every change between two choices, worked out once. */
function arcsBetween(): (from: Choice, to: Choice) => Arcs {
  const known = new Map<Choice, Map<Choice, Arcs>>();
  return (from, to) => {
    const after = known.get(from) ?? new Map<Choice, Arcs>();
    known.set(from, after);
    const arcs = after.get(to) ?? arcsOf(from, to);
    after.set(to, arcs);
    return arcs;
  };
}

function arcsOf(from: Choice, to: Choice): Arcs {
  const width = to.hands.length;
  const effort = new Float64Array(from.hands.length * width);
  const neededSeconds = new Float64Array(effort.length);
  for (const [row, before] of from.hands.entries()) {
    for (const [column, after] of to.hands.entries()) {
      const change = changeOf(before, after);
      effort[row * width + column] = change.cost.total;
      neededSeconds[row * width + column] = neededSecondsFor(change);
    }
  }
  return { effort, neededSeconds };
}

function told(
  chords: readonly SequenceChord[],
  choices: readonly (Choice | SkippedChord)[],
  stations: readonly Station[],
  { picks, warnings, effort }: Path,
): FingeredSequence {
  const pickAt = new Map(stations.map(({ at }, place) => [at, picks[place] ?? 0]));
  const changes = stations.flatMap(({ at, choice, next, seconds }): readonly SequenceChange[] => {
    const before = choice.hands[pickAt.get(at) ?? 0];
    const after = next?.choice.hands[pickAt.get(next.at) ?? 0];
    if (next === undefined || before === undefined || after === undefined) return [];
    const change = changeOf(before, after);
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
