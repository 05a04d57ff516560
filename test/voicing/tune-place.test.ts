import { describe, expect, test } from 'vitest';
import { parseMeter } from '../../shared/theory/meter.ts';
import { printPitch } from '../../shared/theory/note.ts';
import { readGivenNotes } from '../../shared/voicing/tune/given-notes.ts';
import type { TuneGround } from '../../shared/voicing/tune/ground.ts';
import { waysInside } from '../../shared/voicing/tune/inside-way.ts';
import { placesOf } from '../../shared/voicing/tune/neck-range.ts';
import { type PlacedTune, placeTune } from '../../shared/voicing/tune/place-tune.ts';
import { readScale } from '../../shared/voicing/tune/scale.ts';
import { BARITONE, HIGH_G, instrument, LOW_G } from '../neck/playing.ts';
import { reading } from '../theory/reading.ts';
import { groundOf, held } from './tunes.ts';

function placed(written: string, notes: string, scale: string, more: Partial<TuneGround> = {}) {
  const ground = groundOf(written, { scale: reading(readScale(scale)), ...more });
  const given = reading(readGivenNotes(notes, ground));
  const found = placeTune({ ...ground, notes: given });
  if (!found.ok) throw new Error(found.message);
  return found;
}

/** `3:0 2:0 4:0 1:3` */
function places({ notes }: Extract<PlacedTune, { ok: true }>): string {
  return notes.map(({ string, fret }) => `${string}:${fret}`).join(' ');
}

describe('notes are put where they sound, whatever the order of the strings', () => {
  // Case: a high fourth string. C4 E4 G4 C5 over C are the open strings 3, 2, 4 and the fretted first one.
  test('a re-entrant ukulele plays C4 E4 G4 C5 on strings 3, 2, 4 and 1', () => {
    expect(places(placed('C:0003', 'C4 E4 G4 C5', 'C major'))).toBe('3:0 2:0 4:0 1:3');
  });

  test('with a low fourth string the same notes do without it in 5433, and G3 is string 4 open', () => {
    expect(places(placed('C:5433', 'C4 E4 G4 C5', 'C major', { instrument: LOW_G }))).toBe('4:5 3:4 2:3 1:3');
    expect(places(placed('C:0003', 'G3 C4', 'C major', { instrument: LOW_G }))).toBe('4:0 3:0');
  });

  test('the tune keeps its pitches on every neck that has them', () => {
    for (const neck of [HIGH_G, LOW_G, BARITONE, instrument('guitar')]) {
      const { notes } = placed('C F G7', 'E4 G4 C5 . | A4 F4 A4 . | G4 B4 D5 .', 'C major', { instrument: neck });
      expect(notes.map(({ pitch }) => printPitch(pitch)).join(' ')).toBe('E4 G4 C5 A4 F4 A4 G4 B4 D5');
      for (const { midi, stringIndex, fret } of notes) {
        expect(placesOf(neck, midi)).toContainEqual({ stringIndex, fret });
      }
    }
  });
});

describe('notes that the neck does not have', () => {
  // Case: a tune in C that begins G3 C4, on a ukulele with a high fourth string.
  test('three ways out: the low fourth string, another key, an octave up, which changes the tune', () => {
    const { nowhere, notes } = placed('C:0003', 'G3 C4', 'C major');
    expect(notes).toHaveLength(1);
    expect(nowhere.map(({ message }) => message)).toEqual([
      'G3 is lower than any note of the tenor ukulele, high G: its lowest is C4.',
    ]);
    expect(nowhere[0]?.waysOut).toEqual([
      'With the strings tuned low G, G3 is on string 4 open.',
      'Moved 5 frets up, with F for its home note, all of it is there: C4 F4; the chords move with it.',
      'An octave up it is G4, string 4 open; that changes the tune.',
    ]);
  });

  // The five notes that a low fourth string adds. Source: the pitches of the open strings G3 and C4.
  test.each(['G3', 'G#3', 'A3', 'Bb3', 'B3'])('%s needs a low fourth string', (note) => {
    const found = placed('C:0003', note, 'C major');
    expect(found.nowhere[0]?.waysOut[0]).toMatch(/tuned low G/);
    const low = placed('C:0003', note, 'C major', { instrument: LOW_G });
    expect(low.nowhere).toEqual([]);
    expect(low.notes[0]?.string).toBe(4);
  });

  test('too high', () => {
    const { nowhere } = placed('C:0003', 'C7', 'C major');
    expect(nowhere[0]?.message).toBe('C7 is higher than any note of the tenor ukulele, high G: its highest is E6.');
    expect(nowhere[0]?.waysOut.at(-1)).toMatch(/^An octave down it is C6, string 1 fret 15; that changes the tune\.$/);
  });

  test('a string that must ring', () => {
    const ring = [1, 2, 3, 4];
    const { nowhere } = placed('C:0003', 'D5', 'C major', { ring });
    expect(nowhere[0]?.message).toMatch(/^Wherever D5 is played over C, it stops a string that must ring\.$/);
    expect(placed('C:0003', 'C5', 'C major', { ring }).nowhere).toEqual([]);
  });
});

describe('the shape is held before a finger is lifted, and that before the shape is left', () => {
  test('E4 over Em is the held fret, not the open string under a lifted finger', () => {
    const [note] = placed('Em:0432', 'E4', 'E minor').notes;
    expect([note?.string, note?.fret, note?.way.sort]).toEqual([3, 4, 'own']);
  });

  test('A4 over Em lifts nothing, where a free finger has it', () => {
    expect(placed('Em:0432', 'A4', 'E minor').notes[0]?.way.sort).toBe('free');
  });

  test('a note that no finger reaches leaves the shape, and that is told', () => {
    const found = placed('Em:0432', 'G4 B5', 'E minor');
    expect(found.notes.map(({ way }) => way.sort)).toEqual(['own', 'outside']);
    expect(found.remarks).toEqual(['Bar 1, count 2: the hand leaves Em for B5 at 1:14.']);
  });

  test('no tune leaves a shape more often than it must', () => {
    const tune = 'C4 D4 E4 F4 | G4 A4 B4 C5 | D5 E5 F5 G5 | A5 B5 C6 D6';
    const { notes } = placed('C:0003 Am:2000 F:2010 G7:0212', tune, 'C major');
    const must = notes.filter(({ chord, midi }) => {
      const on = held(chord.shape.join('-'));
      return placesOf(HIGH_G, midi).every(({ stringIndex, fret }) => waysInside(on)(stringIndex, fret).length === 0);
    });
    expect(must.length).toBeGreaterThan(0);
    expect(notes.filter(({ way }) => way.sort === 'outside').map(({ midi }) => midi)).toEqual(
      must.map(({ midi }) => midi),
    );
  });

  test('what is too quick is avoided where it can be, and told where not', () => {
    const fast = placed('Em:0432', 'B4 C#6 B4 C#6', 'E minor', { secondsPerCount: 0.12 });
    expect(fast.remarks.some((remark) => remark.includes('hardly in time'))).toBe(true);
    const slow = placed('Em:0432', 'B4 C#6 B4 C#6', 'E minor', { secondsPerCount: 2 });
    expect(slow.remarks.some((remark) => remark.includes('hardly in time'))).toBe(false);
  });
});

describe('notes as they are written', () => {
  const context = (scale: string, more = {}) => ({
    scale: reading(readScale(scale)),
    instrument: HIGH_G,
    meter: { counts: 4, unit: 4 },
    ...more,
  });
  const told = (text: string, scale: string, more = {}) =>
    reading(readGivenNotes(text, context(scale, more)))
      .map(({ pitch, bar, tick }) => `${printPitch(pitch)}@${bar}+${tick}`)
      .join(' ');

  test.each([
    ['C4 E4 G4 C5 A4', 'C major', 'C4@0+0 E4@0+12 G4@0+24 C5@0+36 A4@1+0'],
    ['C4 . E4 G4', 'C major', 'C4@0+0 E4@0+24 G4@0+36'],
    ['C4 E4 | G4', 'C major', 'C4@0+0 E4@0+24 G4@1+0'],
    ['| C4 D4 E4 F4 G4 A4 B4 C5 |', 'C major', 'C4@0+0 D4@0+12 E4@0+24 F4@0+36 G4@1+0 A4@1+12 B4@1+24 C5@1+36'],
    ["5 6 1' 7", 'C major', 'G4@0+0 A4@0+12 C5@0+24 B4@0+36'],
    // The lowest E of this ukulele is E4; a comma goes below it.
    ["1 3 5, 1'", 'E minor', 'E4@0+0 G4@0+12 B3@0+24 E5@0+36'],
    ['#1 b3', 'C major', 'C#4@0+0 Eb4@0+12'],
    ['1 3 4', 'A minor pentatonic', 'A4@0+0 C5@0+12 D5@0+24'],
  ])('%s in %s', (text, scale, notes) => expect(told(text, scale)).toBe(notes));

  test('on a rhythm', () => {
    expect(told('C4 D4 E4 F4', 'C major', { rhythm: [0, 18, 24] })).toBe('C4@0+0 D4@0+18 E4@0+24 F4@1+0');
  });

  test('more notes than the rhythm has are told with their bar', () => {
    const read = readGivenNotes('C4 | C4 D4 E4', context('C major', { rhythm: [0, 24] }));
    expect(read.ok ? '' : read.problem.message).toBe('In bar 2, there are 3 notes, and this rhythm has 2.');
  });

  test('in six eight', () => {
    const meter = parseMeter('6/8');
    expect(told('C4 E4 | G4 . A4 G4 . E4', 'C major', { meter })).toBe('C4@0+0 E4@0+36 G4@1+0 A4@1+24 G4@1+36 E4@1+60');
  });

  test.each([
    ['', /Write the notes/],
    ['C4 H4', /"H" is not a note/],
    ['C4 c4', /capital letter: C/],
    ['C E G', /number of its octave/],
    ['2', /A minor pentatonic has no step 2; its steps are 1 3 4 5 7/],
    ['C4 D4 E4 | G4', /^In bar 1, 3 notes do not share a bar of 4\/4 evenly; .* as in C4 D4 E4 \.$/],
    ['C4 | C4 D4 E4 F4 G4', /^In bar 2, 5 notes .* as in C4 D4 E4 F4 G4 \. \. \.$/],
    [`C4 | ${'C4 D4 '.repeat(9)}`, /^In bar 2, 18 notes .*; a count has four notes at most\.$/],
  ])('"%s" is told', (text, about) => {
    const read = readGivenNotes(text, context('A minor pentatonic'));
    expect(read.ok ? '' : read.problem.message).toMatch(about);
  });
});
