import type { Asked } from './reading.ts';

/** A tab as somebody wrote it, and what it plays: for each bar the count and the place of every note. */
export interface TabText {
  readonly name: string;
  readonly text: string;
  readonly asked?: Asked;
  readonly plays: string;
  /** Remarks that must stand in the reading. */
  readonly remarks?: readonly string[];
  /** True where the text says its rhythm. */
  readonly saysRhythm?: boolean;
}

/** Invented tunes, and beginnings of old ones that belong to nobody; in the ways that mails and comments write tab. */
export const TAB_TEXTS: readonly TabText[] = [
  {
    name: 'case F-1, by columns: 16 columns are 4 beats',
    text: 'A|----0-------3---|\nE|0-------3-------|\nC|----------------|\nG|----------------|',
    plays: '1=2:0 2=1:0 3=2:3 4=1:3',
  },
  {
    name: 'case F-1, equal notes',
    text: 'A|----0-------3---|\nE|0-------3-------|\nC|----------------|\nG|----------------|',
    asked: { rhythm: 'equal' },
    plays: '1=2:0 2=1:0 3=2:3 4=1:3',
  },
  {
    name: 'case F-1, on a count that the teacher gives',
    text: 'A|----0-------3---|\nE|0-------3-------|\nC|----------------|\nG|----------------|',
    asked: { rhythm: '1 & 2 3' },
    plays: '1=2:0 &=1:0 2=2:3 3=1:3',
    saysRhythm: true,
  },
  {
    name: 'case C-16: a fret of two figures is one note, in the column of its first figure',
    text: 'A|--8-10-12-|\nE|--8-------|\nC|----------|\nG|----------|',
    asked: { rhythm: 'equal' },
    plays: '1=2:8+1:8 2=1:10 3=1:12',
  },
  {
    name: 'frets of two figures written as if they took one column',
    text: 'A|-9-10-12-|\nE|-5-7-9-|\nC|-------|\nG|-------|',
    asked: { rhythm: 'equal' },
    plays: '1=2:5+1:9 2=2:7+1:10 3=2:9+1:12',
  },
  {
    name: 'case C-11: hammer-ons and pull-offs that go their own way, and those that do not',
    text: 'A|2h4-4p2-4h2-2p4|\nE|--------------|\nC|--------------|\nG|--------------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:2 &=h4 2=1:4 &=p2 3=1:4 &=p2 4=1:2 &=h4',
    remarks: [
      'Bar 1: string 1: 4h2: from fret 4 to 2 is a pull-off.',
      'Bar 1: string 1: 2p4: from fret 2 to 4 is a hammer-on.',
    ],
  },
  {
    name: 'case C-12: the same fret in parentheses sounds on',
    text: 'A|3-------|(3)-5---|\nE|--------|--------|\nC|--------|--------|\nG|--------|--------|',
    plays: '1=1:3 | 3=1:5',
    remarks: ['Bar 2: string 1: (3) lets the note before it sound on.'],
  },
  {
    name: 'names in small letters, a double bar at the end',
    text: 'a||-0---2---3---5---||\ne||-----------------||\nc||-----------------||\ng||-----------------||',
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'names without a bar line behind them',
    text: 'A --0-2-3-2-0-----\nE ------------3-0-\nC ----------------\nG ----------------',
    plays: '&=1:0 2=1:2 &=1:3 3=1:2 &=1:0 4=2:3 &=2:0',
  },
  {
    name: 'names that touch the dashes',
    text: 'A---0---2---3---5-\nE-----------------\nC-----------------\nG-----------------',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'numbers of strings at the left',
    text: '1|-----0-----2-|\n2|---1-----1---|\n3|-0-----0-----|\n4|-------------|',
    asked: { rhythm: '1 & 2 & 3 &' },
    plays: '1=3:0 &=2:1 2=1:0 &=3:0 3=2:1 &=1:2',
    saysRhythm: true,
  },
  {
    name: 'numbers of strings with the highest on top',
    text: '4|-0-------|\n3|---0-----|\n2|-----0---|\n1|-------3-|',
    asked: { rhythm: 'equal' },
    plays: '1=4:0 2=3:0 3=2:0 4=1:3',
  },
  {
    name: 'nothing at the left',
    text: '|-0---3---|\n|---1-----|\n|---------|\n|-------2-|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=2:1 3=1:3 4=4:2',
  },
  {
    name: 'nothing at the left and no bar lines, and lines that are not equally long',
    text: '--0---2---3---\n------------------\n------\n---------------0--',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=4:0',
    remarks: [
      'Bar 1: line 1 is 4 columns shorter than the others.',
      'Bar 1: line 3 is 12 columns shorter than the others.',
      '---------------0--',
    ],
  },
  {
    name: 'names with octaves',
    text: 'A4|-0-2-|\nE4|-----|\nC4|-----|\nG4|-----|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 3=1:2',
  },
  {
    name: 'doubled strings are named twice',
    text: 'EE|-0-2-3-5-|\nAA|---------|\nDD|---------|\nGG|---------|',
    asked: { on: 'mandolin', rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'quoted in a mail, twice',
    text: '>> A|-3-2-0---|\n>> E|-------3-|\n>> C|---------|\n>> G|---------|\n> thanks!\nsee you',
    asked: { rhythm: 'equal' },
    plays: '1=1:3 2=1:2 3=1:0 4=2:3',
    remarks: ['thanks!', 'see you'],
  },
  {
    name: 'quoted with bar lines at the margin',
    text: '| A|-3-2-0---|\n| E|-------3-|\n| C|---------|\n| G|---------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:3 2=1:2 3=1:0 4=2:3',
  },
  {
    name: 'as remarks of a lesson',
    text: '// A|-3-2-0---|\n// E|-------3-|\n// C|---------|\n// G|---------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:3 2=1:2 3=1:0 4=2:3',
  },
  {
    name: 'long dashes, blanks that do not break, and signs without width',
    text: 'A\u00a0|–0–2–3–5–|\nE\u00a0|—————————|\nC\u200b |‑‑‑‑‑‑‑‑‑|\nG\u00a0|−−−−−−−−−|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'tab stops before the strings, and line ends of another system',
    text: '\tA|-0-2-3-5-|\r\n\tE|---------|\r\n\tC|---------|\r\n\tG|---------|\r\n',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'drawn with the signs of tables',
    text: 'A│─0─2─3─5─│\nE│─────────│\nC│─────────│\nG│─────────│',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'blanks instead of dashes',
    text: 'A| 0   3   |\nE|   1     |\nC|         |\nG|       2 |',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=2:1 3=1:3 4=4:2',
  },
  {
    name: 'an empty line between the strings',
    text: 'A|-0-2-3-5-|\n\nE|---------|\n\nC|---------|\n\nG|---------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'systems that follow each other without a gap',
    text: 'A|-0-2-3-5-|\nE|---------|\nC|---------|\nG|---------|\nA|-5-3-2-0-|\nE|---------|\nC|---------|\nG|---------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5\n1=1:5 2=1:3 3=1:2 4=1:0',
  },
  {
    name: 'wrapped lines with words between them',
    text: 'part one\nA|-0-2-3-5-|\nE|---------|\nC|---------|\nG|---------|\nand then\nA|-5-3-2-0-|\nE|---------|\nC|---------|\nG|---------|\nthe end',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5\n1=1:5 2=1:3 3=1:2 4=1:0',
    remarks: ['part one', 'and then', 'the end'],
  },
  {
    name: 'a count above, with eighths',
    text: '  1 & 2 & 3 & 4 &\nA|0---3---5-7-----|\nE|----------------|\nC|----------------|\nG|0-------2-------|',
    plays: '1=4:0+1:0 2=1:3 3=4:2+1:5 &=1:7',
    saysRhythm: true,
  },
  {
    name: 'a count below, run together, in three',
    text: 'A|-0---2-|\nE|---0---|\nC|-------|\nG|-------|\n   1+2+3+',
    plays: '1=1:0 2=2:0 3=1:2',
    saysRhythm: true,
  },
  {
    name: 'a count over two bars with a pickup',
    text: '   4   1   2   3   4\nA|-0-|-3---2---0---2-|\nE|---|---------------|\nC|---|---------------|\nG|---|---------------|',
    plays: '4=1:0 | 1=1:3 2=1:2 3=1:0 4=1:2',
    saysRhythm: true,
  },
  {
    name: 'sixteenths under a count of quarters',
    text: '  1   2   3   4\nA|0-2-3-5-7---5---|\nE|----------------|\nC|----------------|\nG|----------------|',
    plays: '1=1:0 &=1:2 2=1:3 &=1:5 3=1:7 4=1:5',
    saysRhythm: true,
  },
  {
    name: 'thirds over two counts, said as a range',
    text: '  1-2 la  li  3   4\nA|0---2---3---5---7---|\nE|--------------------|\nC|--------------------|\nG|--------------------|',
    plays: '1=1:0 li=1:2 la=1:3 3=1:5 4=1:7',
    saysRhythm: true,
  },
  {
    name: 'letters for the rhythm',
    text: '   q   q   e e q\nA|-0---2---3-2-0---|\nE|-----------------|\nC|-----------------|\nG|-----------------|',
    plays: '1=1:0 2=1:2 3=1:3 &=1:2 4=1:0',
    saysRhythm: true,
  },
  {
    name: 'letters that do not add up are kept, and the rhythm is asked for',
    text: '   q   q   h         q   h   w\nA|-0---2---3-2-0---|-0---2---3-|-0---|\nE|-----------------|-----------|-----|\nC|-----------------|-----------|-----|\nG|-----------------|-----------|-----|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 &=1:2 2=1:3 &=1:2 3=1:0 | 1=1:0 2=1:2 3=1:3 | 1=1:0',
    remarks: ['   q   q   h         q   h   w'],
  },
  {
    name: 'slides, bends, vibrato, a trill and harmonics',
    text: 'A|-5/7-7\\5-7b9r7-5~~-|\nE|-----------------|\nC|-5t7-------------|\nG|-<12>-----12*----|',
    asked: { rhythm: 'equal' },
    plays: '1=3:5t7|1:5 &=4:12* 2=s7 &=1:7 3=s5 &=1:7b 4=4:12* &=1:5v',
    remarks: ['Bar 1: string 1: 7b9r7 is written as a bend.'],
  },
  {
    name: 'damped strings',
    text: 'A|-x-0-x-3-|\nE|-x---x---|\nC|-x-------|\nG|-x-------|',
    asked: { rhythm: 'equal' },
    plays: '1=Dx 2=1:0 3=D21x 4=1:3',
  },
  {
    name: 'a hammer-on while another string is struck gets a voice of its own',
    text: 'A|-0-h2-0-|\nE|---3----|\nC|--------|\nG|--------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=2:3 3=h2 4=1:0',
  },
  {
    name: 'repeats with dots on the middle lines, and how often',
    text: 'A||--0-2-3-5--||  x3\nE||*---------*||\nC||*---------*||\nG||-----------||',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'repeats with colons over two bars',
    text: 'A|:-0-2-3-5-|-5-3-2-0-:|-0-|\nE|:---------|---------:|---|\nC|:---------|---------:|---|\nG|:---------|---------:|---|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5 | 1=1:5 2=1:3 3=1:2 4=1:0 :| 1=1:0',
  },
  {
    name: 'guitar, with small and large letters',
    text: 'e|-------0-------|\nB|-----1---1-----|\nG|---0-------0---|\nD|---------------|\nA|-3-------------|\nE|---------------|',
    asked: { on: 'guitar', rhythm: '1 & 2 & 3 &' },
    plays: '1=5:3 &=3:0 2=2:1 &=1:0 3=2:1 &=3:0',
    saysRhythm: true,
  },
  {
    name: 'seven strings',
    text: Array.from({ length: 7 }, (_, string) => (string === 6 ? '|-0---7---|' : '|---3-----|')).join('\n'),
    asked: { on: 'tuned B1 E2 A2 D3 G3 B3 E4', rhythm: 'equal' },
    plays: '1=7:0 2=6:3+5:3+4:3+3:3+2:3+1:3 3=7:7',
  },
  {
    name: 'an instrument tuned otherwise than the lesson’s',
    text: 'E|-0-2-3-5-|\nB|---------|\nG|---------|\nD|---------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
    remarks: ['The text is for strings tuned D G B E; tenor ukulele, high G has G C E A. Frets are as in the text.'],
  },
  {
    name: 'the lowest string on top',
    text: 'G|-0-------|\nC|---0-----|\nE|-----0---|\nA|-------3-|',
    asked: { rhythm: 'equal' },
    plays: '1=4:0 2=3:0 3=2:0 4=1:3',
    remarks: ['The text has the highest-numbered string on top; it is read so.'],
  },
  {
    name: 'a picking pattern of crosses',
    text: 'A|-------x-------x|\nE|---x-------x----|\nC|-----x-------x--|\nG|x-------x-------|',
    asked: { rhythm: 'equal' },
    plays: '1=4 &=2 2=3 &=1 3=4 &=2 4=3 &=1',
  },
  {
    name: 'a picking pattern with fingers',
    text: 'A|-------m-------m|\nE|-----i-------i--|\nC|---p-------p----|\nG|p-------p-------|',
    asked: { rhythm: 'equal' },
    plays: '1=4p &=3p 2=2i &=1m 3=4p &=3p 4=2i &=1m',
  },
  {
    name: 'picked shapes under names of chords become a pattern',
    text: '  Am              F\nA|------0-------0-|------0-------0-|\nE|----0-------0---|----1-------1---|\nC|--0-------0-----|--0-------0-----|\nG|2-------2-------|2-------2-------|',
    plays: '1=4:2 &=3:0 2=2:0 &=1:0 3=4:2 &=3:0 4=2:0 &=1:0 | 1=4:2 &=3:0 2=2:1 &=1:0 3=4:2 &=3:0 4=2:1 &=1:0',
  },
  {
    name: 'a line with a sign that nobody knows',
    text: 'A|-0-2-k-3-5-|\nE|-----------|\nC|-----------|\nG|-----------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
    remarks: ['Bar 1: string 1: k is not understood.'],
  },
  {
    name: 'a waltz that says its meter',
    text: 'Time: 3/4\nA|-0---2---3---|-2---------|\nE|-------------|-----------|\nC|-------------|-----------|\nG|-------------|-----------|',
    asked: { rhythm: 'equal' },
    plays: '1=1:0 2=1:2 3=1:3 | 1=1:2',
    remarks: ['Time: 3/4'],
  },
  {
    name: 'Brother Jacques, an old round, by columns with a column of room',
    text: 'A|-----0-------|-----0-------|-0---1---3-----|-0---1---3-----|\nE|---3---1-----|---3---1-----|---------------|---------------|\nC|-------------|-------------|---------------|---------------|\nG|-------------|-------------|---------------|---------------|',
    asked: { rhythm: 'equal' },
    plays: '1=2:3 2=1:0 3=2:1 | 1=2:3 2=1:0 3=2:1 | 1=1:0 2=1:1 3=1:3 | 1=1:0 2=1:1 3=1:3',
  },
  {
    name: 'a count under the tab whose words stand a column to the left of their notes, then one to the right',
    text: 'A|-----0-----|-----3-----|\nE|---1---1---|---0---0---|\nC|-0-------0-|-0-------0-|\nG|-0---------|-3---------|\n  1 & 2 & 3 &   1 & 2 & 3 &',
    asked: { meter: '3/4' },
    plays: '1=4:0+3:0 &=2:1 2=1:0 &=2:1 3=3:0 | 1=4:3+3:0 &=2:0 2=1:3 &=2:0 3=3:0',
    saysRhythm: true,
  },
  {
    name: 'letters of note values that all stand a column to the left',
    text: '  q  e e  q  q\nA|-0--2-3--5--3-|\nE|--------------|\nC|--------------|\nG|-0------------|',
    plays: '1=4:0+1:0 2=1:2 &=1:3 3=1:5 4=1:3',
    saysRhythm: true,
  },
  {
    name: 'numbers of bars above are no count',
    text: '  5                 6\nA|-0---2---3---5---|-5---3---2---0---|\nE|-----------------|-----------------|\nC|-----------------|-----------------|\nG|-----------------|-----------------|',
    plays: '1=1:0 2=1:2 3=1:3 4=1:5 | 1=1:5 2=1:3 3=1:2 4=1:0',
    remarks: ['  5                 6'],
  },
  {
    name: 'tab stops and other blanks behind the first bar line',
    text: 'A|\t-0---2---3---5---|\nE|\t-----------------|\nC|\u00a0-----------------|\nG|   -----------------|',
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
  },
  {
    name: 'signs for the right hand and for damping, on lines of their own',
    text: 'pm-----------|\nA|-0---2---3---5---|\nE|-----------------|\nC|-----------------|\nG|-----------------|\n  let ring------|\n   v   v   ^   v',
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
    remarks: ['pm-----------|', '  let ring------|', '   v   v   ^   v'],
  },
  {
    name: 'a lone bar line above and below',
    text: '|\nA|-0---2---3---5---|\nE|-----------------|\nC|-----------------|\nG|-----------------|\n|',
    plays: '1=1:0 2=1:2 3=1:3 4=1:5',
    remarks: ['|'],
  },
  {
    name: 'chords of six strings are no longer bar than single notes',
    text: ['e', 'B', 'G', 'D', 'A', 'E'].map((name) => `${name}|-0-2-3-5-|`).join('\n'),
    asked: { on: 'guitar' },
    plays: [0, 2, 3, 5]
      .map((fret, at) => `${at + 1}=${[6, 5, 4, 3, 2, 1].map((string) => `${string}:${fret}`).join('+')}`)
      .join(' '),
  },
];
