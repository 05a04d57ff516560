import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseInstrument } from '../../../shared/neck/instruments.ts';
import { readFrets } from '../../../shared/neck/shape-reader.ts';
import type { Problem } from '../../../shared/text/problem.ts';
import { parseChordSymbol } from '../../../shared/theory/chord-symbol.ts';
import { judgeFit } from '../../../shared/voicing/fit.ts';
import { faultsIn, fixedTexts, problemsIn } from './checking.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_126;

function reachIn(lesson: string): readonly Problem[] {
  return problemsIn(lesson).filter(({ code }) => code.startsWith('reach.'));
}

describe('a four-fret stretch at fret 1 on a 510 mm scale', () => {
  const lesson = 'for tuned G4 C4 E4 A4 scale 510 mm\nchord F7  2-3-1-5';
  const [problem] = reachIn(lesson);

  test('is said to be too far, for which fingers, by how much, and who can reach it', () => {
    // Frets 1 to 5 of a 510 mm scale: 510 · (2^(-1/12) − 2^(-5/12)) = 99.3 mm, from the definition of twelve-tone equal temperament.
    expect(510 * (2 ** (-1 / 12) - 2 ** (-5 / 12))).toBeCloseTo(99.3, 1);
    expect(problem?.code).toBe('reach.too-far');
    expect(problem?.message).toContain('scale 510 mm');
    expect(problem?.message).toContain('index and little finger are 99 mm apart');
    expect(problem?.message).toContain(
      "A large hand reaches it with a stretch; a medium hand, a small hand and a child's hand do not.",
    );
    expect(problem?.message).toContain('By estimate');
    expect(problem?.message).toMatch(/Warm up; if it hurts, stop and ask\.$/);
  });

  test('comes with shapes that can be held and are the same chord', () => {
    const instrument = parseInstrument('tuned G4 C4 E4 A4 scale 510 mm');
    const symbol = parseChordSymbol('F7');
    if (problem === undefined || !instrument.ok || !symbol.ok) throw new Error('nothing to judge');
    const mended = fixedTexts(lesson, problem);
    expect(mended.length).toBeGreaterThanOrEqual(3);
    for (const text of mended) {
      expect(reachIn(text)).toEqual([]);
      const shape = readFrets(text.split('F7  ')[1] ?? '');
      if (!shape.ok) throw new Error(text);
      expect(judgeFit(instrument.value, shape.value.shape, symbol.value).verdict).toMatch(/^fits/);
    }
  });
});

describe('one report a line, for every edition that holds the frets', () => {
  const LINES = 'hand small\nchord C/G  0-0-1-5';

  test('fine on the lesson’s own instrument, a stretch on another: that edition is named', () => {
    const lesson = `for soprano ukulele\nalso baritone ukulele, same shapes, called bari\n${LINES}`;
    expect(reachIn(`for soprano ukulele\n${LINES}`)).toHaveLength(1);
    const [problem, ...more] = reachIn(lesson);
    expect(more).toEqual([]);
    expect(problem?.code).toBe('reach.too-far');
    expect(problem?.message).toContain('on the baritone ukulele of edition bari, scale');
    expect(problem?.message).toContain('On the soprano ukulele, scale');
  });

  test('fine on all but one: nothing is said of the others', () => {
    const line = 'chord Bm7  2-2-2-5';
    expect(reachIn(`for soprano ukulele\nalso concert ukulele, same shapes\nhand small\n${line}`)).toEqual([]);
    const [problem] = reachIn(
      `for soprano ukulele\nalso concert ukulele, same shapes\nalso baritone ukulele, same shapes, called bari\nhand small\n${line}`,
    );
    expect(problem?.code).toBe('reach.stretched');
    expect(problem?.message).toContain('of edition bari');
    expect(problem?.message).not.toContain('soprano');
    expect(problem?.message).not.toContain('concert');
  });

  test('a block that gives the edition a shape of its own is judged there, and only there', () => {
    const lesson = `for soprano ukulele
also baritone ukulele, same shapes, called bari
hand small
chord Bm7  2-2-2-5
edition bari
  chord Bm7 as F#m7  2-2-2-2
`;
    expect(reachIn(lesson)).toEqual([]);
    const worse = lesson.replace('2-2-2-2', '2-2-2-7');
    expect(reachIn(worse).map(({ span }) => worse.slice(span.start, span.end))).toEqual(['Bm7 as F#m7  2-2-2-7']);
  });

  test('an edition in the same key takes shapes that no line shows: its own line tells', () => {
    const lesson = 'hand small\nalso guitar, same key, called six\nchord F  2-0-1-0';
    const [problem, ...more] = problemsIn(lesson).filter(({ code }) => code === 'edition.hard-to-hold');
    expect(more).toEqual([]);
    expect(lesson.slice(problem?.span.start, problem?.span.end)).toBe('guitar');
    expect(problem?.message).toContain('F is taken as x-x-3-2-1-1 there.');
    expect(problem?.message).toContain('A chord line in edition six gives another shape.');
    expect(problem?.edition).toBe('six');
    expect(faultsIn(`${lesson}\nedition six\n  chord F  x-x-x-10-10-8\n`)).toEqual([]);
  });

  test('fixes hold on every edition', () => {
    const lesson = `for soprano ukulele\nalso baritone ukulele, same shapes, called bari\n${LINES}`;
    const [problem] = reachIn(lesson);
    const mended = problem === undefined ? [] : fixedTexts(lesson, problem);
    expect(mended.length).toBeGreaterThan(0);
    for (const text of mended) expect(reachIn(text)).toEqual([]);
  });
});

describe('fingers that the lesson gives', () => {
  test('are judged as given: with others it would be at ease, and the fix writes those', () => {
    const lesson = 'chord C#maj7b5 0-0-1-4 fingers 0-0-1-2';
    const [problem] = reachIn(lesson);
    expect(problem?.message).toContain('index and middle finger');
    expect(problem?.message).toContain('With fingers 0-0-1-4 it is at ease.');
    expect(problem?.fixes?.map(({ title }) => title)).toEqual(['Use fingers 0-0-1-4']);
  });

  test('the thumb over the edge is no fault where the teacher asks for it', () => {
    expect(faultsIn('for guitar\nchord D/F# 2-x-0-2-3-2 fingers T-x-0-1-3-2')).toEqual([]);
  });
});

describe('a capo', () => {
  const capoIn = (lesson: string) => problemsIn(lesson).filter(({ code }) => code === 'capo.would-ease');
  const LESSON = 'for tenor ukulele, high G\nhand small\nchord Bm7  2-2-2-6';

  test('is offered where it brings every chord to ease, at the lowest fret that does, and says what becomes of the sound', () => {
    const [problem] = capoIn(LESSON);
    expect(problem?.message).toContain('everything sounds');
    const mended = problem === undefined ? [] : fixedTexts(LESSON, problem);
    const fret = Number(/capo (\d)/.exec(mended[0] ?? '')?.[1]);
    expect(fret).toBeGreaterThan(0);
    expect(reachIn(mended[0] ?? '')).toEqual([]);
    expect(reachIn((mended[0] ?? '').replace(/capo \d/, `capo ${fret - 1}`))).toHaveLength(1);
  });

  test.each([
    ['nothing is too wide', 'chord Bm7  2-2-2-2', ''],
    ['another chord stays too wide', `chord Bm7  2-2-2-6\nchord C  1-0-0-12`, ''],
    ['another edition would sound in another key', 'chord Bm7  2-2-2-6', 'also baritone ukulele, same key\n'],
    ['a tune needs the last frets', 'chord Bm7  2-2-2-6\nmelody top\n  tune 1:18 . . .', ''],
  ])('is not offered where %s', (_name, lines, also) => {
    expect(capoIn(`for tenor ukulele, high G frets 18\n${also}hand small\n${lines}`)).toEqual([]);
  });

  test('is set higher where there is one', () => {
    const lesson = 'for guitar, capo 1\nhand child\nchord F  x-x-3-2-1-1';
    const [problem] = capoIn(lesson);
    const [mended] = problem === undefined ? [] : fixedTexts(lesson, problem);
    expect(mended).toMatch(/^for guitar, capo [2-5]\n/);
    expect(reachIn(mended ?? '')).toEqual([]);
  });
});

describe('a hand never makes things worse by being larger', () => {
  const HANDS = ['child', 'small', '190 mm', 'medium', 'large'];
  const HARDNESS = ['none', 'reach.stretched', 'reach.too-far', 'reach.too-few-fingers'];
  const fret = fc.oneof(fc.constantFrom(0, 'x'), fc.integer({ min: 1, max: 9 }));

  test('on random shapes of four and six strings', () => {
    const shape = fc.oneof(
      fc.record({ kind: fc.constant('baritone ukulele'), frets: fc.array(fret, { minLength: 4, maxLength: 4 }) }),
      fc.record({ kind: fc.constant('guitar'), frets: fc.array(fret, { minLength: 6, maxLength: 6 }) }),
    );
    fc.assert(
      fc.property(shape, ({ kind, frets }) => {
        const found = HANDS.map((hand) => {
          const [problem] = reachIn(`for ${kind}\nhand ${hand}\nchord C ${frets.join('-')}`);
          return HARDNESS.indexOf(problem?.code ?? 'none');
        });
        expect(found).toEqual([...found].sort((a, b) => b - a));
      }),
      { seed: SEED, numRuns: 120 },
    );
  });
});
