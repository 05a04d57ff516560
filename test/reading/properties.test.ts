import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openDocument } from '../../shared/lesson/document.ts';
import { formatDocument } from '../../shared/lesson/format.ts';
import { readText } from '../../shared/reading/read-text.ts';
import { type Asked, errorsIn, gridsIn, progressionsIn, read } from './reading.ts';
import { TAB_TEXTS } from './tab-texts.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_128;

/** Strings and frets enough for whatever chance writes. */
const ROOMY: Asked = { on: 'tuned B1 E2 A2 D3 F3 G3 B3 E4 frets 30' };

/** What tabs and songs are made of, and what makes trouble. */
const PIECES = [
  ...[
    '\n',
    '\n',
    '\n',
    '\r\n',
    '\r',
    '\t',
    ' ',
    '  ',
    '    ',
    '\u00a0',
    '\ufeff',
    '\u200b',
    '\0',
    '\u2028',
    '🎸',
    '\ud83d',
  ],
  ...['> ', '>> ', '| ', '// ', '>', '//', '[', ']', '(', ')', '<', '['],
  ...[
    'A|',
    'E|',
    'C|',
    'G|',
    'e|',
    'B|',
    'Bb|',
    '1|',
    '2|',
    '3|',
    '4|',
    '-',
    '--',
    '----',
    '--------',
    '|',
    '||',
    '|:',
    ':|',
    '*|',
  ],
  ...[
    '0',
    '3',
    '5',
    '7',
    '10',
    '12',
    '24',
    '99',
    '5h7',
    '7p5',
    '5/7',
    '7\\5',
    '5~',
    '7b9r7',
    '(7)',
    '<12>',
    '5t7',
    'x',
    'o',
    '12*',
  ],
  ...['Am', 'C', 'F#m7b5', 'C2', 'G/B', 'N.C.', '%', '/', 'x2', '(x3)', '4/4', '3/4', '1.', 'Do', 'A'],
  ...[
    '1 & 2 & 3 & 4 &',
    '1 2 3',
    '1 e & a',
    'q q h',
    'e e q',
    '1-2',
    'lamps',
    'lan-tern',
    'the',
    '[Verse]',
    'Chorus:',
    '_',
    'é',
    '…',
  ],
];

const loose = fc.array(fc.constantFrom(...PIECES), { maxLength: 120 }).map((pieces) => pieces.join(''));

/** Blocks of lines that are nearly tab, with lines of other sorts around them. */
const TAB_PIECES = [
  ...[
    '-',
    '-',
    '--',
    '----',
    '|',
    '||',
    '|:',
    ':|',
    '-*|',
    '0',
    '3',
    '5',
    '10',
    '24',
    '57',
    '5h7',
    '7p5',
    'h',
    '/5',
    '5\\',
    '5/7',
  ],
  ...['~', '7b9', '(3)', '<12>', '3t5', 'x', 'k', ' ', 'v', '5/5', '0/5', '3h', '*', '^', '[7]', '.', '=', 'x2'],
];
const AROUND = [
  '',
  'Am   F',
  '  1 & 2 & 3 & 4 &',
  '1 2 3 1 2 3',
  '4 1 2 3 4',
  ' q q h  e e q',
  'words',
  '> x',
  '[B]',
  '3/4',
  '1 e & a 2 la li',
];
const nearlyTab = fc
  .array(
    fc.record({
      above: fc.constantFrom(...AROUND),
      strings: fc.array(fc.array(fc.constantFrom(...TAB_PIECES), { minLength: 3, maxLength: 24 }), {
        minLength: 3,
        maxLength: 9,
      }),
      labels: fc.constantFrom('', 'AECG', 'eBGDAE', '12345678'),
      below: fc.constantFrom(...AROUND),
    }),
    { minLength: 1, maxLength: 3 },
  )
  .map((blocks) =>
    blocks
      .flatMap(({ above, strings, labels, below }) => [
        above,
        ...strings.map(
          (pieces, at) => `${labels === '' ? '' : `${labels.charAt(at % labels.length)}|`}--${pieces.join('')}--`,
        ),
        below,
      ])
      .join('\n'),
  );

const randomText = fc.oneof(loose, nearlyTab);

/** A tab that is right: some systems of equally long lines, with notes of chance. */
const soundTab = fc
  .record({
    strings: fc.integer({ min: 4, max: 8 }),
    systems: fc.array(
      fc.array(fc.array(fc.tuple(fc.nat(7), fc.nat(24), fc.boolean()), { minLength: 1, maxLength: 8 }), {
        minLength: 1,
        maxLength: 4,
      }),
      {
        minLength: 1,
        maxLength: 3,
      },
    ),
    numbered: fc.boolean(),
  })
  .map(({ strings, systems, numbered }) => {
    const notes: string[] = [];
    const texts = systems.map((bars) => {
      const lines = Array.from({ length: strings }, (_, line) => (numbered ? `${line + 1}|` : '|'));
      for (const bar of bars) {
        for (const [at, fret, both] of bar) {
          const struck = new Set([at % strings, ...(both ? [(at + 1) % strings] : [])]);
          const width = String(fret).length + 1;
          for (const [line, text] of lines.entries()) {
            lines[line] = text + `-${struck.has(line) ? fret : ''}`.padEnd(width, '-');
          }
          notes.push(
            [...struck]
              .sort((a, b) => b - a)
              .map((line) => `${line + 1}:${fret}`)
              .join('+'),
          );
        }
        for (const [line, text] of lines.entries()) lines[line] = `${text}-|`;
      }
      return lines.join('\n');
    });
    return { text: texts.join('\n\n'), notes, strings };
  });

/** Every note of a reading in the order of its text, rows of one column joined. */
function notesIn(text: string): readonly string[] {
  return gridsIn(text).flatMap(({ lines }) =>
    lines.flatMap(({ count, rows }) =>
      (count?.columns ?? []).flatMap((_, column) => {
        const marks = rows.flatMap(({ cells }) => cells[column]?.word.text ?? '.').filter((mark) => mark !== '.');
        return marks.length === 0 ? [] : [marks.join('+')];
      }),
    ),
  );
}

describe('whatever text is read', () => {
  test('nothing is lost: every line is music or stands in a remark as it was written', () => {
    fc.assert(
      fc.property(randomText, fc.constantFrom(undefined, 'melody', 'pattern', 'progression'), (text, as) => {
        const reading = read(text, { ...ROOMY, ...(as === undefined ? {} : { as: as as 'melody' }) });
        const lines = text.split(/\r\n|\n|\r/);
        expect(reading.fates).toHaveLength(lines.length);
        const remarks = reading.text.split('\n').map((line) => line.trimStart());
        let from = 0;
        for (const [index, line] of lines.entries()) {
          if (reading.fates[index] !== 'kept') continue;
          const said = new Set([bare(line), squeezed(line), squeezed(line).replace(/^>+/, '')]);
          // Remarks stand in the order of the text, each with all that its line says.
          from =
            remarks.findIndex(
              (remark, at) => at >= from && remark.startsWith('//') && said.has(squeezed(remark.slice(2))),
            ) + 1;
          expect({ line, kept: from > 0 }).toEqual({ line, kept: true });
        }
        for (const [index, fate] of reading.fates.entries()) {
          if (fate === 'empty') expect(bare(lines[index] ?? '')).toBe('');
        }
        const isMusic = reading.fates.includes('music');
        expect(reading.blocks.length > 0).toBe(isMusic);
      }),
      { seed: SEED, numRuns: 3000 },
    );
  });

  test('what is made of it is a lesson without errors, laid out', () => {
    fc.assert(
      fc.property(randomText, fc.constantFrom('equal', 'columns', '1 & 2 &', '1 la li 2 4'), (text, rhythm) => {
        const asked = { ...ROOMY, rhythm };
        const reading = read(text, asked);
        expect(errorsIn(reading, asked)).toEqual([]);
        expect(formatDocument(openDocument(reading.text))).toEqual([]);
        expect(gridsIn(reading.text).length + progressionsIn(reading.text).length).toBe(reading.blocks.length);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  test('the same text gives the same lesson', () => {
    fc.assert(
      fc.property(randomText, (text) => {
        expect(readText(text)).toEqual(readText(text));
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

/** A line without marks of quoting, blanks and characters that are not seen. */
function bare(line: string): string {
  const seen = unseen(line).replace(/^(?:[ \t]{0,3}>)+/, '');
  return squeezed(seen.replace(/^\s*(?:\/\/|\|(?=[ \u00a0]|$))/, ''));
}

function squeezed(text: string): string {
  return unseen(text).replaceAll(/\s/g, '');
}

function unseen(text: string): string {
  return text.replaceAll(/[\u00ad\u200b-\u200f\u2060\ufeff]/g, '');
}

describe('frets are right however the rhythm is read', () => {
  test.each(['equal', 'columns', '1 & 2 & 3 & 4 &', '1 2'])('%s', (rhythm) => {
    fc.assert(
      fc.property(soundTab, ({ text, notes, strings }) => {
        const on = `tuned ${['B1', 'E2', 'A2', 'D3', 'F3', 'G3', 'B3', 'E4'].slice(-strings).join(' ')} frets 30`;
        const asked = { on, rhythm };
        const reading = read(text, asked);
        expect(notesIn(reading.text)).toEqual(notes);
        expect(errorsIn(reading, asked)).toEqual([]);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

describe('a mail program that cuts the lines', () => {
  // RFC 5322, 2.1.1: lines should be no longer than 78 characters; programs cut them at other places, too.
  const named = soundTab.map(({ text, strings }) => {
    const names = ['E', 'B', 'G', 'D', 'A', 'E', 'B', 'F'].slice(0, strings);
    return text
      .split('\n')
      .map((line, at) => (line === '' ? '' : `${names[at % (strings + 1)]}|${line.replace(/^\d?\|/, '')}`));
  });
  const quoting = fc.constantFrom(['', ''], ['> ', '> '], ['> ', ''], ['> > ', '> '], ['', ' ']);

  test('between any two signs of a bar loses nothing and moves nothing', () => {
    fc.assert(
      fc.property(named, fc.integer({ min: 6, max: 90 }), quoting, (lines, most, [first, rest]) => {
        const cut = lines.map((line) => {
          const parts = line.match(new RegExp(`.{1,${most}}`, 'g')) ?? [''];
          return parts.map((part, at) => (at === 0 ? first : rest) + part).join('\n');
        });
        const strings = lines.includes('') ? lines.indexOf('') : lines.length;
        const on = `tuned ${['B1', 'E2', 'A2', 'D3', 'F3', 'G3', 'B3', 'E4'].slice(-strings).join(' ')} frets 30`;
        expect(read(cut.join('\n'), { on }).text).toBe(read(lines.join('\n'), { on }).text);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });
});

type Method = (this: unknown, ...values: unknown[]) => unknown;

/** The ways in which text and lists are looked at. */
const LOOKS: readonly (readonly [object, string])[] = [
  [String.prototype, 'charAt'],
  [String.prototype, 'charCodeAt'],
  [String.prototype, 'slice'],
  [String.prototype, 'replace'],
  [RegExp.prototype, 'exec'],
  [RegExp.prototype, 'test'],
  [Array.prototype, 'push'],
  [Array.prototype, 'some'],
  [Array.prototype, 'find'],
  [Map.prototype, 'get'],
  [Set.prototype, 'has'],
];

/** How often the work looks at a piece of text or a list. Counted, so that no clock can be wrong. */
function steps(work: () => void): number {
  let count = 0;
  const undo = LOOKS.map(([owner, name]) => {
    const original = Reflect.get(owner, name) as Method;
    const counted: Method = function (...values) {
      count += 1;
      return original.apply(this, values);
    };
    Object.defineProperty(owner, name, { value: counted, configurable: true, writable: true });
    return () => Object.defineProperty(owner, name, { value: original, configurable: true, writable: true });
  });
  try {
    work();
  } finally {
    for (const restore of undo) restore();
  }
  return count;
}

describe('twice the text is twice the work', () => {
  const all = TAB_TEXTS.map(({ text }) => text).join('\n\n');
  const bar = (many: number) => ['A', 'E', 'C', 'G'].map((name) => `${name}|${'-0-5h7-12-|'.repeat(many)}`).join('\n');
  const counted = (many: number) => `  ${'1 & 2 & 3 & '.repeat(many)}\n${bar(many)}`;
  test.each<[string, (many: number) => string]>([
    ['texts of all kinds', (many) => `${all}\n\n`.repeat(many)],
    ['systems below each other', (many) => `${bar(4)}\n\n`.repeat(many)],
    ['one long system', (many) => bar(many * 4)],
    ['one long line under its count', (many) => counted(many * 4)],
    ['a system without bar lines', (many) => ['', '', '', ''].map(() => '-0-5--7-'.repeat(many * 8)).join('\n')],
    ['songs', (many) => 'C     G   Am  F\nlanterns on the quay tonight\n\n'.repeat(many * 4)],
    [
      'one long line of chords',
      (many) => `${'C G Am F '.repeat(many * 8)}\n${'lanterns on the quay '.repeat(many * 8)}`,
    ],
    ['prose', (many) => 'Dear all, bring a lamp and a bag.\n'.repeat(many * 20)],
    ['dashes', (many) => '-'.repeat(many * 500)],
    ['blanks', (many) => ` ${' '.repeat(many * 500)}x`],
    ['words of one sign', (many) => '| '.repeat(many * 200)],
  ])('%s', (_name, make) => {
    const small = steps(() => readText(make(10)));
    const large = steps(() => readText(make(20)));
    expect(large / small).toBeGreaterThan(0.9);
    expect(large / small).toBeLessThan(2.3);
  });
});
