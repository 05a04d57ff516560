import { describe, expect, test } from 'vitest';
import { timeEvenly } from '../../shared/lesson/model/count-times.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import { midiNumber } from '../../shared/theory/note.ts';
import { barsOf, timesIn } from './scoring.ts';

// Picking patterns of public-domain methods, played out. The patterns are as quoted in the sources; the shapes are ours.

const GUITAR = 'for guitar\nmeter 4/4\nchord C x-3-2-0-1-0\nchord G7 3-2-0-0-0-1\nprogression v\n  | C | G7 |\n';

function exercise(rows: string): string {
  return `${GUITAR}pattern method\n  plant p5 i3 m2 a1\n${rows}\nexercise e\n  play v\n  with method`;
}

/** What the right hand does in a bar: `p5 i3 …`, with the written value of each moment. */
function hand(lesson: string): readonly (readonly [fingers: string, values: string])[] {
  return barsOf(lesson).map((bar) => {
    const fingers = bar.events.map((event) =>
      event.kind === 'notes' ? event.notes.map(({ finger, string }) => `${finger}${string}`).join('+') : event.kind,
    );
    const [line] = rhythmOf(bar);
    const values = line?.entries.map(({ value, dots }) => `${value}${'.'.repeat(dots)}`) ?? [];
    return [fingers.join(' '), values.join(' ')];
  });
}

describe('patterns of old methods', () => {
  // Source: M. Carcassi, Méthode, exercises as annotated by busonero (no. 11): p i m i a i m i, eight times over C and G7.
  test('p i m i a i m i is a bar of eighths, the same over both chords', () => {
    const bars = hand(exercise('  count 1 & 2 & 3 & 4 &\n  pick p i m i a i m i'));
    expect(bars).toEqual([
      ['p5 i3 m2 i3 a1 i3 m2 i3', '8 8 8 8 8 8 8 8'],
      ['p5 i3 m2 i3 a1 i3 m2 i3', '8 8 8 8 8 8 8 8'],
    ]);
  });

  // Source: the same (no. 08): p m i a i m in triplets, two beats of them.
  test('p m i a i m in triplets takes two beats, three even notes in each', () => {
    const lesson = exercise('  count 1 la li 2 la li 3 la li 4 la li\n  pick p m i a i m p m i a i m');
    const [bar] = barsOf(lesson);
    const [line] = bar === undefined ? [] : rhythmOf(bar);
    expect(line?.tuplets.map(({ count, inTimeOf }) => [count, inTimeOf])).toEqual([
      [3, 2],
      [3, 2],
      [3, 2],
      [3, 2],
    ]);
    expect(hand(lesson)[0]).toEqual(['p5 m2 i3 a1 i3 m2 p5 m2 i3 a1 i3 m2', '8 8 8 8 8 8 8 8 8 8 8 8']);
    expect(timesIn(lesson)[0]?.split(' ')).toHaveLength(12);
  });

  // Source: M. Giuliani, op. 1 (1812), part 1 no. 1, after B. Jeffery's preface: the thumb in quarters against two notes of i and m,
  // over the bars C, G7, C.
  test('the thumb in quarters against i and m together', () => {
    const lesson = exercise('  count 1 & 2 & 3 & 4 &\n  pick p i+m p i+m p i+m p i+m');
    expect(hand(lesson)[0]?.[0]).toBe('p5 i3+m2 p5 i3+m2 p5 i3+m2 p5 i3+m2');
    const thumb = barsOf(lesson)[0]?.events.filter(
      (event) => event.kind === 'notes' && event.notes.some(({ finger }) => finger === 'p'),
    );
    expect(thumb?.map(({ at }) => `${at.numerator}/${at.denominator}`)).toEqual(['0/1', '1/4', '1/2', '3/4']);
  });
});

// Source: traditional American counting, as in the general encyclopedia article "Counting (music)"; 1 la li after T. Bishop 2022.
describe('what is counted aloud', () => {
  const said = (cells: number, counts: number, unit: number): string =>
    timeEvenly(cells, { counts, unit })
      ?.columns.map(({ said }) => said)
      .join(' ') ?? '';

  test.each([
    ['beats', 4, 4, 4, '1 2 3 4'],
    ['halves of a beat', 8, 4, 4, '1 & 2 & 3 & 4 &'],
    ['quarters of a beat', 8, 2, 4, '1 e & a 2 e & a'],
    ['thirds of a beat', 6, 2, 4, '1 la li 2 la li'],
    ['six in compound time', 6, 6, 8, '1 2 3 4 5 6'],
  ])('%s', (_name, cells, counts, unit, spoken) => {
    expect(said(cells, counts, unit)).toBe(spoken);
  });
});

// Common practice, no source: a down-stroke goes toward the floor, from the highest-numbered string to string 1.
test('a down-stroke meets string 4 first, an up-stroke string 1', () => {
  const lesson =
    'for tenor ukulele, high G\nchord C 0-0-0-3\nprogression v\n  | C |\npattern s\n  count 1 2 3 4\n  strum D U D U\nexercise e\n  play v\n  with s';
  const order = barsOf(lesson)[0]?.events.map((event) =>
    event.kind === 'strum' ? event.notes.map(({ string }) => string).join('') : '',
  );
  expect(order).toEqual(['4321', '1234', '4321', '1234']);
});

// Source: MusicXML 4.0, `arpeggiate`: direction "up" runs from the lowest note to the highest, "down" the other way. On a guitar,
// whose strings rise, a down-stroke of the hand is the standard's "up"; its arrow points up the page, where the high strings are.
test('on a guitar a down-stroke sounds from the lowest note to the highest, an up-stroke back', () => {
  const lesson =
    'for guitar\nchord E 0-2-2-1-0-0\nprogression v\n  | E |\npattern s\n  count 1 2 3 4\n  strum D U D U\nexercise e\n  play v\n  with s';
  const { openStrings } = guitar();
  const struck = barsOf(lesson)[0]?.events.map((event) =>
    event.kind === 'strum'
      ? event.notes.map(({ string, fret }) => {
          const open = openStrings[openStrings.length - string];
          return open === undefined ? Number.NaN : midiNumber(open) + fret;
        })
      : [],
  );
  const up = [40, 47, 52, 56, 59, 64];
  const down = [...up].reverse();
  expect(struck).toEqual([up, down, up, down]);
});

function guitar(): Instrument {
  const read = parseInstrument('guitar');
  if (!read.ok) throw new Error('a guitar is known');
  return read.value;
}
