import { describe, expect, test } from 'vitest';
import { describeBar } from '../../shared/engrave/bar-text.ts';
import { drawDiagram } from '../../shared/engrave/chord-diagram.ts';
import { spokenChordName } from '../../shared/engrave/chord-name.ts';
import type { ScoreBar } from '../../shared/score/timeline.ts';
import { rational } from '../../shared/theory/rational.ts';
import { type BarSketch, bar, chord } from './hand-made.ts';

const UKULELE = ['G', 'C', 'E', 'A'] as const;
const EM = chord('Em', [0, 4, 3, 2]);
const G = chord('G', [0, 2, 3, 2]);
const TWO_FOUR = { counts: 2, unit: 4 } as const;

function heard(sketch: BarSketch, changed: Partial<ScoreBar> = {}): string {
  return describeBar({ ...bar(sketch), ...changed }, { spokenStrings: UKULELE });
}

// Case E-3: one statement per moment, bar numbers kept, no row of dashes read out.
describe('I cannot see the sheet; I want to hear', () => {
  test.each<[wish: string, sketch: BarSketch, said: string]>([
    [
      'which bar it is, which chord I hold, and for each count the finger, the string and the fret',
      { number: 3, counts: '1 & 2 &', chords: [[0, G]], play: '4p:0 2i:3 . .' },
      'Bar 3, G. Beat 1: thumb, string 4 (G) open. And: index, string 2 (E) fret 3.',
    ],
    [
      'the name of a string once, and not again in the same bar',
      { number: 1, counts: '1 2 3 4', play: '4p:0 1m:2 4p:2 1m:0' },
      'Bar 1. Beat 1: thumb, string 4 (G) open. Beat 2: middle, string 1 (A) fret 2. Beat 3: thumb, string 4 fret 2. Beat 4: middle, string 1 open.',
    ],
    [
      'what sounds at once',
      { number: 1, meter: TWO_FOUR, counts: '1 2', play: '1:3 3:0+2:0' },
      'Bar 1. Beat 1: string 1 (A) fret 3. Beat 2: string 3 (C) open and string 2 (E) open together.',
    ],
    [
      'where the hand strums, and which way over which strings',
      { number: 1, counts: '1 2 3 4', play: 'D U21 D~ (U)' },
      'Bar 1. Beat 1: down-stroke, strings 4 to 1. Beat 2: up-stroke, strings 2 to 1. Beat 3: slow down-stroke, strings 4 to 1. Beat 4: light up-stroke, strings 1 to 4.',
    ],
    [
      'the three silences apart: a hit, a damped stroke, a stop',
      { number: 1, counts: '1 2 3 4', play: 'chunk Dx stop stop3' },
      'Bar 1. Beat 1: chunk: a stroke that the strumming hand stops. Beat 2: damped down-stroke, strings 4 to 1. Beat 3: stop all strings. Beat 4: stop string 3 (C).',
    ],
    [
      'where I knock',
      { number: 1, counts: '1 2 3 4', play: 'thumb palm nails body!' },
      'Bar 1. Beat 1: thumb slap, string 4 (G). Beat 2: palm on the strings. Beat 3: nails on the strings. Beat 4: accented knock on the body.',
    ],
    [
      'what the left hand adds to a note',
      { number: 7, counts: '1 2 3 4', play: '1:5h7 1:7p5 2:3s5 2:5b' },
      'Bar 7. Beat 1: string 1 (A) fret 5, hammer-on to fret 7. Beat 2: string 1 fret 7, pull-off to fret 5. Beat 3: string 2 (E) fret 3, slide to fret 5. Beat 4: string 2 fret 5, bend.',
    ],
    [
      'the tune apart from what goes along with it',
      { number: 2, meter: TWO_FOUR, counts: '1 2', chords: [[0, EM]], play: '4p:0 2i:3', also: ['t1:2 .'] },
      'Bar 2, E minor. Beat 1: thumb, string 4 (G) open, together with tune, string 1 (A) fret 2. Beat 2: index, string 2 (E) fret 3.',
    ],
    [
      'six small counts in six eight',
      { number: 2, meter: { counts: 6, unit: 8 }, showsMeter: true, counts: '1 2 3 4 5 6', play: '1:0 . . 2:1 . .' },
      'Bar 2, 6 8 time. Count 1: string 1 (A) open. Count 4: string 2 (E) fret 1.',
    ],
    [
      'the place in beats where nobody counts',
      { number: 2, play: '1:0 . . 1:3 1:2 . . .' },
      'Bar 2. Beat 1: string 1 (A) open. Beat 2 and a half: string 1 fret 3. Beat 3: string 1 fret 2.',
    ],
    [
      'a change of chord where it comes',
      {
        number: 4,
        counts: '1 2 3 4',
        chords: [
          [0, EM],
          [4, G],
        ],
        play: 'D . D .',
      },
      'Bar 4, E minor. Beat 1: down-stroke, strings 4 to 1. Beat 3, G: down-stroke, strings 4 to 1.',
    ],
    [
      'the same strokes once, and the counts they fall on',
      { number: 4, counts: '1 2 3 4', chords: [[0, EM]], play: 'D D D D' },
      'Bar 4, E minor. Beats 1, 2, 3 and 4: down-stroke, strings 4 to 1.',
    ],
    [
      'the same picking once, off the beat too',
      { number: 4, counts: '1 & 2 & 3 & 4 &', play: '1i:0 1i:0 1i:0 1i:0 4p:0 . . .' },
      'Bar 4. Beat 1, and, 2, and: index, string 1 (A) open. Beat 3: thumb, string 4 (G) open.',
    ],
    [
      'which beat an off-beat belongs to where nothing is played on the beat',
      { number: 1, counts: '1 & 2 & 3 & 4 &', play: 'D . D U . U D .' },
      'Bar 1. Beat 1: down-stroke, strings 4 to 1. Beat 2: down-stroke, strings 4 to 1. And: up-stroke, strings 1 to 4. Beat 3 and: up-stroke, strings 1 to 4. Beat 4: down-stroke, strings 4 to 1.',
    ],
    [
      'the same where the off-beats are alike',
      { number: 1, counts: '1 & 2 & 3 & 4 &', play: 'D . . U . U . U' },
      'Bar 1. Beat 1: down-stroke, strings 4 to 1. Beat 2 and, 3 and, 4 and: up-stroke, strings 1 to 4.',
    ],
    [
      'a new chord on an off-beat with its beat',
      {
        number: 1,
        meter: TWO_FOUR,
        counts: '1 & 2 &',
        chords: [
          [0, EM],
          [3, G],
        ],
        play: 'D . . U',
      },
      'Bar 1, E minor. Beat 1: down-stroke, strings 4 to 1. Beat 2 and, G: up-stroke, strings 1 to 4.',
    ],
    [
      'words of my own between the beats',
      { number: 1, meter: TWO_FOUR, counts: '1 trip let 2 trip let', play: '1:0 . 1:2 . 1:3 .' },
      'Bar 1. Beat 1: string 1 (A) open. Let: string 1 fret 2. Beat 2 trip: string 1 fret 3.',
    ],
    [
      'the beats of the bar where a pattern that runs on over it is counted otherwise',
      { number: 3, counts: '2 3 1 &', play: '4p:0 3i:0 2m:0 1a:3' },
      'Bar 3. Beat 1, counted 2: thumb, string 4 (G) open. Beat 2, counted 3: index, string 3 (C) open. Beat 3, counted 1: middle, string 2 (E) open. Beat 4: ring, string 1 (A) fret 3.',
    ],
    [
      'the same where it is told together',
      { number: 3, counts: '2 3 1 2', play: 'D D D D' },
      'Bar 3. Beats 1, 2, 3 and 4: down-stroke, strings 4 to 1.',
    ],
    [
      'where a repeat begins, which ending this is, and that I go back',
      {
        number: 8,
        counts: '1',
        opens: '|:',
        closes: ':|',
        times: 3,
        ending: { numbers: [1, 2], begins: true, ends: true },
        play: 'D',
      },
      'Bar 8, repeat begins, ending 1 and 2. Beat 1: down-stroke, strings 4 to 1. Repeat, 3 times in all.',
    ],
    ['that a bar is the one before again', { number: 5, same: true }, 'Bar 5. The bar before again.'],
    [
      'the chords of a bar that only has chords',
      {
        number: 2,
        chords: [
          [0, EM],
          [4, G],
        ],
      },
      'Bar 2, E minor. Beat 3: G.',
    ],
    [
      'the words, syllables joined',
      {
        number: 1,
        counts: '1 2 3 4',
        words: [
          [0, 'Lan-'],
          [1, 'terns'],
          [2, 'glow'],
        ],
        play: 'D . . .',
      },
      'Bar 1. Beat 1: down-stroke, strings 4 to 1. Words: Lan-terns glow.',
    ],
  ])('%s', (_wish, sketch, said) => expect(heard(sketch)).toBe(said));

  test('that a sound is held over the bar line, and that it is still held', () => {
    const sketch = bar({ number: 1, meter: TWO_FOUR, counts: '1 2', play: '1:3 2:0' });
    const [first, second] = sketch.events;
    const events = second === undefined || first === undefined ? [] : [first, { ...second, goesOn: true as const }];
    expect(describeBar({ ...sketch, events })).toBe(
      'Bar 1. Beat 1: string 1 fret 3. Beat 2: string 2 open, held over the bar line.',
    );
    expect(heard({ number: 2, meter: TWO_FOUR, counts: '1 2', play: 'held 1:0', also: ['held .'] })).toBe(
      'Bar 2. Beat 1: the sound before is held. Beat 2: string 1 (A) open.',
    );
  });

  test('that a pattern begins anew in the middle of a bar', () => {
    const starts = [
      { at: rational(0, 1), name: 'roll' },
      { at: rational(1, 2), name: 'roll' },
    ];
    expect(heard({ number: 2, counts: '1 2 3 4', play: 'D U D U' }, { patternStarts: starts })).toBe(
      'Bar 2. Beat 1: down-stroke, strings 4 to 1. Beat 2: up-stroke, strings 1 to 4. Beat 3, roll begins: down-stroke, strings 4 to 1. Beat 4: up-stroke, strings 1 to 4.',
    );
  });

  test('the fingers of my left hand where the lesson gives them', () => {
    const sketch = bar({ number: 1, counts: '1', play: '1:5' });
    const events = sketch.events.map((event) =>
      event.kind === 'notes' ? { ...event, notes: event.notes.map((note) => ({ ...note, leftFinger: 3 })) } : event,
    );
    expect(describeBar({ ...sketch, events }, { spokenStrings: UKULELE })).toBe(
      'Bar 1. Beat 1: string 1 (A) fret 5 with finger 3.',
    );
  });

  test('that a note goes on under my finger and is not plucked anew', () => {
    const told = (kind: 'vibrato' | 'bend') => {
      const sketch = bar({ number: 1, meter: TWO_FOUR, counts: '1 2', play: '1:5 1:5' });
      const events = sketch.events.map((event, index) =>
        event.kind === 'notes' && index === 1
          ? { ...event, notes: event.notes.map((note) => ({ ...note, arrivesBy: kind })) }
          : event,
      );
      return describeBar({ ...sketch, events });
    };
    expect(told('vibrato')).toBe('Bar 1. Beat 1: string 1 fret 5. Beat 2: string 1 fret 5 goes on with vibrato.');
    expect(told('bend')).toContain('Beat 2: string 1 fret 5 goes on with a bend.');
  });

  test('the flats of my open strings as words', () => {
    const flat = describeBar(bar({ number: 1, counts: '1', play: '4:0' }), {
      spokenStrings: ['E♭', 'B', 'D', 'G♭'].map(spokenChordName),
    });
    expect(flat).toBe('Bar 1. Beat 1: string 4 (E flat) open.');
  });

  test('that a long bar goes on in the next line', () => {
    const text = describeBar(bar({ number: 9, counts: '1 2 3 4', play: '. . D .' }), {
      cut: { before: true, after: false },
    });
    expect(text).toBe('Bar 9 goes on. Beat 3: down-stroke, strings 4 to 1.');
  });
});

describe('a diagram as a sentence: every string from the highest-numbered down', () => {
  test.each([
    ['C', [0, 0, 0, 3], [0, 0, 0, 3], 'C: string 4 open, string 3 open, string 2 open, string 1 fret 3 ring finger.'],
    [
      'Cm',
      ['muted', 3, 3, 3],
      undefined,
      'C minor: string 4 not played, string 3 fret 3, string 2 fret 3, string 1 fret 3.',
    ],
    [
      'Bb',
      [3, 2, 1, 1],
      [3, 2, 1, 1],
      'B flat: string 4 fret 3 ring finger, string 3 fret 2 middle finger, string 2 fret 1 index finger, string 1 fret 1 index finger',
    ],
  ] as const)('%s', (name, shape, fingers, said) => {
    const { alternative } = drawDiagram({
      name,
      shape,
      leftHanded: false,
      ...(fingers === undefined ? {} : { fingers }),
    });
    expect(alternative.startsWith(said), alternative).toBe(true);
  });

  test('a barre is told with its strings, and a left-handed picture says the same', () => {
    const request = { name: 'Bb', shape: [3, 2, 1, 1], fingers: [3, 2, 1, 1] } as const;
    const right = drawDiagram({ ...request, leftHanded: false }).alternative;
    expect(right).toMatch(/index finger.*strings? 2 (to|and) 1/);
    expect(drawDiagram({ ...request, leftHanded: true }).alternative).toBe(right);
  });
});
