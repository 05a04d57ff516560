import { describe, expect, test } from 'vitest';
import { chaptersText } from '../../shared/export/chapters.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { samples } from './exported-lessons.ts';

const HEAD =
  'lesson Lamps\ntempo 60\nchord C 0-0-0-3\nprogression four\n  | C | C | C | C |\npattern s\n  strum D D D D\n';

function chapters(...exercises: readonly string[]): readonly string[] {
  const document = openDocument(HEAD + exercises.join('\n'));
  return chaptersText(document, lessonOf(document).editions[0].name).trimEnd().split('\n');
}

const exercise = (title: string, ...lines: readonly string[]): string =>
  [`exercise ${title}`, '  play four', '  with s', ...lines.map((line) => `  ${line}`)].join('\n');

describe('chapters of a film', () => {
  test('an exercise is counted in and played once at its tempo', () => {
    // Four beats in, sixteen beats of music, a second each.
    expect(chapters(exercise('One'), exercise('Two'), exercise('Three'))).toEqual([
      '0:00 One',
      '0:20 Two',
      '0:40 Three',
    ]);
  });

  test('repeat says how often', () => {
    expect(chapters(exercise('One', 'repeat 4'), exercise('Two'))).toEqual(['0:00 One', '1:08 Two']);
  });

  test('a ladder is climbed to its end', () => {
    // 4 + 16 beats at 60, 16 at 80, 16 at 100, 16 at 120 a minute: 20 + 12 + 9.6 + 8 seconds.
    expect(chapters(exercise('One', 'tempo 60 to 120 by 20'), exercise('Two'))[1]).toBe('0:50 Two');
    // Twice on each step but the last, which is the end: 4 + 16, 16, 12, 12, 9.6, 9.6, 8 seconds.
    expect(chapters(exercise('One', 'tempo 60 to 120 by 20 every 2'), exercise('Two'))[1]).toBe('1:27 Two');
  });

  test('repeats in the music and a second pass count', () => {
    const twice = 'progression twice\n  |: C | C :| x3';
    const played = `${twice}\nexercise One\n  play twice\n  with s\n  with s\n${exercise('Two')}`;
    // 4 beats in, 2 bars three times, all of it twice: 4 + 48.
    expect(chapters(played)[1]).toBe('0:52 Two');
  });

  test('in 6/8 the tempo counts dotted quarters', () => {
    const six =
      'progression six\n  | 6/8 C | C |\npattern r\n  meter 6/8\n  strum D D D D D D\nexercise One\n  meter 6/8\n  play six\n  with r';
    // Two beats in, two bars of two beats.
    expect(chapters(six, exercise('Two'))[1]).toBe('0:06 Two');
  });

  test('the place in the film goes before what is worked out', () => {
    expect(chapters(exercise('One', 'video 1:05'), exercise('Two'), exercise('Three', 'video 0:30'))).toEqual([
      '0:00 Lamps',
      '0:30 Three',
      '1:05 One',
      '1:25 Two',
    ]);
  });

  test('hours', () => {
    expect(chapters(exercise('One', 'repeat 400'), exercise('Two'))[1]).toBe('1:46:44 Two');
  });

  test('a lesson without exercises has none', () => {
    expect(chapters()).toEqual(['']);
  });

  test.each(samples)('%s: in order, each exercise once, on every edition', (_name, text) => {
    const document = openDocument(text);
    const { editions, definitions } = lessonOf(document);
    for (const edition of editions) {
      const lines = chaptersText(document, edition.name).trimEnd().split('\n');
      expect(lines[0]).toMatch(/^0:00 /);
      const seconds = lines.map((line) =>
        (line.split(' ')[0] ?? '').split(':').reduce((sum, part) => sum * 60 + Number(part), 0),
      );
      expect([...seconds].sort((a, b) => a - b)).toEqual(seconds);
      for (const { statement } of definitions.exercises)
        expect(lines.some((line) => line.endsWith(` ${statement.title?.text}`))).toBe(true);
    }
  });
});
