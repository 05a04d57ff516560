import { describe, expect, test } from 'vitest';
import { openDocument } from '../../shared/lesson/document.ts';
import { resolveChord } from '../../shared/lesson/model/chords.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { createMemo } from '../../shared/lesson/model/memo.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { readChordName } from '../../shared/lesson/syntax/read-names.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { played, scopeIn } from './scoring.ts';

/** `G 0-0-0-3`: the name and the frets that an edition gives each chord. */
function heldIn(lesson: string, edition: number, ...names: readonly string[]): readonly string[] {
  const scope = scopeIn(lesson, edition);
  return names.map((text) => {
    const chord = resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } }));
    return chord === undefined ? 'nothing' : `${chord.name} ${printShape(chord.shape)}`;
  });
}

const SHAPES = 'chord C 0-0-0-3\nchord Am 2-0-0-0\nchord F 2-0-1-0\nchord G 0-2-3-2\n';
const NAMES = ['C', 'Am', 'F', 'G'] as const;

describe('the same shapes', () => {
  test('D-1 must: C Am F G shapes on a baritone sound G Em C D', () => {
    const lesson = `for tenor ukulele, low G\nalso baritone ukulele, same shapes\n${SHAPES}`;
    expect(heldIn(lesson, 1, ...NAMES)).toEqual(['G 0-0-0-3', 'Em 2-0-0-0', 'C 2-0-1-0', 'D 0-2-3-2']);
  });

  test('D-1 must: from a high G too, as string 4 differs by octaves only', () => {
    expect(heldIn(`also baritone ukulele, same shapes\n${SHAPES}`, 1, ...NAMES)).toEqual([
      'G 0-0-0-3',
      'Em 2-0-0-0',
      'C 2-0-1-0',
      'D 0-2-3-2',
    ]);
  });

  test('D-1 must: the pitches lie a fourth below low G', () => {
    // Source: MIDI note numbers; the open strings G3 C4 E4 A4 are 55 60 64 69, D3 G3 B3 E4 are 50 55 59 64.
    const [own, baritone] = lessonOf(openDocument('for tenor ukulele, low G\nalso baritone ukulele')).editions;
    const open = (strings: typeof own.instrument.openStrings = []): string =>
      strings.map(({ letter, octave }) => `${letter}${octave}`).join(' ');
    expect(open(own.instrument.openStrings)).toBe('G3 C4 E4 A4');
    expect(open(baritone?.instrument.openStrings)).toBe('D3 G3 B3 E4');
  });

  test('a chord over another bass moves whole', () => {
    expect(heldIn('also baritone ukulele, same shapes\nchord C/G 0-0-0-3', 1, 'C/G')).toEqual(['G/D 0-0-0-3']);
  });

  test('where the strings differ in distance the shape is named anew', () => {
    // The same frets on a tuning of thirds that is no transposition of the lesson's.
    expect(heldIn('for tenor ukulele, high G\nalso tuned G4 B3 D4 G4, same shapes\nchord C 0-0-0-0', 1, 'C')).toEqual([
      'G 0-0-0-0',
    ]);
  });

  test('a shape that lacks strings there is nothing', () => {
    expect(heldIn('also guitar, same shapes\nchord C 0-0-0-3', 1, 'C')).toEqual(['nothing']);
  });
});

describe('the same key', () => {
  test('D-2 must: C Am F G on a baritone are 2-0-1-0, 2-2-1-0, 3-2-1-1, 0-0-0-3', () => {
    expect(heldIn(`also baritone ukulele, same key\n${SHAPES}`, 1, ...NAMES)).toEqual([
      'C 2-0-1-0',
      'Am 2-2-1-0',
      'F 3-2-1-1',
      'G 0-0-0-3',
    ]);
  });

  test('C-17 must: a capo on the other edition leaves names and shapes those of the hand', () => {
    const lesson = `also tenor ukulele, high G, same key, called low\n${SHAPES}edition low\n  capo 2`;
    expect(heldIn(lesson, 1, 'C', 'Am')).toEqual(['C 0-0-0-3', 'Am 2-0-0-0']);
    expect(scopeIn(lesson, 1).edition().instrument.capoFret).toBe(2);
    expect(scopeIn(lesson, 0).edition().instrument.capoFret).toBe(0);
  });
});

describe('what an edition block gives', () => {
  const lesson = `also baritone ukulele, same shapes, called bari\n${SHAPES}pattern r\n  pick 4 3 2 1\nprogression v\n  | C |\nexercise e\n  play v\n  with r\nedition bari\n  chord C as A 2-2-2-0\n  pattern r\n    pick 1 2 3 4\n`;
  test('a chord of its own, named as it says', () => {
    expect(heldIn(lesson, 1, 'C', 'Am')).toEqual(['A 2-2-2-0', 'Em 2-0-0-0']);
    expect(heldIn(lesson, 0, 'C')).toEqual(['C 0-0-0-3']);
  });
  test('a pattern of its own', () => {
    expect(played(lesson, 0, 1)).toEqual(['0 1:0, 1 2:2, 2 3:2, 3 4:2']);
    expect(played(lesson, 0, 0)).toEqual(['0 4:0, 1 3:0, 2 2:0, 3 1:3']);
  });
});

test('what is kept for one edition is not taken for another', () => {
  const lesson = lessonOf(openDocument(`also baritone ukulele, same shapes\n${SHAPES}progression v\n  | C |`));
  const memo = createMemo<string>();
  const entry = lesson.document.entries.at(-1);
  const names = lesson.editions.flatMap((edition) => {
    const scope = scopeOf(lesson, edition);
    const c = readChordName({ text: 'C', span: { start: 0, end: 1 } });
    return entry === undefined
      ? []
      : [memo.get(entry, scope, edition.name, (asked) => resolveChord(asked, c)?.name ?? '')];
  });
  expect(names).toEqual(['C', 'G']);
});
