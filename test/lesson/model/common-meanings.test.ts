import { describe, expect, test } from 'vitest';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { createMemo } from '../../../shared/lesson/model/memo.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { replaced } from './remembering.ts';

const LESSON = openDocument(`for  tenor ukulele
also baritone ukulele, same shapes

> Keep the @C ringing.

part  Week 1

chord  C  0-0-0-3

pattern  roll
  count  1  &  2  &
  pick   4p 2i 3p 1m
  > Let every string ring.
`);

describe('what names mean is the same value', () => {
  const edits = [
    ['prose between entries', 'Keep', 'Hold'],
    ['prose that becomes two paragraphs', 'the @C', 'the\n\n> @C'],
    ['a part', 'Week 1', 'Week 2'],
  ] as const;
  test.each(edits)('after an edit of %s', (_, old, text) => {
    const after = replaced(LESSON, old, text);
    expect(lessonOf(after).editions).toBe(lessonOf(LESSON).editions);
    expect(lessonOf(after).definitions).toBe(lessonOf(LESSON).definitions);
    expect(lessonOf(after).document).toBe(after);
  });
});

describe('what names mean is found anew', () => {
  const edits = [
    ['a shape', '0-0-0-3', '0-0-0-5'],
    ['a header line', 'tenor ukulele', 'soprano ukulele'],
    ['an edition', 'same shapes', 'same key'],
    ['prose inside an entry that has a name', 'Let every', 'Have every'],
    ['prose that becomes a chord', '> Keep the @C ringing.', 'chord  F  2-0-1-0'],
    ['a chord that becomes prose', 'chord  C', '> chord  C'],
    ['a line that nobody can read', 'part  Week 1', 'prat  Week 1'],
  ] as const;
  test.each(edits)('after an edit of %s', (_, old, text) => {
    const after = replaced(LESSON, old, text);
    expect(lessonOf(after).definitions).not.toBe(lessonOf(LESSON).definitions);
    expect(lessonOf(after).definitions).toEqual(lessonOf(openDocument(after.text)).definitions);
  });
});

test('a scope with an answer of its own is not taken for the lesson’s', () => {
  const [entry] = LESSON.entries;
  if (entry === undefined) throw new Error('The lesson has no entry.');
  const scope = scopeOf(lessonOf(LESSON));
  const memo = createMemo<string>();
  const shapeOfC = (asked: typeof scope) => memo.get(entry, asked, '', (own) => `${own.chord('C')?.shape?.join('-')}`);
  expect(shapeOfC(scope)).toBe('0-0-0-3');
  expect(shapeOfC({ ...scope, chord: () => undefined })).toBe('undefined');
  expect(shapeOfC(scope)).toBe('0-0-0-3');
});
