import { type Difficulty, difficultyOfShape, levelWord } from '../../hand/difficulty.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import { tellFingering } from '../../hand/tell-fingering.ts';
import type { Shape } from '../../neck/shape.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';
import { compareVerdicts, type HeldOnEdition, type HoldVerdict, heldOnEditions } from './held-on-editions.ts';
import { reachFixes } from './reach-fixes.ts';
import { placeOf, tellHeld } from './tell-held.ts';

/** From here on a shape is hard, even where it is at ease. Unit: points. Common practice, no source: about the guitar's full F. */
const HARD_FROM = 5;

const CODES = {
  stretched: 'reach.stretched',
  'out-of-reach': 'reach.too-far',
  'too-few-fingers': 'reach.too-few-fingers',
} as const;

/** The shape of a `chord` line in the lesson's hand, on every edition that holds it: one report for all of them. */
export function checkReach(report: Report, scope: Scope, shape: Shape, statement: ChordStatement): void {
  const [own, ...others] = heldOnEditions(scope, shape, statement);
  if (own === undefined) return;
  const span = (statement.frets ?? statement).span;
  const worst = others.reduce(
    (hardest, held) => (compareVerdicts(held.verdict, hardest.verdict) > 0 ? held : hardest),
    own,
  );
  const code = codeOf(worst.verdict);
  if (code === undefined) {
    const hard = [own, ...others].find((held) => isHard(scope, held));
    if (hard !== undefined) reportHard(report, hard, span);
    return;
  }
  const symbol = (statement.as ?? statement.chord)?.symbol;
  // From the name on, so that the ways out are offered there as well.
  const whole = { start: statement.chord?.span.start ?? span.start, end: span.end };
  const rest = [own, ...others].filter((held) => held !== worst);
  report(
    'warning',
    code,
    whole,
    tellHeld(worst, rest),
    reachFixes([own, ...others], statement, symbol),
    onEdition(worst),
  );
}

/** What a verdict is called where it is reported; nothing for what is at ease. */
export function codeOf(verdict: HoldVerdict): (typeof CODES)[keyof typeof CODES] | undefined {
  return verdict === 'comfortable' ? undefined : CODES[verdict];
}

/** What can be played, but not by everybody: more than the lesson's level says, or two fingers flat at once. */
function isHard(scope: Scope, { fingering }: HeldOnEdition): boolean {
  if (fingering === undefined) return false;
  const difficulty = difficultyOfShape(fingering);
  const barres = fingering.presses.filter(({ from, to }) => from !== to).length;
  const level = scope.setting('level') ?? 0;
  return difficulty.total > level && (difficulty.total >= HARD_FROM || barres > 1);
}

function reportHard(report: Report, held: HeldOnEdition, span: ChordStatement['span']): void {
  const { fingering, hand, edition } = held;
  if (fingering === undefined) return;
  const where = edition === undefined ? '' : ` ${placeOf(held)}`;
  const told = `Hard to hold${where}, ${tellPoints(difficultyOfShape(fingering))}: ${tellFingering(fingering, hand)}`;
  report('hint', 'shape.hard', span, `${told} ${CAUTION_IN_SHORT}`, [], onEdition(held));
}

/** The further edition on which it is so held. */
export function onEdition({ edition }: HeldOnEdition): { readonly edition?: string } {
  return edition === undefined ? {} : { edition };
}

/** `about 6.2 of 10 (advanced)` */
function tellPoints({ total }: Difficulty): string {
  return `about ${total.toFixed(1)} of 10 (${levelWord(total)})`;
}
