import { hurryOf } from '../../hand/change-speed.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import type { SequenceChange } from '../../hand/sequence.ts';
import { tellChange, tellTightest } from '../../hand/tell-change.ts';
import { listed } from '../../text/counted.ts';
import type { Fix } from '../../text/problem.ts';
import type { FingeredStatement } from '../model/fingered-statement.ts';
import { greatestOf } from '../model/progression-sequence.ts';
import type { Scope } from '../model/scope.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import type { Tempo } from '../syntax/words.ts';
import type { Report } from './finding.ts';

/**
 * The changes of an exercise at its greatest tempo, with the fingers that leave the fewest of them too quick: one report for all that
 * still are, at the tempo, or where the exercise has none of its own, at what it plays.
 */
export function checkChanges(report: Report, scope: Scope, statement: ExerciseStatement): void {
  const tempo = statement.tempo?.tempo ?? scope.setting('tempo');
  const played = scope.fingered(statement);
  const span = statement.tempo?.span ?? statement.play?.span ?? statement.over?.span;
  if (tempo === undefined || played === undefined || span === undefined) return;
  // On a further edition a stretch is told where the shape is; that it also takes its time is the same cause.
  const isOwn = scope.edition().keeps === 'own';
  const quick = differentChanges(played).filter((change) => isOwn || !isStretched(played, change));
  const [worst, ...others] = [...quick].sort((one, other) => hurryIn(other) - hurryIn(one));
  if (worst === undefined) return;
  const also = others.map((change) => namesOf(played, change));
  const rest = also.length === 0 ? '' : ` Too quick as well: ${listed(also)}.`;
  report(
    'warning',
    'change.too-quick',
    span,
    `${tellTooQuick(scope, played, worst, tempo)}${rest} ${CAUTION_IN_SHORT}`,
    slower(statement, tempo, hurryIn(worst)),
    { about: quick.map((change) => chordsOf(played, change)) },
  );
}

function isStretched({ fingered }: FingeredStatement, { from, to }: SequenceChange): boolean {
  return [fingered.chords[from], fingered.chords[to]].some(
    (chord) => chord?.kind === 'held' && chord.fingering.verdict === 'stretched',
  );
}

/** Changes between the same two chords are one, told where there is least time for them. */
function differentChanges(played: FingeredStatement): readonly SequenceChange[] {
  const byNames = new Map<string, SequenceChange>();
  for (const change of played.fingered.changes) {
    if (change.speed?.verdict !== 'too-quick') continue;
    const names = chordsOf(played, change);
    const known = byNames.get(names);
    if (known === undefined || hurryIn(change) > hurryIn(known)) byNames.set(names, change);
  }
  return [...byNames.values()];
}

/** Share of the time there is that the change needs. */
function hurryIn({ speed }: SequenceChange): number {
  return speed === undefined ? 0 : hurryOf(speed.neededSeconds, speed.seconds);
}

/** `C to G7 (bar 3)` */
function namesOf(played: FingeredStatement, change: SequenceChange): string {
  const bar = played.chords[change.to]?.bar;
  return `${chordsOf(played, change)}${bar === undefined ? '' : ` (bar ${bar})`}`;
}

function chordsOf({ chords }: FingeredStatement, { from, to }: SequenceChange): string {
  return `${chords[from]?.chord.text ?? ''} to ${chords[to]?.chord.text ?? ''}`;
}

function tellTooQuick(scope: Scope, played: FingeredStatement, worst: SequenceChange, tempo: Tempo): string {
  const { speed, change } = worst;
  const needed = speed?.neededSeconds.toFixed(2);
  const given = speed?.seconds.toFixed(2);
  const strings = scope.edition().instrument.openStrings.length;
  const who = speed?.tightest === undefined ? '' : ` for ${tellTightest(speed.tightest, strings)}`;
  return `${namesOf(played, worst)} at ${greatestOf(tempo)} beats a minute: there are ${given} s${who}, and a practised hand needs about ${needed} s, by estimate. ${tellChange(change, strings)}`;
}

/** Below this nobody sets a metronome; then the shapes are what has to change. Unit: beats a minute. */
const SLOWEST_OFFERED = 20;

/** The greatest tempo that leaves time for every change with the same fingers. */
function slower(statement: ExerciseStatement, tempo: Tempo, hurry: number): readonly Fix[] {
  const { play, over, tempo: own } = statement;
  const greatest = Math.floor(greatestOf(tempo) / hurry);
  if (greatest < SLOWEST_OFFERED) return [];
  const text = printSlower(tempo, greatest);
  if (own !== undefined) return [{ title: `Slow down to ${text}`, edits: [{ span: own.span, text }] }];
  const end = (play ?? over)?.span.end;
  if (end === undefined) return [];
  return [
    {
      title: `Give this exercise a tempo of its own: ${text}`,
      edits: [{ span: { start: end, end }, text: `\n  tempo  ${text}` }],
    },
  ];
}

const UNITS: Readonly<Record<number, string>> = { 2: ' halves', 4: ' quarters', 8: ' eighths', 16: ' sixteenths' };

/** The same way up, as far as the greatest tempo allows. */
function printSlower({ from, by, everyPasses, unit }: Tempo, greatest: number): string {
  const counted = unit === undefined ? '' : (UNITS[unit] ?? '');
  if (from >= greatest) return `${greatest}${counted}`;
  // The way up ends on one of its steps.
  const last = by === undefined ? greatest : greatest - ((greatest - from) % by);
  if (from === last) return `${from}${counted}`;
  const steps = by === undefined ? '' : ` by ${by}`;
  const every = everyPasses === undefined ? '' : ` every ${everyPasses}`;
  return `${from} to ${last}${steps}${every}${counted}`;
}
