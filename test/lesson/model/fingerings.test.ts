import { describe, expect, test } from 'vitest';
import type { LessonDocument } from '../../../shared/lesson/document.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { resolveChord } from '../../../shared/lesson/model/chords.ts';
import { difficultyFor, fingeringFor, lessonDifficulty } from '../../../shared/lesson/model/fingerings.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { readChordName } from '../../../shared/lesson/syntax/read-names.ts';
import { scopeOfText } from './played.ts';
import { createReader, replaced } from './remembering.ts';

function fingering(scope: Scope, text: string) {
  const chord = resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } }));
  return chord && fingeringFor(scope, chord);
}

/** `0-0-0-3` */
function fingersOf(scope: Scope, text: string): string | undefined {
  return fingering(scope, text)
    ?.fingers.map((finger) => finger ?? 0)
    .join('-');
}

describe('the fingers of a chord', () => {
  test('those that the lesson gives, where they can work', () => {
    expect(fingersOf(scopeOfText('chord C 0-0-0-3 fingers 0-0-0-4'), 'C')).toBe('0-0-0-4');
    // One finger cannot stop two frets.
    expect(fingersOf(scopeOfText('chord G7 0-2-1-2 fingers 0-1-1-1'), 'G7')).toBe('0-2-1-3');
  });

  test('B-10: C goes to G7 with the ring finger, which slides down string 1', () => {
    // The player's case: before 0-2-1-2 the ring finger is handy for 0-0-0-3.
    const lesson = 'chord C 0-0-0-3\nchord G7 0-2-1-2\nprogression v\n  | C | G7 | C |\n';
    expect([fingersOf(scopeOfText(lesson), 'C'), fingersOf(scopeOfText(lesson), 'G7')]).toEqual(['0-0-0-3', '0-2-1-3']);
  });

  test('the first progression that uses the chord decides, not the best way by itself', () => {
    const alone = scopeOfText('chord Am 2-0-0-0\n');
    const [first] = [fingersOf(alone, 'Am')];
    // F keeps the middle finger on string 4, as every method teaches. Common practice, no source.
    const within = scopeOfText('chord Am 2-0-0-0\nchord F 2-0-1-0\nprogression v\n  | Am | F | Am | F |\n');
    expect(first).toBeDefined();
    expect([fingersOf(within, 'Am'), fingersOf(within, 'F')]).toEqual(['2-0-0-0', '2-0-1-0']);
  });

  test('on each edition for its own instrument', () => {
    const lesson = lessonOf(openDocument('also guitar, same key, called six\nchord F 2-0-1-0\n'));
    expect(fingersOf(scopeOf(lesson), 'F')).toBe('2-0-1-0');
    expect(fingersOf(scopeOf(lesson, lesson.editions[1]), 'F')).toBe('0-0-3-2-1-1');
  });

  test('nothing where four fingers are not enough; out of reach, it says so', () => {
    expect(fingering(scopeOfText('for guitar\nchord C 5-3-1-4-2-0'), 'C')).toBeUndefined();
    expect(fingering(scopeOfText('chord C 1-0-0-12'), 'C')?.verdict).toBe('out-of-reach');
  });

  test('asked again the answer is the same value, also in a later document', () => {
    const text = 'chord C 0-0-0-3\nchord G7 0-2-1-2\nprogression v\n  | C | G7 |\n> A word.\n';
    const document = openDocument(text);
    const scope = (of: LessonDocument) => scopeOf(lessonOf(of));
    const before = fingering(scope(document), 'C');
    expect(before).toBeDefined();
    expect(fingering(scope(document), 'C')).toBe(before);
    expect(fingering(scope(replaced(document, 'A word', 'Another word')), 'C')).toBe(before);
  });
});

describe('what was worked out with fingers is worked out anew only when they change', () => {
  const LESSON =
    'tempo 60\nchord C 0-0-0-3\nchord G7 0-2-1-2\nprogression v\n  | C | G7 |\nexercise e\n  play v\n> A word.\n';
  const reader = () =>
    createReader((scope, { statement }) =>
      statement.kind === 'chord'
        ? scope.chosenFingering(statement.chord?.text ?? '')
        : statement.kind === 'exercise'
          ? scope.fingered(statement)
          : 0,
    );

  test.each([
    ['a word of prose', 'A word', 'Words', ['> Words.']],
    ['bars without another chord', '| C | G7 |', '| C / / / | G7 |', ['progression v', 'exercise e']],
    ['a tempo that asks for other times', 'tempo 60', 'tempo 50', ['tempo 50', 'exercise e']],
    ['another shape', '0-2-1-2', '0-2-1-0', ['chord C', 'chord G7', 'exercise e']],
  ])('%s', (_name, old, text, expected) => {
    const read = reader();
    const document = openDocument(LESSON);
    read.workedOut(document);
    const worked = read.workedOut(replaced(document, old, text));
    // A chord keeps its fingers where they come out the same.
    expect(expected).toEqual(expect.arrayContaining([...worked]));
    expect(worked).toContain(expected[0] === 'chord C' ? 'chord G7' : expected[0]);
  });

  test('a question to another edition is asked anew of it, and of none when it is gone', () => {
    const read = createReader((scope, { statement }) =>
      statement.kind === 'chord' ? scope.editions().map((edition) => edition.edition().instrument) : 0,
    );
    const document = openDocument('also guitar, same key\nchord C 0-0-0-3\n');
    read.workedOut(document);
    expect(read.workedOut(replaced(document, '3\n', '0\n'))).toEqual(['chord C']);
    const other = replaced(document, 'guitar', 'banjolele');
    expect(read.workedOut(replaced(document, 'guitar', 'baritone ukulele'))).toEqual(['also baritone', 'chord C']);
    expect(read.workedOut(other)).toContain('chord C');
  });
});

describe('how hard', () => {
  const lesson = (tempo: string, second: string) =>
    `${tempo}\nchord C 0-0-0-3\nchord F ${second}\nprogression v\n  |: C F :|\npattern r\n  strum D D D D\nexercise e\n  play v\n  with r\n  repeat 2\n`;
  const total = (text: string) => lessonDifficulty(scopeOfText(text))?.total ?? Number.NaN;

  test('faster is never easier, and at last harder', () => {
    const totals = [40, 60, 80, 120, 180, 240].map((tempo) => total(lesson(`tempo ${tempo}`, '2-0-1-0')));
    expect(totals).toEqual([...totals].sort((a, b) => a - b));
    expect(totals.at(-1)).toBeGreaterThan(totals[0] ?? Number.NaN);
  });

  test('a smaller hand is never better off; out of reach is ten', () => {
    const hands = ['large', 'medium', 'small', 'child'].map((hand) => total(lesson(`hand ${hand}`, '5-5-1-0')));
    expect(hands.at(-1)).toBe(10);
    expect(hands).toEqual([...hands].sort((a, b) => a - b));
  });

  test('a lesson is as hard as its exercises together; without any, as its progressions', () => {
    const text = lesson('tempo 60', '2-0-1-0');
    const scope = scopeOfText(text);
    const [exercise] = scope.exercises();
    expect(exercise && difficultyFor(scope, exercise)).toBe(lessonDifficulty(scope));
    const bare = scopeOfText(text.slice(0, text.indexOf('pattern')));
    const progression = bare.progression('v');
    expect(progression && difficultyFor(bare, progression)).toEqual(lessonDifficulty(bare));
    expect(lessonDifficulty(bare)?.total).toBeGreaterThan(0);
    expect(lessonDifficulty(scopeOfText('chord C 0-0-0-3'))).toBeUndefined();
  });
});
