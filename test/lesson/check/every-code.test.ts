import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openDocument } from '../../../shared/lesson/document.ts';
import { cutPlaces, faultsIn, fixedTexts, markPlaces, problemsIn } from './checking.ts';
import { SLIPS } from './slips.ts';

describe('a slip is marked where it stands, and its fixes mend it', () => {
  test.each(SLIPS)('$severity $code: $lesson', ({ code, severity, lesson, fixed }) => {
    const { text } = cutPlaces(lesson);
    const found = problemsIn(text).filter((problem) => problem.code === code);
    expect(
      markPlaces(
        text,
        found.map(({ span }) => span),
      ),
    ).toBe(lesson);
    expect(found.map((problem) => problem.severity)).toEqual([severity]);
    const mended = found.flatMap((problem) => fixedTexts(text, problem));
    expect(mended).toEqual(fixed);
    for (const after of mended) {
      const left = problemsIn(after).filter((problem) => problem.code === code);
      expect(left).toEqual([]);
    }
  });

  test.each(SLIPS.filter(({ edition }) => edition !== undefined))(
    '$code names the edition $edition',
    ({ code, lesson, edition }) => {
      const found = problemsIn(cutPlaces(lesson).text).filter((problem) => problem.code === code);
      expect(found.map((problem) => problem.edition)).toEqual(found.map(() => edition));
      expect(found.length).toBeGreaterThan(0);
    },
  );

  test.each(SLIPS)('$code is not said of $clean', ({ code, clean }) => {
    expect(problemsIn(clean).filter((problem) => problem.code === code)).toEqual([]);
    expect(faultsIn(clean)).toEqual([]);
  });
});

describe('every code that the source can report is in the table', () => {
  /** Files that report about a lesson, and readers of words whose faults a lesson hands on. */
  const SOURCES = [
    'lesson/check/',
    'lesson/syntax/',
    'lesson/model/count-times.ts',
    'lesson/model/moved-grid.ts',
    'lesson/model/tell-moved-tune.ts',
    'neck/shape-reader.ts',
    'neck/instruments.ts',
    'hand/hand.ts',
    'hand/given-fingers.ts',
    'theory/chord-symbol.ts',
    'theory/chord-suffix.ts',
    'theory/key.ts',
    'theory/note.ts',
  ];

  /** Where a code is made of a keyword or a row's kind, everything that it can become. */
  const MADE: Readonly<Record<string, readonly string[]>> = {
    empty: [
      ...['lesson', 'by', 'dated', 'part', 'for', 'also', 'key', 'hand', 'meter', 'feel', 'tempo', 'level', 'language'],
      ...['count', 'capo', 'restart', 'repeat', 'minutes', 'ring', 'video', 'within'],
    ],
    'not-yet': ['family', 'melody'],
    unreadable: ['tempo', 'meter', 'feel', 'ring', 'minutes', 'video', 'restart', 'within'],
    mark: ['pick', 'tune', 'strum', 'hit', 'fingers', 'chord'],
  };

  const shared = new URL('../../../shared/', import.meta.url);
  const source = SOURCES.flatMap((path) =>
    path.endsWith('/') ? readdirSync(new URL(path, shared)).map((file) => path + file) : [path],
  )
    .map((path) => readFileSync(new URL(path, shared), 'utf8'))
    .join('\n');

  test('and nothing else is', () => {
    const written = [...source.matchAll(/'([a-z]+(?:-[a-z]+)*\.[a-z]+(?:-[a-z]+)*)'/g)].map((match) => match[1] ?? '');
    const tails = [...source.matchAll(/`\$\{[^}]+\}\.([a-z-]+)`/g)].map((match) => match[1] ?? '');
    expect([...new Set(tails)].sort()).toEqual(Object.keys(MADE).sort());
    const made = Object.entries(MADE).flatMap(([tail, heads]) => heads.map((head) => `${head}.${tail}`));
    const told = new Set(SLIPS.map(({ code }) => code));
    expect([...told].sort()).toEqual([...new Set([...written, ...made])].sort());
  });

  test.each(['|', '||', '|:', '||:', ':|', ':||', ':|:', ':||:'])('%s is a bar line', (sign) => {
    const { entries } = openDocument(`progression v\n  | C ${sign} C`);
    expect(entries.flatMap(({ problems }) => problems)).toEqual([]);
  });
});
