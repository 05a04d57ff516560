import { CAUTION_ON_STRETCH } from '../../hand/reach.ts';
import { printPoints } from '../../hand/tell-difficulty.ts';
import { capoToMatch, tellCapo } from '../../neck/capo-to-match.ts';
import type { Fix } from '../../text/problem.ts';
import { keyMovedBy } from '../../theory/moved-key.ts';
import { lessonDifficulty } from '../model/fingerings.ts';
import { keyOfLesson } from '../model/key-of-lesson.ts';
import type { Scope } from '../model/scope.ts';
import type { AlsoStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';

/** So much harder than the lesson's own may the shapes of an edition be before another way is offered. Unit: points. */
const MUCH_HARDER = 1;

/**
 * Where the shapes that keep the key on an edition are much harder than the lesson's own, and a capo would keep it with the lesson's
 * own shapes: the line that makes the edition offers it, with the sum.
 */
export function checkOtherCapo(report: Report, own: Scope, edition: Scope, { value, keepsWord }: AlsoStatement): void {
  const { instrument, name } = edition.edition();
  const capo = capoToMatch(edition.ownInstrument(), instrument);
  if (capo === undefined || value === undefined || keepsWord === undefined) return;
  const [here, there] = [lessonDifficulty(own), lessonDifficulty(edition)];
  if (here === undefined || there === undefined || there.total <= here.total + MUCH_HARDER) return;
  const key = keyMovedBy(keyOfLesson(own), -capo);
  const compared = `about ${printPoints(there.total)} of 10 against ${printPoints(here.total)}`;
  const message = `The shapes that keep the key there are harder than the lesson's own, ${compared}, by estimate. A capo keeps it with the same shapes: ${tellCapo(key, capo)} ${CAUTION_ON_STRETCH}`;
  const fix: Fix = {
    title: `Keep the shapes, with a capo at fret ${capo}`,
    edits: [
      { span: { start: value.span.end, end: value.span.end }, text: `, capo ${capo}` },
      { span: keepsWord.span, text: 'same shapes' },
    ],
  };
  report('hint', 'capo.keeps-key', value.span, message, [fix], name);
}
