import { describe, expect, test } from 'vitest';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import { heardAs, heardCandidate } from '../../shared/lesson/asked/heard-candidate.ts';
import { asksSomething } from '../../shared/lesson/asked/question.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import type { Performance } from '../../shared/score/performance.ts';
import { AT_ONCE, foundIn } from '../assist/asking-answers.ts';
import { performanceIn, quarters } from '../score/performing.ts';

/** What a candidate sounds like, counted from 0. */
function heard(text: string, choice: number): Performance {
  const document = openDocument(text);
  const entry = document.entries.find(({ statement }) => asksSomething(statement));
  if (entry === undefined) throw new Error('the lesson asks nothing');
  const added = heardCandidate(scopeOf(lessonOf(document)), entry, foundIn(text).answer, choice);
  if (added === undefined) throw new Error('there is no such candidate');
  return performanceIn(text + added);
}

function familiesIn(text: string) {
  const { answer } = foundIn(text);
  if (answer.kind !== 'family' || answer.found.kind !== 'families') throw new Error('no family was found');
  return answer.found.families;
}

function tunesIn(text: string) {
  const { answer } = foundIn(text);
  if (answer.kind !== 'tune' || !answer.found.ok) throw new Error('no tune was found');
  return answer.found.tunes;
}

// Open strings in chart order as MIDI numbers. Source: the usual tunings g'c'e'a', gc'e'a', dgbe' and eAdgbe' by name, MIDI 1.0's middle C = 60.
const OPEN: Readonly<Record<string, readonly number[]>> = {
  'tenor ukulele, high G': [67, 60, 64, 69],
  'tenor ukulele, low G': [55, 60, 64, 69],
  'baritone ukulele': [50, 55, 59, 64],
  guitar: [40, 45, 50, 55, 59, 64],
  'tenor ukulele, capo 2': [69, 62, 66, 71],
};

/** What sounds when a shape is struck: a sum of its frets and the open strings, told as `string:midi`. */
function struck(shape: readonly (number | 'muted')[], open: readonly number[]): readonly string[] {
  return shape.flatMap((fret, at) => (fret === 'muted' ? [] : [`${open.length - at}:${(open[at] ?? 0) + fret}`]));
}

const family = (instrument: string, bars: string, more = '') =>
  `lesson  Try\nfor     ${instrument}\ntempo   60\n${more}\nprogression  verse\n  ${bars}\n\nfamily  walk\n  from    verse\n  within  0 to 12\n  allow   6 add9 7 maj7 sus4 sus2`;

describe('a family is heard', () => {
  test.each(Object.keys(OPEN))('%s: each string of each shape once, in the order of the strings', (instrument) => {
    const text = family(instrument, '| D | A | Bm | G |');
    const families = familiesIn(text);
    families.forEach(({ chords }, choice) => {
      const performance = heard(text, choice);
      const wanted = chords.map(({ shape }) => struck(shape, OPEN[instrument] ?? []));
      const sounded = performance.bars.map((_, bar) =>
        performance.sounds.filter((sound) => sound.bar === bar).map(({ string, midi }) => `${string}:${midi}`),
      );
      expect(sounded).toEqual(wanted);
      expect(performance.sounds.every(({ kind, stroke }) => kind === 'strum' && stroke?.slow === true)).toBe(true);
      expect(performance.title).toBe(`walk, candidate ${choice + 1} of ${families.length}`);
      expect(performance.caution).toMatch(/Warm up/);
    });
  });

  test('as its progression says: with its repeat, where each chord is taken, and what is held marks its diagram', () => {
    const text = family('tenor ukulele, high G', '|: Dm | C Bb :|\n  | % | Dm |');
    const performance = heard(text, 0);
    const [dm, c, bb] = familiesIn(text)[0]?.chords ?? [];
    if (dm === undefined || c === undefined || bb === undefined) throw new Error('three chords');
    const starts = performance.sounds
      .filter(({ stroke }) => stroke?.nth === 0)
      .map(({ at }) => quarters(performance, at));
    // Dm, C and Bb twice, the bar of two chords once more, Dm: in 4/4, bars of four quarters.
    expect(starts).toEqual([0, 4, 6, 8, 12, 14, 16, 18, 20]);
    expect(performance.chords.map(({ held }) => held)).toEqual([dm, c, bb, dm, c, bb, c, bb, dm].map(heardAs));
  });

  test.each(['3/4', '6/8', '2/4', '5/4', '12/8'])('in %s one stroke fills a bar', (meter) => {
    const performance = heard(family('tenor ukulele, high G', '| C | G | Am | F |', `meter   ${meter}\n`), 0);
    const [counts = 0, unit = 4] = meter.split('/').map(Number);
    const starts = performance.sounds
      .filter(({ stroke }) => stroke?.nth === 0)
      .map(({ at }) => quarters(performance, at));
    expect(starts).toEqual([0, 1, 2, 3].map((bar) => (bar * counts * 4) / unit));
  });

  test('names of the lesson that are like those in use do not come in the way', () => {
    const text = family('tenor ukulele, high G', '| C | G |');
    const others =
      'pattern  heard\n  strum  D D D D\n\nprogression  heard-2\n  | F |\n\nprogression  heard\n  | F | F |\n\n';
    const pitches = (lesson: string) => heard(lesson, 0).sounds.map(({ midi }) => midi);
    expect(pitches(text.replace('family', `${others}family`))).toEqual(pitches(text));
  });
});

const tune = (bars: string, more = '') =>
  `lesson  Try\nfor     tenor ukulele, high G\nkey     C\ntempo   60\n\nchord  C  0003\nchord  Am  2000\nchord  F  2010\nchord  G7  0212\n\nprogression  verse\n  ${bars}\n\nmelody  song\n  inside  verse\n  arch\n${more}`;

describe('a tune is heard', () => {
  test.each([
    ['a chord to a bar', '| C | Am | F | G7 |'],
    ['two chords in a bar', '| C | F G7 | C | Am |'],
    ['a repeat with endings', '|: C | F | 1st G7 :| 2nd C ||'],
  ])('over the chords that are held, each struck where it is taken: %s', (_, bars) => {
    const text = tune(bars);
    const tunes = tunesIn(text);
    tunes.forEach(({ notes }, choice) => {
      const performance = heard(text, choice);
      expect(performance.title).toBe(`song, candidate ${choice + 1} of ${tunes.length}`);
      expect(performance.hasTune).toBe(true);
      const open = OPEN['tenor ukulele, high G'] ?? [];
      // A count of 4/4 is a quarter, which has 12 ticks in what was found.
      const sung = new Map<number, string[]>();
      for (const { bar, tick, string, fret } of notes) {
        const here = sung.get(bar) ?? [];
        sung.set(bar, [...here, `${tick / 12} ${string}:${(open[4 - string] ?? 0) + fret}`]);
      }
      performance.bars.forEach(({ written }, bar) => {
        const sounds = performance.sounds.filter((sound) => sound.bar === bar && sound.layer === 'tune');
        const start = quarters(performance, performance.bars[bar]?.at ?? 0);
        expect(
          sounds.map(({ at, string, midi }) => `${quarters(performance, at) - start} ${string}:${midi}`),
          `bar ${bar + 1}`,
        ).toEqual(sung.get(written));
      });
      const taken = performance.chords.map(({ at }) => quarters(performance, at));
      const strokes = performance.sounds.filter(({ layer }) => layer === 'accompaniment');
      expect([...new Set(strokes.map(({ at }) => quarters(performance, at)))]).toEqual(taken);
      expect(strokes.every(({ kind, stroke }) => kind === 'strum' && stroke?.slow === true)).toBe(true);
    });
  });

  test('a string that the tune needs is left to it', () => {
    const text = tune('| C | Am | F | G7 |');
    const performance = heard(text, 0);
    for (const { at, end, string } of performance.sounds.filter(({ layer }) => layer === 'tune')) {
      const also = performance.sounds.filter(
        (other) =>
          other.layer === 'accompaniment' &&
          other.string === string &&
          quarters(performance, other.at) === quarters(performance, at),
      );
      expect(also).toEqual([]);
      expect(quarters(performance, end)).toBeGreaterThan(quarters(performance, at));
    }
  });

  test('in its own meter', () => {
    const performance = heard(tune('| C | Am | F | G7 |', '  meter   3/4\n'), 0);
    expect(performance.bars.map(({ at }) => quarters(performance, at))).toEqual([0, 3, 6, 9]);
  });
});

describe('what is heard has its place on the sheet', () => {
  const drawn = (text: string) =>
    sheetOf(openDocument(text), { widthMm: 160, leftHanded: false }, undefined, AT_ONCE).blocks;

  test('every chord of a family has a diagram in its card', () => {
    const text = family('tenor ukulele, high G', '| D | A | Bm | G |');
    const cards = drawn(text).filter(({ kind }) => kind === 'candidate');
    expect(cards).toHaveLength(familiesIn(text).length);
    cards.forEach(({ markup }, choice) => {
      expect(markup).toContain(`data-candidate="${choice}"`);
      const held = new Set([...markup.matchAll(/data-held="([^"]+)"/g)].map(([, name]) => name));
      expect(held).toEqual(new Set(heard(text, choice).chords.map((chord) => chord.held)));
    });
  });

  test.each(['| C | Am | F | G7 |', '|: C | F G7 | 1st C :| 2nd Am ||'])(
    'every bar and note of a tune over %s',
    (bars) => {
      const text = tune(bars);
      const markups: string[] = [];
      for (const { kind, markup } of drawn(text)) {
        if (kind === 'candidate') markups.push('');
        if (kind === 'system' && markups.length > 0) markups[markups.length - 1] += markup;
      }
      expect(markups).toHaveLength(tunesIn(text).length);
      markups.forEach((markup, choice) => {
        const performance = heard(text, choice);
        const moments = new Map(
          [...markup.matchAll(/data-bar="([^"]+)" data-moments="([^"]*)"/g)].map(([, bar = '', told = '']) => [
            bar,
            told.split(' ').map((pair) => pair.split(':')[0] ?? ''),
          ]),
        );
        const shown = performance.sounds
          .filter(({ layer }) => layer === 'tune')
          .map(({ at, bar }) => {
            const performed = performance.bars[bar];
            const [above = 0, below = 1] = [quarters(performance, at) - quarters(performance, performed?.at ?? 0), 4];
            const told = moments.get(`${performed?.pass}.${performed?.written}`) ?? [];
            return told.some((fraction) => {
              const [over = 0, under = 1] = fraction.split('/').map(Number);
              return over / under === above / below;
            });
          });
        expect(shown.length).toBeGreaterThan(0);
        expect(shown.every((one) => one)).toBe(true);
        for (const { held } of performance.chords) expect(markup).toContain(`data-held="${held}"`);
      });
    },
  );
});

test('an answer to another question, or one that is not there, is not heard', () => {
  const text = tune('| C | Am |');
  const document = openDocument(text);
  const entry = document.entries.find(({ statement }) => asksSomething(statement));
  const other = foundIn(family('tenor ukulele, high G', '| C | G |')).answer;
  const scope = scopeOf(lessonOf(document));
  if (entry === undefined) throw new Error('the lesson asks nothing');
  expect(heardCandidate(scope, entry, other, 0)).toBeUndefined();
  expect(heardCandidate(scope, entry, foundIn(text).answer, 99)).toBeUndefined();
});
