import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { lowestSounding, stringsInOrder } from '../../neck/pitches.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import { listed } from '../../text/counted.ts';
import { type Note, pitchClass, printNote } from '../../theory/note.ts';
import { shapesFor } from '../../voicing/shapes.ts';
import { resolveChord } from '../model/chords.ts';
import type { Scope } from '../model/scope.ts';
import type { AlsoStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import { ABOUT_ITS_PLACE, type Report } from './finding.ts';

/**
 * Chords with a bass behind a stroke that an edition in the same key takes near the others, so that another note is lowest: where that
 * gives up a bass which the lesson's own shape has. Not where strings are re-entrant, since no note is heard as a bass there.
 */
export function checkMovedBass(
  report: Report,
  own: Scope,
  edition: Scope,
  names: readonly ChordName[],
  { value }: AlsoStatement,
): void {
  const { name, instrument } = edition.edition();
  const neck = neckAboveCapo(instrument);
  if (value === undefined || !stringsInOrder(neck)) return;
  const lost = names.flatMap((chord) => lostBass(own, edition, neck, chord));
  const [first] = lost;
  if (first === undefined) return;
  const taken = listed(
    lost.map(({ text, shape }, at) => `${text} ${at === 0 ? 'is taken ' : ''}as ${printShape(shape)}`),
  );
  const isNot =
    lost.length === 1 ? `${printNote(first.bass)} is not lowest` : 'the notes behind the strokes are not lowest';
  const lies = lost.flatMap(({ instead }) => (instead === undefined ? [] : [printShape(instead)]));
  const where =
    lies.length === 0 ? '' : ` With ${lost.length === 1 ? 'it' : 'them'} lowest there would be ${listed(lies)}.`;
  report(
    'hint',
    'edition.bass-elsewhere',
    value.span,
    `${taken} there, near the other chords: ${isNot}.${where} A chord line in edition ${name} gives another shape.`,
    [],
    { ...ABOUT_ITS_PLACE, edition: name },
  );
}

interface LostBass {
  readonly text: string;
  readonly bass: Note;
  readonly shape: Shape;
  /** The best shape that has the bass lowest; nothing where there is none. */
  readonly instead: Shape | undefined;
}

function lostBass(own: Scope, edition: Scope, neck: Instrument, name: ChordName): readonly LostBass[] {
  const [here, there] = [resolveChord(own, name), resolveChord(edition, name)];
  const bass = there?.symbol.bass;
  // What a line gives there is the teacher's.
  if (here === undefined || there === undefined || bass === undefined || (there.statement && !there.assumed)) return [];
  const isLowest = (on: Instrument, shape: Shape) => {
    const midi = lowestSounding(on, shape)?.midi;
    return midi !== undefined && midi % 12 === pitchClass(bass);
  };
  if (!isLowest(neckAboveCapo(own.edition().instrument), here.shape) || isLowest(neck, there.shape)) return [];
  const instead = shapesFor(there.symbol, neck).find(({ shape }) => isLowest(neck, shape))?.shape;
  return [{ text: name.text, bass, shape: there.shape, instead }];
}
