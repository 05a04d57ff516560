import { expect, test } from 'vitest';
import { printHand } from '../../../shared/hand/hand.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { type AskedOfLesson, familyRequest } from '../../../shared/lesson/model/family-request.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { printShape } from '../../../shared/neck/shape.ts';
import { printChordSymbol } from '../../../shared/theory/chord-symbol.ts';
import { printKey } from '../../../shared/theory/key.ts';
import { familiesOf } from '../../../shared/voicing/family/families.ts';
import type { FamilyRequest } from '../../../shared/voicing/family/request.ts';

const PAPER_LANTERNS = `for baritone ukulele
also tenor ukulele, low G, called tenor
key E minor
hand small
progression verse
  |: Em | C / / G | D :|
family drone
  from    verse
  ring    1 2
  within  0 to 10
  allow   add9 6 6/9 maj7
  keep    D 4-7-0-0
`;

function asked(lesson: string, edition = 0): AskedOfLesson {
  const read = lessonOf(openDocument(lesson));
  const scope = scopeOf(read, read.editions[edition]);
  const [name = ''] = scope.names('family').split('\n');
  const statement = scope.family(name);
  if (statement === undefined) throw new Error('no family');
  return familyRequest(scope, statement);
}

function requestIn(lesson: string, edition = 0): FamilyRequest {
  const read = asked(lesson, edition);
  if (read.kind === 'not-yet') throw new Error(read.message);
  return read.request;
}

test('a family of a lesson is asked for with all that the lesson says', () => {
  const request = requestIn(PAPER_LANTERNS);
  expect(request.instrument.name).toBe('baritone ukulele');
  expect(request.chords.map((chord) => printChordSymbol(chord))).toEqual(['Em', 'C', 'G', 'D']);
  expect(request).toMatchObject({ ring: [1, 2], within: [0, 10] });
  expect(request.allow?.adds.map(({ degree }) => degree)).toEqual([9, 6, 7]);
  expect(request.pins?.map(({ chord, shape }) => `${printChordSymbol(chord)} ${printShape(shape)}`)).toEqual([
    'D 4-7-0-0',
  ]);
  expect(request.key && printKey(request.key)).toBe('E minor');
  expect(request.hand && printHand(request.hand)).toBe('small');
});

test('and it is found, with the chord that is kept', () => {
  const answer = familiesOf(requestIn(PAPER_LANTERNS));
  if (answer.kind === 'none') throw new Error(answer.reasons.join(' '));
  for (const { chords } of answer.families) expect(printShape(chords[3]?.shape ?? [])).toBe('4-7-0-0');
});

test('on another edition for its instrument', () => {
  expect(requestIn(PAPER_LANTERNS, 1).instrument.name).toBe('tenor ukulele, low G');
});

test('with the same shapes what is kept are the same frets, in the same key a shape of the chord there', () => {
  const lesson = (keeps: string) =>
    `for tenor ukulele\nalso baritone ukulele, ${keeps}, called bari\nprogression v\n  | C | F |\nfamily f\n  from v\n  keep C 0-0-0-3\n`;
  const kept = (keeps: string) => requestIn(lesson(keeps), 1).pins?.map(({ shape }) => printShape(shape));
  expect(kept('same shapes')).toEqual(['0-0-0-3']);
  // E3 G3 C4 E4 on D3 G3 B3 E4: the top four strings of the guitar's usual C, as every chart has it. Common practice, no source.
  expect(kept('same key')).toEqual(['2-0-1-0']);
  const answer = familiesOf(requestIn(lesson('same key'), 1));
  if (answer.kind === 'none') throw new Error(answer.reasons.join(' '));
  for (const { chords } of answer.families) expect(printShape(chords[0]?.shape ?? [])).toBe('2-0-1-0');
});

test.each<[string, string, string, RegExp]>([
  ['no progression is said', '  from    verse\n', '', /from which progression/],
  ['the progression is not there', 'from    verse', 'from    chorus', /no progression chorus/],
  ['a chord cannot be read', '| D :|', '| D?? :|', /In verse, D\?\? is not a chord name/],
  ['one chord has no family', '|: Em | C / / G | D :|', '| Em |', /two chords or more, and verse has 1/],
  ['all strings ring', 'ring    1 2', 'ring    all', /which strings ring open/],
  ['a word allows nothing', 'maj7', 'loud', /"loud" is nothing that can be added/],
])('where %s, that is told at its place', (_name, written, instead, about) => {
  const lesson = PAPER_LANTERNS.replace(written, instead);
  expect(lesson).not.toBe(PAPER_LANTERNS);
  const read = asked(lesson);
  if (read.kind === 'request') throw new Error('it can be asked for');
  expect(read.message).toMatch(about);
  // Spans of a statement count from the start of its block.
  const block = lesson.slice(lesson.indexOf('family drone'));
  expect(block.slice(read.span.start, read.span.end)).toMatch(/^(family|verse|chorus|ring {4}all|loud)$/);
});

test('a chord that is kept without a shape is still being typed, and pins nothing', () => {
  expect(requestIn(PAPER_LANTERNS.replace('keep    D 4-7-0-0', 'keep    D')).pins).toEqual([]);
});
