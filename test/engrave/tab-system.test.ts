import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Item } from '../../shared/engrave/drawing.ts';
import { SIZES, STRETCH } from '../../shared/engrave/sizes.ts';
import { placeSlots, stretchFor } from '../../shared/engrave/tab-spacing.ts';
import { type System, systemsOf } from '../../shared/engrave/tab-system.ts';
import type { ExerciseScore, ScoreBar } from '../../shared/score/timeline.ts';
import { collisions, textsOf } from './boxes.ts';
import { inkedOf } from './collisions/inked.ts';
import { bar, chord, score } from './hand-made.ts';
import { KNOCK, METERS, ROLL, TUNE } from './lesson-samples.ts';

const WIDTHS = [80, 120, 190] as const;

function layOut(exercise: ExerciseScore, widthMm: number): readonly System[] {
  const [pass] = exercise.passes;
  return pass === undefined
    ? []
    : systemsOf(exercise, pass, { widthMm, stringNames: stringNames(exercise.stringCount) });
}

function stringNames(count: number): readonly string[] {
  return Array.from({ length: count }, (_, index) => 'ABCDEFGA'.charAt(index));
}

describe('lines of bars', () => {
  test.each(WIDTHS)('at %i mm every bar is drawn once, in order, and no line is wider than the page', (widthMm) => {
    for (const exercise of [ROLL, KNOCK, TUNE, METERS]) {
      const systems = layOut(exercise, widthMm);
      const spoken = systems.flatMap((system) =>
        marks(system)
          .map(({ alternative }) => alternative)
          .filter((text) => /^(Bar|Pickup)/.test(text)),
      );
      const numbers =
        exercise.passes[0]?.bars.map((one) => (one.number === undefined ? 'Pickup' : `Bar ${one.number}`)) ?? [];
      expect(spoken.map((text) => text.split(/[,.]/)[0])).toEqual(numbers);
      for (const { drawing } of systems) expect(drawing.width * drawing.scale).toBeLessThanOrEqual(widthMm + 0.01);
    }
  });

  test('all lines but the last reach the right edge', () => {
    for (const widthMm of WIDTHS) {
      const systems = layOut(ROLL, widthMm);
      for (const { drawing } of systems.slice(0, -1)) expect(drawing.width).toBeGreaterThan(widthMm - 0.1);
    }
  });

  // Common practice of engraving, no source: a line that is nearly full is filled, a short one is not drawn out.
  test('the last line reaches the right edge, or ends well before it', () => {
    let short = 0;
    let full = 0;
    for (const widthMm of [110, 150, 174, 190, 240]) {
      for (let count = 1; count <= 9; count++) {
        for (const counts of ['1 2 3 4', '1 & 2 & 3 & 4 &']) {
          const play = counts
            .split(' ')
            .map((_, index) => `${(index % 4) + 1}p:0`)
            .join(' ');
          const bars = Array.from({ length: count }, (_, index) => bar({ number: index + 1, counts, play }));
          const last = layOut(score(bars), widthMm).at(-1) ?? failed();
          if (last.drawing.width > widthMm - 0.01) full++;
          else {
            short++;
            expect(last.drawing.width / widthMm, `${count} bars of ${counts} on ${widthMm} mm`).toBeLessThan(0.85);
          }
        }
      }
    }
    expect(Math.min(short, full)).toBeGreaterThan(10);
  });

  // Common practice of engraving, no source: thin and heavy line at the end, and nowhere before it.
  test('an exercise ends with a final bar line, and its first time through does not', () => {
    const bars = [1, 2, 3].map((number) => bar({ number, counts: '1 2 3 4', play: '4p:0 3p:0 2p:0 1p:0' }));
    const [pass] = score(bars).passes;
    if (pass === undefined) throw new Error('no pass');
    const twice: ExerciseScore = {
      ...score(bars),
      passes: [
        { ...pass, number: 1 },
        { ...pass, number: 2 },
      ],
    };
    const heavy = twice.passes.map((one) =>
      systemsOf(twice, one, { widthMm: 190 }).map(({ drawing }) => {
        const lines = inkedOf(drawing).filter(
          ({ item }) => item.kind === 'line' && item.thickness === SIZES.heavyLineThickness,
        );
        return lines.map(({ box }) => Math.round(drawing.width - box.x - box.width));
      }),
    );
    expect(heavy).toEqual([[[]], [[0]]]);
  });

  test('a single bar is not stretched more than the last line may be', () => {
    const alone = score([bar({ number: 1, counts: '1 2 3 4', play: '4p:0 3p:0 2p:0 1p:0' })]);
    const quarter = SIZES.eighth * 2 ** 0.6 * STRETCH.lastLine;
    const xs = textsOf(layOut(alone, 190)[0]?.drawing ?? failed())
      .filter(({ item }) => item.role === 'count' && /\d/.test(item.text))
      .map(({ item, box }) => box.x + box.width / 2 + item.x);
    for (const [index, x] of xs.slice(1).entries()) expect(x - (xs[index] ?? 0)).toBeLessThanOrEqual(quarter + 0.01);
  });

  test('a bar too wide for the page shrinks, but not below the stated least', () => {
    const [narrow] = layOut(
      score([
        bar({
          number: 1,
          counts: '1 e & a 2 e & a 3 e & a 4 e & a',
          play: Array.from({ length: 16 }, () => '1:12').join(' '),
        }),
      ]),
      80,
    );
    expect(narrow?.drawing.scale).toBeLessThan(1);
    expect((narrow?.drawing.width ?? 0) * (narrow?.drawing.scale ?? 0)).toBeLessThanOrEqual(80.01);
  });

  // Case E-9: a bar too wide for the screen shrinks to a stated minimum, then splits at a beat.
  test('a bar too wide even so is parted at a beat, and only its first part has the number', () => {
    const beats = Array.from({ length: 16 }, (_, index) => index);
    const wide = bar({
      number: 5,
      meter: { counts: 16, unit: 4 },
      counts: beats.map((beat) => `${beat + 1} &`).join(' '),
      play: beats.map(() => '1p:12 2i:12').join(' '),
    });
    for (const widthMm of [80, 120] as const) {
      const systems = layOut(score([{ ...wide, closes: '||' }]), widthMm);
      expect(systems.length).toBeGreaterThan(1);
      const spoken = systems.map((system) => marks(system)[0]?.alternative ?? '');
      expect(spoken[0]).toMatch(/^Bar 5\. Beat 1: thumb/);
      for (const text of spoken.slice(1)) expect(text).toMatch(/^Bar 5 goes on\. Beat \d+: thumb/);
      const counted = systems.flatMap(({ drawing }) => countsOf(drawing));
      expect(counted.filter((text) => /^\d/.test(text))).toEqual(beats.map((beat) => String(beat + 1)));
      expect(counted.length).toBe(32);
      for (const [index, { drawing }] of systems.entries()) {
        expect(drawing.width * drawing.scale).toBeLessThanOrEqual(widthMm + 0.01);
        expect(drawing.scale).toBeGreaterThanOrEqual(SIZES.leastScale);
        const numbers = textsOf(drawing).filter(({ item }) => item.text === '5' && item.size === SIZES.small);
        expect(numbers.length).toBe(index === 0 ? 1 : 0);
        expect(collisions(drawing)).toEqual([]);
      }
    }
  });

  test('a note twice as long gets more room, but not twice as much', () => {
    const [system] = layOut(
      score([bar({ number: 1, counts: '1 & 2 3', play: '1:0 1:0 1:0 . 1:0 . . .'.replace(/ \.$/, '') })]),
      190,
    );
    expect(system).toBeDefined();
    const eighth = spring(1 / 8);
    expect(spring(1 / 4)).toBeGreaterThan(eighth * 1.3);
    expect(spring(1 / 4)).toBeLessThan(eighth * 1.8);
  });
});

describe('nothing lies over anything else', () => {
  test.each(WIDTHS)('in the samples at %i mm', (widthMm) => {
    for (const exercise of [ROLL, KNOCK, TUNE, METERS]) {
      for (const { drawing } of layOut(exercise, widthMm)) expect(collisions(drawing)).toEqual([]);
    }
  });

  test('in a thousand generated bars', () => {
    let bars = 0;
    fc.assert(
      fc.property(anyExercise(), fc.constantFrom(...WIDTHS), (exercise, widthMm) => {
        for (const { drawing } of layOut(exercise, widthMm)) expect(collisions(drawing)).toEqual([]);
        bars += exercise.passes[0]?.bars.length ?? 0;
      }),
      { seed: 11, numRuns: 250 },
    );
    expect(bars).toBeGreaterThan(1000);
  }, 60_000);

  test('everything lies within the drawing', () => {
    fc.assert(
      fc.property(anyExercise(), fc.constantFrom(...WIDTHS), (exercise, widthMm) => {
        for (const { drawing } of layOut(exercise, widthMm)) {
          for (const { item, box } of textsOf(drawing)) {
            expect(box.x, item.text).toBeGreaterThan(-0.6);
            expect(box.y, item.text).toBeGreaterThan(-0.01);
            expect(box.y + box.height, item.text).toBeLessThanOrEqual(drawing.height + 0.01);
          }
        }
      }),
      { seed: 12, numRuns: 100 },
    );
  }, 60_000);
});

describe('spacing', () => {
  test('width grows with stretch, and the stretch found fills the width', () => {
    const piece = fc
      .record({ left: fc.double({ min: 0, max: 4, noNaN: true }), right: fc.double({ min: 0, max: 4, noNaN: true }) })
      .map((sides) => ({ ...sides, row: 'staff' as const, items: [] }));
    const slots = fc.array(
      fc.record({
        rigid: fc.nat(3),
        spring: fc.double({ min: 0.5, max: 20, noNaN: true }),
        pieces: fc.array(piece, { maxLength: 1 }),
      }),
      { minLength: 2, maxLength: 20 },
    );
    fc.assert(
      fc.property(slots, (made) => {
        const natural = placeSlots(made, 1).width;
        expect(placeSlots(made, 1.5).width).toBeGreaterThanOrEqual(natural);
        const found = placeSlots(made, stretchFor(made, natural, 4)).width;
        expect(found).toBeLessThanOrEqual(natural + 1e-9);
        expect(found).toBeGreaterThan(natural - 0.05);
      }),
      { seed: 13 },
    );
  });
});

// Case E-3; what a bar says is tested where it is said, in bar-text.test.ts.
describe('the end of a line', () => {
  const slot = (row: 'staff' | 'pattern', right: number, spring = 5) =>
    ({ rigid: 0, spring, pieces: [{ row, left: 0, right, items: [] }] }) as const;

  test('words that reach beyond the last bar line take it along, so that the strings end with it', () => {
    for (const stretch of [0, 1, 2]) {
      const { xs, width } = placeSlots([slot('staff', 0.2), slot('pattern', 14), slot('staff', 0.6)], stretch);
      expect(xs.at(-1)).toBeCloseTo(width - 0.6, 9);
      expect(width).toBeGreaterThanOrEqual(14);
    }
  });
});

describe('what a line of bars says to who cannot see it', () => {
  test('each bar its sentence, with the names of the open strings', () => {
    const play = '4p:0 2i:3 . .';
    const [system] = layOut(
      score([bar({ number: 3, counts: '1 & 2 &', chords: [[0, chord('G', [0, 2, 3, 2])]], play })]),
      190,
    );
    expect(marks(system ?? failed())[0]?.alternative).toBe(
      'Bar 3, G. Beat 1: thumb, string 4 (A) open. And: index, string 2 (C) fret 3.',
    );
  });

  test('no dashes, no empty sentences, in anything generated', () => {
    fc.assert(
      fc.property(anyExercise(), (exercise) => {
        for (const system of layOut(exercise, 120)) {
          for (const { alternative } of marks(system)) {
            expect(alternative).not.toMatch(/--|undefined|: \.|NaN/);
            expect(alternative.length).toBeGreaterThan(3);
          }
        }
      }),
      { seed: 14, numRuns: 60 },
    );
  });
});

// Case C-8: three silences, three signs. Compared as drawn, colours left out.
test('chunk, damped stroke and rest are drawn differently, and so is every other sign of the hand', () => {
  const cells = [
    'D',
    'U',
    'Dx',
    'Ux',
    'D~',
    '(U)',
    'D43',
    'chunk',
    'roll',
    'slide',
    'thumb',
    'palm',
    'nails',
    'body',
    'stop',
    'stop3',
    'held',
    '1:3',
    '1:3!',
    '1i:3',
    '1:3*',
    't1:3',
  ];
  const drawn = cells.map((cell) => {
    const [system] = layOut(score([bar({ number: 1, play: cell })]), 120);
    const content = system?.drawing.items.find((item) => item.kind === 'group' && item.mark !== undefined);
    return JSON.stringify(content, (key, value) => (key === 'ink' || key === 'mark' ? undefined : value));
  });
  expect(new Set(drawn).size).toBe(cells.length);
});

test('a down-stroke points up the page, toward string 1, and an up-stroke down', () => {
  const tips = ['D', 'U'].map((cell) => {
    const [system] = layOut(score([bar({ number: 1, play: cell })]), 120);
    const paths = flat(system?.drawing.items ?? []).filter(
      (item) => item.kind === 'path' && item.thickness === undefined && item.ink === 'strong',
    );
    const [head] = paths;
    const step = head?.kind === 'path' ? head.steps[0] : undefined;
    return step?.[0] === 'M' ? step[2] : failed();
  });
  expect(tips[0]).toBeLessThan(0);
  expect(tips[1]).toBeGreaterThan(0);
});

test('places of a line: every bar and every chord name, with its source', () => {
  for (const system of layOut(ROLL, 120)) {
    const groups = marks(system);
    expect(groups.map(({ place }) => place)).toEqual(system.places.map((_, index) => index));
    expect(groups.filter(({ alternative }) => alternative.startsWith('Chord')).length).toBeGreaterThan(0);
  }
});

test('a line of bars, as its texts and where they stand', () => {
  const [system] = layOut(ROLL, 120);
  const lines = textsOf(system?.drawing ?? failed()).map(
    ({ item, box }) => `${item.role} ${item.text} ${box.x.toFixed(1)} ${box.y.toFixed(1)}`,
  );
  expect(lines).toMatchSnapshot();
});

function countsOf(drawing: System['drawing']): readonly string[] {
  return textsOf(drawing).flatMap(({ item }) =>
    item.role === 'count' && item.anchor === 'middle' && /^\d+$|&/.test(item.text) ? [item.text] : [],
  );
}

function spring(length: number): number {
  return SIZES.eighth * (length * 8) ** 0.6;
}

function marks(system: System): readonly { readonly alternative: string; readonly place?: number }[] {
  return system.drawing.items.flatMap((item) => (item.kind === 'group' && item.mark !== undefined ? [item.mark] : []));
}

function flat(items: readonly Item[]): readonly Item[] {
  return items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : [item]));
}

function anyExercise(): fc.Arbitrary<ExerciseScore> {
  return fc.integer({ min: 4, max: 8 }).chain((strings) => {
    const string = fc.integer({ min: 1, max: strings });
    const fret = fc.integer({ min: 0, max: 19 });
    const finger = fc.constantFrom('', 'p', 'i', 'm', 'a');
    const after = fc.constantFrom('', '', '', 'h12', 'p2', 's14', 'b', 'v', 't4', '*', '^');
    const note = fc.tuple(string, finger, fret, after).map(([s, f, n, t]) => `${s}${f}:${n}${t}`);
    const notes = fc
      .uniqueArray(note, { minLength: 1, maxLength: 3, selector: (text) => text.charAt(0) })
      .map((list) => list.join('+'));
    const hand = fc.constantFrom(
      'D',
      'U',
      'D~',
      'Dx',
      'Ux',
      '(U)',
      'D!',
      'chunk',
      'roll',
      'slide',
      'thumb',
      'palm',
      'nails',
      'body',
      'stop',
      'stop2',
      '.',
    );
    const cell = fc.oneof(
      notes,
      notes.map((text) => `t${text}`),
      notes.map((text) => `${text}!`),
      hand,
      fc.constant('.'),
    );
    const counts = fc.constantFrom(
      '1 & 2 & 3 & 4 &',
      '1 2 3 4',
      '1 e & a 2 e & a',
      '1 la li 2 la li',
      '1-2 la li 3 4',
      '',
    );
    const name = fc.constantFrom('C', 'F#m7b5', 'Bbmaj7/F', 'D(add9)', 'G');
    const held = fc
      .tuple(name, fc.array(fret, { minLength: strings, maxLength: strings }), fc.boolean())
      .map(([text, shape, assumed]) => chord(text, shape, assumed));
    const word = fc.constantFrom('Lan-', 'terns', 'through', 'a', 'Wednesday');
    const oneBar = fc.record({
      counts,
      cells: fc.array(cell, { minLength: 1, maxLength: 8 }),
      held: fc.array(held, { maxLength: 3 }),
      words: fc.array(word, { maxLength: 4 }),
      opens: fc.constantFrom(undefined, '|:' as const),
      closes: fc.constantFrom('|' as const, ':|' as const, '||' as const),
      ending: fc.boolean(),
    });
    return fc.array(oneBar, { minLength: 1, maxLength: 9 }).map((made) =>
      score(
        made.map((one, index): ScoreBar => {
          const sketch = bar({
            number: index + 1,
            showsMeter: index === 0,
            counts: one.counts,
            play: one.cells.join(' '),
            chords: one.held.map((each, at) => [at * 2, each] as const),
            words: one.words.map((text, at) => [at, text] as const),
            opens: one.opens,
            closes: one.closes,
            ...(one.ending ? { ending: { numbers: [1, 2], begins: true, ends: true } } : {}),
          });
          return { ...sketch, syllables: one.counts === '' ? [] : sketch.syllables };
        }),
        strings,
      ),
    );
  });
}

function failed(): never {
  throw new Error('not drawn');
}
