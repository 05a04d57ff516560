import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { difficultyFor } from '../../../shared/lesson/model/fingerings.ts';
import type { Problem } from '../../../shared/text/problem.ts';
import { SEED } from '../../theory/reading.ts';
import { scopeOfText } from '../model/played.ts';
import { fixedTexts, problemsIn } from './checking.ts';

function tooQuickIn(lesson: string): readonly Problem[] {
  return problemsIn(lesson).filter(({ code }) => code === 'change.too-quick');
}

/** From fret 3 to fret 12, in eighths: the last note of the one shape and the first of the other are an eighth apart. */
const jump = (tempo: string, inExercise = '') => `for tenor ukulele, high G
${tempo}
chord C       5-4-3-3
chord C.high  12-12-12-15
progression v
  | C C.high |
pattern r
  count 1 & 2 & 3 & 4 &
  pick 4 3 2 1 4 3 2 1
exercise Jump
  play v
  with r
${inExercise}`;

describe('a change that leaves no time', () => {
  test('a jump of nine frets in an eighth at 92 is a warning at what is played, with what moves and for how long', () => {
    const lesson = jump('tempo 60 to 92 by 4');
    const [problem, ...more] = tooQuickIn(lesson);
    expect(more).toEqual([]);
    expect(problem?.severity).toBe('warning');
    expect(lesson.slice(problem?.span.start, problem?.span.end)).toBe('play v');
    expect(problem?.message).toContain('C.high to C (bar 1) at 92 beats a minute');
    // An eighth at 92 beats a minute: 60 / 92 / 2 s.
    expect(problem?.message).toContain(`there are ${(60 / 92 / 2).toFixed(2)} s`);
    // The first note of C is on string 4, which the ring finger stops.
    expect(problem?.message).toMatch(
      / s for finger 3 to string 4, and a practised hand needs about 0\.\d\d s, by estimate\./,
    );
    expect(problem?.message).toContain('Too quick as well: C to C.high (bar 1).');
    expect(problem?.message).toMatch(/The hand goes down the neck by 9 frets \(\d+ mm\)\./);
    expect(problem?.message).toMatch(/Warm up; if it hurts, stop and ask\.$/);
  });

  test('no warning where there is time, or nobody says how fast', () => {
    expect(tooQuickIn(jump('tempo 40'))).toEqual([]);
    expect(tooQuickIn(jump('key C'))).toEqual([]);
  });

  test('the exercise’s own tempo counts, and is where it is told', () => {
    expect(tooQuickIn(jump('tempo 92', '  tempo 40\n'))).toEqual([]);
    const lesson = jump('tempo 40', '  tempo 60 to 92 by 8\n');
    const [problem] = tooQuickIn(lesson);
    expect(lesson.slice(problem?.span.start, problem?.span.end)).toBe('60 to 92 by 8');
  });

  test.each([
    ['a tempo of its own', jump('tempo 60 to 92 by 4'), /play v\n {2}tempo {2}\d+/],
    ['a slower one', jump('tempo 40', '  tempo 92\n'), /with r\n {2}tempo \d+\n/],
    [
      'a way up that ends on a step',
      jump('tempo 40', '  tempo 40 to 92 by 3\n'),
      /tempo 40 to (43|46|49|52|55|58) by 3\n/,
    ],
    ['in its own note values', jump('tempo 40', '  tempo 80 to 184 eighths\n'), /tempo 80 to \d+ eighths\n/],
  ])('the fix gives %s, at which there is time', (_name, lesson, expected) => {
    const mended = tooQuickIn(lesson).flatMap((problem) => fixedTexts(lesson, problem));
    expect(mended).toHaveLength(1);
    expect(mended[0]).toMatch(expected);
    expect(tooQuickIn(mended[0] ?? '')).toEqual([]);
  });

  test('slower never adds a warning', () => {
    const warned = [30, 45, 60, 75, 90, 120, 180].map((tempo) => tooQuickIn(jump(`tempo ${tempo}`)).length);
    expect(warned).toEqual([...warned].sort());
    expect(new Set(warned).size).toBe(2);
  });

  test('changes between the same chords are told once; the fingers are those that leave the fewest', () => {
    const lesson = jump('tempo 92', '  repeat 4\n').replace('| C C.high |', '|: C C.high | C C.high :|');
    const [problem, ...more] = tooQuickIn(lesson);
    expect(more).toEqual([]);
    expect(problem?.message.match(/C to C\.high/g)).toHaveLength(1);
    expect(problem?.message.match(/C\.high to C/g)).toHaveLength(1);
  });

  test('what beginners do at a walking pace is in order', () => {
    // Common practice, no source: the first four chords in even strums at 80.
    const lesson = `tempo 80
chord C 0-0-0-3
chord Am 2-0-0-0
chord F 2-0-1-0
chord G7 0-2-1-2
progression v
  |: C | Am | F | G7 :|
pattern r
  strum D U D U D U D U
exercise Walk
  play v
  with r
  repeat 4
`;
    expect(tooQuickIn(lesson)).toEqual([]);
  });
});

describe('picked string by string', () => {
  const round = (rows: string, tempo = 96) => `for guitar
tempo ${tempo}
chord D    x-x-0-2-3-2
chord A7   x-0-2-0-2-0
chord G    3-2-0-0-0-3
chord Bm   x-2-4-4-3-2
chord D/F# 2-0-0-2-3-2
progression v
  | D | A7 | G | Bm | D/F# |
pattern r
  count 1 & 2 & 3 & 4 &
  ${rows}
exercise Round
  play v
  with r
`;
  const difficultyIn = (lesson: string) => {
    const scope = scopeOfText(lesson);
    const [exercise] = scope.exercises();
    return (exercise && difficultyFor(scope, exercise))?.total ?? Number.NaN;
  };

  // Common practice, no source: the round is played by guitarists between beginner and intermediate, and picking is its easier form.
  test.each([
    'pick 5p 4p 3i 2m 1a 2m 3i 4p',
    'pick 5p 3i 4p 2m 5p 3i 4p 2m',
    'pick 5p 3i 2m 1a 4p 3i 2m 1a',
    'pick 5p 3i 2m 3i 1a 3i 2m 3i',
    'pick p 3i 2m 3i 4p 3i 2m 3i',
  ])(
    'a round for a second year in eighths at 96 is at most in the middle of the scale, and has no warning: %s',
    (rows) => {
      expect(tooQuickIn(round(rows))).toEqual([]);
      expect(difficultyIn(round(rows))).toBeLessThanOrEqual(6);
      expect(difficultyIn(round(rows))).toBeLessThan(difficultyIn(round('strum D U D U D U D U')));
    },
  );

  test('where the first note of the bar lies under a finger that goes far and was needed to the last, it is told by name', () => {
    // The last eighth of Bm is on string 1, which lies under the index finger; D/F# begins on string 6, which is its own.
    const bass = 'pick p i m a p i m a';
    expect(tooQuickIn(round(bass, 80))).toEqual([]);
    const [problem] = tooQuickIn(round(bass, 120));
    // An eighth at 120 beats a minute: 60 / 120 / 2 s.
    expect(problem?.message).toMatch(/^Bm to D\/F# \(bar 5\) at 120 beats a minute: there are 0\.25 s /);
    expect(problem?.message).toContain(
      ' s for finger 1 from strings 5 to 1 to string 6, and a practised hand needs about ',
    );
    // The same eighths with that note a beat sooner.
    expect(tooQuickIn(round('pick p i a m p a m i', 120))).toEqual([]);
  });

  // Common practice, no source. On the beat, since of a strum off the beat the hand may be let go.
  test('never harder than strummed on the same beats at the same tempo', () => {
    const somePick = fc.array(fc.constantFrom('.', '1', '2', '3', '4', '5', '6', '4+1', '5+2'), {
      minLength: 4,
      maxLength: 4,
    });
    let easier = 0;
    fc.assert(
      fc.property(somePick, fc.integer({ min: 40, max: 240 }), (pick, tempo) => {
        fc.pre(pick.some((mark) => mark !== '.'));
        const onBeats = (marks: readonly string[]) => marks.flatMap((mark) => [mark, '.']).join(' ');
        const picked = difficultyIn(round(`pick ${onBeats(pick)}`, tempo));
        const strums = pick.map((mark) => (mark === '.' ? '.' : 'D'));
        const strummed = difficultyIn(round(`strum ${onBeats(strums)}`, tempo));
        easier += Number(picked < strummed - 1e-9);
        expect(picked).toBeLessThanOrEqual(strummed + 1e-9);
      }),
      { seed: SEED, numRuns: 60 },
    );
    expect(easier).toBeGreaterThan(20);
  });
});

describe('the level that the header gives', () => {
  const lesson = (level: string, chords: string, more = '') =>
    `level ${level}\ntempo 60\n${chords}\nprogression v\n  | C | F |\npattern r\n  strum D D D D\nexercise Walk\n  play v\n  with r\n${more}`;
  const EASY = 'chord C 0-0-0-3\nchord F 2-0-1-0';
  const levelIn = (text: string) => problemsIn(text).filter(({ code }) => code === 'level.differs');

  test('may be two points from the estimate; further it is a hint at the number that tells both and why', () => {
    expect([1, 2, 3].flatMap((level) => levelIn(lesson(String(level), EASY)))).toEqual([]);
    const text = lesson('8 for the brave', EASY);
    const [problem] = levelIn(text);
    expect(problem?.severity).toBe('hint');
    expect(text.slice(problem?.span.start, problem?.span.end)).toBe('8');
    expect(problem?.message).toMatch(
      /^You wrote level 8; by estimate .* come to about level \d of 10 for a medium hand on the tenor ukulele\./,
    );
    expect(problem?.message).toContain('Even the hardest');
    expect(problem?.message).toContain('“Walk”');
  });

  test('the fix writes the estimate and leaves the words', () => {
    const text = lesson('8 for the brave', EASY);
    const [mended] = levelIn(text).flatMap((problem) => fixedTexts(text, problem));
    expect(mended).toMatch(/^level [1-4] for the brave\n/);
    expect(levelIn(mended ?? '')).toEqual([]);
  });

  test('too low, the hardest moment is named with its parts', () => {
    const [problem] = levelIn(lesson('1', 'chord C 0-0-0-3\nchord F 5-5-1-0'));
    expect(problem?.message).toContain('The hardest is F in “Walk”: a wide reach');
  });

  test('it is told in words, with no number but levels', () => {
    const jump = lesson('0', 'chord C 0-0-0-3\nchord F 2-0-1-0', '  tempo 300\n');
    for (const text of [jump, lesson('1', 'chord C 0-0-0-3\nchord F 5-5-1-0'), lesson('9', EASY)]) {
      const [problem] = levelIn(text);
      const told = problem?.message.replace(/level \d+( of 10)?/g, '') ?? '5';
      expect(told).not.toMatch(/\d/);
    }
    expect(levelIn(jump)[0]?.message).toMatch(/The hardest is the change from \w to \w in “Walk”: little time/);
  });

  test('nothing is said where nothing is played', () => expect(levelIn('level 9\nchord C 0-0-0-3')).toEqual([]));

  test('a shape is hard only where it is more than the level says', () => {
    const hard = (level: string) =>
      problemsIn(`${level}chord F5 5-5-8-8 fingers 1-1-4-4`).filter(({ code }) => code === 'shape.hard');
    expect(hard('')).toHaveLength(1);
    expect(hard('level 2\n')).toHaveLength(1);
    expect(hard('level 9\n')).toEqual([]);
  });
});
