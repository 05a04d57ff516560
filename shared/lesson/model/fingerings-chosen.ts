import type { Fingering } from '../../hand/fingering.ts';
import { fingersOfSequence, sameWay } from '../../hand/kept-fingerings.ts';
import type { ProgressionStatement } from '../syntax/statement.ts';
import type { Edition } from './lesson.ts';
import { writtenChords } from './progression-sequence.ts';
import type { Scope } from './scope.ts';

type Chosen = ReadonlyMap<string, Fingering>;

// An edition is made anew with every document, so that what is kept for one never outlives the text it was read from.
const kept = new WeakMap<Edition, Map<ProgressionStatement, Chosen>>();

/** The fingers of a chord, as written, in the first progression that uses it, which is given; those of its first use there. */
export function chosenFor(
  scope: Scope,
  text: string,
  progression: ProgressionStatement | undefined,
): Fingering | undefined {
  if (progression === undefined) return undefined;
  const edition = scope.edition();
  const known = kept.get(edition) ?? new Map<ProgressionStatement, Chosen>();
  kept.set(edition, known);
  const chosen = known.get(progression) ?? chosenIn(scope, progression);
  known.set(progression, chosen);
  return chosen.get(text);
}

function chosenIn(scope: Scope, progression: ProgressionStatement): Chosen {
  const { instrument } = scope.edition();
  const hand = scope.setting('hand');
  const written = writtenChords(scope, progression);
  const sequence = written.map((each) => each.sequence);
  const { chords } = fingersOfSequence(instrument, sequence, hand, false);
  const chosen = new Map<string, Fingering>();
  for (const [at, { chord }] of written.entries()) {
    const held = chords[at];
    if (held?.kind !== 'held' || chosen.has(chord.text)) continue;
    const same = sameWay(instrument, chord.shape, hand, held.fingering.fingers);
    if (same !== undefined) chosen.set(chord.text, same);
  }
  return chosen;
}
