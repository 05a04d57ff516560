import { difficultyOfShape } from '../../hand/difficulty.ts';
import { waysToHold } from '../../hand/kept-fingerings.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import { printPoints } from '../../hand/tell-difficulty.ts';
import { capoToMatch, tellCapo } from '../../neck/capo-to-match.ts';
import { printShape } from '../../neck/shape.ts';
import type { Fix } from '../../text/problem.ts';
import { keyMovedBy } from '../../theory/moved-key.ts';
import { resolveChord } from '../model/chords.ts';
import { keyOfLesson } from '../model/key-of-lesson.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { AlsoStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import type { Report } from './finding.ts';

/** So much harder than the lesson's hardest shape may the hardest of an edition be before another way is offered. Unit: points. */
const MUCH_HARDER = 1;

/**
 * Where the shapes that keep the key on an edition are much harder than the lesson's own, and a capo would keep it with the lesson's
 * own shapes: the line that makes the edition offers it, with the sum. Shapes are compared, and not what exercises make of them: that
 * would ask all of the lesson anew at every key.
 */
export function checkOtherCapo(
  report: Report,
  own: Scope,
  edition: Scope,
  names: readonly ChordName[],
  { value, keepsWord }: AlsoStatement,
): void {
  const { instrument, name } = edition.edition();
  const capo = capoToMatch(edition.ownInstrument(), instrument);
  if (capo === undefined || value === undefined || keepsWord === undefined) return;
  const [here, there] = [hardestOf(own, names), hardestOf(edition, names)];
  if (here === undefined || there === undefined || there.points <= here.points + MUCH_HARDER) return;
  const key = keyMovedBy(keyOfLesson(own), -capo);
  const compared = `${there.chord.text} is ${printShape(there.chord.shape)}, about ${printPoints(there.points)} of 10, and the lesson's own hardest, ${here.chord.text}, about ${printPoints(here.points)}`;
  const message = `The shapes that keep the key there are harder, by estimate: ${compared}. A capo keeps it with the lesson's own shapes. ${tellCapo(key, capo)} ${CAUTION_IN_SHORT}`;
  const fix: Fix = {
    title: `Keep the shapes, with a capo at fret ${capo}`,
    edits: [
      { span: { start: value.span.end, end: value.span.end }, text: `, capo ${capo}` },
      { span: keepsWord.span, text: 'same shapes' },
    ],
  };
  report('hint', 'capo.keeps-key', value.span, message, [fix], { edition: name });
}

interface Hardest {
  readonly chord: ResolvedChord;
  /** Difficulty of the shape by itself. */
  readonly points: number;
}

function hardestOf(scope: Scope, names: readonly ChordName[]): Hardest | undefined {
  const { instrument } = scope.edition();
  const hand = scope.setting('hand');
  let hardest: Hardest | undefined;
  for (const name of names) {
    const chord = resolveChord(scope, name);
    const [best] = chord === undefined ? [] : waysToHold(instrument, chord.shape, hand);
    if (chord === undefined || best === undefined) continue;
    const points = difficultyOfShape(best).total;
    if (hardest === undefined || points > hardest.points) hardest = { chord, points };
  }
  return hardest;
}
