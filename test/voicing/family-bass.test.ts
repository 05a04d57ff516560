import { describe, expect, test } from 'vitest';
import { lowestSounding, soundingMidi } from '../../shared/neck/pitches.ts';
import { type ChordSymbol, chordTones, parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { parseKey } from '../../shared/theory/key.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import { readAllowance } from '../../shared/voicing/family/allowance.ts';
import { familiesOf } from '../../shared/voicing/family/families.ts';
import { instrument } from '../neck/playing.ts';

// On a guitar the lowest string says what the chord is. Common practice, no source: an added sixth over its own sixth is the seventh
// chord of the sixth, so G with E in the bass is an Em7, and Em over G beside a G is a G6.
const GUITAR = instrument('guitar');

describe('the lowest string of a guitar does not make a neighbour of the chord', () => {
  test.each([
    ['G Em C D', [1, 2], 'G major'],
    ['C Am F G', [1], 'C major'],
    ['D Bm G A', [1], 'D major'],
  ])('%s', (names, ring, inKey) => {
    const chords = names.split(' ').map(symbol);
    const key = parseKey(inKey);
    const allow = readAllowance(['add9', '6', 'maj7', '7', 'sus2', 'sus4']);
    if (!key.ok || !allow.ok) throw new Error('unreadable');
    const answer = familiesOf({ instrument: GUITAR, chords, ring, key: key.value, allow: allow.value, count: 1 });
    if (answer.kind === 'none') throw new Error(answer.reasons.join(' '));
    for (const { shape, chord } of answer.families[0]?.chords ?? []) {
      const bass = (lowestSounding(GUITAR, shape)?.midi ?? 0) % 12;
      const heard = new Set(soundingMidi(GUITAR, shape).flatMap((midi) => (midi === undefined ? [] : [midi % 12])));
      if (bass === pitchClass(chord.root)) continue;
      const whole = chords.filter(
        (other) => other !== chord && chordTones(other).every(({ note }) => heard.has(pitchClass(note))),
      );
      expect(whole, `${chord.text} as ${shape.join('-')}`).toEqual([]);
    }
  });
});

function symbol(text: string): ChordSymbol {
  const read = parseChordSymbol(text);
  if (!read.ok) throw new Error(read.problem.message);
  return read.value;
}
