import { expect, test } from 'vitest';
import { parseNote, printNote } from '../../shared/theory/note.ts';
import { nameShape } from '../../shared/voicing/naming.ts';
import { BARITONE, HIGH_G, instrument, LOW_G, shape } from '../neck/playing.ts';
import { chord, reading } from '../theory/reading.ts';
import { allTold, firstTold, namesOf, notesTold } from './naming-of.ts';
import { USUAL_CHART } from './usual-chart.ts';

// What players ask about names, one question a test, in standard tuning with high G unless told otherwise.
// "must": follows from arithmetic or definition. "should": common practice, another sensible answer may be argued.

test('all open strings are C6 and Am7, C6 first for its bass (must; order should)', () => {
  expect(allTold(HIGH_G, '0000').slice(0, 2)).toEqual(['C6', 'Am7']);
  expect(firstTold(HIGH_G, '0000', { key: 'C' })).toBe('C6');
  expect(firstTold(HIGH_G, '0000', { key: 'G', next: 'D7' })).toBe('Am7');
});

test('2333 is Cm6, Am7b5, and F9 without its root (must)', () => {
  const told = allTold(HIGH_G, '2333', { key: 'Eb' });
  expect(told).toContain('Cm6');
  expect(told).toContain('Am7b5');
  expect(told).toContain('F9 (no 1)');
  expect(namesOf(HIGH_G, '2333').find((name) => name.text === 'F9')?.rootless).toBe(true);
});

test.each(['2423', '5420'])('%s is D9 without its root, Am6 and F#m7b5; there is no C sharp in it (must)', (frets) => {
  const told = allTold(HIGH_G, frets);
  expect(told.slice(0, 3).sort()).toEqual(['Am6', 'D9 (no 1)', 'F#m7b5']);
  expect(notesTold(HIGH_G, '2423')).toBe('A E F# C');
});

test('0201 is C9 without its root; with its digits swapped it is a D minor chord (must)', () => {
  const told = allTold(HIGH_G, '0201');
  for (const name of ['Gm6', 'Em7b5', 'C9 (no 1)']) expect(told).toContain(name);
  expect(firstTold(HIGH_G, '0210')).toBe('Dm(add11)');
});

test('a diminished seventh has four names; the next chord chooses (must for the names, should for the choice)', () => {
  expect([...allTold(HIGH_G, '1212').slice(0, 4)].sort()).toEqual(['Bdim7', 'Ddim7', 'Fdim7', 'G#dim7']);
  expect(firstTold(HIGH_G, '1212', { next: 'Am' })).toBe('G#dim7');
  expect(firstTold(HIGH_G, '1212', { next: 'C' })).toBe('Bdim7');
  expect(firstTold(HIGH_G, '1212', { key: 'A minor' })).toBe('G#dim7');
});

test.each([
  ['0212', 'G7'],
  ['1112', 'C#7'],
  ['1202', 'E7'],
  ['1211', 'Bb7'],
])('a diminished seventh with one note lowered, %s, is %s (must)', (frets, name) => {
  expect(firstTold(HIGH_G, frets)).toBe(name);
});

test('a passing diminished chord rises from a sharp and falls from a flat (should)', () => {
  const rising = { previous: 'C', next: 'Dm7' };
  expect(firstTold(HIGH_G, '0101', rising)).toBe('C#dim7');
  expect(notesTold(HIGH_G, '0101', rising)).toBe('G C# E Bb');
  expect(firstTold(HIGH_G, '2323', { previous: 'Em7', next: 'Dm7' })).toBe('Ebdim7');
});

test('1003 is an augmented chord on three roots (must)', () => {
  expect([...allTold(HIGH_G, '1003')].sort()).toEqual(['Abaug', 'Caug', 'Eaug']);
  expect(firstTold(HIGH_G, '1003', { next: 'Am' })).toBe('Eaug');
  expect(namesOf(HIGH_G, '1003', { next: 'Am' })[0]?.symbol.kind).toBe(chord('E+').kind);
});

test('0233 is Csus2 and Gsus4; the chord it leans on decides (must for the names, should for the choice)', () => {
  expect([...allTold(HIGH_G, '0233').slice(0, 2)].sort()).toEqual(['Csus2', 'Gsus4']);
  expect(firstTold(HIGH_G, '0233', { previous: 'C', next: 'C' })).toBe('Csus2');
  expect(firstTold(HIGH_G, '0233', { next: 'G' })).toBe('Gsus4');
  expect(firstTold(HIGH_G, '0233', { previous: 'G' })).toBe('Gsus4');
});

test('add9 has a third and no seventh, 9 has a seventh, sus2 no third (must)', () => {
  expect(firstTold(HIGH_G, '0203')).toBe('C(add9)');
  expect(allTold(HIGH_G, '0201')).toContain('C9 (no 1)');
  expect(allTold(HIGH_G, '0233')).toContain('Csus2');
});

test('2232 is G with an added ninth, 4232 the plain G (must)', () => {
  expect(firstTold(HIGH_G, '2232')).toBe('G(add9)');
  expect(firstTold(HIGH_G, '4232')).toBe('G');
});

test('inversions come from what sounds lowest, not from the order of strings (must)', () => {
  const told = (on: typeof HIGH_G, frets: string) => {
    const [name] = namesOf(on, frets);
    return `${name?.text} over ${name === undefined ? '' : printNote(name.bass)}, ${name?.inversion}`;
  };
  expect(told(HIGH_G, '0003')).toBe('C over C, 0');
  expect(told(HIGH_G, '5433')).toBe('C over E, 1');
  expect(told(LOW_G, '0003')).toBe('C over G, 2');
  expect(told(LOW_G, '5433')).toBe('C over C, 0');
  expect(told(HIGH_G, '2010')).toBe('F over C, 2');
  expect(told(LOW_G, '2010')).toBe('F over A, 1');
  expect(told(BARITONE, '2010')).toBe('C over E, 1');
});

test('2020 is an F sharp diminished triad, offered as D7 without its root; before G it is D7 (must for the facts)', () => {
  expect(allTold(HIGH_G, '2020')).toEqual(expect.arrayContaining(['F#dim', 'D7 (no 1)']));
  expect(firstTold(HIGH_G, '2020', { next: 'G' })).toBe('D7 (no 1)');
  expect(firstTold(HIGH_G, '2223')).toBe('D7');
});

test('a bar at fret 2 is D6 at home in D, Bm7 in A or before E7 (must for the names, should for the choice)', () => {
  expect([...allTold(HIGH_G, '2222').slice(0, 2)].sort()).toEqual(['Bm7', 'D6']);
  expect(firstTold(HIGH_G, '2222', { key: 'D' })).toBe('D6');
  expect(firstTold(HIGH_G, '2222', { key: 'A' })).toBe('Bm7');
  expect(firstTold(HIGH_G, '2222', { next: 'E7' })).toBe('Bm7');
});

test('0211 is Gm7 in F before C7, Bb6 at home in B flat (must for the names, should for the choice)', () => {
  expect(firstTold(HIGH_G, '0211', { key: 'F', next: 'C7' })).toBe('Gm7');
  expect(firstTold(HIGH_G, '0211', { key: 'Bb' })).toBe('Bb6');
});

test('0010 is F with an added ninth, and no C6 without an E (must)', () => {
  expect(firstTold(HIGH_G, '0010')).toBe('F(add9)');
  expect(allTold(HIGH_G, '0010').join(' ')).not.toMatch(/\bC6\b/);
});

test('0200 is A7sus4 first and C6/9 without its root; 2233 has no E and is no C6/9 (must)', () => {
  expect(firstTold(HIGH_G, '0200')).toBe('A7sus4');
  expect(allTold(HIGH_G, '0200')).toContain('C6/9 (no 1)');
  expect(firstTold(HIGH_G, '2233')).toBe('D7sus4');
  expect(allTold(HIGH_G, '2233').join(' ')).not.toContain('C6/9');
});

test.each([
  [HIGH_G, '5433', 'C'],
  [HIGH_G, '3211', 'Bb'],
  [HIGH_G, '2100', 'A'],
  [LOW_G, '2010', 'F'],
])('a major chord over its third is no minor chord with a raised fifth: %#, %s is %s (must)', (on, frets, name) => {
  expect(firstTold(on, frets)).toBe(name);
  expect(allTold(on, frets).join(' ')).not.toMatch(/#5|A#/);
});

test.each([
  ['2210', 'Dm'],
  ['4430', 'Em(add11)'],
  ['7760', 'Gm(add9)'],
  ['9980', 'Am'],
])('the minor shape under an open A, %s: %s (must)', (frets, name) => expect(firstTold(HIGH_G, frets)).toBe(name));
test('the last of that family has the open A lowest (must)', () => {
  expect([...allTold(HIGH_G, '12 12 11 0').slice(0, 2)].sort()).toEqual(['Am7b5', 'Cm6']);
  expect(printNote(namesOf(HIGH_G, '12 12 11 0')[0]?.bass ?? { letter: 'F', accidental: 0 })).toBe('A');
});

test('E has a G sharp and never an A flat (must)', () => {
  expect(firstTold(HIGH_G, '1402')).toBe('E');
  expect(notesTold(HIGH_G, '1402')).toBe('G# E E B');
});

test('B flat is B flat in F and with no key at all; its relatives are spelled the usual way (must)', () => {
  expect(firstTold(HIGH_G, '3211', { key: 'F' })).toBe('Bb');
  expect(firstTold(HIGH_G, '3211')).toBe('Bb');
  expect(firstTold(HIGH_G, '0331')).toBe('Eb');
  expect(firstTold(HIGH_G, '3121')).toBe('F#');
  expect(firstTold(HIGH_G, '1114')).toBe('C#');
  // C♯maj7 would be written with an E♯ and a B♯, the diminished chord on E flat with two double flats.
  expect(firstTold(HIGH_G, '1113')).toBe('Dbmaj7');
  expect(firstTold(HIGH_G, '2323')).toBe('Adim7');
});

test('the falling line inside A minor (must)', () => {
  const line = [
    firstTold(HIGH_G, '2000'),
    firstTold(HIGH_G, '1000', { previous: 'Am' }),
    firstTold(HIGH_G, '0000', { previous: 'Am(maj7)' }),
    firstTold(HIGH_G, '2423', { previous: 'Am7' }),
  ];
  expect(line).toEqual(['Am', 'Am(maj7)', 'Am7', 'Am6']);
});

test('2655 has F sharp lowest, 2220 D; the names carry no stroke by themselves (must)', () => {
  const bass = (frets: string) => namesOf(HIGH_G, frets).map((name) => `${name.text} ${printNote(name.bass)}`)[0];
  expect(bass('2655')).toBe('D F#');
  expect(bass('2220')).toBe('D D');
});

test('0001 is C7, 0003 is C (must)', () => {
  expect(firstTold(HIGH_G, '0001')).toBe('C7');
  expect(firstTold(HIGH_G, '0003')).toBe('C');
});

test('0550 is F(add9) without its fifth', () => {
  expect(firstTold(HIGH_G, '0550')).toBe('F(add9) (no 5)');
  expect(notesTold(HIGH_G, '0550')).toBe('G F A A');
});

test('a baritone: the class shapes sound G Em C D, and C Am F G have shapes of their own (must)', () => {
  expect(['0003', '2000', '2010', '0232'].map((frets) => firstTold(BARITONE, frets))).toEqual(['G', 'Em', 'C', 'D']);
  expect(['2010', '2210', '3211', '0003'].map((frets) => firstTold(BARITONE, frets))).toEqual(['C', 'Am', 'F', 'G']);
  expect(firstTold(HIGH_G, '2010')).toBe('F');
});

test('one note has no chord name, two have one as root and fifth or third', () => {
  expect(namesOf(HIGH_G, 'x-x-x-0')).toEqual([]);
  expect(firstTold(HIGH_G, '0-0-x-x')).toBe('C5');
  expect(firstTold(HIGH_G, 'x-0-0-x')).toBe('C (no 5)');
  expect(namesOf(HIGH_G, '0-x-x-0')).toEqual([]);
});

// Source: spelling by letter, any theory primer; which chord leads where is common practice, no source.
test.each([
  ['1323', { next: 'C#m' }, 'G#7'],
  ['1323', { next: 'Db' }, 'Ab7'],
  ['1114', { next: 'F#m' }, 'C#'],
  ['1114', { key: 'Ab' }, 'Db'],
  ['3211', { key: 'D minor' }, 'Bb'],
  ['1003', { next: 'Db' }, 'Abaug'],
  ['1003', { next: 'C#m' }, 'G#aug'],
  ['1212', { next: 'Eb' }, 'Ddim7'],
  ['1212', { next: 'F#m' }, 'E#dim7'],
])('%s, %j, is spelled %s', (frets, around, name) => expect(firstTold(HIGH_G, frets, around)).toBe(name));

// Common practice, no source, unless it follows from the letters of the key.
test.each([
  ['1342', {}, 'G#m'],
  ['1342', { previous: 'E', next: 'B' }, 'G#m'],
  ['1342', { key: 'Eb minor' }, 'Abm'],
  ['5343', {}, 'Ab'],
  ['1312', { key: 'B' }, 'E#m7b5'],
  ['1112', { key: 'C', next: 'C' }, 'Db7'],
  ['1323', { key: 'G', next: 'G' }, 'Ab7'],
  ['3334', { key: 'D', next: 'D' }, 'Eb7'],
  ['3211', { key: 'B' }, 'Bb'],
  ['0331', { key: 'E' }, 'Eb'],
  ['0332', { key: 'G' }, 'Gaug'],
  ['0332', { previous: 'G' }, 'Gaug'],
  ['2110', {}, 'Faug'],
  ['2110', { key: 'F' }, 'Faug'],
])('%s, %j, is called and spelled %s', (frets, around, name) => expect(firstTold(HIGH_G, frets, around)).toBe(name));

test('in B major its own notes are sharps', () => {
  expect(notesTold(HIGH_G, '3424', { key: 'B' })).toBe('A# E F# C#');
});

// Common practice, no source: below C3 the lowest note is a bass.
test.each([
  ['3-x-3-2-1-1', 'F/G'],
  ['0-0-0-2-3-2', 'D/E'],
  ['x-3-2-0-3-0', 'C(add9)'],
])('on a guitar %s is %s', (frets, name) => {
  expect(firstTold(instrument('guitar'), frets)).toBe(name);
  expect(firstTold(HIGH_G, '0203')).toBe('C(add9)');
});

test('far-fetched names are marked', () => {
  const ready = (frets: string) => namesOf(HIGH_G, frets).flatMap((name) => (name.ready ? [name.text] : []));
  expect(ready('0212')).toEqual(['G7']);
  expect(ready('2333')).toEqual(expect.arrayContaining(['Cm6', 'Am7b5', 'F9']));
});

test('a root that another player sounds makes the rootless name come first', () => {
  const over = (frets: string, bass: string) =>
    nameShape(HIGH_G, shape(frets), { bassElsewhere: reading(parseNote(bass)) })[0];
  expect(over('0201', 'C')).toMatchObject({ text: 'C9', rootless: true, omits: [{ degree: 1, alter: 0 }] });
  expect(over('2423', 'D')).toMatchObject({ text: 'D9', rootless: true });
  expect(over('2020', 'D')).toMatchObject({ text: 'D7', rootless: true });
  expect(over('0003', 'A')?.text).toBe('Am7');
  expect(over('0003', 'C')).toMatchObject({ text: 'C', rootless: false });
});

test('a triad over a bass that it does not have is offered with a stroke, behind a name of the same notes', () => {
  expect(allTold(LOW_G, '0000')).toContain('Am/G');
  expect(firstTold(LOW_G, '0000')).toBe('C6');
  expect(allTold(HIGH_G, '0003').join(' ')).not.toContain('/');
});

test.each(USUAL_CHART.filter(([frets]) => frets !== '2020'))(
  'the usual chart: %s is %s, on a baritone %s',
  (frets, high, low) => {
    const expected = [
      [HIGH_G, high],
      [LOW_G, high],
      [BARITONE, low],
    ] as const;
    for (const [on, name] of expected) {
      const wanted = chord(name);
      const found = namesOf(on, frets).slice(0, 4);
      // Db and C# are one sound with two names; which one is meant is the key's matter, and here there is none.
      const same = found.some(
        (one) => one.omits.length === 0 && one.symbol.kind === wanted.kind && equalSound(one.text, name),
      );
      expect(same ? name : found.map((one) => one.text)).toBe(name);
    }
  },
);

function equalSound(a: string, b: string): boolean {
  const plain = (text: string) =>
    chord(text.replace('Db', 'C#').replace('Gb', 'F#').replace('G#', 'Ab').replace('D#', 'Eb'));
  return plain(a).root.letter === plain(b).root.letter && plain(a).root.accidental === plain(b).root.accidental;
}
