import type { Instrument } from '../neck/instrument.ts';
import { printShape } from '../neck/shape.ts';
import { type PlacedHands, placedHands } from './change-arcs.ts';
import { placedHand } from './change-between.ts';
import { FINGERING_WEIGHT } from './change-table.ts';
import type { Fingering } from './fingering.ts';
import { fingeringsOf } from './fingering-search.ts';
import { judgeFingers } from './given-fingers.ts';
import type { HandSize } from './hand.ts';
import { CAUTION_ON_STRETCH } from './reach.ts';
import type { SequenceChord, SequenceOptions, SkippedChord } from './sequence.ts';
import type { Layer } from './sequence-path.ts';
import { tellReach } from './tell-fingering.ts';

/** What a chord can be held with. */
export interface Choice {
  readonly kind: 'choice';
  /** Equal for chords that have the same choice. */
  readonly key: string;
  /** As many as ways; best first. */
  readonly fingerings: readonly Fingering[];
  readonly ways: PlacedHands;
  readonly layer: Layer;
}

/** For each chord, all that it can be held with, or why it cannot. Equal shapes with equal given fingers are looked at once. */
export function choicesOf(
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
  const placed = [...known.values()].flatMap((choice) => (choice.kind === 'choice' ? choice.ways.positions : []));
  const positions = [...new Set(placed.flatMap((fret) => fret ?? []))].sort((a, b) => a - b);
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
  const ways = placedHands(positions.map((positionFret) => ({ presses: [], positionFret })));
  const layer = positions.map(() => ({ effort: FINGERING_WEIGHT * open.cost.total, stretched: false }));
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
  const layer = fingerings.map(({ cost, verdict }) => ({
    effort: FINGERING_WEIGHT * cost.total,
    stretched: verdict === 'stretched',
  }));
  return {
    kind: 'choice',
    key,
    fingerings,
    ways: placedHands(fingerings.map(({ presses }) => placedHand(presses))),
    layer,
  };
}
