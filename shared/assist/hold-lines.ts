import { isHeldWith } from '../engrave/diagram-fingers.ts';
import { difficultyOfShape } from '../hand/difficulty.ts';
import { MOST_DIFFICULT } from '../hand/difficulty-table.ts';
import { fingerList } from '../hand/finger.ts';
import type { Fingering, PairReach } from '../hand/fingering.ts';
import { judgeFingers } from '../hand/given-fingers.ts';
import { describeHand, HAND_NAMES, type HandSize } from '../hand/hand.ts';
import { CAUTION_ON_STRETCH, type ReachVerdict } from '../hand/reach.ts';
import { tellDifficulty, tellParts } from '../hand/tell-difficulty.ts';
import { tellApart, tellFingering } from '../hand/tell-fingering.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import { capitalised } from '../text/capital.ts';
import { usualFingering } from '../voicing/playable.ts';
import { code } from './markdown.ts';

/** A shape in the hand. */
export interface HoldQuestion {
  /** With its capo. */
  readonly instrument: Instrument;
  readonly shape: Shape;
  readonly hand: HandSize;
  /** The lesson's own fingers; 0 for a string without one. */
  readonly given?: readonly (number | 'T')[];
  /** How this hand holds it; absent where it cannot. */
  readonly fingering: Fingering | undefined;
}

/**
 * What must be seen at a glance: whether the hand holds the shape, how hard it is, and the caution that belongs to both. An editor
 * shows the head of a card alone until it is scrolled. Nothing for open strings.
 */
export function holdHead({ fingering, hand }: HoldQuestion): readonly string[] {
  if (fingering === undefined) return [`Four fingers of ${describeHand(hand)} cannot stop this.`, CAUTION];
  if (fingering.presses.length === 0) return [];
  const whose = fingering.verdict === 'comfortable' ? '' : ` for ${describeHand(hand)}`;
  const verdict = VERDICTS[fingering.verdict];
  const points =
    fingering.verdict === 'out-of-reach' ? '' : `; difficulty ${tellDifficulty(difficultyOfShape(fingering))}`;
  return [`${capitalised(verdict)}${whose}${points}.`, CAUTION];
}

/** How a shape is held, as one paragraph of Markdown with a line for each: fingers, reach and whose hand has it, difficulty. */
export function holdText(question: HoldQuestion): string {
  const { fingering, hand } = question;
  if (fingering === undefined) return `Fingers: four of ${describeHand(hand)} cannot stop this.${otherHands(question)}`;
  if (fingering.presses.length === 0) return tellFingering(fingering, hand);
  const { widest } = fingering;
  return lines(
    fingersLine(question, fingering),
    ...(widest === undefined ? [] : [`${reachLine(widest, hand)}${otherHands(question)}`]),
    difficultyLine(fingering),
  );
}

/** Lines that stand close under each other: two blanks at an end break a line in Markdown. */
export function lines(...texts: readonly string[]): string {
  return texts.join('  \n');
}

const CAUTION = `Estimates for a typical hand. ${CAUTION_ON_STRETCH}`;

function fingersLine({ given, hand }: HoldQuestion, fingering: Fingering): string {
  const printed = code(printFingers(fingering));
  // How far the fingers are apart is told in a line of its own.
  const told = tellFingering(
    { ...fingering, reasons: fingering.reasons.filter(({ kind }) => kind !== 'stretch') },
    hand,
  );
  if (given === undefined) {
    return `Fingers: ${printed}, ${fingering.verdict === 'out-of-reach' ? 'at best' : 'a suggestion'}. ${told}`;
  }
  if (isHeldWith(fingering, given)) return `Fingers: ${printed}. ${told}`;
  const instead = fingering.verdict === 'out-of-reach' ? '' : `; ${printed} would`;
  return `Fingers: those of the lesson do not work${instead}. ${told}`;
}

/** `0-3-2-1`, as a lesson writes it. */
export function printFingers({ fingers }: Fingering): string {
  return fingers.map((finger) => finger ?? 0).join('-');
}

const VERDICTS: Readonly<Record<ReachVerdict, string>> = {
  comfortable: 'at ease',
  stretched: 'a stretch',
  'out-of-reach': 'out of reach',
};

/** `Reach: index and little finger 42 mm apart; at ease for a medium hand (up to 73 mm).` */
function reachLine(reach: PairReach, hand: HandSize): string {
  const { pair, limit, verdict } = reach;
  const comfortable = `up to ${Math.round(limit.comfortableMm)} mm`;
  const greatest = `about ${Math.round(limit.greatestMm)} mm at most`;
  const has = {
    comfortable,
    stretched: `at ease ${comfortable}, ${greatest}`,
    'out-of-reach': greatest,
  }[verdict];
  return `Reach: ${fingerList(pair)} ${tellApart(reach)}; ${VERDICTS[verdict]} for ${describeHand(hand)} (${has}).`;
}

function difficultyLine(fingering: Fingering): string {
  const difficulty = difficultyOfShape(fingering);
  // Out of reach is as hard as it gets, whatever its parts.
  if (fingering.verdict === 'out-of-reach') return `Difficulty: ${MOST_DIFFICULT} of ${MOST_DIFFICULT} for this hand.`;
  const parts = tellParts(difficulty);
  return `Difficulty: ${tellDifficulty(difficulty)}${parts === undefined ? '' : ` (${parts})`}.`;
}

/** ` A medium and a large hand: at ease; a child's hand: out of reach.` Nothing where all hands are alike in this. */
function otherHands(question: HoldQuestion): string {
  const own = question.fingering?.verdict;
  const hands = new Map<ReachVerdict | undefined, string[]>();
  for (const name of HAND_NAMES) {
    const verdict = verdictFor(question, name);
    if (name !== question.hand && verdict !== own)
      hands.set(verdict, [...(hands.get(verdict) ?? []), describeHand(name)]);
  }
  if (hands.size === 0) return '';
  const told = [...hands].map(
    ([verdict, names]) =>
      `${names.join(' and ').replace(' hand and a ', ' and a ')}: ${verdict === undefined ? 'cannot stop it' : VERDICTS[verdict]}`,
  );
  return ` ${capitalised(told.join('; '))}.`;
}

/** What the shape is to another hand: with the lesson's fingers where they work, else held as that hand likes best. */
function verdictFor({ instrument, shape, given, fingering }: HoldQuestion, hand: HandSize): ReachVerdict | undefined {
  const placed =
    given !== undefined && fingering !== undefined && isHeldWith(fingering, given)
      ? judgeFingers(instrument, shape, given, hand).fingering
      : undefined;
  return (placed ?? usualFingering(instrument, shape, hand))?.verdict;
}
