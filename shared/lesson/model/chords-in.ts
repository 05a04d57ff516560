import type { ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';

/** Every chord of a progression in the order it is written. */
export function chordsIn(progression: ProgressionStatement): readonly ChordName[] {
  return progression.lines.flatMap((line) =>
    line.bars.flatMap((bar) => bar.items.flatMap((item) => (item.kind === 'chord' ? [item.chord] : []))),
  );
}
