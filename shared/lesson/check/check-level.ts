import type { Moment, SequenceDifficulty } from '../../hand/difficulty-of-sequence.ts';
import { MOST_DIFFICULT } from '../../hand/difficulty-table.ts';
import { describeHand } from '../../hand/hand.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import type { FingeredStatement } from '../model/fingered-statement.ts';
import { lessonSequences } from '../model/fingerings.ts';
import type { Scope } from '../model/scope.ts';
import type { LevelStatement } from '../syntax/statement.ts';
import { type Report, write } from './finding.ts';

/** A teacher's level may be so far from the estimate before anything is said. Unit: points. Source: the lesson's own scale. */
const MOST_APART = 2;

/** What the header says of the level, against what the shapes and changes of the exercises come to. */
export function checkLevel(report: Report, scope: Scope, statement: LevelStatement): void {
  const { level, value } = statement;
  if (level === undefined || value === undefined) return;
  const difficulty = scope.difficulty();
  if (difficulty === undefined || Math.abs(difficulty.total - level) <= MOST_APART) return;
  const number = /^\d+/.exec(value.text)?.[0] ?? value.text;
  const span = { start: value.span.start, end: value.span.start + number.length };
  const computed = String(Math.round(difficulty.total));
  report(
    'hint',
    'level.differs',
    span,
    tellDifference(scope, level, difficulty),
    write(span, computed, `Write level ${computed}`),
    { about: [difficulty.total > level ? 'harder' : 'easier'] },
  );
}

function tellDifference(scope: Scope, level: number, difficulty: SequenceDifficulty): string {
  const { total } = difficulty;
  const estimated = `about level ${Math.round(total)} of ${MOST_DIFFICULT}`;
  const { kind } = scope.edition().instrument;
  const whose = `${describeHand(scope.setting('hand'))} on ${kind === 'instrument' ? 'this' : 'the'} ${kind}`;
  const estimate = `by estimate the shapes and changes of this lesson come to ${estimated} for ${whose}`;
  const reason = difficulty.hardest === undefined ? '' : ` ${tellHardest(scope, difficulty.hardest, total > level)}`;
  return `You wrote level ${level}; ${estimate}.${reason} ${CAUTION_IN_SHORT}`;
}

function tellHardest(scope: Scope, moment: Moment, isHarder: boolean): string {
  const sequence = lessonSequences(scope)[moment.sequence];
  const what = sequence === undefined ? '' : tellPlace(sequence, moment);
  const why = tellParts(moment);
  return isHarder ? `The hardest is ${what}: ${why}.` : `Even the hardest, ${what}, is no harder than that.`;
}

/** `the change from C to G7 in “Stepping stones”` */
function tellPlace({ title, chords, fingered }: FingeredStatement, { kind, at }: Moment): string {
  const where = title === undefined ? '' : ` in “${title}”`;
  const name = chords[at]?.chord.text ?? '';
  if (kind !== 'change') return `${name}${where}`;
  const before = fingered.changes.find(({ to }) => to === at)?.from;
  return `the change from ${before === undefined ? '' : (chords[before]?.chord.text ?? '')} to ${name}${where}`;
}

const PART_WORDS = {
  reach: 'a wide reach',
  fingers: 'many fingers close together',
  barre: 'fingers laid flat',
  change: 'much to move',
  speed: 'little time',
} as const;

/** The parts that make most of it, the largest first: `little time and much to move`. */
function tellParts({ kind, difficulty }: Moment): string {
  if (kind === 'out-of-reach') return 'it is out of reach';
  const parts = (Object.keys(PART_WORDS) as (keyof typeof PART_WORDS)[])
    .map((part) => ({ part, points: difficulty.parts[part] }))
    .filter(({ points }) => points >= 0.5)
    .sort((one, other) => other.points - one.points)
    .slice(0, 2)
    .map(({ part }) => PART_WORDS[part]);
  return parts.length === 0 ? 'hardly anything' : parts.join(' and ');
}
