import { describe, expect, test } from 'vitest';
import { DiagnosticSeverity } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { toDiagnostic } from '../../../server/features/diagnostics.ts';
import { findingsIn } from '../../../server/findings.ts';
import type { OpenLesson } from '../../../server/open-lessons.ts';
import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { faultsIn, faultsWhileTyping, problemsIn } from './checking.ts';

/** Lines as a teacher may type them; the frets sound what the names say. */
const TYPED: readonly (readonly [lesson: string, line: string])[] = [
  ['', 'chord Em 0-4-3-2 fingers 0-3-2-1'],
  ['', 'chord Em.high 0432  fingers 0321'],
  ['', 'chord C 0 0 0 3 fingers 0 0 0 3'],
  ['', 'chord Csus4 0–0–1–3 fingers 0–0–1–3'],
  ['', 'chord C(add9) 0-2-0-3'],
  ['', 'chord Cmaj7 0-0-0-2'],
  ['', 'chord Cm(maj7) 0-3-3-2'],
  ['', 'chord F#m7b5 2-4-2-3'],
  ['', 'chord G/B 4-2-3-2'],
  ['for guitar\n', 'chord D/F# 2-x-0-2-3-2 fingers T-0-0-1-3-2'],
  ['also guitar, called six\nedition six\n  capo 5\n', '  chord G as D x-x-0-2-3-2 fingers 0-0-0-1-3-2'],
  ['progression v\n', '  | C | Csus4 | G/B | Gm7b5 | NC'],
];

describe('a line is in order at every letter while it is typed', () => {
  test.each(TYPED)('%j%s', (lesson, line) => {
    // Before its first word is whole, nobody knows what the line is to be.
    for (let typed = /^\s*\S+/.exec(line)?.[0].length ?? 0; typed <= line.length; typed += 1) {
      const text = lesson + line.slice(0, typed);
      expect([text, faultsWhileTyping(text)]).toEqual([text, []]);
    }
  });
});

test('what is half typed is told of quietly, with the frets before it kept', () => {
  const said = (line: string) => problemsIn(line).map(({ severity, code, message }) => [severity, code, message]);
  expect(said('chord C 0003 fing')).toEqual([
    ['hint', 'keyword.half-typed', 'fing is not a whole word yet; fingers is one.'],
  ]);
  expect(said('chord C(')).toEqual([['error', 'chord.half-typed', 'C( is not a whole chord name yet.']]);
  expect(said('chord Em 0-4-3-2 fingers 0-3-2-')).toMatchObject([
    ['hint', 'fingers.count', /^3 fingers for 4 strings/],
  ]);
});

test('a shape that is left half written is a mistake, told quietly while it is typed; a tune over it says why it waits', () => {
  const text =
    'for tenor ukulele, high G\nchord C 0-0-0-3\nchord Am 2-0-0\nprogression v\n  | C | Am |\nmelody m\n  inside v\n';
  expect(problemsIn(text)).toMatchObject([
    { severity: 'error', code: 'shape.too-few-frets', unfinished: true },
    {
      code: 'melody.not-yet',
      message: expect.stringContaining('v has Am, whose line does not give each string its fret.'),
    },
  ]);
});

test('what stands before something else is no longer being typed', () => {
  expect(faultsIn('chord C( 0-0-0-3')).toEqual(['error chord.open-bracket "("']);
  expect(faultsIn('chord G/ 0-2-3-2')).toEqual(['error chord.bass-unreadable "/"']);
  expect(faultsIn('progression v\n  | G/ | C |')).toEqual(['error chord.bass-unreadable "/"']);
  expect(faultsIn('chord C 0003 fing 0003')).toEqual(['error chord.unknown-word "fing"']);
});

test('a word that cannot become a chord name is a mistake at once', () => {
  expect(faultsIn('chord Cqq')).toEqual(['error chord.unreadable "qq"']);
  expect(faultsIn('progression v\n  | C | Cqq')).toEqual(['error chord.unreadable "qq"']);
});

test('a fret beyond the neck says how far the neck goes, and above a capo what is left of it', () => {
  const said = (text: string) => problemsIn(text).map(({ message }) => message);
  expect(said('chord C 0-0-0-33')).toEqual(['Fret 33 on string 1 is beyond the neck: a tenor ukulele has 19 frets.']);
  expect(said('for tenor ukulele capo 3\nchord C 0-0-0-18')).toEqual([
    'Fret 18 on string 1 is beyond the neck: a tenor ukulele has 16 frets above the capo at fret 3.',
  ]);
});

/** Lines in the middle of being typed, and what is asked for; the words are ours. */
const BEGUN: readonly (readonly [lesson: string, code: string, message: string])[] = [
  ['les', 'keyword.half-typed', 'les is begun; go on: lesson.'],
  ['cho', 'keyword.half-typed', 'cho is begun; go on: chord.'],
  ['pat', 'keyword.half-typed', 'pat is begun; go on: pattern.'],
  ['p', 'keyword.half-typed', 'p is begun; go on: part, page, progression or pattern.'],
  ['for ten', 'instrument.unknown', 'ten is begun; go on, as in tenor ukulele.'],
  [
    'for tenor ukulele, lo',
    'instrument.unknown-tuning',
    'tenor ukulele, lo is begun; go on, as in tenor ukulele, low G.',
  ],
  ['tempo 60 to', 'tempo.unreadable', '60 to is begun; go on, as in 60 to 92.'],
  ['meter 4/', 'meter.unreadable', '4/ is begun; go on, as in 4/4.'],
  ['key E mino', 'key.no-such-scale', 'E mino is begun; go on, as in E minor.'],
  ['pattern r\n  count 1 2 3 4\n  pick 4p', 'row.too-short', '1 mark for 4 counts; still to come: 2 3 4.'],
  [
    'progression v\n  |: C',
    'repeat.open',
    'This repeat is not closed yet; write :| behind the bar from which it goes back to |:.',
  ],
  [
    'progression verse\n  | C |\nexercise e\n  play ver',
    'name.unknown',
    'There is no progression called ver; did you mean verse?',
  ],
];

describe('what is only begun is told quietly to whoever types, and counts as a mistake where it is handed out', () => {
  test.each(BEGUN)('%j', (text, code, message) => {
    const found = problemsIn(text).filter((problem) => problem.code === code);
    expect(found.map((problem) => problem.message)).toEqual([message]);
    expect(faultsWhileTyping(text)).toEqual([]);
    expect(findingsIn('a.lesson', text).filter((one) => one.code === code)).toMatchObject([
      { severity: code === 'repeat.open' ? 'warning' : 'error' },
    ]);
  });

  test('the editor shows it as information', () => {
    const text = 'tempo 60 to';
    const lesson = { text: TextDocument.create('a.lesson', 'handspan', 0, text), document: openDocument(text) };
    const severities = problemsOf(lesson.document).map(
      (problem) => toDiagnostic(lesson as OpenLesson, problem).severity,
    );
    expect(severities).toEqual([DiagnosticSeverity.Information]);
  });

  test('with anything behind it, it is a mistake at once', () => {
    expect(faultsWhileTyping('pat roll')).toEqual(['error keyword.unknown "pat"']);
    expect(faultsWhileTyping('pattern r\n  count 1 2 3 4\n  pick 4p\n  words a b c d')).toEqual([
      'error row.too-short "pick 4p"',
    ]);
    expect(faultsWhileTyping('tempo 60 too')).toEqual(['error tempo.unreadable "60 too"']);
  });
});
