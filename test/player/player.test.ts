import { beforeEach, describe, expect, test } from 'vitest';
import type { PlayOptions } from '../../client/player/options.ts';
import { type HeardMark, Player } from '../../client/player/player.ts';
import { performanceIn } from '../score/performing.ts';
import { FakeOutput, FakeTiming } from './fake-output.ts';

const CHORDS = 'chord C 0-0-0-3\nchord F 2-0-1-0\n';
/** Two seconds a bar. */
const LESSON = `tempo 120\n${CHORDS}pattern q\n  count 1 & 2 & 3 & 4 &\n  pick 4 3 2 1 4 3 2 1\nprogression v\n  | C | F | C | F |\nexercise e\n  play v\n  with q`;
const LADDER = LESSON.replace('tempo 120', 'tempo 60 to 72 by 4 every 2');

let output: FakeOutput;
let timing: FakeTiming;
let marks: { readonly mark: HeardMark; readonly time: number }[];
let player: Player;

beforeEach(() => {
  output = new FakeOutput();
  timing = new FakeTiming();
  marks = [];
  player = new Player(output, timing, {
    marked: (mark) => marks.push({ mark, time: output.heard() }),
    changed: () => undefined,
  });
});

function start(lesson = LESSON, wish: Partial<PlayOptions> = {}, from = 0): void {
  player.load(performanceIn(lesson));
  player.change({ countIn: false, ...wish });
  player.play(from);
}

const starts = (): readonly number[] => output.made.map(({ at }) => at);
const clicks = (): readonly number[] => output.made.filter(({ key }) => key.includes('click')).map(({ at }) => at);
/** From each to the next. Unit: ms. */
const gaps = (times: readonly number[]): readonly number[] =>
  times.slice(1).map((time, index) => Math.round((time - (times[index] ?? 0)) * 1e6) / 1e3);

describe('once through', () => {
  test('begins within 20 ms of the wish, plays everything once, and stops by itself', () => {
    output.time = 7;
    start();
    expect(output.made[0]?.at).toBeGreaterThanOrEqual(7);
    expect(output.made[0]?.at).toBeLessThan(7.02);
    timing.pass(output, 9);
    expect(output.made).toHaveLength(32);
    expect(new Set(gaps(starts()))).toEqual(new Set([250]));
    expect(player.state).toBe('stopped');
  });

  test('E-7: the count-in comes first, and only once', () => {
    start(LESSON, { countIn: true, loop: true });
    timing.pass(output, 25);
    expect(gaps(clicks())).toEqual([500, 500, 500]);
    const first = output.made.find(({ key }) => !key.includes('click'));
    expect((first?.at ?? 0) - (clicks()[0] ?? 0)).toBeCloseTo(2, 9);
  });

  test('from a bar in the middle to the end', () => {
    start(LESSON, {}, 2);
    timing.pass(output, 5);
    expect(output.made).toHaveLength(16);
    expect(player.state).toBe('stopped');
  });

  test('as often as the exercise says', () => {
    start(`${LESSON}\n  repeat 2`);
    timing.pass(output, 17);
    expect(output.made).toHaveLength(64);
    expect(new Set(gaps(starts()))).toEqual(new Set([250]));
  });
});

describe('round and round (E-8 must)', () => {
  test('no gap and no extra note at the seam, in a hundred rounds', () => {
    player.load(performanceIn(LESSON));
    player.select({ from: 1, to: 3 });
    player.change({ countIn: false, loop: true });
    player.play(1);
    timing.pass(output, 400);
    const first = starts()[0] ?? 0;
    for (const [index, at] of starts().entries()) expect(at).toBeCloseTo(first + index * 0.25, 6);
    expect(output.made.length).toBeGreaterThanOrEqual(1600);
    // Each string is stopped by its next sound, over the seam too.
    for (const string of [1, 2, 3, 4]) {
      const own = output.made.filter((made) => made.string === string).slice(0, 60);
      for (const [index, { at }] of own.slice(1).entries()) expect(own[index]?.end ?? 0).toBeLessThanOrEqual(at + 1e-9);
    }
  });

  test('half speed is double the time', () => {
    start(LESSON, { percent: 50 });
    timing.pass(output, 17);
    expect(new Set(gaps(starts()))).toEqual(new Set([500]));
    expect(output.made).toHaveLength(32);
  });

  test('a ladder climbs a step each time that the lesson says, and stays on top', () => {
    start(LADDER, { ladder: true });
    expect(player.options.loop).toBe(true);
    timing.pass(output, 140);
    const bars = marks.filter(({ mark }) => mark.moment === undefined && mark.chord === undefined);
    const rounds = bars.filter(({ mark }) => mark.bar === 0).map(({ mark, time }) => time - mark.late);
    // Sixteen beats a time through.
    const tempos = gaps(rounds).map((ms) => Math.round((16 * 60_000) / ms));
    expect(tempos.slice(0, 8)).toEqual([60, 60, 64, 64, 68, 68, 72, 72]);
  });

  test('a ladder that is asked for in a later time through begins at its foot', () => {
    start(LADDER, { loop: true });
    timing.pass(output, 40);
    player.change({ ladder: true });
    expect(player.perMinute()).toBe(60);
    timing.pass(output, 120);
    const bars = marks.filter(({ mark }) => mark.moment === undefined && mark.chord === undefined);
    const rounds = bars.filter(({ mark }) => mark.bar === 0).map(({ mark, time }) => time - mark.late);
    const tempos = gaps(rounds).map((ms) => Math.round((16 * 60_000) / ms));
    // Two times through and a half before it was asked for, each of 16 s.
    expect(tempos.slice(0, 8)).toEqual([60, 60, 60, 60, 64, 64, 68, 68]);
  });

  test('without the ladder it stays at the first tempo', () => {
    start(LADDER, { loop: true });
    timing.pass(output, 60);
    expect(new Set(gaps(starts()))).toEqual(new Set([500]));
  });
});

describe('wishes while it plays', () => {
  test('another tempo holds at once: no note twice, none left out, strings stopped in their new time', () => {
    start();
    timing.pass(output, 3.1);
    player.change({ percent: 50 });
    timing.pass(output, 12);
    expect(output.made).toHaveLength(32);
    const found = gaps(starts());
    expect(found.slice(0, 11).every((gap) => gap === 250)).toBe(true);
    expect(found.slice(14).every((gap) => gap === 500)).toBe(true);
    for (const string of [1, 2, 3, 4]) {
      const own = output.made.filter((made) => made.string === string);
      for (const [index, { at }] of own.slice(1).entries()) expect(own[index]?.end ?? 0).toBeLessThanOrEqual(at + 1e-9);
    }
  });

  test('many turns of the knob lose nothing and repeat nothing', () => {
    start();
    let seconds = 0;
    for (let turn = 0; player.state === 'playing' && turn < 400; turn += 1) {
      player.change({ percent: 25 + ((turn * 35) % 125) });
      timing.pass(output, 0.13);
      seconds += 0.13;
    }
    expect(player.state).toBe('stopped');
    expect(seconds).toBeGreaterThan(5);
    expect(output.made.map(({ key }) => key)).toHaveLength(32);
  });

  test('slower: a string rings until its next sound, however late that comes now', () => {
    // One chord, so that every string rings until it is plucked again.
    start(LESSON.replace('| C | F | C | F |', '| C | C | C | C |'));
    timing.pass(output, 3.1);
    player.change({ percent: 40 });
    timing.pass(output, 16);
    expect(output.made).toHaveLength(32);
    for (const string of [1, 2, 3, 4]) {
      const own = output.made.filter((made) => made.string === string);
      for (const [index, { at }] of own.slice(1).entries()) expect(own[index]?.end).toBeCloseTo(at, 9);
    }
  });

  test('over the seam of a loop: the end of one time through stays, the next has the new tempo', () => {
    player.load(performanceIn(LESSON));
    player.select({ from: 0, to: 1 });
    player.change({ countIn: false, loop: true });
    player.play(0);
    // The second time through begins at 2.015 s, and is on its way 0.2 s before.
    timing.pass(output, 1.9);
    player.change({ percent: 50 });
    timing.pass(output, 3.5);
    const found = gaps(starts()).slice(0, 12);
    expect(found).toEqual([...Array(8).fill(250), ...Array(4).fill(500)]);
  });

  test.each([0.2, 0.23, 0.27, 0.3, 0.33, 0.37])(
    'swing off and on again %d s after the start: nothing twice, nothing left out',
    (wait) => {
      start(`feel swing\n${LESSON}`);
      timing.pass(output, wait);
      player.change({ swing: false });
      timing.pass(output, 0.1);
      player.change({ swing: true });
      timing.pass(output, 9);
      expect(output.made).toHaveLength(32);
    },
  );

  test('the metronome comes and goes, the notes stay', () => {
    start();
    timing.pass(output, 1.1);
    player.change({ metronome: true });
    timing.pass(output, 2);
    player.change({ metronome: false });
    timing.pass(output, 6);
    expect(clicks()).toHaveLength(4);
    expect(output.made.length - clicks().length).toBe(32);
  });

  test('swing off and on: every written note sounds once', () => {
    start(`feel swing\n${LESSON}`);
    timing.pass(output, 1.2);
    player.change({ swing: false });
    timing.pass(output, 2);
    player.change({ swing: true });
    timing.pass(output, 6);
    expect(output.made).toHaveLength(32);
  });

  test('what is written anew while it plays is heard from there on', () => {
    start();
    timing.pass(output, 3.1);
    player.renew(performanceIn(LESSON.replace('chord C 0-0-0-3', 'chord C 0-0-0-7')));
    timing.pass(output, 6);
    const keys = output.made.map(({ key }) => key.split(' ')[1]);
    expect(keys.slice(0, 12)).toContain('72');
    expect(keys.slice(16)).toContain('76');
    expect(keys.slice(16)).not.toContain('72');
    expect(output.made).toHaveLength(32);
  });

  test('pause is silence at once, and it goes on from the same bar', () => {
    start();
    timing.pass(output, 3.1);
    player.pause();
    expect(output.made.every(({ at, end }) => at <= output.time && (end ?? 0) <= output.time)).toBe(true);
    expect(player.bar).toBe(1);
    timing.pass(output, 5);
    const before = output.made.length;
    player.play();
    timing.pass(output, 7);
    expect(output.made.length - before).toBe(24);
  });

  test('stop goes back to the start', () => {
    start();
    timing.pass(output, 3.1);
    player.stop();
    expect([player.state, player.bar]).toEqual(['stopped', 0]);
  });
});

describe('marks in step with what is heard', () => {
  test('each comes within one picture of the screen after its sound', () => {
    start();
    timing.pass(output, 9);
    for (const { mark } of marks) {
      expect(mark.late).toBeGreaterThanOrEqual(0);
      expect(mark.late).toBeLessThan(1 / 60 + 1e-6);
    }
    expect(marks.filter(({ mark }) => mark.moment !== undefined)).toHaveLength(32);
  });

  // The clocks of sound cards are off by up to some hundred parts in a million; ten times as much here.
  test.each([0.998, 1, 1.002])(
    'over five minutes less than 20 ms, with a sound clock %d times as fast as the screen',
    (rate) => {
      start(LESSON, { loop: true });
      timing.pass(output, 300, rate);
      const first = starts()[0] ?? 0;
      const moments = marks.filter(({ mark }) => mark.moment !== undefined);
      expect(moments.length).toBeGreaterThan(1190);
      let worst = 0;
      moments.forEach(({ time }, index) => {
        // When it was told against when its sound was ordered, by the clock of the sound.
        worst = Math.max(worst, Math.abs(time - (first + index * 0.25)));
      });
      expect(worst).toBeLessThan(0.02);
    },
  );

  test('nothing is marked before it is heard, whatever the latency of the loudspeaker', () => {
    output.latency = 0.35;
    start();
    timing.pass(output, 9);
    const first = starts()[0] ?? 0;
    for (const { mark, time } of marks) expect(time).toBeGreaterThanOrEqual(first + mark.at - 1e-9);
  });
});
