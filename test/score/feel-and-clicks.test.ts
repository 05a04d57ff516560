import { describe, expect, test } from 'vitest';
import type { Feel } from '../../shared/lesson/syntax/words.ts';
import { millisecondsOf } from '../../shared/score/clock.ts';
import { clicksOf, countInTo } from '../../shared/score/count-in.ts';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import { soundingNotes } from '../../shared/score/sounding.ts';
import { playedAt } from '../../shared/score/swing.ts';
import { barLength, type Meter } from '../../shared/theory/meter.ts';
import { minus, plus, type Rational, rational, times, ZERO } from '../../shared/theory/rational.ts';
import { barsOf, inQuarters, scopeIn } from './scoring.ts';

const FOUR: Meter = { counts: 4, unit: 4 };
const THREE: Meter = { counts: 3, unit: 4 };
const SIX_EIGHT: Meter = { counts: 6, unit: 8 };
const SWING: Feel = { kind: 'swing', long: 2, short: 1, unit: 8 };
const STRAIGHT: Feel = { kind: 'straight' };

/** Parts of a quarter, 480 to one. Source: division of 480 as in many MIDI files; the SMF specification leaves the number free. */
function ticks(time: Rational): number {
  const exact = times(time, rational(4 * 480));
  return exact.numerator / exact.denominator;
}

function pattern(row: string, header = ''): string {
  return `${header}chord C 0-0-0-3\npattern q\n  ${row}\nexercise e\n  over C\n  each q`;
}

function playedTicks(feel: Feel, text: string): readonly number[] {
  const [bar] = barsOf(text);
  return (bar?.events ?? []).map(({ at }) => ticks(playedAt(feel, bar?.meter ?? FOUR, at)));
}

describe('swing is written even and played long and short', () => {
  // Source: the case is a player's question; two to one as the first and third of a triplet is the general article on swung notes'.
  const eighths = pattern('count 1 & 2 & 3 & 4 &\n  strum D U D U D U D U');

  test('C-3 must: off the beat at tick 320 of 480; without swing at 240', () => {
    expect(playedTicks(SWING, eighths).slice(0, 4)).toEqual([0, 320, 480, 800]);
    expect(playedTicks(STRAIGHT, eighths).slice(0, 4)).toEqual([0, 240, 480, 720]);
  });

  test('C-3 must: at 120 beats a minute 333 ms, then 167 ms', () => {
    const offBeat = playedAt(SWING, FOUR, rational(1, 8));
    expect(millisecondsOf(offBeat, { perMinute: 120 }, FOUR)).toBeCloseTo(333.33, 2);
    expect(millisecondsOf(minus(rational(1, 4), offBeat), { perMinute: 120 }, FOUR)).toBeCloseTo(166.67, 2);
  });

  test('C-3 must: the printed notes do not change', () => {
    const spelled = (text: string) => barsOf(text).map((bar) => rhythmOf(bar));
    const plain = spelled(eighths).map((lines) => lines.map(({ entries }) => entries.map(({ value }) => value)));
    const swung = spelled(`feel swing\n${eighths}`).map((lines) =>
      lines.map(({ entries }) => entries.map(({ value }) => value)),
    );
    expect(swung).toEqual(plain);
    expect(plain).toEqual([[[8, 8, 8, 8, 8, 8, 8, 8]]]);
  });

  test.each([
    ['swing', 2, 1],
    ['swing 3 to 2', 3, 2],
  ])('a lesson’s feel: %s', (words, long, short) => {
    const feel = scopeIn(`feel ${words}`).setting('feel');
    expect(feel).toEqual({ kind: 'swing', long, short, unit: 8 });
    expect(playedAt(feel, FOUR, rational(1, 8))).toEqual(times(rational(1, 4), rational(long, long + short)));
  });

  test('sixteenths swing within the eighth, eighths stay', () => {
    const feel = scopeIn('feel swing sixteenths').setting('feel');
    const text = pattern('count 1 e & a 2 3 4\n  strum D U D U D D D');
    expect(playedTicks(feel, text).slice(0, 5)).toEqual([0, 160, 240, 400, 480]);
  });

  test('what is written between long and short moves in proportion', () => {
    const text = pattern('count 1 e & a 2 3 4\n  strum D U D U D D D');
    expect(playedTicks(SWING, text).slice(0, 5)).toEqual([0, 160, 320, 400, 480]);
  });

  test('where the foot beats three, eighths are no pairs', () => {
    const six = pattern('count 1 2 3 4 5 6\n  strum D U D U D U', 'meter 6/8\n');
    expect(playedTicks(SWING, six)).toEqual([0, 240, 480, 720, 960, 1200]);
  });

  test('C-10 should: two downs and an up, in one beat and in half a beat, swung or not', () => {
    const beat = pattern('count 1 la li 2 3 4\n  strum D D U D D D');
    const half = pattern('count 1 a b c d e 2 3 4\n  strum D D U . . . D D D');
    for (const feel of [STRAIGHT, SWING]) {
      expect(playedTicks(feel, beat).slice(0, 3)).toEqual([0, 160, 320]);
      expect(playedTicks(feel, half).slice(0, 3)).toEqual([0, 80, 160]);
    }
  });

  test('C-4 must: a triplet of a long and a short note is one beat, not two', () => {
    const [bar] = barsOf(pattern('count 1 la li 2 3 4\n  strum D . U D D D'));
    const [long, short] = bar?.events ?? [];
    expect(ticks(plus(long?.length ?? ZERO, short?.length ?? ZERO))).toBe(480);
  });

  test('the whole of a bar stays as long as it was', () => {
    for (const meter of [FOUR, THREE, SIX_EIGHT])
      expect(playedAt(SWING, meter, barLength(meter))).toEqual(barLength(meter));
  });
});

describe('the beat is what the foot does (C-5 must)', () => {
  test('6/8 at 60 dotted quarters: an eighth is 333 ms, and the bar has two clicks', () => {
    expect(millisecondsOf(rational(1, 8), { perMinute: 60 }, SIX_EIGHT)).toBeCloseTo(333.33, 2);
    expect(clicksOf(SIX_EIGHT).map(({ at }) => inQuarters(at))).toEqual(['0', '3/2']);
  });

  test('the same six eighths in 3/4 have three clicks', () => {
    expect(clicksOf(THREE).map(({ at }) => inQuarters(at))).toEqual(['0', '1', '2']);
  });

  test('a tempo in eighths counts eighths, whatever the beat', () => {
    const tempo = scopeIn('meter 6/8\ntempo 180 eighths').setting('tempo');
    expect(tempo).toMatchObject({ from: 180, unit: 8 });
    expect(millisecondsOf(rational(1, 8), { perMinute: 180, unit: 8 }, SIX_EIGHT)).toBeCloseTo(333.33, 2);
    expect(millisecondsOf(rational(3, 8), { perMinute: 180, unit: 8 }, SIX_EIGHT)).toBeCloseTo(1000, 6);
  });

  test('only the first click is strong', () => {
    expect(clicksOf({ counts: 12, unit: 8 }).map(({ strong }) => strong)).toEqual([true, false, false, false]);
  });
});

describe('E-7 should: a bar is counted in', () => {
  const first = (header: string, count = '') => {
    const [bar] = barsOf(`${header}chord C 0-0-0-3\nprogression v\n  ${count}| C | C |\nexercise e\n  play v`);
    if (bar === undefined) throw new Error('The snippet has no bar.');
    return countInTo(bar);
  };
  test.each([
    ['4/4', 'meter 4/4\n', 4, '4'],
    ['3/4', 'meter 3/4\n', 3, '3'],
    ['6/8', 'meter 6/8\n', 2, '3'],
  ])('%s', (_name, header, clicks, length) => {
    const counted = first(header);
    expect(counted.clicks).toHaveLength(clicks);
    expect(inQuarters(counted.length)).toBe(length);
  });

  test('with a pickup on four: a full bar, three clicks more, and the tune enters on beat 4', () => {
    const { clicks, length } = first('meter 4/4\n', 'count 4\n  ');
    expect(clicks.map(({ at }) => inQuarters(at))).toEqual(['0', '1', '2', '3', '4', '5', '6']);
    expect(clicks.map(({ strong }) => strong)).toEqual([true, false, false, false, true, false, false]);
    expect(inQuarters(length)).toBe('7');
  });

  test('a pickup of one eighth in 6/8 enters before the third beat clicks', () => {
    const { clicks, length } = first('meter 6/8\n', 'count 6\n  ');
    expect(clicks.map(({ at }) => inQuarters(at))).toEqual(['0', '3/2', '3', '9/2']);
    expect(inQuarters(length)).toBe('11/2');
  });
});

describe('E-8 must: two bars at half speed, round and round', () => {
  const text =
    'tempo 80\nchord C 0-0-0-3\nchord F 2-0-1-0\npattern q\n  count 1 & 2 & 3 & 4 &\n  pick 4 3 2 1 4 3 2 1\nprogression v\n  | C | F | C | F | C | F |\nexercise e\n  play v\n  with q';
  const loop = barsOf(text).slice(4, 6);
  const length = loop.reduce((sum: Rational, bar) => plus(sum, bar.length), ZERO);

  test('50 percent is exactly double the time, and the pitch is another matter', () => {
    const full = millisecondsOf(length, { perMinute: 80 }, FOUR);
    expect(full).toBe(6000);
    expect(millisecondsOf(length, { perMinute: 40 }, FOUR)).toBe(2 * full);
  });

  test('no gap and no note too many at the seam: what begins in the loop is what is written in it, and all of it ends there', () => {
    const notes = soundingNotes(loop);
    expect(notes).toHaveLength(16);
    expect(notes.every(({ end }) => ticks(end) <= ticks(length))).toBe(true);
    expect(notes.filter(({ start }) => ticks(start) === ticks(length))).toEqual([]);
    expect(notes.filter(({ start }) => ticks(start) === 0).map(({ string }) => string)).toEqual([4]);
    expect(inQuarters(length)).toBe('8');
  });
});
