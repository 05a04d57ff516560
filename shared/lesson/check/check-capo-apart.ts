import { capoToJoin, tellCapo } from '../../neck/capo-to-match.ts';
import type { Fix } from '../../text/problem.ts';
import { type Key, printKey } from '../../theory/key.ts';
import { keyOfLesson } from '../model/key-of-lesson.ts';
import type { Scope } from '../model/scope.ts';
import type { AlsoStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';

/**
 * An edition in the same key has the lesson's names, and those are of the shapes in the hand: where one instrument has a capo and the
 * other has none, or another, the two sound apart. Nobody sees that on either sheet, so the line that makes the edition says it, with
 * the sum and the capo that brings them together.
 */
export function checkCapoApart(report: Report, own: Scope, edition: Scope, { value }: AlsoStatement): void {
  const [here, there] = [own.edition().instrument, edition.edition().instrument];
  const apart = there.capoFret - here.capoFret;
  if (value === undefined || apart === 0) return;
  const key = keyOfLesson(own);
  const steps = `${Math.abs(apart)} half ${Math.abs(apart) === 1 ? 'step' : 'steps'} ${apart > 0 ? 'higher' : 'lower'}`;
  const together = capoToJoin(here, there);
  const way =
    together === undefined
      ? ''
      : ` ${together === 0 ? 'Without a capo' : `With capo ${together}`} it sounds with the others.`;
  const message = `The lesson's own: ${tellSounding(key, here.capoFret)} There: ${tellSounding(key, there.capoFret)} The same names sound ${steps} there.${way}`;
  // A capo in the edition's block goes before the one of its line.
  const fixes =
    together === undefined || edition.edition().block?.statement.capo !== undefined ? [] : [fixFor(value, together)];
  report('warning', 'capo.apart', value.span, message, fixes, { edition: edition.edition().name });
}

/** `Shapes of G major with capo 2 sound in A major: G + 2 = A.`, `Shapes of G major sound in G major.` */
function tellSounding(key: Key, capo: number): string {
  return capo === 0 ? `Shapes of ${printKey(key)} sound in ${printKey(key)}.` : tellCapo(key, capo);
}

function fixFor({ text, span }: NonNullable<AlsoStatement['value']>, capo: number): Fix {
  const written = /,?\s*\bcapo\s+\d+/i;
  const title = capo === 0 ? 'Take the capo off there' : `Put a capo at fret ${capo} there`;
  const plain = text.replace(written, '');
  return { title, edits: [{ span, text: capo === 0 ? plain : `${plain}, capo ${capo}` }], preferred: true };
}
