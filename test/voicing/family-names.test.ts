import { Chord, Note } from 'tonal';
import { expect, test } from 'vitest';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import { chordTones } from '../../shared/theory/chord-symbol.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import { BARITONE, HIGH_G, LOW_G } from '../neck/playing.ts';
import { chord } from '../theory/reading.ts';
import { type Asking, familiesFor } from './family-asking.ts';

// The names of all shapes that families of our own are made of, against the library tonal 6.4.3, which names notes without knowing
// what stands around them. Where it has a name that is complete and on its root, that of the family is among those it offers.

const ASKED: readonly (readonly [string, Asking])[] = [
  ['Dm Em Gm Am Cm', { ring: [1], within: [0, 12], allow: 'add9 add11 6 7' }],
  ['D A Bm G', { ring: [1], within: [0, 12], allow: 'add9 6 7 maj7 sus2 sus4', key: 'D major' }],
  ['Em C G D', { on: BARITONE, ring: [1, 2], within: [0, 10], allow: 'add9 6 6/9 maj7 sus2', key: 'E minor' }],
  ['Dm C Bb A7 Gm', { on: LOW_G, ring: [1], within: [0, 12], allow: '6 6/9 maj7 7 add11', key: 'D minor' }],
  ['C Am F G', { within: [0, 7], allow: '6 maj7 7 add9', key: 'C major' }],
];

interface Named {
  readonly as: string;
  readonly notes: readonly string[];
}

const named: readonly Named[] = ASKED.flatMap(([chords, asking]) =>
  familiesFor(chords, { ...asking, count: 8 }).flatMap((family) =>
    family.chords.map(({ as, shape }) => {
      const heard = soundingMidi(asking.on ?? HIGH_G, shape).flatMap((midi) => midi ?? []);
      return { as, notes: [...heard].sort((a, b) => a - b).map((midi) => Note.pitchClass(Note.fromMidi(midi))) };
    }),
  ),
);

/** Shapes whose name promises more than four strings sound: tonal looks for names that are complete. */
const isComplete = ({ as, notes }: Named) => {
  const sounds = new Set(notes.map((note) => Note.chroma(note)));
  return chordTones(chord(as)).every(({ note }) => sounds.has(pitchClass(note)));
};

const kindOf = (as: string) => as.replace(/^[A-G][b#]?/, '');

test('there are enough names to compare', () => {
  expect(named.filter(isComplete).length).toBeGreaterThan(60);
});

test('a complete name of a family is one that tonal offers for the notes, wherever it offers any on that root', () => {
  const disagreements = named.filter(isComplete).flatMap(({ as, notes }) => {
    const root = pitchClass(chord(as).root);
    const offered = Chord.detect([...new Set(notes)]).filter(
      (name) => Note.chroma(Chord.get(name).tonic ?? '') === root,
    );
    const own = [...new Set(chordTones(chord(as)).map(({ note }) => pitchClass(note)))].sort().join();
    const same = offered.some(
      (name) =>
        [...new Set(Chord.get(name.split('/')[0] ?? '').notes.map((note) => Note.chroma(note)))].sort().join() === own,
    );
    return offered.length === 0 || same ? [] : [`${as}: ${offered.join(', ')}`];
  });
  expect(disagreements).toEqual([]);
});

test('where tonal has no name on the root, the kind is one of few that its dictionary lacks', () => {
  const without = named.filter(isComplete).filter(({ as, notes }) => {
    const root = pitchClass(chord(as).root);
    return !Chord.detect([...new Set(notes)]).some((name) => Note.chroma(Chord.get(name).tonic ?? '') === root);
  });
  // A sixth on top of a suspended second: its dictionary names these notes on the fifth alone, as a ninth with a fourth.
  expect([...new Set(without.map(({ as }) => kindOf(as)))].sort()).toEqual(['sus2(add6)']);
});
