import type { Key } from '../../theory/key.ts';
import { keyOfChords } from '../../voicing/tune/key-of-chords.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { Scope } from './scope.ts';

/** The key that the lesson gives, or the one that most of its chords belong to. */
export function keyOfLesson(scope: Scope): Key {
  const key = scope.setting('key');
  if (key !== undefined) return key;
  const names = scope.names('chord').split('\n');
  return keyOfChords(
    names.flatMap((text) => readChordName({ text, span: { start: 0, end: text.length } }).symbol ?? []),
  );
}
