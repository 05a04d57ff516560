import { describe, expect, test } from 'vitest';
import { type Asked, errorsIn, linesIn, read, remarksIn } from './reading.ts';

interface SongText {
  readonly name: string;
  readonly text: string;
  readonly asked?: Asked;
  /** The lines of the reading without its remarks. */
  readonly lines: readonly string[];
  readonly remarks?: readonly string[];
  readonly isGuess?: boolean;
}

/** Words and changes are invented, or of old songs that belong to nobody. */
const SONGS: readonly SongText[] = [
  {
    name: 'chords over words, a bar each',
    text: 'C           F\nLamps along the quay\nG              C\nburn the whole night',
    lines: [
      'progression pasted-song',
      '| C | F |',
      'words Lamps along | the quay',
      '| G | C |',
      'words burn the whole | night',
    ],
    isGuess: true,
  },
  {
    name: 'what is sung before the first chord is a pickup; before that of a later line it belongs to the bar before',
    text: '  C          F\nA lamp on the water\n    G       C\nand one on the shore',
    lines: [
      'progression pasted-song',
      'count 4',
      '| NC | C | F |',
      'words A | lamp on the | water and',
      '| G | C |',
      'words one on | the shore',
    ],
    isGuess: true,
  },
  {
    name: 'a chord inside a word parts it at the syllable',
    text: 'C     F\nlanternlight',
    lines: ['progression pasted-song', '| C | F |', 'words lantern- | light'],
    isGuess: true,
  },
  {
    name: 'a chord one letter off its syllable',
    text: 'C        G\nover the harbour wall',
    lines: ['progression pasted-song', '| C | G |', 'words over the | harbour wall'],
    isGuess: true,
  },
  {
    name: 'hyphens of the text part syllables for sure',
    text: 'C    G  Am\nLan-tern-light',
    lines: ['progression pasted-song', '| C | G | Am |', 'words Lan- | tern- | light'],
    isGuess: true,
  },
  {
    name: 'sections in brackets are progressions, and their headings remarks',
    text: '[Verse]\nC    G\nla   la\n\n[Chorus]\nF    G\nlo   lo',
    lines: [
      ...['progression verse', '| C | G |', 'words la | la'],
      ...['progression chorus', '| F | G |', 'words lo | lo'],
      ...['exercise Pasted song, all of it', 'play verse chorus'],
    ],
    remarks: ['[Verse]', '[Chorus]'],
    isGuess: true,
  },
  {
    name: 'a chart with strokes for beats',
    text: '| C / / / | Am / F / |\n| G / / / | C / / / |',
    lines: ['progression pasted-song', '| C / / / | Am / F / |', '| G / / / | C / / / |'],
  },
  {
    name: 'a chart without the outer bar lines',
    text: 'C / / / | Am / / / | F / G / | C',
    lines: ['progression pasted-song', '| C / / / | Am / / / | F / G / | C |'],
  },
  {
    name: 'strokes that fill bars without bar lines',
    text: 'C / / / Am / / / F / G /',
    lines: ['progression pasted-song', '| C / / / | Am / / / | F / G / |'],
  },
  {
    name: 'dots and dashes for beats',
    text: '| C . . . | G - - - |',
    lines: ['progression pasted-song', '| C / / / | G / / / |'],
  },
  {
    name: 'three beats to a bar in a lesson of four are another meter',
    text: '| C / / | G / / | C |',
    lines: ['progression pasted-song', '| 3/4 C / / | G / / | C |'],
  },
  {
    name: 'one short bar is a change of meter and back',
    text: '| C / / / | G / | C / / / | C / / / |',
    lines: ['progression pasted-song', '| C / / / | 2/4 G / | 4/4 C / / / | C / / / |'],
  },
  {
    name: 'strokes for eighths in 6/8',
    text: '| C / / / / / | F / / G / / |',
    asked: { meter: '6/8' },
    lines: ['progression pasted-song', '| C / | F G |'],
  },
  {
    name: 'repeats, endings and how often',
    text: '|: C | G | Am :| x3\n|: F |1. G :|2. C ||',
    lines: ['progression pasted-song', '|: C | G | Am :| x3', '|: F | 1st G :| 2nd C ||'],
  },
  {
    name: 'a whole line twice',
    text: 'Intro: C  G  Am  F  x2',
    lines: ['progression intro', '|: C | G | Am | F :|'],
    remarks: ['Intro:'],
    isGuess: true,
  },
  {
    name: 'the bar before again, an empty bar, and no chord',
    text: '| C | % |    | N.C. | G |',
    lines: ['progression pasted-song', '| C | % | % | NC | G |'],
  },
  {
    name: 'quoted, with long dashes between the chords and typographic signs in the words',
    text: '> C    –     G\n> the lamp’s “glow”',
    lines: ['progression pasted-song', '| C | G |', 'words the lamp\'s | "glow"'],
    isGuess: true,
  },
  {
    name: 'spellings of the trade',
    text: 'F#m7b5  B7(b9)  E-  Cmaj7  D/F#  G6/9',
    lines: ['progression pasted-song', '| F#m7b5 | B7(b9) | E- | Cmaj7 | D/F# | G6/9 |'],
    isGuess: true,
  },
  {
    name: 'a name that is written for two chords is told',
    text: '| C2 | G |',
    lines: ['progression pasted-song', '| Csus2 | G |'],
    remarks: ['C2 is written for two chords; Csus2 is taken here.'],
  },
  {
    name: 'chords in parentheses, and a word behind them',
    text: 'C  (G)  Am   (hold the last one)',
    lines: ['progression pasted-song', '| C | G | Am |'],
    remarks: ['(hold the last one)'],
    isGuess: true,
  },
  {
    name: 'a lone A over words among lines of chords',
    text: 'D     A\nRow the boat\nA\nalong the quay',
    lines: ['progression pasted-song', '| D | A |', 'words Row | the boat', '| A |', 'words along the quay'],
    isGuess: true,
  },
  {
    name: 'a first word that is a figure is no verse',
    text: 'C       G\n2 boats go by',
    lines: ['progression pasted-song', '| C | G |', 'words 1 2 boats | go by'],
    isGuess: true,
  },
  {
    name: 'headings of all sorts, and one alone that has its section sung again',
    text: 'Verse 1\nC   G\nla  la\n** CHORUS **\nF   C\nhey ho\nVerse 2:\nC   G\nli  li\n(Chorus x2)\n[Lamp song]\nAm  F\nlo  lo',
    lines: [
      ...['progression verse-1', '| C | G |', 'words la | la'],
      ...['progression chorus', '| F | C |', 'words hey | ho'],
      ...['progression verse-2', '| C | G |', 'words li | li'],
      ...['progression lamp-song', '| Am | F |', 'words lo | lo'],
      ...['exercise Pasted song, all of it', 'play verse-1 chorus verse-2 chorus chorus lamp-song'],
    ],
    remarks: ['Verse 1', '** CHORUS **', 'Verse 2:', '(Chorus x2)', '[Lamp song]'],
    isGuess: true,
  },
  {
    name: 'a heading says how often its section is sung',
    text: 'Verse\nC   G\nla  la\nChorus (x2)\nF   C\nhey ho',
    lines: [
      ...['progression verse', '| C | G |', 'words la | la'],
      ...['progression chorus', '| F | C |', 'words hey | ho'],
      ...['exercise Pasted song, all of it', 'play verse chorus chorus'],
    ],
    remarks: ['Verse', 'Chorus (x2)'],
    isGuess: true,
  },
  {
    name: 'a greeting is no heading, and what is said of the capo is not sung',
    text: 'Hi! chords for tonight:\nG  D/F#  Em7  Cadd9\nCapo 2, play slow, thanks.\nOn Tue, Pat wrote:\nAm  D  G  G',
    lines: ['progression pasted-song', '| G | D/F# | Em7 | Cadd9 |', '| Am | D | G | G |'],
    remarks: ['Hi! chords for tonight:', 'Capo 2, play slow, thanks.', 'On Tue, Pat wrote:'],
    isGuess: true,
  },
  {
    name: 'an empty line parts stanzas; what is sung before the chords of the second belongs to the bar before',
    text: 'C   G\nla  la\nF   G\nlo  lo\n\n    Am  F\nand la  la\nC   G\nli  li',
    lines: [
      ...['progression pasted-song', '| C | G |', 'words la | la', '| F | G |', 'words lo | lo and'],
      ...['progression pasted-song-2', '| Am | F |', 'words la | la', '| C | G |', 'words li | li'],
      ...['exercise Pasted song, all of it', 'play pasted-song pasted-song-2'],
    ],
    isGuess: true,
  },
  {
    name: 'empty lines between all lines part nothing',
    text: 'C   G\nla  la\n\nF   G\nlo  lo\n\nAm  F\nli  li',
    lines: [
      'progression pasted-song',
      '| C | G |',
      'words la | la',
      '| F | G |',
      'words lo | lo',
      '| Am | F |',
      'words li | li',
    ],
    isGuess: true,
  },
  {
    name: 'a part that is called by a letter gets no chord’s name',
    text: '[A]\nC   G  Am\nla  la la\n[B]\nF   C\nlo  lo',
    lines: [
      ...['progression part-a', '| C | G | Am |', 'words la | la | la'],
      ...['progression part-b', '| F | C |', 'words lo | lo'],
      ...['exercise Pasted song, all of it', 'play part-a part-b'],
    ],
    isGuess: true,
  },
  {
    name: 'chords in round brackets inside the words, and inside a word',
    text: '(C)Mary had a (G)little (C)lamb\nits fleece was (G)white as sn(C)ow',
    lines: [
      'progression pasted-song',
      '| C | G | C |',
      'words Mary had a | little | lamb its fleece was',
      '| G | C |',
      'words white as sn- | ow',
    ],
    isGuess: true,
  },
  {
    name: 'the same beside brackets that hold no chord',
    text: '(C)Mary had a (G7)little lamb (softly)',
    lines: ['progression pasted-song', '| C | G7 |', 'words Mary had a | little lamb (softly)'],
    isGuess: true,
  },
];

describe('chords over words, and charts', () => {
  test.each(SONGS)('$name', ({ text, asked, lines, remarks = [], isGuess = false }) => {
    const reading = read(text, asked);
    expect(linesIn(reading)).toEqual(lines);
    expect(remarksIn(reading)).toEqual(expect.arrayContaining([...remarks]));
    expect(errorsIn(reading, asked)).toEqual([]);
    expect(reading.text.includes('// A guess:')).toBe(isGuess);
  });

  test.each([
    ['a sentence', 'Am I late? A boat left.'],
    ['words that are chords as well', 'Am\nA'],
    ['capitals', 'DEAR ADA'],
    ['a tuning', 'Tuning: G C E A'],
    ['a list', 'Bring:\n- a lamp\n- a bag'],
    ['a note in brackets', 'See [A] below and [2] above.'],
    ['one letter in brackets', 'Plan (A) is a boat, [A] a lamp.'],
  ])('no chords: %s', (_name, text) => {
    const reading = read(text);
    expect(reading.blocks).toEqual([]);
    expect(remarksIn(reading)).toEqual(text.split('\n'));
  });

  test('tab and chords in one text are blocks of their own, in order', () => {
    const reading = read('C   G\nla  la\n\nA|-0-2-3-5-|\nE|---------|\nC|---------|\nG|---------|\n\nF   C\nlo  lo');
    expect(reading.blocks).toEqual([
      { kind: 'progression', name: 'pasted-song' },
      { kind: 'melody', name: 'pasted-tune' },
      { kind: 'progression', name: 'pasted-song-2' },
    ]);
    expect(errorsIn(reading)).toEqual([]);
  });

  test('only what is asked for is read, the rest is kept', () => {
    const text = 'C   G\nla  la\n\nA|-0-2-3-5-|\nE|---------|\nC|---------|\nG|---------|';
    const song = read(text, { as: 'progression' });
    expect(song.blocks.map(({ kind }) => kind)).toEqual(['progression']);
    expect(remarksIn(song)).toEqual(expect.arrayContaining(['A|-0-2-3-5-|', 'G|---------|']));
    const tune = read(text, { as: 'pattern' });
    expect(tune.blocks.map(({ kind }) => kind)).toEqual(['pattern']);
    expect(remarksIn(tune)).toEqual(expect.arrayContaining(['C   G', 'la  la']));
  });
});
