import type { Question } from '../lesson/asked/question.ts';
import type { TuneStatement } from '../lesson/asked/tune-request.ts';
import { gridAtItsTimes } from '../lesson/model/grid.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { type Entry, readEntry } from '../lesson/syntax/read-entry.ts';
import type { Contour, ExerciseStatement, GridStatement } from '../lesson/syntax/statement.ts';
import { exerciseScore } from '../score/exercise-score.ts';
import { tellStrings } from '../voicing/family/why.ts';
import type { TuneProposals } from '../voicing/tune/propose-tune.ts';
import { printTune } from '../voicing/tune/tune-text.ts';

import type { SheetView } from './block.ts';
import type { KeptPieces } from './kept-pieces.ts';
import type { LegendSign } from './legend.ts';
import { type Draft, draft, wholeOf } from './sheet-draft.ts';
import type { DrawnCandidates } from './sheet-family.ts';
import { systemDrafts } from './sheet-systems.ts';

const GOES: Readonly<Record<Contour, string>> = {
  rise: 'that rises',
  fall: 'that falls',
  arch: 'that rises and comes back',
  answer: 'that calls and answers',
};

/** `A tune that rises inside the shapes of verse; strings 1 and 2 sound on as the shapes have them.` */
export function tellTuneRequest({ inside, contour, ring }: TuneStatement): string {
  const strings = ring?.ring.kind === 'strings' ? [...ring.ring.strings].sort((one, other) => one - other) : [];
  const alone =
    strings.length === 0
      ? ''
      : `; ${tellStrings(strings)} ${strings.length === 1 ? 'sounds on as the shapes have it' : 'sound on as the shapes have them'}`;
  return `A tune ${GOES[contour?.contour ?? 'arch']}, inside the shapes of ${inside.text}${alone}.`;
}

/** The tunes below each other: what each does, then its bars as they would be written, with the shapes over them. */
export function tuneCandidates(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  question: Question,
  found: Extract<TuneProposals, { readonly ok: true }>,
  pieces: KeptPieces,
): DrawnCandidates {
  const { statement } = entry;
  if (question.kind !== 'tune' || statement.kind !== 'melody' || statement.inside === undefined) {
    return { drafts: [], signs: [], stretches: false };
  }
  const source = wholeOf(entry);
  const signs = new Set<LegendSign>();
  const { tunes } = found;
  const drafts = tunes.flatMap(({ notes, why }, choice): readonly Draft[] => {
    const written = readEntry(printTune(NAME, question.request, notes));
    const systems = playedOver(scope, view, written, statement, pieces);
    for (const sign of systems.signs) signs.add(sign);
    const content = {
      kind: 'candidate',
      of: 'tune',
      choice,
      count: tunes.length,
      why,
      facts: [],
      drawings: [],
    } as const;
    return [
      draft('candidate', content, source, [source]),
      // What is only thought of stands nowhere yet: it all leads to the question.
      ...systems.drafts.map((one) => ({ ...one, source, places: one.places.map(() => source) })),
    ];
  });
  const stretches = tunes.some(({ notes }) => notes.some(({ way }) => way.verdict === 'stretched'));
  return { drafts, signs: [...signs], stretches };
}

/** What a tune is called that is not written yet. */
const NAME = 'tune-found';

/** The melody of an entry that is in no lesson, over a progression of the lesson. */
function playedOver(scope: Scope, view: SheetView, written: Entry, request: GridStatement, pieces: KeptPieces) {
  const { inside } = request;
  if (written.statement.kind !== 'melody' || inside === undefined) return { drafts: [], signs: [] };
  const melody: GridStatement = { ...written.statement, ...meterOf(request) };
  const { span } = inside;
  const own: Scope = {
    ...scope,
    grid: (kind, name) => (name === NAME ? (kind === 'melody' ? melody : undefined) : scope.grid(kind, name)),
    timed: (statement) => (statement === melody ? gridAtItsTimes(own, statement) : scope.timed(statement)),
    entryOf: (statement) => (statement === melody ? written : scope.entryOf(statement)),
  };
  const alone: ExerciseStatement = {
    kind: 'exercise',
    span,
    keyword: melody.keyword,
    play: { members: [{ names: [inside], times: 1, span }], span },
    with: [{ members: [{ names: [{ text: NAME, span }], times: 1, span }], span }],
    at: [],
    prose: [],
    ...meterOf(request),
  };
  const score = exerciseScore(own, written, alone);
  const systems = score.passes.map((pass) => systemDrafts(own, view, score, pass, true, pieces));
  return { drafts: systems.flatMap(({ drafts }) => drafts), signs: systems.flatMap(({ signs }) => signs) };
}

function meterOf({ meter }: GridStatement): Pick<ExerciseStatement, 'meter'> {
  return meter === undefined ? {} : { meter };
}
