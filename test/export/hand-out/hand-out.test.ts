import { describe, expect, test } from 'vitest';
import { fileWords, freeName } from '../../../shared/export/hand-out/file-words.ts';
import { handOutOf } from '../../../shared/export/hand-out/hand-out.ts';
import { HAND_OUT_KINDS, type HandOutChoice } from '../../../shared/export/hand-out/hand-out-choice.ts';
import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { samples } from '../exported-lessons.ts';

const ALL: HandOutChoice = {
  kinds: HAND_OUT_KINDS,
  editions: 'all',
  page: { paper: 'a4', print: 'normal' },
  look: { ink: 'light', halo: true },
  pictures: ['svg', 'png'],
};

function handOut(text: string, choice: Partial<HandOutChoice> = {}, called = 'first') {
  return handOutOf(openDocument(text), called, { ...ALL, ...choice });
}

function names(text: string, choice: Partial<HandOutChoice> = {}, called = 'first'): readonly string[] {
  return handOut(text, choice, called).files.map(({ name }) => name);
}

const CHORDS = 'lesson Two chords\nchord C 0-0-0-3\nchord F 2-0-1-0\n';
const ROLL = 'pattern roll\n  count 1 2 3 4\n  pick 4p 3i 2m 1a\n';
const SOUND = `${CHORDS}progression verse\n  | C | F |\n${ROLL}exercise Roll\n  play verse\n  with roll\n`;

/** Source: Microsoft, Naming Files, Paths, and Namespaces: characters and names that may not be; 255 is the most of NTFS, APFS and ext4. */
function expectSafe(path: string): void {
  for (const part of path.split('/')) {
    expect(part).not.toMatch(/\p{Cc}/u);
    expect(part).not.toMatch(/[<>:"\\|?*]|^\.|[. ]$|^ /u);
    expect(part).not.toMatch(/^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i);
    expect(Buffer.byteLength(part)).toBeLessThanOrEqual(240);
    expect(part.length).toBeGreaterThan(0);
  }
}

function expectDifferent(paths: readonly string[]): void {
  const keys = paths.map((path) => path.normalize('NFC').toUpperCase());
  expect(new Set(keys).size).toBe(paths.length);
}

describe('names of files', () => {
  test.each(samples)('%s: safe, different, and in the order of the lesson', (name, text) => {
    const found = names(text, {}, name.replace('.lesson', ''));
    expect(found.length).toBeGreaterThan(50);
    found.forEach(expectSafe);
    expectDifferent(found);
    const midi = handOut(text, { editions: 'own', kinds: ['midi'] }).files.map((file) => file.name);
    expect([...midi].sort()).toEqual(midi);
  });

  test.each([
    ['a way out', '../../../etc/passwd'],
    ['a way out of another system', '..\\..\\windows'],
    ['a device', 'CON'],
    ['an absolute path', '/etc/passwd'],
    ['a drive', 'C:evil'],
    ['signs of the shell', '$(rm -rf ~) `x` | & ; < > * ? "'],
    ['no letters', '... --- !!!'],
    ['only blanks', '   '],
    ['signs that turn text around', 'abc\u202Efdp.exe\u200B'],
    ['half a letter', 'a\uD800b'],
    ['a long title', 'very long title '.repeat(60)],
    ['a long title of wide letters', '漢字かな'.repeat(90)],
    ['a figure over the line', 'COM¹'],
  ])('%s', (_what, title) => {
    const text = SOUND.replace('exercise Roll', `exercise ${title}`);
    const found = names(text, {}, title);
    expect(found.filter((name) => name.endsWith('.mid'))).toHaveLength(1);
    found.forEach(expectSafe);
    expectDifferent(found);
  });

  test('titles that are alike but for capitals and accents', () => {
    const exercise = (title: string): string => `exercise ${title}\n  play verse\n  with roll\n`;
    const text = SOUND + ['roll', 'ROLL', 'Caf\u00e9', 'Cafe\u0301', '', ''].map(exercise).join('');
    const found = names(text, { kinds: ['midi', 'text'] });
    expect(found).toHaveLength(14);
    expectDifferent(found);
  });

  test('what is taken for the same gets a figure', () => {
    const taken = new Set<string>();
    expect(['Roll', 'ROLL', 'roll', 'nul', 'straße', 'STRASSE'].map((name) => freeName(name, taken))).toEqual([
      'Roll',
      'ROLL 2',
      'roll 3',
      'nul_',
      'straße',
      'STRASSE 2',
    ]);
    expect(fileWords('F♯m & B♭: up/down')).toBe('F sharpm B flat up down');
  });

  test('editions stand behind the names; the own one bears none', () => {
    const text = `${SOUND.replace('lesson Two chords\n', 'lesson Two chords\nfor tenor ukulele, high G\nalso baritone ukulele, same shapes, called Deep-one\n')}`;
    expect(problemsOf(openDocument(text)).filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(names(text, { kinds: ['pdf', 'midi'] })).toEqual([
      'first.pdf',
      '01 Roll.mid',
      'first - Deep-one.pdf',
      '01 Roll - Deep-one.mid',
    ]);
    expect(names(text, { kinds: ['midi'], editions: 'own' })).toEqual(['01 Roll.mid']);
    expect(names(text, { kinds: ['midi'], editions: { name: 'deep-ONE' } })).toEqual(['01 Roll - Deep-one.mid']);
    expect(handOut(text, { editions: { name: 'banjo' } })).toEqual({ files: [], leftOut: [], hasEdition: false });
  });
});

/** Titles of what is left out, and of what is made. */
function parted(text: string): { readonly out: readonly string[]; readonly made: readonly string[] } {
  const { files, leftOut } = handOut(text, { kinds: ['midi'], editions: 'own' });
  return {
    out: leftOut.map(({ exercise }) => exercise.statement.title?.text ?? ''),
    made: files.map(({ name }) => name.replace(/^\d+ |\.mid$/g, '')),
  };
}

describe('what is sound', () => {
  const OTHER = 'progression b\n  | F | C |\nexercise Other\n  play b\n  with roll\n';

  test.each([
    ['nothing wrong', SOUND + OTHER, [], ['Roll', 'Other']],
    ['the exercise itself', (SOUND + OTHER).replace('with roll\n', 'with rol\n'), ['Roll'], ['Other']],
    ['a progression that it plays', (SOUND + OTHER).replace('| C | F |', '| C | Fxx |'), ['Roll'], ['Other']],
    ['a pattern that both play', (SOUND + OTHER).replace('4p 3i', '4p 9i'), ['Roll', 'Other'], []],
    ['a chord that both play', (SOUND + OTHER).replace('2-0-1-0', '2-0-99-0'), ['Roll', 'Other'], []],
    ['a chord with too few frets', (SOUND + OTHER).replace('2-0-1-0', '2-0-1'), ['Roll', 'Other'], []],
    [
      'a pattern behind a pattern',
      `${SOUND}pattern b\n  like c\nexercise Far\n  play verse\n  with b\n`,
      ['Far'],
      ['Roll'],
    ],
    ['a line that nobody needs', `${SOUND}chord G 9-9\n`, [], ['Roll']],
    ['what all music stands on', `key H major\n${SOUND}`, ['Roll'], []],
    ['the same, misspelt', `metre 3/4\n${SOUND}`, ['Roll'], []],
  ])('%s', (_what, text, out, made) => {
    expect(parted(text)).toEqual({ out, made });
  });

  test('what is left is without errors, and its lines keep their numbers', async () => {
    const text = (SOUND + OTHER).replace('| C | F |', '| C | Fxx |');
    const { files } = handOut(text, { kinds: ['pdf'], editions: 'own' });
    let seen = '';
    await files[0]?.make({
      pdf: async (document) => {
        seen = document.text;
        return { content: '' };
      },
      page: () => Promise.reject(new Error('not asked')),
      svg: () => ({ content: '' }),
      png: () => new Uint8Array(),
    });
    expect(problemsOf(openDocument(seen)).filter(({ severity }) => severity === 'error')).toEqual([]);
    const lineOf = (whole: string): number => whole.split('\n').indexOf('exercise Other');
    expect(lineOf(seen)).toBe(lineOf(text));
    expect(seen).not.toContain('Fxx');
  });

  test('what only a left-out exercise plays is not printed by itself; what is shown or played elsewhere stays', async () => {
    const wholeOf = async (text: string): Promise<string> => {
      let seen = '';
      const refuse = (): never => {
        throw new Error('not asked');
      };
      const pdf = async (document: { readonly text: string }) => {
        seen = document.text;
        return { content: '' };
      };
      await handOut(text, { kinds: ['pdf'], editions: 'own' }).files[0]?.make({
        pdf,
        page: refuse,
        svg: refuse,
        png: refuse,
      });
      return seen;
    };
    const faulty = SOUND + OTHER.replace('play b', 'play b\n  tempo never');
    const alone = await wholeOf(faulty);
    expect(alone).toContain('pattern roll');
    expect(alone).toContain('progression verse');
    expect(alone).not.toContain('progression b');
    expect(await wholeOf(`${faulty}show b\n`)).toContain('progression b');
  });

  test('half-typed samples: whatever is yielded is yielded of sound lines', () => {
    for (const [, text] of samples) {
      for (let part = 1; part < 8; part += 1) {
        const typed = text.slice(0, Math.floor((text.length * part) / 8));
        const { files } = handOut(typed, { kinds: ['midi', 'pdf', 'chapters'] });
        expectDifferent(files.map(({ name }) => name));
      }
    }
  });

  test('an error on one edition leaves the others whole', () => {
    const head = 'lesson Two chords\nfor tenor ukulele, high G\nalso baritone ukulele, same shapes, called deep\n';
    const block = 'edition deep\n  chord F 9-9-9-99\n';
    const text = SOUND.replace('lesson Two chords\n', head) + block;
    const { files, leftOut } = handOut(text, { kinds: ['midi', 'pdf'] });
    expect(files.map(({ name }) => name)).toEqual(['first.pdf', '01 Roll.mid']);
    expect(leftOut.map(({ edition }) => edition)).toEqual(['deep']);
  });
});
