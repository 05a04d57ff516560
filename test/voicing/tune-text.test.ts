import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { type Meter, parseMeter } from '../../shared/theory/meter.ts';
import { readGivenNotes } from '../../shared/voicing/tune/given-notes.ts';
import type { TuneBar } from '../../shared/voicing/tune/ground.ts';
import { CONTOURS, type Contour } from '../../shared/voicing/tune/line.ts';
import { placeTune } from '../../shared/voicing/tune/place-tune.ts';
import { proposeTune } from '../../shared/voicing/tune/propose-tune.ts';
import { readRhythm, TICKS_OF_COUNT, usualRhythm } from '../../shared/voicing/tune/rhythm.ts';
import type { Tune, TuneNote } from '../../shared/voicing/tune/tune.ts';
import type { TuneRequest } from '../../shared/voicing/tune/tune-problem.ts';
import { printChords, printTune } from '../../shared/voicing/tune/tune-text.ts';
import { instrument } from '../neck/playing.ts';
import { played } from '../score/scoring.ts';
import { reading } from '../theory/reading.ts';
import { groundOf, groundOfBars, lessonWith } from './tunes.ts';

function found(written: string, contour: Contour, more: Partial<TuneRequest> = {}) {
  return foundOver({ ...groundOf(written, more), ...more, contour });
}

/** Over bars as a lesson writes them. */
function foundOverBars(written: string, contour: Contour, more: Partial<TuneRequest> = {}) {
  return foundOver({ ...groundOfBars(written, more), ...more, contour }, written);
}

function foundOver(request: TuneRequest, written?: string) {
  const answer = proposeTune(request);
  if (!answer.ok) throw new Error(answer.message);
  const [tune] = answer.tunes;
  const text = printTune('new-tune', request, tune.notes);
  const lesson = lessonWith(request, { text, chords: printChords(answer.chords) }, written);
  return { request, tune, lesson };
}

/** The tune as the score would have it, a line for each bar: `0 3:0, 1 3:2`, in counts of a quarter. */
function asPlayed(notes: readonly TuneNote[], bars: readonly TuneBar[], meter: Meter): readonly string[] {
  const quarters = (tick: number, { unit }: Meter) => {
    const [above, below] = [(tick * 4) / unit, TICKS_OF_COUNT];
    const divisor = greatest(above, below);
    return below === divisor ? `${above / divisor}` : `${above / divisor}/${below / divisor}`;
  };
  return bars.map((bar, index) =>
    notes
      .filter((note) => note.bar === index)
      .map(({ tick, string, fret }) => {
        const from = bar.part?.from ?? 0;
        return `${quarters(tick - from, bar.meter ?? meter)} ${string}:${fret}`;
      })
      .join(', '),
  );
}

function greatest(a: number, b: number): number {
  return b === 0 ? a || 1 : greatest(b, a % b);
}

/** Problems that a teacher would have to mend; hints say what could be done besides. */
function problemsIn(lesson: string): readonly string[] {
  return problemsOf(openDocument(lesson))
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ code, message }) => `${code}: ${message}`);
}

function expectReadBack({ request, tune, lesson }: { request: TuneRequest; tune: Tune; lesson: string }): void {
  // A rest is written as a mark that silences the strings.
  const notes = played(lesson).map((bar) =>
    bar
      .split(', ')
      .filter((event) => !event.endsWith('stop'))
      .join(', '),
  );
  expect(notes, lesson).toEqual(asPlayed(tune.notes, request.bars, request.meter));
  expect(problemsIn(lesson)).toEqual([]);
}

describe('what is written is read again as the same tune, with nothing to mend', () => {
  test.each(CONTOURS)('%s', (contour) => {
    expectReadBack(found('Em:0432 C:0003 G:0232 D:2220', contour));
  });

  test('with a string that rings', () => expectReadBack(found('D(add9):7600 C6:5700', 'rise', { ring: [2] })));

  test('where a chord has another tune when it comes again, the tune is written bar after bar', () => {
    const again = found('C:0003 Am:2000 C:0003 G7:0212', 'rise');
    expect(again.lesson.match(/^ {2}tune/gm)).toHaveLength(2);
    expectReadBack(again);
  });

  test('two chords in a bar', () => expectReadBack(found('C:0003+G7:0212 F:2010+C:0003', 'arch')));

  test.each(['3/4', '6/8', '2/4'])('in %s', (written) => {
    const meter = parseMeter(written);
    if (meter === undefined) throw new Error(written);
    expectReadBack(found('F:2010 Bb:3211 C7:0001 F:2010', 'arch', { meter }));
  });

  test.each(['1 2 & 4', '1 la li 3', '1 e & a 3'])('on the counts %s', (counts) => {
    const rhythm = reading(readRhythm(counts, { counts: 4, unit: 4 }));
    expectReadBack(found('C:0003 F:2010', 'arch', { rhythm }));
  });

  // The forms that a progression has, each with what of the tune must show it.
  test.each([
    ['a pickup', 'count 4\n| Em | C | G | D | Em / / |', /count +4 +& +\| +1/],
    ['a pickup of two counts', 'count 3\n| C | F | G7 | C / |', /count +3 +& +4 +& +\| +1/],
    ['a bar without a chord', '| Em | C | NC | G | D |', /tune +stop/],
    ['no chord at the beginning', '| NC | C | F | C |', /count/],
    ['no chord in the middle of a bar', '| C NC | F | C |', /stop/],
    ['a bar in another meter', '| Em | C | 2/4 G | 4/4 D | Em |', /count +2\/4 +1 .*\| +4\/4 +1/],
    ['eighths among quarters', '| Am | 6/8 Dm | E7 | 4/4 Am |', /6\/8 +1/],
    ['all of it', 'count 4\n| C | F | 3/4 G7 | 4/4 NC | C / / |', /3\/4/],
    ['a pickup that a repeat comes round to', 'count 4\n| C | F | G7 | C / / :| G7 | C / / |', /:\|/],
    ['repeats and endings behind a pickup', 'count 4\n| C |: F | G7 | 1st C :| 2nd C / / |', /\|:.*|1st/],
    ['a bar that plays the one before', '| C | % | NC | % | G7 | C |', /stop/],
  ])('%s', (_what, written, shown) => {
    for (const contour of CONTOURS) {
      const over = foundOverBars(written, contour);
      expect(over.lesson).toMatch(shown);
      expectReadBack(over);
    }
  });

  test('a pickup in eighths', () => {
    const meter = { counts: 6, unit: 8 };
    const over = foundOverBars('count 6\n| Am | Dm | E7 | Am |', 'arch', { meter });
    expect(over.lesson).toMatch(/count +6 +\| +1/);
    expectReadBack(over);
  });

  test.each(['baritone ukulele', 'guitar', 'tenor ukulele, low G'])('on a %s', (name) => {
    expectReadBack(found('Em C G D', 'arch', { instrument: instrument(name) }));
  });

  test('a given tune', () => {
    const request: TuneRequest = { ...groundOf('C:0003 F:2010'), contour: 'arch' };
    const notes = reading(readGivenNotes('C4 E4 G4 C5 | A4 . F4 .', request));
    const placed = placeTune({ ...request, notes });
    if (!placed.ok) throw new Error(placed.message);
    const text = printTune('new-tune', request, placed.notes);
    const lesson = lessonWith(request, { text, chords: printChords(placed.chords) });
    expect(played(lesson)).toEqual(asPlayed(placed.notes, request.bars, request.meter));
    expect(problemsIn(lesson)).toEqual([]);
  });
});

test('a melody stands in columns, each row named for its chord', () => {
  const { request, tune } = found('C:0003 F:2010', 'rise', { rhythm: [0, 24] });
  expect(printTune('up', { ...request, ring: [4] }, tune.notes)).toMatch(
    /^melody {2}up\n {2}ring {2}4\n {2}count {4}1 {4}2 {2}3 {4}4\n {2}C {8}\d:\d {2}\. {2}\d:\d {2}\.\n {2}fingers {2}/,
  );
});

describe('rhythms', () => {
  test.each([
    ['4/4', '0 12 24 36 42'],
    ['3/4', '0 12 24 30'],
    // Long and short, as six eight swings.
    ['6/8', '0 24 36 60'],
  ])('the usual one in %s', (written, ticks) => {
    expect(usualRhythm(parseMeter(written) ?? { counts: 4, unit: 4 }).join(' ')).toBe(ticks);
  });

  test.each([
    ['1 2 & 4', '0 12 18 36'],
    ['1 la li 2', '0 4 8 12'],
    ['2 e & a', '12 15 18 21'],
  ])('%s', (said, ticks) => expect(reading(readRhythm(said, { counts: 4, unit: 4 })).join(' ')).toBe(ticks));

  test.each([
    ['1 5', /there is no 5/],
    ['& 2', /none to begin with/],
    ['2 1', /Counts go up/],
    ['1 la & 2', /in halves and in thirds/],
    ['', /Say the counts/],
  ])('"%s" is told', (said, about) => {
    const read = readRhythm(said, { counts: 4, unit: 4 });
    expect(read.ok ? '' : read.problem.message).toMatch(about);
  });
});
