import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { exerciseScore } from '../../shared/score/exercise-score.ts';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import type { RhythmEntry, RhythmLine } from '../../shared/score/rhythm-line.ts';
import type { ScoreBar } from '../../shared/score/timeline.ts';
import { barLength, type Meter, parseMeter } from '../../shared/theory/meter.ts';
import { compare, over, plus, type Rational, rational, times, ZERO } from '../../shared/theory/rational.ts';
import { barsOf, inQuarters } from './scoring.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

/**
 * Where beams may not reach over, in counts from the start of the bar. Source: E. Gould, Behind Bars (2011), from memory: half bars in
 * 4/4, dotted beats in compound meters, groups of two and three in mixed ones; in 3/4 by beats, as players count it.
 */
const BEAM_BOUNDS: Readonly<Record<string, readonly number[]>> = {
  '2/4': [],
  '3/4': [1, 2],
  '4/4': [2],
  '5/4': [3],
  '3/8': [],
  '6/8': [3],
  '9/8': [3, 6],
  '12/8': [3, 6, 9],
  '5/8': [3],
  '7/8': [2, 4],
};
const METERS = Object.keys(BEAM_BOUNDS);

function meterOf(text: string): Meter {
  const meter = parseMeter(text);
  if (meter === undefined) throw new Error(`${text} is no meter.`);
  return meter;
}

/** The time that an entry's written value takes in its tuplet. */
function writtenLength(line: RhythmLine, entry: RhythmEntry, index: number): Rational {
  const dotted = [rational(1), rational(3, 2), rational(7, 4)][entry.dots] ?? rational(1);
  const plain = times(rational(1, entry.value), dotted);
  const tuplet = line.tuplets.find(({ first, last }) => index >= first && index <= last);
  return tuplet === undefined ? plain : times(plain, rational(tuplet.inTimeOf, tuplet.count));
}

/** All that is wrong with the rhythm of a bar. */
function faultsOf(bar: ScoreBar): readonly string[] {
  const lines = rhythmOf(bar);
  const sides = lines.map(({ side }) => side);
  const faults = new Set(sides).size === sides.length && sides.length > 0 ? [] : [`lines ${sides.join(' ')}`];
  for (const line of lines) {
    let end: Rational = ZERO;
    line.entries.forEach((entry, index) => {
      const where = `${line.side} ${index} at ${inQuarters(entry.at)}`;
      if (compare(entry.at, end) !== 0) faults.push(`${where} does not begin where the last one ends`);
      end = plus(entry.at, entry.length);
      if (entry.wholeBar !== true && compare(writtenLength(line, entry, index), entry.length) !== 0)
        faults.push(`${where}: ${entry.value} with ${entry.dots} dots is not ${inQuarters(entry.length)}`);
      const next = line.entries[index + 1];
      if (entry.tiedOn && entry.kind === 'rest') faults.push(`${where}: a rest is tied`);
      if (next !== undefined && entry.tiedOn !== (next.kind === 'tied')) faults.push(`${where}: tie to ${next.kind}`);
      if (index > 0 && entry.kind === 'attack' && !isStruckAt(bar, entry.at))
        faults.push(`${where}: nothing is struck`);
    });
    if (compare(end, bar.length) !== 0) faults.push(`${line.side} ends at ${inQuarters(end)}`);
    faults.push(...beatFaults(line, bar), ...beamFaults(line, bar), ...tupletFaults(line));
  }
  return faults;
}

function isStruckAt(bar: ScoreBar, at: Rational): boolean {
  return bar.events.some((event) => event.kind !== 'stop' && event.kind !== 'held' && compare(event.at, at) === 0);
}

/** What hides a beat: across the middle of 4/4, or across a dotted beat. Source: E. Gould, Behind Bars (2011), from memory. */
function beatFaults({ entries, tuplets }: RhythmLine, { meter, number }: ScoreBar): readonly string[] {
  // A pickup is the end of a bar, whose beats lie elsewhere.
  if (number === undefined) return [];
  const isFour = meter.counts === 4 && meter.unit === 4;
  const isDotted = meter.unit === 8 && [6, 9, 12].includes(meter.counts);
  const bounds = isFour ? [rational(1, 2)] : isDotted ? [3, 6, 9].map((count) => rational(count, 8)) : [];
  return entries.flatMap((entry, index) => {
    if (tuplets.some(({ first, last }) => index >= first && index <= last)) return [];
    const end = plus(entry.at, entry.length);
    const crosses = bounds.some((bound) => compare(bound, entry.at) > 0 && compare(bound, end) < 0);
    if (!crosses || entry.wholeBar === true) return [];
    const isOnBeat = (time: Rational): boolean =>
      over(time, rational(isFour ? 1 : 3, isFour ? 4 : 8)).denominator === 1;
    const mayCross = isFour
      ? entry.kind !== 'rest' && (compare(entry.at, ZERO) === 0 || (entry.value === 2 && entry.dots === 1))
      : compare(entry.length, rational(3, 4)) >= 0;
    return mayCross && isOnBeat(entry.at) && isOnBeat(end) ? [] : [`${index} at ${inQuarters(entry.at)} hides a beat`];
  });
}

function beamFaults(line: RhythmLine, { meter }: ScoreBar): readonly string[] {
  const bounds = (BEAM_BOUNDS[`${meter.counts}/${meter.unit}`] ?? []).map((count) => rational(count, meter.unit));
  let before = -1;
  return line.beams.flatMap(({ first, last, segments }) => {
    const faults: string[] = [];
    if (first <= before || first >= last) faults.push(`beam ${first}-${last} behind ${before}`);
    before = last;
    const group = line.entries.slice(first, last + 1);
    const start = group[0]?.at ?? ZERO;
    const end = plus(group.at(-1)?.at ?? ZERO, group.at(-1)?.length ?? ZERO);
    const isTuplet = line.tuplets.some((tuplet) => tuplet.first <= first && tuplet.last >= last);
    if (!isTuplet && bounds.some((bound) => compare(bound, start) > 0 && compare(bound, end) < 0))
      faults.push(`beam ${first}-${last} leaves its group`);
    if (group.some(({ value }) => value < 8)) faults.push(`beam ${first}-${last} over a long note`);
    if (group[0]?.kind === 'rest' || group.at(-1)?.kind === 'rest') faults.push(`beam ${first}-${last} ends on a rest`);
    for (const segment of segments) {
      const inner = line.entries.slice(segment.first, segment.last + 1);
      if (segment.first < first || segment.last > last) faults.push(`segment ${segment.first} outside its beam`);
      if (inner.some(({ value, kind }) => kind === 'rest' || Math.log2(value) - 2 < segment.level))
        faults.push(`segment ${segment.first}-${segment.last} of level ${segment.level} over too long a note`);
      if ((segment.stub !== undefined) !== (segment.first === segment.last)) faults.push(`stub at ${segment.first}`);
    }
    // Each short note has as many beams as its value asks for.
    group.forEach(({ value, kind }, offset) => {
      const index = first + offset;
      const levels = segments.filter((segment) => segment.first <= index && segment.last >= index).length;
      if (kind !== 'rest' && levels !== Math.log2(value) - 3)
        faults.push(`${value} at ${index} has ${levels} further beams`);
    });
    return faults;
  });
}

function tupletFaults({ tuplets, entries }: RhythmLine): readonly string[] {
  let before = -1;
  return tuplets.flatMap(({ first, last, count, inTimeOf }) => {
    const faults: string[] = [];
    if (first <= before || first >= last) faults.push(`tuplet ${first}-${last} behind ${before}`);
    before = last;
    const length = entries.slice(first, last + 1).reduce((sum: Rational, entry) => plus(sum, entry.length), ZERO);
    // A tuplet takes the time of so many plain values.
    const part = over(length, rational(inTimeOf));
    if (part.numerator !== 1 || !Number.isInteger(Math.log2(part.denominator)))
      faults.push(`${count} in the time of ${inTimeOf} in ${inQuarters(length)}`);
    return faults;
  });
}

/** What is said for one count or a range of two or three, with what splits it. */
const SPLITS = [
  [],
  ['&'],
  ['la', 'li'],
  ['e', '&', 'a'],
  ['b', 'c', 'd', 'e'],
  ['b', 'c', 'd', 'e', 'f'],
  Array(6).fill('z'),
];
const MARKS: Readonly<Record<string, readonly string[]>> = {
  strum: ['D', 'U', '.', '.', 'stop', 'D'],
  pick: ['4p', '3i', '2m', '.', '.', 'stop3'],
  tune: ['1:5', '1:3', '.', '.', 'stop'],
};

interface SaidGroup {
  readonly counts: number;
  readonly words: readonly string[];
}
const saidGroup: fc.Arbitrary<SaidGroup> = fc.record({
  counts: fc.constantFrom(1, 1, 1, 2, 3),
  words: fc.constantFrom<readonly string[]>(...SPLITS),
});

/** A count of one bar: groups until the bar is full. */
function countOf(meter: Meter, groups: readonly SaidGroup[]): readonly string[] {
  const words: string[] = [];
  let said = 0;
  for (let place = 0; said < meter.counts; place += 1) {
    const group = groups[place % groups.length] ?? { counts: 1, words: [] };
    const last = Math.min(meter.counts, said + group.counts);
    words.push(last === said + 1 ? `${last}` : `${said + 1}-${last}`, ...group.words);
    said = last;
  }
  return words;
}

const pattern = fc.record({
  groups: fc.array(saidGroup, { minLength: 1, maxLength: 6 }),
  rows: fc.constantFrom(['strum'], ['pick'], ['tune'], ['tune', 'pick'], ['strum', 'tune']),
  picks: fc.array(fc.nat(59), { minLength: 7, maxLength: 23 }),
});

/** Four patterns of a bar each, one after another. */
const generated = fc
  .record({ meter: fc.constantFrom(...METERS), patterns: fc.array(pattern, { minLength: 4, maxLength: 4 }) })
  .map(({ meter, patterns }) => {
    const written = patterns.map(({ groups, rows, picks }, name) => {
      const count = countOf(meterOf(meter), groups);
      const lines = rows.map((row, shift) => {
        const marks = MARKS[row] ?? [];
        const cells = count.map(
          (_, column) => marks[(picks[(column + shift * 3) % picks.length] ?? 0) % marks.length] ?? '.',
        );
        return `  ${row} ${cells.join(' ')}`;
      });
      return `melody q-${name}\n  count ${count.join(' ')}\n${lines.join('\n')}`;
    });
    const names = patterns.map((_, name) => `q-${name}`);
    return `meter ${meter}\nchord C 0-0-0-3\n${written.join('\n')}\nprogression v\n  | C | C | C | C |\nexercise e\n  play v\n  with ${names.join(', ')}`;
  });

const folder = new URL('../../client/samples/', import.meta.url);
const samples = readdirSync(folder).filter((file) => file.endsWith('.lesson'));

describe('every bar of the sample term', () => {
  test.each(samples)('%s', (file) => {
    const lesson = lessonOf(openDocument(readFileSync(new URL(file, folder), 'utf8')));
    const bars = lesson.editions.flatMap((edition) =>
      lesson.definitions.exercises.flatMap(({ entry, statement }) =>
        exerciseScore(scopeOf(lesson, edition), entry, statement).passes.flatMap((pass) => pass.bars),
      ),
    );
    expect(bars.length).toBeGreaterThan(20);
    expect(bars.flatMap(faultsOf)).toEqual([]);
  });
});

describe('the rhythm of a thousand generated bars', () => {
  test('fills each bar exactly, in values that exist, tied and beamed by the meter', () => {
    const met = new Set<string>();
    let bars = 0;
    let tuplets = 0;
    fc.assert(
      fc.property(generated, (lesson) => {
        for (const bar of barsOf(lesson)) {
          bars += 1;
          met.add(`${bar.meter.counts}/${bar.meter.unit}`);
          tuplets += rhythmOf(bar).reduce((sum, line) => sum + line.tuplets.length, 0);
          expect(compare(bar.length, barLength(bar.meter))).toBe(0);
          expect(faultsOf(bar), lesson).toEqual([]);
        }
      }),
      { seed: SEED, numRuns: 260 },
    );
    expect(bars).toBeGreaterThan(1000);
    expect(tuplets).toBeGreaterThan(200);
    expect([...met].sort()).toEqual([...METERS].sort());
  });

  test('patterns that run over bar lines and chords, and start anew inside bars', () => {
    const counts = fc.array(
      fc.constantFrom('1 2', '1 & 2 & 3 &', '1 la li 2 3 4', '1-2 la li', '1-3 b c d e', '1 2 3 4 | 1 2'),
      { minLength: 1, maxLength: 3 },
    );
    const chords = fc.array(fc.constantFrom('C', 'F', 'C F', 'C / F /', '%', 'NC', 'C NC'), {
      minLength: 1,
      maxLength: 5,
    });
    const restart = fc.constantFrom('', '\n  restart chord', '\n  restart bar');
    fc.assert(
      fc.property(counts, chords, restart, fc.constantFrom('D', '.', 'U'), (said, written, again, first) => {
        const patterns = said.map((line, index) => {
          const cells = line
            .split(' ')
            .filter((word) => word !== '|')
            .map((_, column) => (column === 0 ? first : 'D'));
          return `pattern p-${index}\n  count ${line}\n  strum ${cells.join(' ')}`;
        });
        const lesson = `chord C 0-0-0-3\nchord F 2-0-1-0\n${patterns.join('\n')}\nprogression v\n  count 3\n  | C | ${written.join(' | ')} |\nexercise e\n  play v\n  with ${said.map((_, index) => `p-${index}`).join(' ')}${again}`;
        for (const bar of barsOf(lesson)) expect(faultsOf(bar), lesson).toEqual([]);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  test('lengths that no count makes do not break it', () => {
    const [bar] = barsOf(
      'chord C 0-0-0-3\npattern q\n  count 1 2 3 4\n  strum D . . .\nexercise e\n  over C\n  each q',
    );
    if (bar === undefined) throw new Error('The snippet has no bar.');
    const [event] = bar.events;
    if (event === undefined) throw new Error('Nothing is struck.');
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(96), fc.integer({ min: 97, max: 200 })), { maxLength: 5 }),
        fc.constantFrom(...METERS),
        (places, text) => {
          const meter = meterOf(text);
          const length = barLength(meter);
          const at = places.map(([top, bottom]) => times(length, rational(top, bottom))).sort(compare);
          const events = [ZERO, ...at].map((start) => ({ ...event, at: start, length }));
          const entries = rhythmOf({ ...bar, meter, length, counts: [], events }).flatMap((line) => line.entries);
          const sum = entries.reduce((whole: Rational, entry) => plus(whole, entry.length), ZERO);
          expect(compare(sum, length)).toBe(0);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });
});
