import { describe, expect, test } from 'vitest';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { chordBeside, namingContext } from '../../../shared/lesson/model/naming-context.ts';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { readChordName } from '../../../shared/lesson/syntax/read-names.ts';
import { createReader, replaced } from './remembering.ts';

const scopeOfText = (lesson: string): Scope => scopeOf(lessonOf(openDocument(lesson)));
const named = (text: string) => readChordName({ text, span: { start: 0, end: text.length } });

/** `G < C > Am`: what stands before and after the chord. */
function around(lesson: string, text: string): string {
  const scope = scopeOfText(lesson);
  return `${chordBeside(scope, named(text), 'before')?.text} < ${text} > ${chordBeside(scope, named(text), 'after')?.text}`;
}

describe('the chords beside a chord', () => {
  test.each([
    ['in the middle', '| C | F | G |', 'F', 'C < F > G'],
    ['at the start', '| C | F |', 'C', 'undefined < C > F'],
    ['at the end', '| C | F |', 'F', 'C < F > undefined'],
    ['what the first use does not tell, a later one does', '| C | F | G | C |', 'C', 'G < C > F'],
    ['the first use counts', '| Dm | G | C | Em | G | Am |', 'G', 'Dm < G > C'],
    ['struck again', '| C | C | F F | G |', 'C', 'undefined < C > F'],
    ['over beats, repeats and silence', '|: C / / F | % | NC | G :|', 'F', 'C < F > G'],
    ['over another shape of the same chord', '| C | F.low | F.high | G |', 'F.high', 'C < F.high > G'],
    ['a label that no bar uses', '| C | F | G |', 'F.high', 'C < F.high > G'],
    ['in no progression', '| C | G |', 'F', 'undefined < F > undefined'],
  ])('%s', (_name, bars, text, expected) => expect(around(`progression p\n  ${bars}`, text)).toBe(expected));

  test('of several progressions the first that uses it', () => {
    expect(
      around('progression a\n  | C | G |\nprogression b\n  | Dm | F | Bb |\nprogression c\n  | F | C |', 'F'),
    ).toBe('Dm < F > Bb');
  });

  test('the key goes with them; on an edition with the same shapes in another tuning both are those that sound there', () => {
    const lesson = 'key G\nalso baritone ukulele, same shapes\nprogression p\n  | C | D7 | G |';
    const context = namingContext(scopeOfText(lesson), named('D7'));
    expect([context.previous?.text, context.next?.text, context.key?.tonic.letter]).toEqual(['C', 'G', 'G']);
    const whole = lessonOf(openDocument(lesson));
    const there = namingContext(scopeOf(whole, whole.editions[1]), named('D7'));
    // A fourth lower: C, G and the key of G become G, D and the key of D.
    expect([there.previous?.text, there.next?.text, there.key?.tonic.letter]).toEqual(['G', 'D', 'D']);
  });
});

describe('what a chord line has read of its neighbours is read anew when they change, and only then', () => {
  const LESSON = 'chord F 2-0-1-0\nprogression p\n  | C | F | G |\nprogression q\n  | F | Bb | C |\n';
  const reader = () =>
    createReader((scope, { statement }) =>
      statement.kind === 'chord' && statement.chord !== undefined ? namingContext(scope, statement.chord) : 0,
    );
  test.each([
    ['the chord before', '| C |', '| Dm |', ['chord F', 'progression p']],
    ['the chord after', 'G |', 'C7 |', ['chord F', 'progression p']],
    ['no more than the progression', '| C | F | G |', '| C | F | G | Am |', ['progression p']],
    ['a later progression', 'Bb', 'Bbm', ['progression q']],
    ['the first one goes', '| F | G |', '| G |', ['chord F', 'progression p']],
  ])('%s', (_name, old, text, expected) => {
    const read = reader();
    const document = openDocument(LESSON);
    read.workedOut(document);
    expect(read.workedOut(replaced(document, old, text))).toEqual(expected);
  });
});
