import { CHORD_STYLES, type ChordStyleName } from '../shared/theory/chord-style.ts';
import { readFields, readText } from './protocol/read.ts';

/** The style of chord names in the settings that an editor sends, `{ chordNames: 'symbols' }`; the plain one where they say nothing we know. */
export function readChordStyle(settings: unknown): ChordStyleName {
  const named = readText(readFields(settings)?.chordNames);
  return named !== undefined && isStyle(named) ? named : 'plain';
}

function isStyle(name: string): name is ChordStyleName {
  return Object.hasOwn(CHORD_STYLES, name);
}
