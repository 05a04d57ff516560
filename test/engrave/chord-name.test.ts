import { describe, expect, test } from 'vitest';
import { chordNameInText, setChordName, setRole, spokenChordName } from '../../shared/engrave/chord-name.ts';
import type { GroupItem, Item } from '../../shared/engrave/drawing.ts';
import { textBox } from '../../shared/engrave/text-width.ts';
import { MUSIC_SIGNS } from '../../shared/engrave/type/music-signs.ts';

const NAMES = [
  'C',
  'Bb7',
  'F#m7b5',
  'C△7',
  'Cø7',
  'C°7',
  'Co7',
  'C+7',
  'D(add9)',
  'Eb/Bb',
  'G6/9',
  'C7(b9,#11)',
  'C-△7',
  'F##m',
  'Abb',
];

describe('a name as set', () => {
  test.each(NAMES)('%s: parts stand side by side in their order, none upon another, the last ends the line', (name) => {
    const { items, width } = setChordName(name, 10);
    const reaches = items.map(acrossOf);
    for (const [index, { left, right }] of reaches.entries()) {
      expect(right).toBeGreaterThan(left);
      expect(left).toBeGreaterThanOrEqual((reaches[index - 1]?.right ?? 0) - 1e-9);
    }
    const end = reaches.at(-1)?.right ?? 0;
    expect(width).toBeGreaterThanOrEqual(end - 1e-9);
    expect(width - end).toBeLessThan(10 / 15);
  });

  // Common practice, no source: accidentals stand beside the letter, about as high as a capital and never far below the line.
  test.each([
    ['Bb', 'accidentalFlat'],
    ['F#', 'accidentalSharp'],
    ['F##', 'accidentalDoubleSharp'],
    ['Abb', 'accidentalDoubleFlat'],
    ['B♭', 'accidentalFlat'],
    ['F♯', 'accidentalSharp'],
  ] as const)('%s has the sign %s between the line and a little above the capital', (name, sign) => {
    const drawn = setChordName(name, 10).items.filter((item) => item.kind === 'group');
    expect(drawn).toHaveLength(1);
    const [only] = drawn;
    expect(only?.items[0]).toMatchObject({
      kind: 'path',
      ink: 'strong',
      steps: { length: MUSIC_SIGNS[sign].steps.length },
    });
    const { top, bottom } = only === undefined ? { top: 0, bottom: 0 } : uprightOf(only);
    expect(bottom).toBeLessThan(1.2);
    expect(top).toBeGreaterThan(-8.5);
    expect(top).toBeLessThan(-3.5);
  });

  test.each([
    ['C△7', 'csymMajorSeventh'],
    ['CΔ', 'csymMajorSeventh'],
    ['Cø7', 'csymHalfDiminished'],
    ['C°7', 'csymDiminished'],
    ['Co7', 'csymDiminished'],
    ['Co', 'csymDiminished'],
  ] as const)('%s is set with the sign %s', (name, sign) => {
    const { items } = setChordName(name, 10);
    const drawn = items.find((item) => item.kind === 'group')?.items[0];
    expect(drawn).toMatchObject({ kind: 'path', steps: { length: MUSIC_SIGNS[sign].steps.length } });
    for (const item of items) if (item.kind === 'text') expect(item.text).toMatch(/^[A-G0-9]+$/);
  });

  test('letters keep their words: no sign in add, sus, dim, aug or no', () => {
    for (const name of ['D(add9)', 'Asus4', 'Edim7', 'Eaug', 'Gno3']) {
      expect(setChordName(name, 10).items.every((item) => item.kind === 'text')).toBe(true);
    }
  });

  test('a role has its sign before its number, in the ink asked for', () => {
    const { items } = setRole('♭3', 2, 'paper');
    expect(items.map((item) => item.kind)).toEqual(['group', 'text']);
    expect(items[0]).toMatchObject({ items: [{ kind: 'path', ink: 'paper' }] });
    expect(items[1]).toMatchObject({ kind: 'text', text: '3', ink: 'paper' });
  });

  test('a name grows in step with its size', () => {
    for (const name of NAMES) expect(setChordName(name, 8).width).toBeCloseTo(2 * setChordName(name, 4).width, 9);
  });
});

describe('a name as read aloud', () => {
  test.each([
    ['C△7', 'C major 7'],
    ['C-△7', 'C minor major 7'],
    ['Cø7', 'C half-diminished 7'],
    ['C°7', 'C diminished 7'],
    ['Co7', 'C diminished 7'],
    ['C+7', 'C augmented 7'],
    ['B♭7', 'B flat 7'],
    ['F♯m7♭5', 'F sharp minor 7 flat 5'],
  ])('%s is read %s', (name, spoken) => expect(spokenChordName(name)).toBe(spoken));
});

describe('chord names within a line of text', () => {
  test.each([
    ['Bb', 'B♭'],
    ['Bbb7', 'B♭♭7'],
    ['D/F#', 'D/F♯'],
    ['F#m7b5', 'F♯m7♭5'],
    ['C7(b9,#11)', 'C7(♭9,♯11)'],
    ['Absus4/Eb', 'A♭sus4/E♭'],
    ['Em(add11)', 'Em(add11)'],
    ['Dm', 'Dm'],
    ['bridge', 'bridge'],
  ])('%s is written %s', (name, text) => expect(chordNameInText(name)).toBe(text));
});

function acrossOf(item: Item): { readonly left: number; readonly right: number } {
  if (item.kind === 'text') {
    const box = textBox(item);
    return { left: box.x, right: box.x + box.width };
  }
  if (item.kind !== 'group') throw new Error(`a name has no ${item.kind}`);
  const xs = pointsOf(item).map(([x]) => x + item.x);
  return { left: Math.min(...xs), right: Math.max(...xs) };
}

function uprightOf(item: GroupItem): { readonly top: number; readonly bottom: number } {
  const ys = pointsOf(item).map(([, y]) => y + item.y);
  return { top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** Where the pen comes by, without what steers it between. */
function pointsOf({ items }: GroupItem): readonly (readonly [number, number])[] {
  return items.flatMap((item) =>
    item.kind !== 'path'
      ? []
      : item.steps.flatMap((step): readonly (readonly [number, number])[] =>
          step[0] === 'Z' ? [] : step[0] === 'C' ? [[step[5], step[6]]] : [[step[1], step[2]]],
        ),
  );
}
