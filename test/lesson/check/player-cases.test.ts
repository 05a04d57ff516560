import { describe, expect, test } from 'vitest';
import { faultsIn, fixedTexts, problemsIn } from './checking.ts';

// What players ask. Each case says how firm it is: must = follows from arithmetic or definition, should = common practice.

function messagesIn(lesson: string, code: string): readonly string[] {
  return problemsIn(lesson)
    .filter((problem) => problem.code === code)
    .map(({ message }) => message);
}

describe('names against frets', () => {
  test('A-11 must: G with an added A is a mild note that names the tone; the full G is plain', () => {
    const [problem] = problemsIn('chord G 2-2-3-2');
    expect(problem).toMatchObject({ code: 'chord.added-tone', severity: 'notice' });
    expect(problem?.message).toContain('A added');
    expect(faultsIn('chord G 4-2-3-2')).toEqual([]);
  });

  test('A-24 must: C typed one digit wrong is reported as C7, its sound', () => {
    const [message] = messagesIn('chord C 0-0-0-1', 'chord.name');
    expect(message).toBe('0-0-0-1 sounds G C E Bb: C7, you wrote C.');
    expect(problemsIn('chord C 0-0-0-1').flatMap((problem) => fixedTexts('chord C 0-0-0-1', problem))).toEqual([
      'chord C7 0-0-0-1',
    ]);
    expect(faultsIn('chord C 0-0-0-3')).toEqual([]);
  });

  test('the sentence that names what is there and what was written', () => {
    const [message] = messagesIn('chord F6 0-5-5-0', 'chord.name');
    expect(message).toBe('0-5-5-0 sounds G F A A: F(add9) without its fifth, you wrote F6.');
  });

  // E G B is E minor, C E G is C major, by definition of the triads; baritone ukulele D3 G3 B3 E4.
  test.each([
    ['Cmaj7', '2-0-0-0', 'sounds a plain Em: E G B. It is Cmaj7 without its root only', 'chord Em 2-0-0-0'],
    ['Am7', '2-0-1-3', 'sounds a plain C: E G C. It is Am7 without its root only', 'chord C 2-0-1-3'],
  ])('must: a whole triad of another root is told first: %s %s', (name, frets, told, renamed) => {
    const text = `for baritone ukulele\nchord ${name} ${frets}`;
    const [problem, ...others] = problemsIn(text).filter(({ code }) => code.startsWith('chord.'));
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ severity: 'hint', code: 'chord.incomplete' });
    expect(problem?.message).toContain(told);
    expect(problem && fixedTexts(text, problem)).toEqual([`for baritone ukulele\n${renamed}`]);
    // A diminished triad is heard as the seventh chord that it belongs to.
    expect(messagesIn('chord D7 2-0-2-0', 'chord.incomplete')[0]).toMatch(/^2-0-2-0 is D7 without its root\./);
  });

  test.each([
    ['A-2 must', 'Cm6', '2-3-3-3'],
    ['A-2 must', 'Am7b5', '2-3-3-3'],
    ['A-2 must, without its root', 'F9', '2-3-3-3'],
    ['A-3 must, without its root', 'D9', '2-4-2-3'],
    ['A-13 must, without its root', 'D7', '2-0-2-0'],
    ['A-15 must', 'Bb6', '0-2-1-1'],
  ])('%s: %s is a right name for %s', (_case, name, frets) => expect(faultsIn(`chord ${name} ${frets}`)).toEqual([]));

  test('D-7 must: the name follows the tuning of the lesson', () => {
    const baritone = 'for baritone ukulele\n';
    expect(faultsIn(`${baritone}chord C 2-0-1-0`)).toEqual([]);
    expect(messagesIn(`${baritone}chord F 2-0-1-0`, 'chord.name')[0]).toContain(': C, you wrote F.');
    expect(faultsIn('chord F 2-0-1-0')).toEqual([]);
  });

  test('C-17 must: a capo is the nut; names are those of the shapes', () => {
    const shapes = 'chord C 0-0-0-3\nchord Am 2-0-0-0\nchord F 2-0-1-0\nchord G 0-2-3-2';
    expect(faultsIn(`for tenor ukulele, high G, capo 2\n${shapes}`)).toEqual([]);
    // A neck of 18 frets above a capo at 2 has 16 of them left.
    const beyond = problemsIn('for tenor ukulele frets 18 capo 2\nchord C 0-0-0-17').map(({ code }) => code);
    expect(beyond).toEqual(['shape.fret-beyond-neck']);
  });

  test('F-3 should: two shapes of one name, told apart by a label, are both in order', () => {
    expect(faultsIn('chord Am7 0-0-0-0\nchord Am7.barre 2-4-3-3\nprogression v\n  | Am7 | Am7.barre |')).toEqual([]);
  });
});

describe('fingers', () => {
  test('B-2 must: one finger flat over 4-4-4-2 is rejected, as a string under it is wanted lower', () => {
    expect(faultsIn('chord E 4-4-4-2 fingers 1-1-1-1')).toEqual(['error fingers.two-frets "1-1-1-1"']);
  });

  test.each([
    ['B-1 should', 'E 4-4-4-2 fingers 3-3-3-1'],
    ['B-1 should', 'E 4-4-4-2 fingers 2-3-4-1'],
    ['B-3 should', 'D 2-2-2-0 fingers 1-2-3-0'],
    ['B-3 should', 'D 2-2-2-0 fingers 1-1-1-0'],
    ['B-4 should', 'Bb 3-2-1-1 fingers 3-2-1-1'],
    ['B-5 should', 'Bm 4-2-2-2 fingers 3-1-1-1'],
    ['B-5 should', 'Bm 4-2-2-2 fingers 2-1-1-1'],
    ['B-6 should', 'Ebdim7 2-3-2-3 fingers 1-3-2-4'],
    ['B-6 should', 'Ebdim7 2-3-2-3 fingers 1-2-1-3'],
    ['B-7 must', 'D7 2-0-2-0 fingers 1-0-2-0'],
    ['B-7 must', 'D7 2-0-2-0 fingers 2-0-3-0'],
    ['B-10 should', 'C 0-0-0-3 fingers 0-0-0-1'],
    ['B-10 should', 'C 0-0-0-3 fingers 0-0-0-4'],
  ])('%s: %s is in order', (_case, line) => expect(faultsIn(`chord ${line}`)).toEqual([]));

  test('B-7 must: no finger lies flat across an open string', () => {
    expect(faultsIn('chord D7 2-0-2-0 fingers 1-0-1-0')).toEqual(['error fingers.barre "1-0-1-0"']);
  });

  test('B-8 should: two barres at once are in order, and marked as hard', () => {
    // 5-5-8-8 sounds C F C F: no third.
    const [hard, ...others] = problemsIn('chord F5 5-5-8-8 fingers 1-1-4-4');
    expect(others).toEqual([]);
    expect(hard).toMatchObject({ code: 'shape.hard', severity: 'hint' });
    expect(hard?.message).toContain('Two fingers lie flat at once');
  });

  test('B-9 must: the same frets are judged in millimetres of the declared size, and always with the caution', () => {
    const judged = (size: string) =>
      problemsIn(`for ${size}\nhand small\nchord Em7 0-5-0-2`).filter(({ code }) => code.startsWith('reach'));
    expect(judged('soprano ukulele')).toEqual([]);
    const [wide] = judged('baritone ukulele');
    expect(wide?.message).toMatch(/on the baritone ukulele, scale \d+ mm\. .* (68|69|70|71|72) mm apart/);
    expect(wide?.message).toMatch(/Warm up; if it hurts, stop and ask\./);
  });
});

describe('rhythm', () => {
  test('C-1 must: half a beat too much is told at the last mark', () => {
    const lesson = 'pattern r\n  count 1 2 3 & 4 5\n  strum D D D U D U';
    expect(faultsIn(lesson)).toEqual(['error count.beyond-meter "5"']);
    expect(faultsIn('pattern r\n  count 1 2 3 & 4\n  strum D D D U D U')).toEqual(['error row.too-long "U"']);
  });

  test('C-1 must: a bar of a progression that is too long is told with its number and by how much', () => {
    const [message] = messagesIn('progression v\n  | C | C / / / / |', 'bar.too-long');
    expect(message).toBe('Bar 2 has 5 beats; in 4/4 it has 4. It is 1 beat too long.');
  });

  test('C-1 must: so is a bar of a count, in beats of the meter and at the marks that are too many', () => {
    const [long] = messagesIn(
      'meter 6/8\npattern r\n  count 1 2 3 4 5 6 7\n  strum D D D D D D D',
      'count.beyond-meter',
    );
    expect(long).toBe('Bar 1 is a third of a beat too long: in 6/8 it is counted to 6.');
    const lines = 'pattern r\n  count 1 2 3 4 | 1 2 3 4\n  strum D D D D D D D D\n  count 1 2 3 | 1 2 3 4';
    const [short] = messagesIn(`${lines}\n  strum D D D D D D D`, 'count.bar-short');
    expect(short).toBe('Bar 3 is 1 beat too short: it is counted to 3, and in 4/4 to 4.');
    expect(messagesIn('pattern r\n  count 3 4 | 1 2 3 4 5 6\n  strum D D D D D D D D', 'count.beyond-meter')).toEqual([
      'Bar 1 is 2 beats too long: in 4/4 it is counted to 4.',
    ]);
  });

  test('C-1 must: a pickup is as long as its count says', () => {
    const [long] = messagesIn('progression v\n  count 3\n  | C / / | C |', 'bar.too-long');
    expect(long).toBe('The pickup has 3 beats; from the count it begins on it has 2. It is 1 beat too long.');
  });

  test('C-2 should: a count may begin with a beat of its own', () => {
    expect(faultsIn('pattern r\n  count 4 | 1 2 3 4 | 1 2 3\n  strum D D D D D D D D')).toEqual([]);
    expect(faultsIn('pattern r\n  count 4 | 1 2 3 4 | 1 2 3 4\n  strum D D D D D D D D D')).toEqual([]);
  });

  const TWO_CHORDS = 'progression v\n  | C F | G7 C |\nexercise e\n  play v\n';
  const lateIn = (strum: string, more = '') =>
    messagesIn(`pattern island\n  ${strum}\n${TWO_CHORDS}  with island\n${more}`, 'chord.late');

  test('C-7 should: a chord that comes where the pattern holds would sound half a beat late, told once', () => {
    expect(lateIn('strum D . D U . U D U')).toEqual([
      'F comes on beat 3 of bar 1, where island only lets the sound go on: F first sounds half a beat late, at 3 &. A stroke on beat 3, or a pattern of 2 beats for each chord, brings it in time.',
    ]);
    expect(lateIn('strum D . . .')[0]).toContain(': F is not heard at all.');
  });

  test.each([
    ['a stroke comes with the chord', 'strum D . D U D U D U', ''],
    ['a two-beat pattern begins with each chord', 'count 1 & 2 &\n  strum D . D U', ''],
    ['the patterns begin anew at each chord', 'strum D . D U . U D U', '  restart chord\n'],
    ['a knock stands there', 'strum D . . U . U . U\n  hit . . . . thumb4 . . .', ''],
    ['the hand damps there', 'strum D . D U Dx U D U', ''],
    ['the pattern never strikes on a beat', 'strum . U . U . U . U', ''],
    ['the pattern changes the chord itself', 'strum D . D U . U D U\n  chord . . . F . . . .', ''],
  ])('C-7: nothing is said where %s', (_why, strum, more) => expect(lateIn(strum, more)).toEqual([]));

  test('C-12 must: a dot is the tie; the same fret twice is two notes, and nothing else joins them', () => {
    expect(faultsIn('melody m\n  tune 1:3 . 1:3 .')).toEqual([]);
    const lesson = 'melody m\n  tune 1:3 h3 . .';
    expect(faultsIn(lesson)).toEqual(['error technique.direction "h3"']);
    expect(problemsIn(lesson).flatMap((problem) => fixedTexts(lesson, problem))).toEqual([
      'melody m\n  tune 1:3 . . .',
    ]);
  });

  test('C-14 must: string 4 open is G4 in high G and G3 in low G; on string 2 fret 3 it is G4 in both', () => {
    const lesson = (own: string, also: string) =>
      `for tenor ukulele, ${own}\nalso tenor ukulele, ${also}, same shapes, called other\nmelody m\n  tune 4:0 1:0 1:2 .`;
    const found = problemsIn(lesson('high G', 'low G')).filter(({ code }) => code === 'tune.octave');
    expect(found.map(({ message }) => message)).toEqual([
      'In edition other string 4 is tuned an octave lower, and with it 4:0: the tune leaps there.',
    ]);
    expect(found.flatMap((problem) => fixedTexts(lesson('high G', 'low G'), problem))).toEqual([
      lesson('high G', 'low G').replace('4:0', '2:3'),
    ]);
    expect(messagesIn(lesson('low G', 'high G'), 'tune.octave')[0]).toContain('an octave higher');
    expect(messagesIn(lesson('high G', 'high G'), 'tune.octave')).toEqual([]);
    // D-1: against high G the baritone is a fourth lower on strings 3 to 1 and seventeen half steps on string 4.
    const bari = lesson('high G', 'low G').replace('tenor ukulele, low G', 'baritone ukulele');
    expect(messagesIn(bari, 'tune.octave')[0]).toContain('an octave lower');
    expect(messagesIn(`${bari}\nedition other\n  melody m\n    tune 2:3 1:0 1:2 .`, 'tune.octave')).toEqual([]);
  });

  test('F-2 should: a pattern shorter than its bars is told where it is used, with what becomes of it', () => {
    const lesson =
      'progression v\n  | C | F | G7 |\npattern three\n  count 1 2 3\n  strum D U U\nexercise e\n  play v\n  with three\n';
    expect(messagesIn(lesson, 'pattern.runs-on')).toEqual([
      'three is 3 beats long and the bar has 4 beats, so it runs on: its second time begins on beat 4 of bar 1.',
    ]);
    const shortBar = lesson
      .replace('| C | F | G7 |', '| C | 2/4 F | 4/4 G7 | C |')
      .replace(/1 2 3(\n.*U)/, '1 2 3 4$1 D');
    expect(messagesIn(shortBar.replace('| C |', '| C | C |'), 'pattern.runs-on')).toEqual([
      'three is 4 beats long and the bar has 2 beats, so it runs on: its next time begins on beat 3 of bar 4.',
    ]);
    expect(messagesIn(`${lesson}  restart bar\n`, 'pattern.runs-on')).toEqual([]);
    const longer = lesson.replace('count 1 2 3\n  strum D U U', 'count 1-4 | 1-4\n  strum D U');
    expect(messagesIn(longer, 'pattern.cut-short')).toEqual([
      'three is cut off where the music ends: the last time only 4 of its 8 beats are played.',
    ]);
    expect(messagesIn(longer.replace('| G7 |', '| G7 | C |'), 'pattern.cut-short')).toEqual([]);
    // A last bar that is shorter by the pickup excuses that much of a pattern and no more.
    const tune = (bars: string) =>
      `progression v\n  ${bars}\nmelody m\n  count 1-4 | 1-4 | 1-4 | 1-4\n  tune 1:0 1:2 1:3 1:0\nexercise e\n  play v\n  with m\n`;
    expect(messagesIn(tune('| C | 3/4 F |'), 'pattern.cut-short')).toEqual([
      'm is cut off where the music ends: the last time only 7 of its 16 beats are played.',
    ]);
    expect(messagesIn(tune('count 4\n  | C | C | F / / |'), 'pattern.cut-short')).toEqual([
      'm is cut off where the music ends: the last time only 7 of its 16 beats are played.',
    ]);
    const short = tune('count 4\n  | C | C | F / / |').replace('1-4 | 1-4 | 1-4 | 1-4', '4 | 1-4 | 1-4');
    expect(messagesIn(short.replace('1:3 1:0', '1:3'), 'pattern.cut-short')).toEqual([]);
    expect(messagesIn(tune('|: C | 1st F :| 2nd G7 ||'), 'pattern.cut-short')).toEqual([
      'm is cut off where the music ends: the last time only 8 of its 16 beats are played.',
    ]);
  });

  test.each([
    ['the last bar a beat short', '| C | C | C / / |'],
    ['the last bar full', '| C | C | C / / / |'],
    ['a bar before a closing repeat a beat short', '|: C | C | C / / :| C |'],
  ])('C-2 must: a pickup of one beat is no fault, nor is %s', (_name, bars) => {
    expect(faultsIn(`progression v\n  count 4\n  ${bars}`)).toEqual([]);
  });

  test('C-2 must: without a pickup a short last bar is a fault, and the first full bar is number 1', () => {
    expect(messagesIn('progression v\n  | C | C / / |', 'bar.too-short')[0]).toMatch(/^Bar 2 /);
    expect(messagesIn('progression v\n  count 4\n  | C | C / | C |', 'bar.too-short')[0]).toMatch(/^Bar 1 /);
  });

  test('C-5 must: 6/8 has two beats, so three chords do not share it and two do', () => {
    expect(faultsIn('meter 6/8\nprogression v\n  | C F |')).toEqual([]);
    expect(faultsIn('meter 6/8\nprogression v\n  | C F G |')).toEqual(['warning bar.uneven "C F G"']);
    expect(faultsIn('meter 3/4\nprogression v\n  | C F G |')).toEqual([]);
  });

  test('C-6 must: D DU UDU spreads over eight half beats, the fifth of them held', () => {
    const lesson = 'pattern island\n  strum D DU UDU';
    expect(problemsIn(lesson).flatMap((problem) => fixedTexts(lesson, problem))).toEqual([
      'pattern island\n  strum D . D U . U D U',
    ]);
    expect(faultsIn(lesson)).toEqual(['error strum.run-together "D DU UDU"']);
  });

  test.each([
    ['1:2h4', []],
    ['1:4p2', []],
    ['1:4h2', ['error technique.direction "1:4h2"']],
    ['1:2p4', ['error technique.direction "1:2p4"']],
    ['1:2h4p2', []],
    ['1:2h4p5', ['error technique.direction "1:2h4p5"']],
  ])('C-11 must: a hammer-on goes up, a pull-off goes down: %s', (mark, faults) => {
    expect(faultsIn(`melody m\n  tune ${mark} . . .`)).toEqual(faults);
  });

  test('C-11 must: the same in columns of their own, each from where the last one arrived', () => {
    expect(faultsIn('melody m\n  tune 1:2 h4 p2 h3')).toEqual([]);
    expect(faultsIn('melody m\n  tune 1:2 h4 h3 .')).toEqual(['error technique.direction "h3"']);
  });

  test('F-2 should: a pattern that does not fit its count is told where it is written', () => {
    expect(faultsIn('pattern r\n  count 1 2 3 4\n  pick 4p 3i 2m')).toEqual(['error row.too-short "pick 4p 3i 2m"']);
  });
});

describe('what the sentences say', () => {
  test('no message speaks of the machinery', () => {
    const messages = [
      'chord\nchord Em\nchord C 0-0\nchord ? 0\nfor x\nkey H\n?',
      'progression\npattern r\n  count & 1\n  pick 9 D q\n  strum Q\n  like q\nexercise\n  play q\n  at x',
    ].flatMap((lesson) => problemsIn(lesson).map(({ message }) => message));
    expect(messages.length).toBeGreaterThan(15);
    for (const message of messages) expect(message).not.toMatch(/token|identifier|parse|unexpected|EOF|syntax/i);
  });
});

describe('one slip, one message', () => {
  const count = 'pattern slap\n  count  1 & 2 & 3 & 4 &\n';

  test('a mark too many in one row: what meets in the columns that it has pushed is not told', () => {
    const right = `${count}  strum  D . . U . U . Ux\n  hit    . . thumb4 . . . thumb4 .\n`;
    expect(faultsIn(right)).toEqual([]);
    expect(faultsIn(right.replace('D . .', 'D . . .'))).toEqual(['error row.too-long "Ux"']);
  });

  test('a mark in two pieces: only the piece that cannot be read', () => {
    const text = `${count}  strum  D . . U . U . Ux\n  hit    . . thumb 4 . . . thumb4 .\n`;
    expect(faultsIn(text)).toEqual(['error hit.mark "4"']);
  });

  test('with every row as long as its count, what meets is told', () => {
    const text = `${count}  strum  D . D U . U . Ux\n  hit    . . thumb4 . . . thumb4 .\n`;
    expect(faultsIn(text)).toEqual(['error hit.with-strum "thumb4"']);
  });
});
