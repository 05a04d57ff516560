import type { Statement } from './statement.ts';

/** Where a keyword may stand: at the left margin, or indented under a statement of this kind. */
export type Block = 'lesson' | 'progression' | 'pattern' | 'melody' | 'exercise' | 'family' | 'edition';

export interface Keyword {
  readonly word: string;
  readonly says: string;
  /** A line or block that shows it. */
  readonly example: string;
}

const TEMPO: Keyword = {
  word: 'tempo',
  says: 'Beats a minute: where to start, where to arrive, in what steps.',
  example: 'tempo  60 to 92 by 4',
};
const METER: Keyword = {
  word: 'meter',
  says: 'How many counts a bar has, and which note value is one count.',
  example: 'meter  6/8',
};
const RING: Keyword = {
  word: 'ring',
  says: 'Which strings must sound on: all, none, or their numbers. The check says where one is stopped.',
  example: 'ring  1 2',
};
const GRID_ROWS: readonly Keyword[] = [
  {
    word: 'count',
    says: 'What you say aloud. Numbers are counts; what stands between two numbers splits that count evenly.',
    example: 'count  1 & 2 & 3 & 4 &',
  },
  {
    word: 'pick',
    says: 'Which string is plucked by which finger: string, finger, or both. `.` lets the sound go on.',
    example: 'pick   4p 2i 3p 1m 4p 2i 3p 1m',
  },
  { word: 'strum', says: 'Strokes: D down, U up, ~ slowly, x damped, chunk, roll.', example: 'strum  D . D U . U D U' },
  {
    word: 'hit',
    says: 'Hits: thumb4 slaps string 4 and damps the chord; palm, nails, body.',
    example: 'hit    . . thumb4 . . . thumb4 .',
  },
  {
    word: 'fingers',
    says: 'Left-hand fingers for the row above: 1 to 4, 0 open, T thumb.',
    example: 'fingers  1 . 3 .',
  },
  {
    word: 'chord',
    says: 'Chord changes on the grid, for a push ahead of the beat.',
    example: 'chord  . . . . . . . C',
  },
  { word: 'words', says: 'One syllable a column.', example: 'words  Lan- . terns .' },
  { word: 'say', says: 'What the teacher calls out, column by column.', example: 'say    down . down up' },
  {
    word: 'like',
    says: 'Takes another pattern’s rows; `=` keeps its mark, any other mark replaces it.',
    example: 'like   roll',
  },
  { word: 'plant', says: 'Which string each right-hand finger rests on.', example: 'plant  p4 i3 m2 a1' },
  RING,
  METER,
];

/** Every keyword of the language, with what it does. The reference, the completion list and the hover card all read this. */
export const KEYWORDS: Readonly<Record<Block, readonly Keyword[]>> = {
  lesson: [
    { word: 'lesson', says: 'The title of the lesson.', example: 'lesson  Paper Lanterns' },
    { word: 'by', says: 'Who teaches it.', example: 'by  Ada Fenn' },
    { word: 'for', says: 'The instrument, its tuning, a capo.', example: 'for  tenor ukulele, high G' },
    {
      word: 'also',
      says: 'A further edition, for another instrument: with the same shapes, or in the same key.',
      example: 'also  baritone ukulele, same shapes, called bari',
    },
    { word: 'key', says: 'The key of the shapes that the hand holds.', example: 'key  E minor' },
    METER,
    { word: 'feel', says: 'straight or swing: written even, played long and short.', example: 'feel  swing' },
    TEMPO,
    { word: 'level', says: 'How hard the lesson is, 0 to 10; words may follow.', example: 'level  2 second term' },
    {
      word: 'hand',
      says: 'Whose hand reaches are checked for: small, medium, large, child, or millimetres.',
      example: 'hand  small',
    },
    { word: 'dated', says: 'The date or edition of the sheet, printed on it.', example: 'dated  3 March' },
    {
      word: 'corrected',
      says: 'What was mended after the sheet was handed out, printed on it.',
      example: 'corrected  bar 7 of Plucked: was F, is G7',
    },
    {
      word: 'language',
      says: 'Which language you write in, by its tag, so that a voice that reads the sheet aloud speaks it.',
      example: 'language  pt-BR',
    },
    { word: 'part', says: 'A heading.', example: 'part  Second week' },
    { word: 'page', says: 'The next page starts here.', example: 'page' },
    { word: 'show', says: 'Prints chords, patterns or progressions here.', example: 'show  Em C roll' },
    {
      word: 'chord',
      says: 'A chord and the shape it is held in, frets from the highest-numbered string to string 1.',
      example: 'chord  Em  0-4-3-2  fingers 0-3-2-1',
    },
    {
      word: 'progression',
      says: 'Chords in bars.',
      example: 'progression  verse\n  |: Em | C | G | 1st D :| 2nd D ||',
    },
    {
      word: 'pattern',
      says: 'What the right hand does, on a count.',
      example: 'pattern  roll\n  count  1  &  2  &  3  &  4  &\n  pick   4p 2i 3p 1m 4p 2i 3p 1m',
    },
    {
      word: 'melody',
      says: 'A tune over chords, or free, on a count.',
      example: 'melody  climb\n  count  1   &  2   &  3   &  4  &\n  C      3:0 .  2:0 .  1:3 .  .  .',
    },
    {
      word: 'exercise',
      says: 'Something to practise: a progression filled with patterns, or chords one by one.',
      example: 'exercise  Roll the changes\n  play  verse\n  with  roll',
    },
    {
      word: 'family',
      says: 'Asks for the same chords in shapes that look alike and walk along the neck.',
      example: 'family  drone\n  from  verse\n  ring  1 2',
    },
    { word: 'edition', says: 'What must differ on one edition.', example: 'edition  bari\n  chord  G as D  0-2-3-2' },
  ],
  progression: [
    {
      word: 'words',
      says: 'Syllables under the line of bars above, shared out by its bars. words 2 is the second verse.',
      example: 'words  Lan-terns go down | to the wa-ter',
    },
    { word: 'count', says: 'The count on which the music starts: a pickup.', example: 'count  4' },
  ],
  pattern: GRID_ROWS,
  melody: [
    ...GRID_ROWS,
    { word: 'tune', says: 'A row of notes that goes over any chord.', example: 'tune   1:5 . 1:7 .' },
    { word: 'inside', says: 'Asks for a tune inside the shapes of a progression.', example: 'inside  verse' },
    { word: 'rise', says: 'The tune that is asked for rises.', example: 'rise' },
    { word: 'fall', says: 'The tune that is asked for falls.', example: 'fall' },
    { word: 'arch', says: 'The tune that is asked for rises, then falls.', example: 'arch' },
    { word: 'answer', says: 'The tune that is asked for calls, then answers.', example: 'answer' },
  ],
  exercise: [
    { word: 'play', says: 'Progressions, with their own bars.', example: 'play  verse' },
    {
      word: 'with',
      says: 'Patterns that fill the bars, one after another. A second line is the second time through.',
      example: 'with  roll',
    },
    { word: 'over', says: 'Chords one by one, or a progression’s chords.', example: 'over  D(add9), C6' },
    { word: 'each', says: 'What every chord of `over` gets.', example: 'each  roll x2, climb' },
    { word: 'at', says: 'Another pattern in single bars or endings.', example: 'at bar 4 8  roll-end' },
    {
      word: 'restart',
      says: 'Patterns begin again at each chord, or each bar, instead of running on.',
      example: 'restart  chord',
    },
    TEMPO,
    { word: 'repeat', says: 'How often to play it.', example: 'repeat  2' },
    { word: 'minutes', says: 'How long to practise it.', example: 'minutes  5' },
    { word: 'aim', says: 'One line: what it is for.', example: 'aim  Even thumbs' },
    METER,
    RING,
    { word: 'video', says: 'Where in the video it is shown.', example: 'video  3:25' },
  ],
  family: [
    { word: 'from', says: 'The progression to find shapes for.', example: 'from  verse' },
    RING,
    { word: 'within', says: 'The frets to stay in.', example: 'within  0 to 10' },
    { word: 'allow', says: 'What may be added to a chord.', example: 'allow  add9 6 maj7' },
    { word: 'keep', says: 'Pins a chord to a shape.', example: 'keep  D 7-6-0-0' },
  ],
  edition: [
    { word: 'chord', says: 'Another shape, or another name, on this edition.', example: 'chord  G as D  0-2-3-2' },
    { word: 'pattern', says: 'Another pattern on this edition.', example: 'pattern  roll\n    pick  4p 3i 2m 1a' },
    { word: 'melody', says: 'Another melody on this edition.', example: 'melody  climb\n    tune  1:5 . 1:7 .' },
    { word: 'capo', says: 'A capo on this edition.', example: 'capo  2' },
  ],
};

/** Whose keywords the indented lines of a statement are. */
export function blockOf(statement: Statement): Block {
  switch (statement.kind) {
    case 'progression':
    case 'pattern':
    case 'melody':
    case 'exercise':
    case 'family':
    case 'edition':
      return statement.kind;
    default:
      return 'lesson';
  }
}
