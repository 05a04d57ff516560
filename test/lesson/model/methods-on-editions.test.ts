import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { printPitch } from '../../../shared/theory/note.ts';
import { barsOf } from '../../score/scoring.ts';
import { problemsIn } from '../check/checking.ts';
import { chordsThere, editionsIn, rowsThere, soundsThere } from './on-edition.ts';

// Picking of public-domain methods, written for a guitar and moved to other instruments. The patterns are as quoted in the sources;
// shapes are those of any chart; every string and pitch that is expected was worked out by hand from the open strings:
// guitar E2 A2 D3 G3 B3 E4, baritone D3 G3 B3 E4, tenor G4 (low G: G3) C4 E4 A4. Pitches are asked of tonal 6.4.3.

const EDITIONS =
  'also baritone ukulele, same key, called bari\nalso tenor ukulele, high G, same key, called high\nalso tenor ukulele, low G, same key, called low\n';

/** The three bars of Giuliani's first part, and the shapes that a guitar has for them. */
const GUITAR =
  'for guitar\nkey C\nmeter 4/4\nchord C x-3-2-0-1-0\nchord G7 3-2-0-0-0-1\nprogression v\n  | C | G7 | C |\n';

function lessonWith(rows: string, head = `${GUITAR.replace('\n', `\n${EDITIONS}`)}`): string {
  return `${head}pattern method\n${rows}\nexercise e\n  play v\n  with method\n`;
}

/** `p5 i3+m2 …` for each bar: which string each finger takes. */
function fingersIn(lesson: string, edition: number): readonly string[] {
  return barsOf(lesson, 0, edition).map((bar) =>
    bar.events
      .map((event) =>
        event.kind === 'notes' ? event.notes.map(({ finger, string }) => `${finger}${string}`).join('+') : event.kind,
      )
      .join(' '),
  );
}

/** `C3 G3 …` for each bar: what is heard, the strings that are struck together from the thumb on. */
function heardIn(lesson: string, edition: number): readonly string[] {
  const { openStrings } = (editionsIn(lesson)[edition] as Scope).edition().instrument;
  return barsOf(lesson, 0, edition).map((bar) =>
    bar.events
      .flatMap((event) =>
        event.kind === 'notes'
          ? event.notes.map(({ string, fret }) => {
              const open = openStrings[openStrings.length - string];
              return Note.fromMidi((open === undefined ? 0 : (Note.midi(printPitch(open)) ?? 0)) + fret);
            })
          : [],
      )
      .join(' '),
  );
}

/** Codes that are told of an edition, without those that any method has on it: shapes that are assumed and the like. */
function toldOf(lesson: string, edition: string, codes: readonly string[]): readonly string[] {
  return problemsIn(lesson).flatMap((problem) =>
    problem.edition?.split(', ').includes(edition) === true && codes.includes(problem.code) ? [problem.code] : [],
  );
}

const ABOUT_STRINGS = ['pattern.strings-moved', 'pattern.no-bass', 'mark.no-string', 'pattern.muted-string'];

// Source: M. Carcassi, Méthode, exercises as annotated by busonero (no. 11): p i m i a i m i over C and G7.
describe('Carcassi: p i m i a i m i', () => {
  const lesson = lessonWith('  count 1 & 2 & 3 & 4 &\n  pick p i m i a i m i');

  test('on the guitar the thumb takes the root of each chord, on four strings the fourth', () => {
    expect(chordsThere(editionsIn(lesson)[1])).toEqual(['C 2-0-1-0', 'G7 0-0-0-1']);
    expect(chordsThere(editionsIn(lesson)[2])).toEqual(['C 0-0-0-3', 'G7 0-2-1-2']);
    const [c, g] = ['p5 i3 m2 i3 a1 i3 m2 i3', 'p6 i3 m2 i3 a1 i3 m2 i3'];
    expect(fingersIn(lesson, 0)).toEqual([c, g, c]);
    const four = 'p4 i3 m2 i3 a1 i3 m2 i3';
    for (const edition of [1, 2, 3]) expect(fingersIn(lesson, edition)).toEqual([four, four, four]);
  });

  test('the baritone and the low fourth string keep a bass below the fingers, high G has none', () => {
    expect(heardIn(lesson, 0)).toEqual([
      'C3 G3 C4 G3 E4 G3 C4 G3',
      'G2 G3 B3 G3 F4 G3 B3 G3',
      'C3 G3 C4 G3 E4 G3 C4 G3',
    ]);
    expect(heardIn(lesson, 1).slice(0, 2)).toEqual(['E3 G3 C4 G3 E4 G3 C4 G3', 'D3 G3 B3 G3 F4 G3 B3 G3']);
    expect(heardIn(lesson, 2).slice(0, 2)).toEqual(['G4 C4 E4 C4 C5 C4 E4 C4', 'G4 D4 F4 D4 B4 D4 F4 D4']);
    expect(heardIn(lesson, 3).slice(0, 2)).toEqual(['G3 C4 E4 C4 C5 C4 E4 C4', 'G3 D4 F4 D4 B4 D4 F4 D4']);
    expect(toldOf(lesson, 'bari', ABOUT_STRINGS)).toEqual([]);
    expect(toldOf(lesson, 'low', ABOUT_STRINGS)).toEqual([]);
    expect(toldOf(lesson, 'high', ABOUT_STRINGS)).toEqual(['pattern.no-bass']);
    const told = problemsIn(lesson).find(({ code }) => code === 'pattern.no-bass')?.message;
    expect(told).toBe(
      'On the tenor ukulele, high G: The thumb has no bass there: string 4 (G4) sounds above string 3 (C4). The lowest is string 3 (C4); an edition block may give it to the thumb.',
    );
  });

  test('with the thumb on the third string of the edition it has its bass again', () => {
    const mended = `${lesson}edition high\n  pattern method\n    count 1 & 2 & 3 & 4 &\n    pick 3p 4i 2m 4i 1a 4i 2m 4i\n`;
    expect(toldOf(mended, 'high', ABOUT_STRINGS)).toEqual([]);
    expect(heardIn(mended, 2)[0]).toBe('C4 G4 E4 G4 C5 G4 E4 G4');
  });
});

// Source: the same (no. 08): p m i a i m in triplets.
test('Carcassi: p m i a i m in triplets goes over the same strings, twice in a bar', () => {
  const lesson = lessonWith('  count 1 la li 2 la li 3 la li 4 la li\n  pick p m i a i m p m i a i m');
  const over = (thumb: number) => Array.from({ length: 2 }, () => `p${thumb} m2 i3 a1 i3 m2`).join(' ');
  expect(fingersIn(lesson, 0)).toEqual([over(5), over(6), over(5)]);
  for (const edition of [1, 2, 3]) expect(fingersIn(lesson, edition)).toEqual([over(4), over(4), over(4)]);
  expect(toldOf(lesson, 'high', ABOUT_STRINGS)).toEqual(['pattern.no-bass']);
});

// Source: M. Giuliani, op. 1 (1812), part 1 no. 1, after B. Jeffery's preface: the thumb in quarters against two notes of i and m.
describe('Giuliani: the thumb in quarters against i and m', () => {
  const rows = (thumb: string) =>
    `  count 1 & 2 & 3 & 4 &\n  pick ${Array.from({ length: 4 }, () => `${thumb} 3i+2m`).join(' ')}`;
  const bar = (thumb: number) => Array.from({ length: 4 }, () => `p${thumb} i3+m2`).join(' ');

  test.each([['Rp'], ['p']])('written as %s it follows the root, and is the fourth where there are four', (thumb) => {
    const lesson = lessonWith(rows(thumb));
    expect(fingersIn(lesson, 0)).toEqual([bar(5), bar(6), bar(5)]);
    for (const edition of [1, 2, 3]) expect(fingersIn(lesson, edition)).toEqual([bar(4), bar(4), bar(4)]);
    expect(toldOf(lesson, 'bari', ABOUT_STRINGS)).toEqual([]);
    expect(toldOf(lesson, 'high', ABOUT_STRINGS)).toEqual(['pattern.no-bass']);
  });

  test('written on string 5 there is none on four strings: the fourth is taken, and that is told', () => {
    const lesson = lessonWith(rows('5p'));
    for (const edition of [1, 2, 3]) expect(fingersIn(lesson, edition)).toEqual([bar(4), bar(4), bar(4)]);
    for (const edition of ['bari', 'low']) {
      expect(toldOf(lesson, edition, ABOUT_STRINGS)).toEqual(['pattern.strings-moved']);
    }
    expect(toldOf(lesson, 'high', ABOUT_STRINGS)).toEqual(['pattern.strings-moved', 'pattern.no-bass']);
    expect(problemsIn(lesson).find(({ code }) => code === 'pattern.strings-moved')?.message).toContain(
      'Written for 6 strings, played on 4. The thumb takes the highest-numbered strings: what it has on string 5 is on string 4.',
    );
  });

  test('a guitar’s six strings do not fit the same shapes of four', () => {
    const lesson = lessonWith(rows('5p'), GUITAR.replace('\n', '\nalso baritone ukulele, same shapes, called bari\n'));
    expect(problemsIn(lesson).filter(({ code }) => code === 'edition.other-strings')).toHaveLength(1);
  });

  test('the same shapes of a baritone keep strings and fingers: low G has the bass, high G is told', () => {
    const bari =
      'for baritone ukulele\nalso tenor ukulele, low G, same shapes, called low\nalso tenor ukulele, high G, same shapes, called high\nkey C\nchord C 2-0-1-0\nchord G7 0-0-0-1\nprogression v\n  | C | G7 | C |\n';
    const lesson = lessonWith(rows('4p'), bari);
    // A fourth higher C is F and G7 is C7. Source: D to G, G to C, B to E, E to A.
    expect(chordsThere(editionsIn(lesson)[1])).toEqual(['F 2-0-1-0', 'C7 0-0-0-1']);
    for (const edition of [0, 1, 2]) expect(fingersIn(lesson, edition)).toEqual([bar(4), bar(4), bar(4)]);
    const of = (notes: string) => Array.from({ length: 4 }, () => notes).join(' ');
    expect(heardIn(lesson, 0).slice(0, 2)).toEqual([of('E3 G3 C4'), of('D3 G3 B3')]);
    expect(heardIn(lesson, 1).slice(0, 2)).toEqual([of('A3 C4 F4'), of('G3 C4 E4')]);
    expect(heardIn(lesson, 2).slice(0, 2)).toEqual([of('A4 C4 F4'), of('G4 C4 E4')]);
    expect(toldOf(lesson, 'low', ABOUT_STRINGS)).toEqual([]);
    expect(toldOf(lesson, 'high', ABOUT_STRINGS)).toEqual(['pattern.no-bass']);
  });

  test('where the lesson itself is re-entrant nothing is lost elsewhere', () => {
    const high =
      'for tenor ukulele, high G\nalso tenor ukulele, low G, same shapes, called low\nalso concert ukulele, high G, same key, called small\nkey C\nchord C 0-0-0-3\nchord G7 0-2-1-2\nprogression v\n  | C | G7 | C |\n';
    const lesson = lessonWith(rows('4p'), high);
    for (const edition of ['low', 'small']) expect(toldOf(lesson, edition, ABOUT_STRINGS)).toEqual([]);
  });
});

// Campanella: each note of a scale on another string than the one before, so that neighbours ring into each other like bells. The
// word and the way are those of G. Sanz, Instrucción de música (1674), for five re-entrant courses; from memory.
describe('runs across the strings', () => {
  const stringsOf = (scope: Scope | undefined) => {
    const [row = ''] = rowsThere(scope, 'melody', 'bells');
    return [...row.matchAll(/(\d):\d+/g)].map((match) => Number(match[1]));
  };
  const crosses = (strings: readonly number[]) => strings.every((string, at) => at === 0 || string !== strings[at - 1]);
  const lessonOver = (head: string, run: string) =>
    `${head}key C\nmelody bells\n  count 1 & 2 & 3 & 4 &\n  tune ${run}\n`;
  const heard = (scope: Scope | undefined) =>
    scope ? soundsThere(scope, 'melody', 'bells').map((midi) => Note.fromMidi(midi)) : [];
  const broken = (lesson: string, edition: string) => toldOf(lesson, edition, ['tune.run-broken']);

  // D4 E4 F4 G4 A4 B4 C5 on G4 C4 E4 A4. Common practice, no source: the scale with the fourth string among the others.
  const RUN = '3:2 2:0 3:5 4:0 1:0 4:4 1:3 .';
  const SCALE = ['D4', 'E4', 'F4', 'G4', 'A4', 'B4', 'C5'];

  test('a run on the re-entrant tenor is one on every instrument with its strings, frets and all', () => {
    const lesson = lessonOver('also concert ukulele, high G, same key, called small\n', RUN);
    const [own, small] = editionsIn(lesson);
    expect(heard(own)).toEqual(SCALE);
    expect(crosses(stringsOf(own))).toBe(true);
    expect(rowsThere(small, 'melody', 'bells')).toEqual(rowsThere(own, 'melody', 'bells'));
    expect(broken(lesson, 'small')).toEqual([]);
  });

  test('with a low fourth string the same scale still crosses from string to string, in places of its own', () => {
    const lesson = lessonOver('also tenor ukulele, low G, same key, called low\n', RUN);
    const [, low] = editionsIn(lesson);
    expect(heard(low)).toEqual(SCALE);
    // G4 is no longer open: string 2 fret 3, string 3 fret 7 or string 4 fret 12. Source: G3 C4 E4 A4.
    expect(crosses(stringsOf(low))).toBe(true);
    expect(broken(lesson, 'low')).toEqual([]);
  });

  test('C4 and D4 are on string 3 alone where the fourth is high: the run cannot be kept, and is told where it breaks', () => {
    const run = '4:5 3:2 2:0 3:5 2:3 1:0 2:7 1:3';
    const lesson = lessonOver('for tenor ukulele, low G\nalso tenor ukulele, high G, same key, called high\n', run);
    const [own, high] = editionsIn(lesson);
    expect(heard(own)).toEqual(['C4', ...SCALE]);
    expect(crosses(stringsOf(own))).toBe(true);
    expect(heard(high)).toEqual(['C4', ...SCALE]);
    expect(stringsOf(high).slice(0, 2)).toEqual([3, 3]);
    // From there on it crosses as it did.
    expect(crosses(stringsOf(high).slice(1))).toBe(true);
    const told = problemsIn(lesson).filter(({ code }) => code === 'tune.run-broken');
    expect(told.map(({ edition, span }) => `${edition} ${lesson.slice(span.start, span.end)}`)).toEqual(['high 3:2']);
    expect(told[0]?.message).toContain('On the tenor ukulele, high G: This run crosses the strings');
  });

  test('Sanz’s five courses without basses give a guitar a scale that crosses, too', () => {
    // A3 D4 G3 B3 E4: the third course is the lowest. From memory; G3 A3 B3 C4 D4 E4 F#4 G4.
    const head = 'for tuned A3 D4 G3 B3 E4 scale 650 mm frets 12\nalso guitar, same key, called six\n';
    const lesson = lessonOver(head, '3:0 5:0 2:0 5:3 4:0 1:0 4:4 1:3').replace('key C', 'key G');
    const [own, six] = editionsIn(lesson);
    const scale = ['G3', 'A3', 'B3', 'C4', 'D4', 'E4', 'Gb4', 'G4'];
    expect(heard(own)).toEqual(scale);
    expect(crosses(stringsOf(own))).toBe(true);
    expect(heard(six)).toEqual(scale);
    // For one: string 3 open, 4 fret 7, 2 open, 3 fret 5, 2 fret 3, 1 open, 2 fret 7, 1 fret 3.
    expect(crosses(stringsOf(six))).toBe(true);
    expect(broken(lesson, 'six')).toEqual([]);
  });

  test('three notes on three strings are a run, two are none, and a leap is no step', () => {
    const lesson = (run: string) =>
      lessonOver('for tenor ukulele, low G\nalso tenor ukulele, high G, same key, called high\n', run);
    expect(broken(lesson('4:5 3:2 2:0 . . . . .'), 'high')).toEqual(['tune.run-broken']);
    expect(broken(lesson('4:5 3:2 . . . . . .'), 'high')).toEqual([]);
    // C4 and G4 are a fifth apart.
    expect(broken(lesson('4:5 2:3 4:5 2:3 . . . .'), 'high')).toEqual([]);
  });
});
