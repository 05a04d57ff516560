import type { ExerciseScore } from '../../shared/score/timeline.ts';
import { bar, chord, score } from './hand-made.ts';

const EM = chord('Em', [0, 4, 3, 2]);
const C = chord('C', [0, 0, 0, 3]);
const G = chord('G', [0, 2, 3, 2]);
const D = chord('D', [2, 2, 2, 0]);
const DADD9 = chord('D(add9)', [7, 6, 0, 0], true);
const C6 = chord('C6', [5, 7, 0, 0]);
const EIGHTHS = '1 & 2 & 3 & 4 &';

/** A picked roll with repeat and endings. */
export const ROLL: ExerciseScore = score([
  bar({
    number: 1,
    showsMeter: true,
    opens: '|:',
    counts: EIGHTHS,
    chords: [[0, EM]],
    play: '4p:0 2i:3 3p:4 1m:2 4p:0 2i:3 3p:4 1m:2',
    words: [
      [0, 'Lan-'],
      [2, 'terns'],
      [4, 'go'],
      [6, 'down'],
    ],
  }),
  bar({
    number: 2,
    counts: EIGHTHS,
    chords: [[0, C]],
    play: '4p:0 2i:0 3p:0 1m:3 4p:0 2i:0 3p:0 1m:3',
    words: [
      [0, 'to'],
      [1, 'the'],
      [4, 'wa-'],
      [6, 'ter'],
    ],
  }),
  bar({
    number: 3,
    counts: EIGHTHS,
    chords: [[0, G]],
    play: '4p:0 2i:3 3p:2 1m:2 4p:0 2i:3 3p:2 1m:2',
    words: [
      [0, 'one'],
      [4, 'by'],
    ],
  }),
  bar({
    number: 4,
    counts: EIGHTHS,
    chords: [
      [0, D],
      [6, DADD9],
    ],
    ending: { numbers: [1], begins: true, ends: true },
    closes: ':|',
    play: '4p:2 2i:2 3p:2 1m:0 4p:2 2i:2 3p:6 1m:0',
    words: [[0, 'one']],
  }),
  bar({
    number: 5,
    counts: EIGHTHS,
    chords: [[0, D]],
    ending: { numbers: [2], begins: true, ends: false },
    closes: '||',
    play: '4p:2+1m:0 . . . 3p:2 . 1m:0 stop',
    words: [[0, 'one']],
  }),
  bar({
    number: 6,
    counts: EIGHTHS,
    chords: [
      [0, C],
      [6, G],
    ],
    play: '4p:0 2i:0 3p:0 1m:3 4p:0 2i:0 3p:2 1m:2',
  }),
  bar({ number: 7, counts: EIGHTHS, chords: [[0, EM]], closes: '||', play: '4p:0+1m:2 . . . stop . . .' }),
]);

/** Strums, hits and the three silences that must not look alike. */
export const KNOCK: ExerciseScore = score([
  bar({
    number: 1,
    showsMeter: true,
    counts: EIGHTHS,
    chords: [[0, EM]],
    play: 'D . . U D! . U .',
    also: ['. . . . . . . thumb'],
  }),
  bar({ number: 2, counts: EIGHTHS, chords: [[0, C]], play: 'D~ . Dx Ux D43 (U) chunk stop' }),
  bar({
    number: 3,
    counts: EIGHTHS,
    chords: [
      [0, G],
      [4, undefined],
    ],
    play: 'roll . slide D palm nails body stop3',
    calls: [[4, 'stop!']],
  }),
  bar({ number: 4, counts: '1 2 3 4', chords: [[0, D]], play: 'D U21 stop held', closes: ':|', times: 3 }),
]);

/** A tune over picking, with what the left hand does to a note. */
export const TUNE: ExerciseScore = score([
  bar({
    number: 1,
    showsMeter: true,
    counts: EIGHTHS,
    chords: [[0, DADD9]],
    play: '4p:7 . 3p:6 . 4p:7 . 3p:6 .',
    also: ['t1:5 . t1:7! . t1:9h10 . . .'],
  }),
  bar({
    number: 2,
    counts: EIGHTHS,
    chords: [[0, C6]],
    play: '4p:5 . 3p:7 . 4p:5 . 3p:7 .',
    also: ['t1:10p9 . t1:7s5 . t2:5b . t1:12* .'],
  }),
  bar({
    number: 3,
    counts: EIGHTHS,
    chords: [[0, chord('F#m7b5', [2, 4, 2, 3])]],
    play: '4p:2^ . 3p:4 . 2i:2v . 1m:3t5 .',
  }),
]);

/** Six in a bar, a change to two, a bar to be repeated, sixteenths, a pickup. */
export const METERS: ExerciseScore = score([
  bar({ meter: { counts: 1, unit: 4 }, showsMeter: true, counts: '3 &', play: '1:3 1:2' }),
  bar({
    number: 1,
    meter: { counts: 6, unit: 8 },
    showsMeter: true,
    counts: '1 & a 2 & a',
    chords: [[0, C]],
    play: '4p:0 3i:0 2m:0 1a:3 2m:0 3i:0',
  }),
  bar({ number: 2, meter: { counts: 6, unit: 8 }, counts: '', same: true, chords: [[0, C]] }),
  bar({
    number: 3,
    meter: { counts: 2, unit: 4 },
    showsMeter: true,
    counts: '1 e & a 2 e & a',
    chords: [[0, chord('Bb', [3, 2, 1, 1])]],
    play: '4p:3 3i:2 2m:1 1a:1 4p:3 3i:2 12:1 1a:1'.replace('12:1', '2m:1'),
  }),
  bar({
    number: 4,
    meter: { counts: 2, unit: 4 },
    counts: '1 2',
    chords: [[0, chord('Ebmaj7', [3, 3, 3, 5])]],
    play: '1:12+2:11+3:10 stop',
    closes: '||',
  }),
]);
