import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { exerciseScore } from '../../shared/score/exercise-score.ts';
import type { ExerciseScore, ScoreBar } from '../../shared/score/timeline.ts';
import { barLength } from '../../shared/theory/meter.ts';
import { compare, plus, type Rational, ZERO } from '../../shared/theory/rational.ts';
import { barsOf, inQuarters, scoreOf } from './scoring.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

const folder = new URL('../../client/samples/', import.meta.url);
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file) => ({ file, text: readFileSync(new URL(file, folder), 'utf8') }));

/** What is wrong with the times of a bar: events out of order, out of the bar, without length, or without a source. */
function faultsOf(bar: ScoreBar): readonly string[] {
  let before: Rational = ZERO;
  return bar.events.flatMap((event) => {
    const faults: string[] = [];
    if (compare(event.at, before) < 0) faults.push(`${event.kind} at ${inQuarters(event.at)} out of order`);
    before = event.at;
    if (compare(event.length, ZERO) <= 0) faults.push(`${event.kind} at ${inQuarters(event.at)} without length`);
    if (compare(plus(event.at, event.length), bar.length) > 0)
      faults.push(`${event.kind} at ${inQuarters(event.at)} goes on behind its bar`);
    const { entry, span } = event.source;
    if (/^$|\s/.test(entry.text.slice(span.start, span.end))) faults.push(`${event.kind} from no mark`);
    return faults;
  });
}

/** Gaps and overlaps of a row that sounds without a pause: none. */
function gapsIn(bar: ScoreBar): readonly string[] {
  let end: Rational = ZERO;
  const gaps = bar.events.flatMap((event) => {
    const gap = compare(event.at, end) === 0 ? [] : [`${inQuarters(end)} to ${inQuarters(event.at)}`];
    end = plus(event.at, event.length);
    return gap;
  });
  return compare(end, bar.length) === 0 ? gaps : [...gaps, `ends at ${inQuarters(end)}`];
}

function allBars(score: ExerciseScore): readonly ScoreBar[] {
  return score.passes.flatMap(({ bars }) => bars);
}

/** A count of one bar: each count whole, in two, three or four, and what is said for it. */
const SPLITS = [[], ['&'], ['la', 'li'], ['e', '&', 'a']];
const meters = fc.constantFrom('2/4', '3/4', '4/4', '5/4', '6/8', '12/8');
const count = (meter: string): fc.Arbitrary<readonly string[]> => {
  const numbers = Number(meter.split('/')[0]);
  return fc
    .array(fc.constantFrom(...SPLITS), { minLength: numbers, maxLength: numbers })
    .map((splits) => splits.flatMap((split, index) => [`${index + 1}`, ...split]));
};
const grid = meters.chain((meter) => count(meter).map((columns) => ({ meter, columns })));
const bar = fc.constantFrom('C', 'F', 'C F', 'C / F /', 'F C / /', '%', 'G7');

describe('generated patterns over generated progressions', () => {
  test('a pattern of one bar fills every bar to the last bit', () => {
    fc.assert(
      fc.property(
        grid,
        fc.array(fc.constantFrom('C', 'F', 'G7'), { minLength: 1, maxLength: 4 }),
        ({ meter, columns }, chords) => {
          const lesson = `meter ${meter}\npattern p\n  count ${columns.join(' ')}\n  pick ${columns.map(() => '1').join(' ')}\nprogression v\n  | ${chords.join(' | ')} |\nexercise e\n  play v\n  with p`;
          const bars = barsOf(lesson);
          expect(bars).toHaveLength(chords.length);
          for (const one of bars) {
            expect(one.length).toEqual(barLength(one.meter));
            expect(gapsIn(one)).toEqual([]);
            expect(one.events).toHaveLength(columns.length);
            expect(one.counts.map(({ text }) => text)).toEqual(columns);
          }
        },
      ),
      { seed: SEED, numRuns: 50 },
    );
  });

  test('patterns of any length run on without a gap, whatever the bars hold', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('1 2', '1 2 3', '1 & 2 & 3 &', '1 la li 2 3 4', '1-2 la li', '1 2 3 4 | 1 2'), {
          minLength: 1,
          maxLength: 3,
        }),
        fc.array(bar, { minLength: 1, maxLength: 5 }),
        (counts, written) => {
          const patterns = counts.map((said, index) => {
            const columns = said.split(' ').filter((word) => word !== '|').length;
            return `pattern p-${index}\n  count ${said}\n  pick ${Array(columns).fill('1').join(' ')}`;
          });
          const lesson = `${patterns.join('\n')}\nprogression v\n  | C | ${written.join(' | ')} |\nexercise e\n  play v\n  with ${counts.map((_, index) => `p-${index}`).join(' ')}`;
          for (const one of barsOf(lesson)) {
            expect(gapsIn(one)).toEqual([]);
            expect(faultsOf(one)).toEqual([]);
          }
        },
      ),
      { seed: SEED, numRuns: 50 },
    );
  });

  test('restarting leaves no gap either', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('chord', 'bar'),
        fc.constantFrom('1 2 3', '1 2', '1 2 3 4'),
        fc.array(bar, { maxLength: 4 }),
        (where, said, written) => {
          const columns = said.split(' ');
          const lesson = `pattern p\n  count ${said}\n  pick ${columns.map(() => '1').join(' ')}\nprogression v\n  | ${['C', ...written].join(' | ')} |\nexercise e\n  play v\n  with p\n  restart ${where}`;
          for (const one of barsOf(lesson)) expect(gapsIn(one)).toEqual([]);
        },
      ),
      { seed: SEED, numRuns: 50 },
    );
  });
});

describe('every exercise of the sample term, on every edition', () => {
  test.each(samples)('$file', ({ text }) => {
    const lesson = lessonOf(openDocument(text));
    const faults = lesson.editions.flatMap((edition) =>
      lesson.definitions.exercises.flatMap(({ entry, statement }) =>
        allBars(exerciseScore(scopeOf(lesson, edition), entry, statement)).flatMap(faultsOf),
      ),
    );
    expect(faults).toEqual([]);
  });

  test('the music is there: no exercise is empty', () => {
    const empty = samples.flatMap(({ file, text }) => {
      const lesson = lessonOf(openDocument(text));
      return lesson.definitions.exercises.flatMap(({ entry, statement }) =>
        allBars(exerciseScore(scopeOf(lesson), entry, statement)).some(({ events }) => events.length > 0)
          ? []
          : [`${file}: ${statement.title?.text}`],
      );
    });
    expect(empty).toEqual([]);
  });
});

describe('where the music comes from', () => {
  const sources = (lesson: string): readonly string[] =>
    allBars(scoreOf(lesson)).flatMap(({ events }) =>
      events.map(({ source: { entry, span } }) => entry.text.slice(span.start, span.end)),
    );

  test('every event is the text of its mark, also where like took it over', () => {
    const lesson =
      'pattern roll\n  pick 4p 3i 2m 1a\npattern end\n  like roll\n  pick = = 1m! stop\nprogression v\n  | C | C |\nexercise e\n  play v\n  with roll, end';
    expect(sources(lesson)).toEqual(['4p', '3i', '2m', '1a', '4p', '3i', '1m!', 'stop']);
  });

  test('a held sound points at the mark that began it', () => {
    expect(
      sources(
        'melody m\n  count 1 2 3 4 | 1 2 3 4\n  tune . . . 1:5 . . . .\nprogression v\n  | C | C |\nexercise e\n  play v\n  with m',
      ),
    ).toEqual(['1:5', '1:5']);
  });

  test('bars are the words of their bar, chords their names', () => {
    const bars = barsOf('progression v\n  |: C F | 1st G7 / :| 2nd 2/4 C ||\nexercise e\n  play v');
    const words = bars.map(({ source: { entry, span } }) => entry.text.slice(span.start, span.end));
    expect(words).toEqual(['C F', '1st G7 /', '2nd 2/4 C']);
    expect(
      bars.flatMap(({ chords }) => chords.map(({ source: { entry, span } }) => entry.text.slice(span.start, span.end))),
    ).toEqual(['C', 'F', 'G7', 'C']);
  });
});
