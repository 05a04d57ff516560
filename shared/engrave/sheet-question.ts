import { describeHand } from '../hand/hand.ts';
import { CAUTION_ON_STRETCH } from '../hand/reach.ts';
import type { Answer, Answers } from '../lesson/asked/answer.ts';
import { type AskedQuestion, asksSomething, type Question, questionIn } from '../lesson/asked/question.ts';
import type { Memo } from '../lesson/model/memo.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import { tellOtherChords } from '../voicing/family/other-chord.ts';
import { askedOnEditions } from './asked-on-editions.ts';
import type { SheetView } from './block.ts';
import type { KeptPieces } from './kept-pieces.ts';
import { type Draft, type Drawn, draft, plainDraft, wholeOf } from './sheet-draft.ts';
import { type DrawnCandidates, familyCandidates, tellFamilyRequest } from './sheet-family.ts';
import { proseDrafts } from './sheet-prose.ts';
import { tellTuneRequest, tuneCandidates } from './sheet-tune-request.ts';

/** What the drawing of a question may look up. */
export interface QuestionContext {
  readonly scope: Scope;
  readonly view: SheetView;
  readonly variant: string;
  readonly memo: Memo<Drawn>;
  readonly pieces: KeptPieces;
  readonly answers: Answers;
}

/**
 * A question that the lesson asks, with what was found side by side, each with the control that writes it, and in words what
 * editions in the same key have to it. It is the teacher's and of the lesson's own instrument: a page that is handed out and another
 * edition leave it out. For entries that ask something.
 */
export function drawQuestion(entry: Entry, context: QuestionContext): Drawn {
  const { scope, view, variant, memo, answers } = context;
  if (view.page !== undefined || scope.edition().keeps !== 'own') return { drafts: [], signs: [] };
  const asked = questionIn(scope, entry);
  const fault = entry.problems.find(({ severity }) => severity === 'error')?.message;
  if (asked === undefined || asked.kind === 'not-yet' || fault !== undefined) {
    const broken = fault ?? (asked?.kind === 'not-yet' ? asked.message : undefined);
    return { drafts: [plainDraft(entry, broken)], signs: [], ...(broken === undefined ? {} : { broken }) };
  }
  const answer = answers.get(asked.question);
  if (answer === undefined) return waiting(entry, asked);
  const elsewhere = askedOnEditions(scope, entry, answers);
  return memo.get(entry, scope, [variant, asked.question.key, ...elsewhere].join('\n'), (recorded) =>
    answered(entry, { ...context, scope: recorded }, asked, answer, elsewhere),
  );
}

type Asked = Extract<AskedQuestion, { readonly kind: 'question' }>;

function waiting(entry: Entry, { question }: Asked): Drawn {
  const broken = question.kind === 'family' ? 'Looking for shapes …' : 'Looking for tunes …';
  return { drafts: [headOf(entry, [broken])], signs: [], broken, waits: true };
}

function answered(
  entry: Entry,
  context: QuestionContext,
  { question }: Asked,
  answer: Answer,
  elsewhere: readonly string[],
): Drawn {
  const { scope, view } = context;
  const { statement } = entry;
  const prose = 'prose' in statement ? statement.prose.flatMap((one) => proseDrafts(scope, view, entry, one)) : [];
  const found = candidatesOf(entry, context, question, answer);
  const other =
    question.kind === 'family' ? tellOtherChords(neckAboveCapo(question.request.instrument), question.request) : [];
  if (!('drafts' in found)) return { drafts: [headOf(entry, [...other, ...found, ...elsewhere]), ...prose], signs: [] };
  const source = wholeOf(entry);
  const hand = describeHand(scope.setting('hand'));
  const text = `Fingers and difficulty are an estimate for ${hand}. ${CAUTION_ON_STRETCH}`;
  const caution = draft('note', { kind: 'note', text }, source, [source]);
  const unsettled = answer.kind === 'family' && answer.found.kind === 'families' && !answer.found.settled;
  const told = unsettled ? ['The search was given up for want of time: there may be better ones.'] : [];
  return {
    drafts: [headOf(entry, [...other, ...told, ...elsewhere]), ...found.drafts, caution, ...prose],
    signs: found.signs,
    ...(found.stretches ? { stretches: true } : {}),
  };
}

/** What was found, or in sentences why nothing was. */
function candidatesOf(
  entry: Entry,
  { scope, view, pieces }: QuestionContext,
  question: Question,
  answer: Answer,
): DrawnCandidates | readonly string[] {
  if (answer.kind === 'family') {
    return answer.found.kind === 'none' ? answer.found.reasons : familyCandidates(scope, view, entry, answer.found);
  }
  return answer.found.ok ? tuneCandidates(scope, view, entry, question, answer.found, pieces) : [answer.found.message];
}

/** What is asked, and what there is to say about it. */
function headOf(entry: Entry, told: readonly string[]): Draft {
  const { statement } = entry;
  const source = wholeOf(entry);
  const asks = !asksSomething(statement)
    ? ''
    : statement.kind === 'family'
      ? tellFamilyRequest(statement)
      : tellTuneRequest(statement);
  const title = 'name' in statement ? (statement.name?.text ?? '') : '';
  return draft('question', { kind: 'question', title: { text: title, place: 0 }, asks, told }, source, [source]);
}
