import { spawn } from 'node:child_process';
import { chmod, lstat, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { version } from '../../package.json';
import { SERVER } from './lesson-editor.ts';
import { LANTERNS } from './lesson-samples.ts';

const HANDSPAN = path.join(path.dirname(SERVER), 'handspan.js');
const FAULTY = LANTERNS.replace('with    roll', 'with    rol');
const UNEVEN = 'pattern  roll\n  count 1 & 2 &\n  pick 4p 2i 3p 1m\n';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'handspan-shell-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly complaints: string;
}

/** Runs the command line as a shell would, in the folder of the test. */
function handspan(words: readonly string[], input = ''): Promise<Ran> {
  return new Promise((resolve) => {
    const running = spawn(process.execPath, [HANDSPAN, ...words], { cwd: folder });
    let out = '';
    let complaints = '';
    running.stdout.setEncoding('utf8').on('data', (part: string) => {
      out += part;
    });
    running.stderr.setEncoding('utf8').on('data', (part: string) => {
      complaints += part;
    });
    running.on('close', (code) => resolve({ code, out, complaints }));
    running.stdin.on('error', () => undefined);
    running.stdin.end(input);
  });
}

async function written(name: string, text: string): Promise<string> {
  await writeFile(path.join(folder, name), text);
  return name;
}

/** What a refused call leaves: 2, nothing on standard output, one line on standard error. */
function expectRefusal({ code, out, complaints }: Ran, about: RegExp): void {
  expect(complaints).toMatch(about);
  expect(complaints).toMatch(/^handspan: [^\n]+\n$/);
  expect(complaints).not.toMatch(/\bat .*:\d+:\d+/);
  expect({ code, out }).toEqual({ code: 2, out: '' });
}

describe('handspan', () => {
  test('helps, and says its version', async () => {
    const help = await handspan(['--help']);
    expect(help.code).toBe(0);
    for (const line of help.out.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    for (const command of ['check', 'name', 'shapes', 'family', 'tune', 'format', 'read', 'build', 'serve']) {
      expect(help.out).toContain(`handspan ${command}`);
      const more = await handspan([command, '--help']);
      expect(more).toMatchObject({ code: 0, complaints: '' });
      expect(more.out).toContain(`Usage: handspan ${command}`);
    }
    expect(await handspan(['--version'])).toEqual({ code: 0, out: `${version}\n`, complaints: '' });
  });

  test.each<[string, readonly string[], RegExp]>([
    ['nothing', [], /--help/],
    ['a slip in the command', ['chek'], /did you mean check/],
    ['a command that never was', ['perform'], /perform/],
    ['an option that never was', ['check', 'x.lesson', '--loud'], /--loud/],
    ['no file', ['check'], /at least one lesson/],
    ['no shape', ['name'], /shape/],
    ['no chord', ['shapes'], /chord/],
    ['no progression', ['family'], /progression/],
    ['no file to format', ['format'], /at least one lesson/],
    ['a reading that never was', ['read', '-', '--as', 'meldoy'], /did you mean melody/],
    ['a rhythm that is none', ['read', '-', '--rhythm', 'la'], /--rhythm/],
    ['no way to serve', ['serve'], /--stdio/],
    ['a slip in an option', ['shapes', 'C', '--rign', '1'], /there is no option --rign; did you mean --ring\?/],
    ['a number below zero', ['shapes', 'C', '--max', '-3'], /--max: "-3" is not a number from 1 to/],
    ['the same number with a sign', ['tune', 'C', '--max=-3'], /--max: "-3" is not a number from 1 to 20/],
    ['an option without its value', ['name', '0-0-0-3', '--key'], /--key lacks its value/],
    ['an option in place of a value', ['name', '0-0-0-3', '--on', '--json'], /--on lacks its value/],
    ['an empty value', ['tune', 'C', '--ring', ''], /--ring: its value is empty/],
    ['an option said twice', ['name', '0-0-0-3', '--key', 'C', '--key', 'G'], /--key is said twice/],
    ['a value for an option that has none', ['name', '0-0-0-3', '--json=3'], /--json takes no value/],
    ['a range below zero', ['shapes', 'C', '--within', '-3-5'], /--within: "-3-5"/],
    ['a range back to front', ['shapes', 'C', '--within', '5-2'], /as in 2-5/],
    // A tenor ukulele has 19 frets in the instruments' own table.
    ['a range beyond the neck', ['shapes', 'C', '--within', '0-30'], /Fret 30 is beyond the neck: .*19 frets/],
    ['a range off the neck', ['family', 'C F', '--within', '20-30'], /No fret from 20 to 30 .*19 frets/],
    [
      'a range past a capo',
      ['family', 'C F', '--on', 'guitar, capo 5', '--within', '0-19'],
      /above the capo at fret 5/,
    ],
    ['a string said twice', ['family', 'C F', '--ring', '1 1'], /--ring: string 1 is said twice/],
    ['a chord kept twice', ['family', 'C F', '--keep', 'C 0003', '--keep', 'C 5433'], /--keep: C is kept twice/],
    ['what cannot be added', ['family', 'C F', '--allow', 'add99'], /--allow: "add99" .*Did you mean add9\? .*sus4/],
    ['a key of another tongue', ['tune', 'C', '--key', 'H'], /--key: The German name H is B here/],
  ])('refuses a call that makes no sense: %s', async (_name, words, about) => {
    expectRefusal(await handspan(words), about);
  });
});

describe('handspan check', () => {
  test('is quiet about a clean lesson', async () => {
    await written('clean.lesson', LANTERNS);
    expect(await handspan(['check', 'clean.lesson'])).toEqual({ code: 0, out: '', complaints: '' });
    expect(await handspan(['check', 'clean.lesson', '--json'])).toEqual({ code: 0, out: '[]\n', complaints: '' });
  });

  test('tells errors by place and with fixes, and exits with 1', async () => {
    await written('faulty.lesson', FAULTY);
    const { code, out } = await handspan(['check', 'faulty.lesson', '--json']);
    expect(code).toBe(1);
    const line = FAULTY.split('\n').findIndex((each) => each.includes('with    rol')) + 1;
    expect(JSON.parse(out)).toEqual([
      {
        file: 'faulty.lesson',
        line,
        column: '  with    '.length + 1,
        endLine: line,
        endColumn: '  with    rol'.length + 1,
        severity: 'error',
        code: expect.stringMatching(/^[a-z-]+(\.[a-z-]+)+$/),
        message: expect.stringContaining('rol'),
        fixes: [{ title: expect.stringContaining('roll') }],
      },
    ]);
    const text = await handspan(['check', 'faulty.lesson']);
    expect(text.code).toBe(1);
    expect(text.out).toMatch(new RegExp(`^faulty\\.lesson:${line}:11: error: .*rol.*\\n$`));
  });

  test('warnings alone exit with 0', async () => {
    // 0-5-5-0 on G4 C4 E4 A4 sounds G F A A: the name C for it is wrong, which is for the teacher to judge.
    await written('warned.lesson', 'lesson  Warned\nfor     tenor ukulele, high G\n\nchord  C  0-5-5-0\n');
    const { code, out } = await handspan(['check', 'warned.lesson', '--json']);
    const severities = (JSON.parse(out) as { severity: string }[]).map(({ severity }) => severity);
    expect(severities).toContain('warning');
    expect(severities).not.toContain('error');
    expect(code).toBe(0);
  });

  test('counts columns past a byte order mark, foreign line ends and wide characters as the editor does', async () => {
    const lesson = FAULTY.replace('  with    rol', '  with    roll, 🎵rol').replaceAll('\n', '\r\n');
    await written('marked.lesson', `\uFEFF${lesson}`);
    const [found] = JSON.parse((await handspan(['check', 'marked.lesson', '--json'])).out);
    const line = lesson.split('\r\n').findIndex((each) => each.includes('🎵')) + 1;
    expect(found).toMatchObject({ line, column: '  with    roll, '.length + 1 });
    await written('first-line.lesson', '\uFEFFlesonn  Paper\n');
    const [first] = JSON.parse((await handspan(['check', 'first-line.lesson', '--json'])).out);
    expect(first).toMatchObject({ line: 1, column: 1 });
  });

  test('reads standard input for -', async () => {
    const { code, out } = await handspan(['check', '-', '--json'], FAULTY);
    expect(code).toBe(1);
    expect(JSON.parse(out)[0].file).toBe('-');
  });

  test('checks what it can and exits with 2 when a file cannot be read', async () => {
    await written('faulty.lesson', FAULTY);
    await writeFile(path.join(folder, 'bytes.lesson'), Buffer.from([0xff, 0xfe, 0x6c, 0x00, 0xc3, 0x28]));
    const { code, out, complaints } = await handspan([
      'check',
      'nowhere.lesson',
      'faulty.lesson',
      '.',
      'bytes.lesson',
      '--json',
    ]);
    expect(code).toBe(2);
    expect(JSON.parse(out)).toHaveLength(1);
    expect(complaints.trimEnd().split('\n')).toEqual([
      expect.stringMatching(/^handspan: nowhere\.lesson: there is no such file$/),
      expect.stringMatching(/^handspan: \.: is a folder/),
      expect.stringMatching(/^handspan: bytes\.lesson: is not UTF-8 text$/),
    ]);
  });

  test('takes anything at all for a lesson', async () => {
    for (const text of ['', '\n', '\u0000\u0001', '|'.repeat(5000), `chord ${'9-'.repeat(3000)}`, '\uD800']) {
      const { code, complaints } = await handspan(['check', '-', '--json'], text);
      expect(complaints).toBe('');
      expect(code === 0 || code === 1).toBe(true);
    }
  });

  test('is quiet when nobody reads on', async () => {
    await written('long.lesson', `lesson  Long\n${'nonsense\n'.repeat(5000)}`);
    const running = spawn(process.execPath, [HANDSPAN, 'check', 'long.lesson', '--json'], { cwd: folder });
    let complaints = '';
    running.stderr.on('data', (part) => {
      complaints += part;
    });
    running.stdout.once('data', () => running.stdout.destroy());
    await new Promise((resolve) => running.once('close', resolve));
    expect(complaints).toBe('');
  });
});

describe('handspan name', () => {
  const named = async (...words: readonly string[]) => JSON.parse((await handspan(['name', ...words, '--json'])).out);

  // Open strings G4 C4 E4 A4: a fret is a semitone, so 0-5-5-0 sounds G F A A.
  test('says the names of a shape, best first', async () => {
    const answer = await named('0-5-5-0');
    expect(answer).toMatchObject({ shape: '0-5-5-0', on: 'tenor ukulele, high G', notes: ['G', 'F', 'A', 'A'] });
    expect(answer.pitches).toEqual(['G4', 'F4', 'A4', 'A4']);
    expect(answer.names[0]).toEqual({
      name: 'F(add9)',
      root: 'F',
      bass: 'F',
      omits: ['5'],
      rootless: false,
      ready: true,
      tones: { G: '9', F: '1', A: '3' },
    });
  });

  test('knows other instruments, frets run together or parted by blanks, and muted strings', async () => {
    // Standard tuning E2 A2 D3 G3 B3 E4; the open C major shape. Common practice, no source.
    const guitar = await named('x32010', '--on', 'guitar');
    expect(guitar.names[0]).toMatchObject({ name: 'C', bass: 'C' });
    expect(guitar.notes).toEqual(['C', 'E', 'G', 'C', 'E']);
    expect((await named('0', '4', '3', '2')).names[0].name).toBe('Em');
    // The same shape on a baritone (D3 G3 B3 E4) is a fourth lower.
    expect((await named('0-4-3-2', '--on', 'baritone ukulele')).names[0].name).toBe('Bm');
  });

  test('a capo counts as the nut: it moves what sounds, not what the shape is called', async () => {
    // G2 B2 D3 G3 B3 G4 without the capo; two frets are two semitones.
    const answer = await named('3-2-0-0-0-3', '--on', 'guitar, capo 2');
    expect(answer.names[0].name).toBe('G');
    expect(answer.notes).toEqual(['G', 'B', 'D', 'G', 'B', 'G']);
    expect(answer.pitches).toEqual(['A2', 'C#3', 'E3', 'A3', 'C#4', 'A4']);
  });

  test('one note has no chord name, and that is no error; two are an interval', async () => {
    const { code, out } = await handspan(['name', 'x-0-x-x']);
    expect(code).toBe(0);
    expect(out).toContain('the note C');
    expect(out).toContain('no chord name');
    expect((await named('x-0-x-x')).names).toEqual([]);
    expect(await named('0-x-x-0')).toMatchObject({ few: 'a major second, G and A', names: [] });
    expect((await named('0-0-x-x')).names[0].name).toBe('C5');
  });

  test('neighbours and a bass played elsewhere decide too', async () => {
    // G D E B♭ is C9 without its root.
    const [first] = (await named('0-2-0-1', '--bass', 'C')).names;
    expect(first).toMatchObject({ name: 'C9', rootless: true, omits: ['1'] });
    expect((await named('1-2-1-2', '--next', 'Am')).names[0].name).toBe('G#dim7');
    expect((await named('0-2-3-3', '--previous', 'G')).names[0].name).toBe('Gsus4');
  });

  test('a key decides between names of the same notes', async () => {
    // A C E G is C6 and Am7 alike.
    const inC = await named('0-0-0-0', '--key', 'C major');
    const inA = await named('0-0-0-0', '--key', 'A minor');
    expect([inC.names[0].name, inA.names[0].name]).toEqual(['C6', 'Am7']);
  });

  test.each<[string, readonly string[], RegExp]>([
    ['too few frets', ['0-4'], /2 of 4 frets/],
    ['no fret', ['0-4-q-2'], /"q" is not a fret/],
    ['no chord for a neighbour', ['0-4-3-2', '--next', 'Xm'], /--next/],
    ['no note for the bass', ['0-4-3-2', '--bass', 'H'], /--bass/],
    ['another number of strings', ['0-2-2-1-0-0'], /6 frets.*4 strings.*--on/],
    ['frets beyond the neck', ['24-24-24-24'], /SHAPE: Fret 24 on string 4 .*a tenor ukulele has 19 frets/],
    [
      'frets that the capo takes',
      ['0-0-0-18', '--on', 'tenor ukulele capo 3'],
      /has 16 frets above the capo at fret 3/,
    ],
    ['an unknown instrument', ['0-4-3-2', '--on', 'kazoo'], /kazoo/],
    ['an unknown key', ['0-4-3-2', '--key', 'H dur'], /--key/],
    ['an option without its value', ['0-4-3-2', '--on'], /--on/],
  ])('refuses %s', async (_name, words, about) => {
    expectRefusal(await handspan(['name', ...words]), about);
  });
});

describe('handspan shapes', () => {
  const found = async (...words: readonly string[]) => JSON.parse((await handspan(['shapes', ...words, '--json'])).out);

  // Open strings G4 C4 E4 A4: 0-0-0-3 sounds G C E C and is what every chart gives. Common practice, no source.
  test('finds shapes of a chord, best first', async () => {
    const answer = await found('C', '--max', '3');
    expect(answer).toMatchObject({ chord: 'C', on: 'tenor ukulele, high G', hand: 'medium' });
    expect(answer.shapes).toHaveLength(3);
    expect(answer.shapes[0]).toMatchObject({
      shape: '0-0-0-3',
      notes: ['G', 'C', 'E', 'C'],
      omits: [],
      bass: 'C',
      span: 0,
      reachMm: 0,
    });
  });

  test('says what is left out, and how far the fingers are apart', async () => {
    // E2 A2 D3 G3 B3 E4 with 650 mm: from fret 1 to fret 3 it is 650 (2^(-1/12) - 2^(-3/12)) = 66.9 mm.
    const [taught] = (await found('C7', '--on', 'guitar')).shapes;
    expect(taught).toMatchObject({
      shape: 'x-3-2-3-1-0',
      notes: ['C', 'E', 'Bb', 'C', 'E'],
      omits: ['5'],
      bass: 'C',
      span: 2,
      reachMm: 66.9,
    });
  });

  test('says which finger is where, and how hard it is', async () => {
    // Source of the fingers: the usual charts of method books, common practice; the barre of F and the open C7 of a guitar.
    const [barre] = (await found('F', '--on', 'guitar', '--near', '133211', '--max', '1')).shapes;
    expect(barre).toMatchObject({ shape: '1-3-3-2-1-1', fingers: [1, 3, 4, 2, 1, 1], verdict: 'comfortable' });
    const [open] = (await found('C7', '--on', 'guitar', '--max', '1')).shapes;
    expect(open).toMatchObject({ shape: 'x-3-2-3-1-0', fingers: [0, 3, 2, 4, 1, 0], verdict: 'comfortable' });
    expect(barre.difficulty).toBeGreaterThan(open.difficulty);
    for (const { difficulty } of [barre, open]) expect(difficulty * 10).toBeCloseTo(Math.round(difficulty * 10), 9);
  });

  test('what the hand cannot hold comes last', async () => {
    const { hand, shapes } = await found('Gm7', '--on', 'guitar', '--hand', 'child', '--max', '200');
    expect(hand).toBe('child');
    const beyond = shapes.map(
      ({ verdict }: { verdict?: string }) => verdict === undefined || verdict === 'out-of-reach',
    );
    expect(beyond).toContain(true);
    expect(beyond.slice(beyond.indexOf(true))).not.toContain(false);
    const large = await found('Gm7', '--on', 'guitar', '--hand', '220', '--max', '200');
    expect(large.hand).toBe('220 mm');
    const count = (all: readonly { verdict?: string }[]) =>
      all.filter(({ verdict }) => verdict === 'comfortable').length;
    expect(count(large.shapes)).toBeGreaterThan(count(shapes));
  });

  test('grants wishes: where, which strings ring, from where the hand comes', async () => {
    for (const { shape } of (await found('G7', '--within', '5-9', '--max', '100')).shapes) {
      expect(shape).toMatch(/^([05-9x]-){3}[05-9x]$/);
    }
    for (const { shape } of (await found('C', '--ring', '2 3')).shapes) expect(shape).toMatch(/^\w+-0-0-\w+$/);
    expect((await found('Dm', '--near', '5558', '--max', '1')).shapes[0].shape).toBe('7-5-5-5');
  });

  test('a capo counts as the nut: it shortens the neck, and the chord is named as it is held', async () => {
    const answer = await found('G', '--on', 'guitar, capo 2', '--max', '1');
    expect(answer.on).toBe('guitar, capo 2');
    expect(answer.shapes[0]).toMatchObject({ shape: '3-2-0-0-0-3', notes: ['G', 'B', 'D', 'G', 'B', 'G'] });
  });

  test('prints a list, with the caution that belongs to what is told of the hand', async () => {
    const { code, out } = await handspan(['shapes', 'Em', '--max', '1']);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^Em on tenor ukulele, high G: best first\n {2}0-4-3-2: G E G B, E lowest, 2 frets or 42 mm, fingers 0-3-2-1, \d\.\d of 10, \w+\n/,
    );
    expect(out).toContain('Difficulty is an estimate for a typical hand. Warm up first; if it hurts, stop');
    const small = (await handspan(['shapes', 'F', '--on', 'guitar', '--hand', 'small', '--max', '1'])).out;
    expect(small).toMatch(/ 1-3-3-2-1-1: .* fingers 1-3-4-2-1-1, a stretch, \d/);
  });

  test('who writes a bass is first told the shapes that have it lowest', async () => {
    const { shapes } = await found('D/F#');
    const based = shapes.map(({ bass }: { bass: string }) => bass === 'F#');
    expect(based).toContain(true);
    expect(based).toEqual([...based].sort((one, other) => Number(other) - Number(one)));
  });

  test('a chord that the strings cannot sound so has no shape, and that is no error', async () => {
    // The open first string sounds A, which is no tone of E flat minor.
    expect(await handspan(['shapes', 'Ebm', '--ring', '1'])).toMatchObject({
      code: 0,
      out: expect.stringContaining('no shape, because string 1 open is A, which Ebm does not have'),
    });
    expect((await found('Ebm', '--ring', '1')).shapes).toEqual([]);
  });

  test.each<[string, readonly string[], RegExp]>([
    ['what is no chord', ['Xm'], /"Xm" is not a chord name/],
    ['a name for two chords', ['C2'], /Csus2.*C\(add9\)/],
    ['two chords', ['C', 'D'], /one chord/],
    ['no number', ['C', '--max', 'many'], /--max.*many/],
    ['no shapes', ['C', '--max', '0'], /--max/],
    ['one fret for two', ['C', '--within', '5'], /--within.*5-9/],
    ['frets the wrong way round', ['C', '--within', '9-5'], /--within/],
    ['a string that is not there', ['C', '--ring', '1 5'], /--ring: "5".*1 to 4/],
    ['too few frets to come from', ['C', '--near', '0-4'], /--near: 2 of 4 frets/],
    ['frets beyond the neck to come from', ['C', '--near', '0-0-0-30'], /--near: Fret 30 on string 1 .*19 frets/],
    ['an unknown instrument', ['C', '--on', 'kazoo'], /kazoo/],
    ['what is no hand', ['C', '--hand', 'huge'], /--hand: A hand is small/],
  ])('refuses %s', async (_name, words, about) => {
    expectRefusal(await handspan(['shapes', ...words]), about);
  });
});

describe('handspan family', () => {
  const solutions = async (...words: readonly string[]) => {
    const { code, out, complaints } = await handspan(['family', ...words, '--json']);
    expect({ code, complaints }).toEqual({ code: 0, complaints: '' });
    return JSON.parse(out);
  };

  test('finds one shape that slides under an open string', async () => {
    const words = ['Dm Em Gm Am Cm', '--ring', '1', '--within', '0-12', '--allow', 'add9 add11 6', '--count', '2'];
    const told = await solutions(...words);
    expect(told).toMatchObject({ on: 'tenor ukulele, high G', hand: 'medium' });
    expect(told.solutions).toHaveLength(2);
    const [first] = told.solutions;
    expect(first.shapes.map(({ shape }: { shape: string }) => shape)).toEqual([
      '2-2-1-0',
      '4-4-3-0',
      '7-7-6-0',
      '9-9-8-0',
      '12-12-11-0',
    ]);
    expect(first.shapes[1]).toMatchObject({
      chord: 'Em',
      as: 'Em(add11)',
      adds: ['11'],
      omits: [],
      fingers: [2, 3, 1, 0],
    });
    expect(first.shapes[4]).toMatchObject({ chord: 'Cm', as: 'Cm6', also: 'Am7b5' });
    expect(first.why).toMatch(/^same outline in all 5 chords, string 1 open throughout/);
    expect(Object.values<number>(first.parts).reduce((sum, part) => sum + part)).toBe(first.cost);
  });

  test('prints a list for reading, each chord once, with the caution', async () => {
    const words = ['| Em C | G D |', 'Em', '--ring', '1 2', '--within', '0-10', '--allow', 'add9 6 6/9 maj7'];
    const { code, out } = await handspan(['family', ...words, '--on', 'baritone ukulele', '--key', 'E minor']);
    expect(code).toBe(0);
    expect(out).toMatch(/^Em C G D Em on baritone ukulele: 5 families, best first\n\n1\. /);
    expect(out.match(/^ {3}C /gm)).toHaveLength(5);
    expect(out).toMatch(/as Cmaj7, fingers/);
    expect(out).toMatch(/if it hurts, stop, and ask a teacher or clinician\.\n$/);
  });

  test('keeps a chord in its shape', async () => {
    const { solutions: found } = await solutions('D G A', '--keep', 'G 7-7-7-0', '--keep', 'D 2220', '--allow', 'add9');
    for (const { shapes } of found) {
      expect(shapes.slice(0, 2).map(({ shape }: { shape: string }) => shape)).toEqual(['2-2-2-0', '7-7-7-0']);
    }
  });

  test('says plainly where a kept shape is another chord', async () => {
    const words = ['C Am', '--keep', 'C 0-2-3-2', '--count', '1'];
    // 0-2-3-2 on G4 C4 E4 A4 sounds G D G B.
    const told = '0-2-3-2 is not C but G: C and E are missing.';
    expect((await solutions(...words)).remarks).toEqual([told]);
    expect((await handspan(['family', ...words])).out).toMatch(new RegExp(`1 family\n  ${told.replace('.', '\\.')}\n`));
    expect((await solutions('C Am', '--keep', 'C 0-0-0-0', '--count', '1')).remarks).toBeUndefined();
  });

  test('says why there is none, and that is no error', async () => {
    const words = ['Em C', '--ring', '1', '--within', '0-5', '--allow', '6'];
    const { solutions: found, reasons } = await solutions(...words);
    expect(found).toEqual([]);
    expect(reasons).toHaveLength(1);
    expect(reasons[0]).toMatch(
      /^No shape of Em within frets 0 to 5 lets string 1 ring .*With add11 allowed there would be/,
    );
    const { code, out } = await handspan(['family', ...words]);
    expect(code).toBe(0);
    expect(out).toMatch(/: no family\n {2}No shape of Em/);
  });

  test.each<[string, readonly string[], RegExp]>([
    ['one chord alone', ['Em'], /two chords at least/],
    ['too many chords', [Array(33).fill('C').join(' ')], /32 chords at most; these are 33/],
    ['what is no chord', ['Em H'], /CHORDS: /],
    ['a string that is not there', ['Em C', '--ring', '5'], /strings 1 to 4/],
    ['no range', ['Em C', '--within', '9'], /--within: "9"/],
    ['what is no addition', ['Em C', '--allow', 'm'], /--allow: "m" makes another chord/],
    ['a kept chord that is not played', ['Em C', '--keep', 'G 0-2-3-2'], /--keep: there is no G/],
    ['a kept chord without a shape', ['Em C', '--keep', 'C'], /as in "G 0-7-7-0"/],
    ['a kept shape of another instrument', ['Em C', '--keep', 'C 0-0-0'], /--keep: 3 of 4 frets/],
    ['a kept shape beyond the neck', ['Em C', '--keep', 'C 0-0-0-30'], /--keep: .*30/],
    ['too many families', ['Em C', '--count', '100'], /--count: "100" is not a number from 1 to 20/],
    ['no key', ['Em C', '--key', 'X'], /--key: /],
  ])('refuses %s', async (_name, words, about) => {
    expectRefusal(await handspan(['family', ...words]), about);
  });
});

describe('handspan format', () => {
  test('writes what changes, keeps the mode, the line ends and the mark, and leaves no other file behind', async () => {
    const file = path.join(folder, await written('uneven.lesson', `\uFEFF${UNEVEN.replaceAll('\n', '\r\n')}`));
    await chmod(file, 0o640);
    expect(await handspan(['format', 'uneven.lesson'])).toEqual({ code: 0, out: 'uneven.lesson\n', complaints: '' });
    const text = await readFile(file, 'utf8');
    expect(text.startsWith('\uFEFFpattern  roll\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const [count = '', pick = ''] = text.split('\r\n').slice(1);
    expect(count.indexOf('&')).toBe(pick.indexOf('2i'));
    expect((await stat(file)).mode & 0o777).toBe(0o640);
    expect((await readdir(folder)).filter((name) => name.startsWith('.'))).toEqual([]);
    expect(await handspan(['format', 'uneven.lesson'])).toEqual({ code: 0, out: '', complaints: '' });
  });

  test('--check changes nothing and exits with 1 when something would change', async () => {
    const file = path.join(folder, await written('checked.lesson', UNEVEN));
    expect(await handspan(['format', '--check', 'checked.lesson'])).toMatchObject({ code: 1, out: 'checked.lesson\n' });
    expect(await readFile(file, 'utf8')).toBe(UNEVEN);
  });

  test('a link stays a link', async () => {
    const file = path.join(folder, await written('behind-link.lesson', UNEVEN));
    const link = path.join(folder, 'link.lesson');
    await symlink(file, link);
    await handspan(['format', 'link.lesson']);
    expect((await readFile(file, 'utf8')).length).toBeGreaterThan(UNEVEN.length);
    expect((await lstat(link)).isSymbolicLink()).toBe(true);
  });

  test('goes on with the others when a file cannot be read', async () => {
    await written('other.lesson', UNEVEN);
    const { code, out, complaints } = await handspan(['format', 'nowhere.lesson', 'other.lesson']);
    expect({ code, out }).toEqual({ code: 2, out: 'other.lesson\n' });
    expect(complaints).toBe('handspan: nowhere.lesson: there is no such file\n');
  });
});

describe('handspan read', () => {
  const UKULELE = ['--on', 'tenor ukulele, high G'];
  const TAB = 'A|----0-------3---|\nE|0-------3-------|\nC|----------------|\nG|----------------|\n';

  test('prints lines of a lesson, and tells that the rhythm is a guess', async () => {
    const { code, out, complaints } = await handspan(['read', ...UKULELE], TAB);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^\/\/ A guess: .*\nmelody {2}pasted-tune\n {2}count {2}1 .*\n {2}tune {3}2:0 {2}1:0 {2}2:3 {2}1:3\n$/,
    );
    expect(complaints).toMatch(/^handspan: .*--rhythm/);
    const counted = await handspan(['read', '--rhythm', '1 2 3 4', '--name', 'steps', ...UKULELE], TAB);
    expect(counted).toMatchObject({ code: 0, complaints: '' });
    expect(counted.out).toMatch(/^melody {2}steps\n/);
  });

  test('prints for scripts what became of every line, and exits with 1 where nothing is music', async () => {
    const { code, out } = await handspan(['read', '-', '--json'], `Hello\n${TAB}`);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      blocks: [{ kind: 'melody', name: 'pasted-tune' }],
      rhythmIsGuess: true,
      lines: [{ line: 1, became: 'kept' }, ...[2, 3, 4, 5].map((line) => ({ line, became: 'music' }))],
    });
    const unsaid = await handspan(['read'], TAB);
    expect(unsaid.complaints).toMatch(/Read for soprano ukulele, high G, since the text names its strings G C E A/);
    expect(unsaid.complaints).toMatch(/another instrument is said with --on/);
    const prose = await handspan(['read', '-'], 'See you on Tuesday\n');
    expect(prose).toMatchObject({ code: 1, out: '// See you on Tuesday\n' });
    expect((await handspan(['read', 'nowhere.txt'])).code).toBe(2);
  });
});
