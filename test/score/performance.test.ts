import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Performance } from '../../shared/score/performance.ts';
import { packed, unpacked } from '../../shared/score/performance-packed.ts';
import { even, performanceIn, performancesIn, played, quarters, told } from './performing.ts';

// MIDI numbers: G4 67, C4 60, E4 64, A4 69 (MIDI 1.0: 60 is middle C). Cases are players' questions; what carries no other source is
// common practice, no source.

const CHORDS = 'chord C 0-0-0-3\nchord Am 2-0-0-0\nchord F 2-0-1-0\nchord G 0-2-3-2\n';

function lesson(rows: string, bars = '| C |', more = ''): string {
  return `${CHORDS}melody q\n  ${rows.split('; ').join('\n  ')}\nprogression v\n  ${bars}\nexercise e\n  play v\n  with q${more}`;
}

describe('pitch', () => {
  test('C-18 must: p i m a on C 0003 sounds G4 C4 E4 C5, the fourth string above the third', () => {
    const { sounds } = performanceIn(lesson('count 1 & 2 & 3 & 4 &; pick 4p 3i 2m 1a 4p 3i 2m 1a'));
    expect(sounds.slice(0, 4).map(({ midi }) => midi)).toEqual([67, 60, 64, 72]);
  });

  test('C-17 must: with capo 2 the shape C 0003 sounds A4 D4 F#4 D5', () => {
    const { sounds, open } = performanceIn(
      `for tenor ukulele, high G, capo 2\n${lesson('count 1 2 3 4; strum D . . .')}`,
    );
    expect(sounds.map(({ midi }) => midi)).toEqual([69, 62, 66, 74]);
    expect(open).toEqual([71, 66, 62, 69]);
  });

  test('C-14 must: on low G the fourth string is an octave lower', () => {
    const { sounds } = performanceIn(`for tenor ukulele, low G\n${lesson('count 1 2 3 4; pick 4 . . .')}`);
    expect(sounds[0]?.midi).toBe(55);
  });

  // Partials of an open string: the octave at the 12th fret, octave and fifth at the 7th, two octaves at the 5th (harmonic series).
  test.each([
    ['1:12*', 81],
    ['1:7*', 88],
    ['1:5*', 93],
  ])('a harmonic %s on the A string sounds %d', (note, midi) => {
    expect(told(performanceIn(lesson(`count 1 2 3 4; tune ${note} . . .`)))).toEqual([`harmonic 1:${midi} 0–4`]);
  });
});

describe('length', () => {
  test('C-13 should: each string sounds until it is plucked again', () => {
    expect(told(performanceIn(lesson('count 1 & 2 & 3 & 4 &; ring all; pick 4 3 2 1 4 3 2 1'))).slice(0, 5)).toEqual([
      'pluck 4:67 0–2',
      'pluck 3:60 0.5–2.5',
      'pluck 2:64 1–3',
      'pluck 1:72 1.5–3.5',
      'pluck 4:67 2–4',
    ]);
  });

  test('C-15 must: bars come in the order A B C A B D E, each with its written place', () => {
    const text = lesson('count 1 2 3 4; strum D . . .', '|: C | Am | 1st F :| 2nd G | C ||');
    const { bars, perWhole } = performanceIn(text);
    expect(bars.map(({ written }) => written)).toEqual([0, 1, 2, 0, 1, 3, 4]);
    expect(bars.map(({ at }) => played(at) / perWhole)).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  test('a second time with another pattern follows the first', () => {
    const text = `${lesson('count 1 2 3 4; strum D . . .')}\n  with q`;
    expect(performanceIn(text).bars.map(({ pass, written }) => `${pass}.${written}`)).toEqual(['1.0', '2.0']);
  });
});

describe('swing (C-3)', () => {
  const eighths = lesson('count 1 & 2 & 3 & 4 &; strum D U D U D U D U');
  const beats = ({ sounds, perWhole }: Performance, time: typeof played): readonly number[] => [
    ...new Set(sounds.map(({ at }) => (time(at) * 480 * 4) / perWhole)),
  ];

  test('must: the off-beat comes at tick 320 of 480, and at 240 with swing off', () => {
    const swung = performanceIn(`feel swing\n${eighths}`);
    expect(beats(swung, played).slice(0, 4)).toEqual([0, 320, 480, 800]);
    expect(beats(swung, even).slice(0, 4)).toEqual([0, 240, 480, 720]);
    expect(swung.swings).toBe(true);
  });

  test('a lesson that does not swing has one time for each sound', () => {
    const straight = performanceIn(eighths);
    expect(straight.swings).toBe(false);
    expect(straight.sounds.every(({ at, end }) => typeof at === 'number' && typeof end === 'number')).toBe(true);
  });

  test('C-10 should: a triplet is played as written under swing', () => {
    const triplet = performanceIn(`feel swing\n${lesson('count 1 t l 2 3 4; strum D D U . . .')}`);
    expect(beats(triplet, played)).toEqual([0, 160, 320]);
  });

  test('a pickup on four swings as the fourth beat that it is, and is counted in by seven clicks', () => {
    const text = `${CHORDS}melody q\n  count 4 & | 1 2 3\n  tune 1:0 1:2 1:3 . .\nprogression v\n  count 4\n  | C | C / / |\nexercise e\n  play v\n  with q`;
    const performance = performanceIn(`feel swing\n${text}`);
    expect(performance.bars.map(({ number }) => number)).toEqual([undefined, 1]);
    const times = performance.sounds.map(({ at }) => quarters(performance, at));
    expect(times.slice(0, 3).map((time) => Math.round(time * 3))).toEqual([0, 2, 3]);
    const { countIn, clicks } = performance.meters[performance.bars[0]?.meter ?? 0] ?? {
      countIn: undefined,
      clicks: [],
    };
    expect(countIn?.clicks).toHaveLength(7);
    expect(quarters(performance, countIn?.length ?? 0)).toBe(7);
    expect(clicks).toEqual([[0, false]]);
  });
});

describe('strokes', () => {
  test('a down stroke meets string 4 first, an up stroke string 1', () => {
    const { sounds } = performanceIn(lesson('count 1 2 3 4; strum D . U .'));
    const turns = sounds.map(
      ({ string, stroke }) => `${string} ${stroke?.nth}/${stroke?.of}${stroke?.up === true ? ' up' : ''}`,
    );
    expect(turns).toEqual(['4 0/4', '3 1/4', '2 2/4', '1 3/4', '1 0/4 up', '2 1/4 up', '3 2/4 up', '4 3/4 up']);
  });

  test('C-8 should: chunk, damped stroke and rest are three things', () => {
    expect(told(performanceIn(lesson('count 1 2 3 4; strum D chunk Dx stop')))).toEqual([
      'strum 4:67 0–1',
      'strum 3:60 0–1',
      'strum 2:64 0–1',
      'strum 1:72 0–1',
      'chunk  1–2',
      'muted 4:67 2–3',
      'muted 3:60 2–3',
      'muted 2:64 2–3',
      'muted 1:72 2–3',
    ]);
  });

  test('accents are louder, ghost strokes softer', () => {
    const { sounds } = performanceIn(lesson('count 1 2 3 4; strum D D! (D) .'));
    const [plain = 0, , , , accent = 0, , , , light = 0] = sounds.map(({ loudness }) => loudness);
    expect(accent).toBeGreaterThan(plain + 0.1);
    expect(light).toBeLessThan(plain - 0.1);
  });

  test('hits are told apart', () => {
    const kinds = performanceIn(lesson('count 1 2 3 4; strum D . . .; hit thumb4 palm nails body')).sounds.map(
      ({ kind }) => kind,
    );
    expect(kinds.filter((kind) => kind !== 'strum')).toEqual(['slap', 'palm', 'nails', 'body']);
  });
});

describe('the plain chords: no pattern says what the right hand does', () => {
  const plain = (bars: string) => told(performanceIn(`${CHORDS}progression v\n  ${bars}\nexercise e\n  play v`));

  test('each chord is struck down where it is taken, and at the head of each bar that it goes on for', () => {
    const struck = (frets: readonly number[], from: number, to: number) =>
      [67, 60, 64, 69].map((open, at) => `strum ${4 - at}:${open + (frets[at] ?? 0)} ${from}–${to}`);
    const [c, am, f] = [
      [0, 0, 0, 3],
      [2, 0, 0, 0],
      [2, 0, 1, 0],
    ];
    expect(plain('| C | % | Am F |')).toEqual([
      ...struck(c, 0, 4),
      ...struck(c, 4, 8),
      ...struck(am, 8, 10),
      ...struck(f, 10, 12),
    ]);
    expect(plain('| C | NC | C / / Am |')).toEqual([...struck(c, 0, 4), ...struck(c, 8, 11), ...struck(am, 11, 12)]);
  });

  test('repeats are played out, and chords under "over" are struck as well', () => {
    expect(plain('|: C | F :|')).toHaveLength(16);
    expect(told(performanceIn(`${CHORDS}exercise e\n  over C F`))).toHaveLength(8);
  });
});

describe('what the left hand adds', () => {
  test('C-11 must: a hammer-on is one pick and two sounding notes', () => {
    expect(told(performanceIn(lesson('count 1 2 3 4; tune 1:2h4 . . .')))).toEqual([
      'pluck 1:71 0–0.125',
      'hammer-on 1:73 0.125–4',
    ]);
  });

  test('in a column of its own it comes on time', () => {
    expect(told(performanceIn(lesson('count 1 2 3 4; tune 1:4 p2 . .')))).toEqual([
      'pluck 1:73 0–1',
      'pull-off 1:71 1–4',
    ]);
  });

  test('a slide begins where it comes from', () => {
    const { sounds } = performanceIn(lesson('count 1 2 3 4; tune 1:4 s7 . .'));
    expect(sounds.map(({ kind, midi, from }) => [kind, midi, from])).toEqual([
      ['pluck', 73, undefined],
      ['slide', 76, 73],
    ]);
  });

  test('bend and vibrato go with their note', () => {
    const { sounds } = performanceIn(lesson('count 1 2 3 4; tune 1:4b . 1:5v .'));
    expect(sounds.map(({ bend, vibrato }) => [bend, vibrato])).toEqual([
      [1, undefined],
      [undefined, true],
    ]);
  });

  test('in a column of their own vibrato, bend and trill are not struck anew', () => {
    for (const mark of ['v', 'b', 't7']) {
      const [struck, kept] = performanceIn(lesson(`count 1 2 3 4; tune 1:5 . ${mark} .`)).sounds;
      expect([struck?.kind, kept?.kind, kept?.midi, kept?.from]).toEqual(['pluck', 'slide', 74, undefined]);
      expect(kept?.loudness ?? 1).toBeLessThan(struck?.loudness ?? 0);
    }
  });

  test('what is bent or shaken is the note that is reached', () => {
    const shaken = (mark: string) =>
      performanceIn(lesson(`count 1 2 3 4; tune ${mark} . . .`)).sounds.map(({ midi, vibrato, bend }) => [
        midi,
        vibrato === true || bend !== undefined,
      ]);
    expect(shaken('1:5s9v')).toEqual([
      [74, false],
      [78, true],
    ]);
    expect(shaken('1:5h7b')).toEqual([
      [74, false],
      [76, true],
    ]);
  });

  test('a slide in time begins where a quick hammer-on has led', () => {
    const { sounds } = performanceIn(lesson('count 1 2 3 4; tune 1:5h7 . s9 .'));
    expect(sounds.map(({ kind, midi, from }) => [kind, midi, from])).toEqual([
      ['pluck', 74, undefined],
      ['hammer-on', 76, undefined],
      ['slide', 78, 76],
    ]);
  });

  test('a trill goes to and fro and comes home', () => {
    const pitches = performanceIn(lesson('count 1 2 3 4; tune 1:5t7 . 1:0 .')).sounds.map(({ midi }) => midi);
    expect(pitches.slice(0, 4)).toEqual([74, 76, 74, 76]);
    expect(pitches.at(-2)).toBe(74);
    expect(pitches.at(-1)).toBe(69);
  });
});

describe('counting', () => {
  const clicks = (meter: string, bars: string): readonly [number, boolean][] => {
    const performance = performanceIn(`meter ${meter}\n${lesson('count 1; strum D', bars)}`);
    const { countIn } = performance.meters[performance.bars[0]?.meter ?? 0] ?? { countIn: { clicks: [] } };
    return countIn.clicks.map(([at, strong]) => [(at * 4) / performance.perWhole, strong]);
  };

  test.each([
    ['4/4', 4],
    ['3/4', 3],
    // C-5 must: two dotted quarters, never three.
    ['6/8', 2],
  ])('E-7 should: one bar of %s is counted in with %d clicks', (meter, count) => {
    const found = clicks(meter, '| C |');
    expect(found).toHaveLength(count);
    expect(found.filter(([, strong]) => strong)).toHaveLength(1);
  });

  test('C-5 must: at dotted quarter = 60 an eighth of 6/8 lasts 333 ms', () => {
    const performance = performanceIn(`meter 6/8\ntempo 60\n${lesson('count 1 2 3 4 5 6; pick 4 3 2 1 2 3')}`);
    const [first, second] = performance.sounds;
    const tick = 60_000 / (60 * (performance.meters[0]?.beat ?? 1));
    expect((played(second?.at ?? 0) - played(first?.at ?? 0)) * tick).toBeCloseTo(333.33, 1);
  });
});

describe('tempo', () => {
  const tempos = (tempo: string): readonly number[] =>
    performanceIn(`${tempo}\n${lesson('count 1 2 3 4; strum D . . .')}`).tempos;

  test.each([
    ['tempo 60 to 92 by 4', [60, 64, 68, 72, 76, 80, 84, 88, 92]],
    ['tempo 60 to 72 by 4 every 2', [60, 60, 64, 64, 68, 68, 72]],
    ['tempo 60 to 70 by 4', [60, 64, 68, 70]],
    ['tempo 76 to 72 by 2', [76, 74, 72]],
    ['tempo 80', [80]],
  ])('%s is a ladder of %j', (tempo, expected) => expect(tempos(tempo)).toEqual(expected));

  test('an exercise has its own', () => {
    expect(performanceIn(`tempo 60\n${lesson('count 1 2 3 4; strum D . . .')}\n  tempo 90`).tempos).toEqual([90]);
  });

  // Common practice, no source: where no sign says otherwise, note values keep their length over a change of meter.
  test.each([
    ['| C | 6/8 C | 5/8 C |', 4],
    ['| 6/8 C | 4/4 C |', 8 / 3],
  ])('over %s the tempo counts the beat of the first bar throughout', (bars, beatsOfWhole) => {
    const { meters, perWhole } = performanceIn(`tempo 60\n${lesson('count 1 & 2 &; pick 1 2 3 4', bars)}`);
    expect(meters.length).toBeGreaterThan(1);
    for (const { beat } of meters) expect(perWhole / beat).toBeCloseTo(beatsOfWhole, 9);
  });

  test('a tempo in eighths counts eighths', () => {
    const { meters, perWhole } = performanceIn(
      `meter 6/8\ntempo 180 eighths\n${lesson('count 1 2 3 4 5 6; pick 4 3 2 1 2 3')}`,
    );
    expect(meters[0]?.beat).toBe(perWhole / 8);
  });
});

test('packed for a file, a term weighs less than half', () => {
  const folder = path.join(import.meta.dirname, '..', '..', 'client', 'samples');
  const all = readdirSync(folder)
    .filter((name) => name.endsWith('.lesson'))
    .flatMap((name) => performancesIn(readFileSync(path.join(folder, name), 'utf8')));
  const weight = (value: unknown): number => JSON.stringify(value).length;
  expect(weight(all.map(packed))).toBeLessThan(weight(all) / 2);
});

describe('in all samples', () => {
  const folder = path.join(import.meta.dirname, '..', '..', 'client', 'samples');
  const samples = readdirSync(folder).filter((name) => name.endsWith('.lesson'));

  test.each(samples)('%s: whole ticks, in order, one sound a string, and the same again from JSON', (name) => {
    for (const performance of performancesIn(readFileSync(path.join(folder, name), 'utf8'))) {
      expect(JSON.parse(JSON.stringify(performance))).toEqual(performance);
      const small = JSON.stringify(packed(performance));
      expect(unpacked(JSON.parse(small))).toEqual(performance);
      const { sounds, bars, end, open } = performance;
      const free = new Map<number, number>();
      for (const [index, { at, end: silent, string, midi, bar, kind }] of sounds.entries()) {
        for (const time of [played(at), even(at), played(silent), even(silent)])
          expect(Number.isInteger(time)).toBe(true);
        expect(played(at)).toBeGreaterThanOrEqual(played(sounds[index - 1]?.at ?? 0));
        expect(played(silent)).toBeLessThanOrEqual(played(end));
        expect(played(bars[bar]?.at ?? end)).toBeLessThanOrEqual(played(at));
        expect(played(bars[bar + 1]?.at ?? end)).toBeGreaterThan(played(at));
        if (string === undefined || midi === undefined || kind === 'muted') continue;
        expect(played(at)).toBeGreaterThanOrEqual(free.get(string) ?? 0);
        free.set(string, played(silent));
        expect(midi).toBeGreaterThanOrEqual(open[string - 1] ?? 0);
      }
    }
  });
});
