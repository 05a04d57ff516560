import { describe, expect, test } from 'vitest';
import { printPitch } from '../../shared/theory/note.ts';
import { readGivenNotes } from '../../shared/voicing/tune/given-notes.ts';
import { CONTOURS } from '../../shared/voicing/tune/line.ts';
import { placeTune } from '../../shared/voicing/tune/place-tune.ts';
import { proposeTune } from '../../shared/voicing/tune/propose-tune.ts';
import { tellRing } from '../../shared/voicing/tune/tell-ring.ts';
import { tellTune } from '../../shared/voicing/tune/tell-tune.ts';
import type { TuneNote } from '../../shared/voicing/tune/tune.ts';
import type { TuneRequest } from '../../shared/voicing/tune/tune-problem.ts';
import { instrument } from '../neck/playing.ts';
import { reading } from '../theory/reading.ts';
import { groundOf, groundOfBars, tunesOver } from './tunes.ts';

describe('how a tune goes is told as it is heard', () => {
  const PROGRESSIONS = ['C Am F G7', 'C F G7 C', 'G Em C D7', 'Am Dm E7 Am', 'F Bb C7 F'];
  const named = (notes: readonly TuneNote[], midi: number) =>
    notes.flatMap((note) => (note.midi === midi ? [printPitch(note.pitch)] : []))[0];

  test.each(PROGRESSIONS)('over %s: a fall from its high note to its low one, a rise the other way', (written) => {
    for (const { notes, why } of tunesOver(written, 'fall')) {
      const midi = notes.map((note) => note.midi);
      const [high, low] = [named(notes, Math.max(...midi)), named(notes, Math.min(...midi))];
      expect(midi.indexOf(Math.max(...midi))).toBeLessThan(midi.lastIndexOf(Math.min(...midi)));
      expect(why.startsWith(`falls from ${high} to ${low};`)).toBe(true);
    }
    for (const { notes, why } of tunesOver(written, 'arch')) {
      const top = Math.max(...notes.map((note) => note.midi));
      const told = /^rises from (\S+) to (\S+) and comes back;/.exec(why);
      expect(told?.[2]).toBe(named(notes, top));
      // What it rises from is heard before the top.
      const way = notes.slice(
        0,
        notes.findIndex(({ midi }) => midi === top),
      );
      expect(way.map(({ pitch }) => printPitch(pitch))).toContain(told?.[1]);
    }
  });

  test('of one bar: the first goes as it was asked, and what does not is not said to', () => {
    for (const contour of CONTOURS) {
      const [first, ...others] = tunesOver('C', contour);
      expect(first?.why).not.toMatch(/^moves/);
      expect(first?.why).toContain('the shape stays down');
      for (const { notes, why } of [first, ...others].flatMap((one) => one ?? [])) {
        const midi = notes.map((note) => note.midi);
        const top = Math.max(...midi);
        if (why.includes('comes back')) expect([midi[0], midi.at(-1)]).not.toContain(top);
        if (why.startsWith('rises from')) expect(midi[0]).toBeLessThan(top);
        if (why.startsWith('falls')) expect(midi.at(-1)).toBeLessThan(top);
      }
    }
    const { scale } = groundOf('C');
    const [down] = tunesOver('C', 'fall');
    expect(tellTune({ contour: 'rise', scale }, down?.notes ?? [])).toMatch(/^moves between \S+ and \S+;/);
    expect(tellTune({ contour: 'arch', scale }, down?.notes ?? [])).toMatch(/^moves between /);
  });

  test('notes that move a finger of the shape are named, and only where none does the shapes stay down throughout', () => {
    const all = PROGRESSIONS.flatMap((written) => CONTOURS.flatMap((contour) => tunesOver(written, contour)));
    for (const { notes, why } of all) {
      const moving = notes.filter(({ way }) => way.sort === 'lifted' || way.sort === 'flat');
      expect(why.includes('down throughout')).toBe(moving.length === 0);
      const lifted = moving.filter(({ way }) => way.sort === 'lifted');
      for (const { pitch, string, fret, chord } of lifted.length > 0 ? lifted : moving) {
        expect(why).toContain(`${printPitch(pitch)} at ${string}:${fret} over ${chord.name}`);
      }
    }
    const { scale } = groundOf('C');
    const [note] = tunesOver('C', 'arch')[0]?.notes ?? [];
    if (note === undefined) throw new Error('no notes');
    const as = (sort: 'lifted' | 'flat') => [{ ...note, way: { ...note.way, sort } }] as readonly TuneNote[];
    const place = `${printPitch(note.pitch)} at ${note.string}:${note.fret} over C`;
    expect(tellTune({ contour: 'arch', scale }, as('lifted'))).toContain(
      `one note lifts a finger of the shape: ${place}`,
    );
    expect(tellTune({ contour: 'arch', scale }, as('flat'))).toContain(
      `stays down, with a finger laid flat for ${place}`,
    );
  });

  test('why there is none where no chord is played', () => {
    const why = (written: string, more: Partial<TuneRequest> = {}) => {
      const found = proposeTune({ ...groundOfBars(written), contour: 'arch', ...more });
      return found.ok ? '' : found.message;
    };
    expect(why('| NC |')).toBe('No chord is played, so there is no shape for a tune.');
    expect(why('| NC C |', { rhythm: [0, 12] })).toMatch(/^No note of this rhythm comes while a chord is played/);
  });

  test('a step beyond the seventh is told how to be written', () => {
    const { scale, instrument: on, meter, bars } = groundOf('C');
    const read = readGivenNotes('1 8', { scale, instrument: on, meter, bars });
    expect(read.ok ? '' : read.problem.message).toBe(
      "C major has no step 8; its steps are 1 2 3 4 5 6 7, and 1' is the first an octave up.",
    );
  });

  test('one that has a single pitch, and one that leaps into its only change', () => {
    const [tune] = tunesOver('C F', 'rise');
    const [first, second] = [tune?.notes[0], tune?.notes.find(({ chord }) => chord.name === 'F')];
    if (first === undefined || second === undefined) throw new Error('no notes');
    const { scale } = groundOf('C F');
    expect(tellTune({ contour: 'rise', scale }, [first])).toMatch(/^stays on /);
    const far = { ...second, midi: first.midi + 9 };
    expect(tellTune({ contour: 'rise', scale }, [first, far])).toContain('; leaps into the new chord;');
    const ninth = { ...first, tone: { ...first.tone, role: { degree: 9, alter: 0 } } };
    expect(tellTune({ contour: 'rise', scale }, [ninth])).toMatch(/the ninth of C$/);
  });
});

describe('strings that are to ring', () => {
  test('what the shapes themselves do to them is told', () => {
    const found = proposeTune({ ...groundOf('Am F C G', { ring: [1, 2, 3, 4] }), contour: 'arch' });
    if (!found.ok) throw new Error(found.message);
    expect(tellRing({ ring: [1, 2, 3, 4] }, found.chords)).toBe(
      'Of the strings that are to ring, Am itself stops string 4; F itself stops strings 2 and 4; C itself stops string 1; G itself stops strings 1, 2 and 3.',
    );
    expect(tellRing({ ring: [3] }, found.chords.slice(0, 3))).toBeUndefined();
    expect(tellRing({}, found.chords)).toBeUndefined();
    const guitar = proposeTune({ ...groundOf('D', { instrument: instrument('guitar'), ring: [6] }), contour: 'rise' });
    if (!guitar.ok) throw new Error(guitar.message);
    expect(tellRing({ ring: [6] }, guitar.chords)).toBe('Of the strings that are to ring, D leaves string 6 silent.');
  });

  test('on a string that is to ring no note is stopped but what the shape stops', () => {
    for (const { notes } of tunesOver('Am F C G', 'arch', { ring: [1, 2, 3, 4] })) {
      for (const { stringIndex, fret, chord } of notes) expect(fret).toBe(chord.shape[stringIndex]);
    }
  });

  test('a note without a place says which of them would have to stop', () => {
    const ground = groundOf('C', { ring: [1, 2, 3, 4] });
    const { scale, instrument: on, meter, bars } = ground;
    const notes = reading(readGivenNotes('E5', { scale, instrument: on, meter, bars }));
    const placed = placeTune({ ...ground, notes });
    expect(placed.ok && placed.nowhere.map(({ message, waysOut }) => [message, ...waysOut])).toEqual([
      ['Wherever E5 is played over C, it stops a string that must ring.', 'Let string 1 stop for this note.'],
    ]);
  });
});
