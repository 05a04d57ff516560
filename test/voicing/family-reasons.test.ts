import { expect, test } from 'vitest';
import { readAllowance } from '../../shared/voicing/family/allowance.ts';
import { familiesOf } from '../../shared/voicing/family/families.ts';
import { tellOtherChords } from '../../shared/voicing/family/other-chord.ts';
import { BARITONE, HIGH_G } from '../neck/playing.ts';
import { type Asking, reasonsFor, requestOf } from './family-asking.ts';

test.each<[string, string, Asking, readonly RegExp[]]>([
  [
    'the range is to blame, and how much wider it must be is told',
    'Am Em',
    { on: BARITONE, ring: [1, 2], within: [3, 4], allow: 'add9' },
    [
      /^No shape of Am within frets 3 to 4 lets strings 1 and 2 ring with what is allowed/,
      /Within 3 to 7 there would be \d+-\d+-0-0/,
    ],
  ],
  [
    'a string that rings is no tone of the chord, and a word would allow it',
    'Em C',
    { ring: [1], within: [0, 5], allow: '6' },
    [
      /^No shape of Em within frets 0 to 5 lets string 1 ring/,
      /String 1 sounds A, which is no tone of Em\./,
      /If string 1 need not ring there would be 0-4-/,
      /With add11 allowed there would be \S+-0, Em\(add11\)\.$/,
    ],
  ],
  [
    'no word helps where the third must rest',
    'D G',
    { ring: [2, 3], within: [0, 3] },
    [/String 2 sounds E, which is no tone of D\./, /String 3 sounds C/],
  ],
  [
    'a hand may be too small',
    'Bb E',
    { on: BARITONE, within: [1, 4], hand: 'child', ring: [], hardest: 1 },
    [/^No shape of Bb within frets 1 to 4/, /for a child's hand\./, /With harder shapes there would be/],
  ],
  [
    'a kept shape stops a string that is to ring',
    'Em C',
    { ring: [1], allow: '6 add11', pins: { C: '0-0-0-3' } },
    [/^C is kept as 0-0-0-3, which does not let string 1 ring\. Without that there would be \S+-0, C6\.$/],
  ],
  [
    'a kept shape lies outside the range',
    'G C',
    { within: [0, 4], pins: { G: '0-7-8-10' } },
    [/^G is kept as 0-7-8-10, which goes to fret 7, outside of 0 to 4\. Without that there would be/],
  ],
  [
    'a kept shape is out of reach',
    'G C',
    { pins: { G: '1-9-1-9' } },
    [/^G is kept as 1-9-1-9, which is out of reach for a medium hand\./],
  ],
  [
    'a kept shape has too few frets',
    'G C',
    { on: BARITONE, pins: { G: '0-2-3-2-3' } },
    [/^G is kept as 0-2-3-2-3, which has 5 frets for 4 strings\.$/],
  ],
])('%s', (_name, chords, asking, told) => {
  const [first = ''] = reasonsFor(chords, asking);
  for (const part of told) expect(first).toMatch(part);
});

test('what is offered instead is true: with it there is a family', () => {
  const asking = { ring: [1, 2], within: [0, 10], allow: 'add9 6 maj7' } as const;
  const [reason = '', ...others] = reasonsFor('Em C G D', asking);
  expect(others).toEqual([]);
  const [, word = ''] = /With (\S+) allowed there would be/.exec(reason) ?? [];
  expect(word).toBe('add11');
  expect(familiesOf(requestOf('Em C G D', { ...asking, allow: `${asking.allow} ${word} 6/9` })).kind).toBe('families');
});

test('every chord in the way is told, once', () => {
  const reasons = reasonsFor('G D G D', { ring: [1, 2], within: [0, 5] });
  expect(reasons.map((reason) => reason.slice(0, 13))).toEqual(['No shape of G', 'No shape of D']);
});

test.each<[string, string]>([
  ['add9', '9 - -'],
  ['6/9', '6.9 - -'],
  ['maj7', '7 - -'],
  ['7', 'b7 - -'],
  ['m7', 'b7 - -'],
  ['add11 6', '11.6 - -'],
  ['sus2', '- 2 -'],
  ['sus4 sus2', '- 4.2 -'],
  ['7sus4', 'b7 4 -'],
  ['5', '- - 3'],
  ['no3 no5', '- - 3.5'],
  ['9', 'b7.9 - -'],
  ['add9 add9', '9 - -'],
])('allow %s', (words, told) => {
  const read = readAllowance(words.split(' '));
  const roles = (list: readonly { degree: number; alter: number }[]) =>
    list.map(({ degree, alter }) => `${'b'.repeat(Math.max(0, -alter))}${degree}`).join('.') || '-';
  expect(
    read.ok && `${roles(read.value.adds)} ${roles(read.value.suspensions)} ${read.value.omits.join('.') || '-'}`,
  ).toBe(told);
});

test.each<[string, string]>([
  ['m', 'allow.another-chord'],
  ['dim', 'allow.another-chord'],
  ['7b5', 'allow.another-chord'],
  ['maj', 'allow.nothing'],
  ['colour', 'allow.unreadable'],
  // A figure on the heels of another is no chord name.
  ['add99', 'allow.unreadable'],
  ['add119', 'allow.unreadable'],
  ['99', 'allow.unreadable'],
])('allow %s is refused', (word, code) => {
  const read = readAllowance(['add9', word]);
  expect(read.ok ? undefined : read.problem.code).toBe(code);
  expect(read.ok ? '' : read.problem.message).toContain(`"${word}"`);
});

test.each<[string, string]>([
  ['add99', 'add9'],
  ['ad9', 'add9'],
  ['maj77', 'maj7'],
  ['suss4', 'sus4'],
])('for %s the nearest word is %s, and all that are usual are told', (word, meant) => {
  const read = readAllowance([word]);
  const message = read.ok ? '' : read.problem.message;
  expect(message).toContain(`Did you mean ${meant}?`);
  expect(message).toMatch(/add9, add11, 6, 6\/9, 7, maj7, .*, or any\.$/);
});

// The notes of the shapes are those of G4 C4 E4 A4; what makes a triad is its definition.
test.each<[string, string, string, string | undefined]>([
  ['C', '0-2-3-2', '', '0-2-3-2 is not C but G: C and E are missing.'],
  ['C', '0-3-3-3', '', '0-3-3-3 is not C but Cm: E is missing.'],
  ['C', '0-0-1-3', '', '0-0-1-3 is not C but Csus4: E is missing.'],
  ['C', '0-0-1-3', 'sus4', undefined],
  ['C', '0-0-0-3', '', undefined],
  ['C', '0-0-0-0', '', undefined],
  ['C/D', '0-0-0-3', '', '0-0-0-3 is not C/D but C: D is missing.'],
  ['C/E', '0-0-0-3', '', undefined],
])('a kept %s of %s with "%s" allowed: %s', (name, frets, allow, told) => {
  const request = requestOf(`${name} F`, { allow, pins: { [name]: frets } });
  expect(tellOtherChords(HIGH_G, request)).toEqual(told === undefined ? [] : [told]);
});
