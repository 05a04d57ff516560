/** A slip that a lesson may have, and what is to be said about it. */
export interface Slip {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'notice' | 'hint';
  /** A lesson in which ⟦ ⟧ stand round what must be marked. */
  readonly lesson: string;
  /** The lesson after each fix that is offered. */
  readonly fixed: readonly string[];
  /** A lesson as close to the slip as can be that is in order. */
  readonly clean: string;
  /** The further edition that the problem names. */
  readonly edition?: string;
}

type Row = readonly [said: `${Slip['severity']} ${string}`, lesson: string, clean: string, ...fixed: string[]];

const FOUR = 'progression v\n  | C | F | G7 | C |\n';
const ROLL = 'pattern r\n  count 1 2 3 4\n  pick 4p 3i 2m 1a\n';
const SHAPES = 'chord C 0-0-0-3\nchord F 2-0-1-0\nchord G7 0-2-1-2\n';
/** What the exercises of the table play. */
const BASE = `${SHAPES}${FOUR}${ROLL}`;

/** A pattern of two bars, and a tune of two that come round. */
const TWO_BARS =
  'pattern s\n  count 1 2 3 4 | 1 2 3 4\n  strum D D D D D D D D\nmelody m\n  count |: 1-2 3-4 | 1-2 3-4 :|\n  tune 1:3 1:0 1:0 1:3\n';

/** From the third fret to the twelfth in an eighth. */
const JUMP =
  'chord C 5-4-3-3\nchord F 14-12-13-12\nprogression v\n  | C F |\npattern r\n  count 1 & 2 & 3 & 4 &\n  pick 4 3 2 1 4 3 2 1\n';

/** Wrong or missing words in the header, and lines that stand where they mean nothing. */
const HEADER: readonly Row[] = [
  ['hint lesson.empty', 'lesson⟦⟧', 'lesson Lamps'],
  ['hint by.empty', 'by⟦⟧', 'by Ada'],
  ['hint dated.empty', 'dated⟦⟧', 'dated 3 March'],
  ['hint part.empty', 'part⟦⟧', 'part Two'],
  ['hint for.empty', 'for⟦⟧', 'for guitar'],
  ['hint also.empty', 'also⟦⟧', 'also guitar'],
  ['hint key.empty', 'key⟦⟧', 'key C'],
  ['hint hand.empty', 'hand⟦⟧', 'hand small'],
  ['hint language.empty', 'language⟦⟧', 'language de'],
  ['hint meter.empty', 'meter⟦⟧', 'meter 3/4'],
  ['hint feel.empty', 'feel⟦⟧', 'feel swing'],
  ['hint tempo.empty', 'tempo⟦⟧', 'tempo 80'],
  ['hint level.empty', 'level⟦⟧', 'level 2'],
  ['warning header.twice', 'key C\n⟦key G⟧', 'key C\npart Two\nmeter 3/4'],
  ['error meter.unreadable', 'meter ⟦4/5⟧', 'meter 5/4'],
  ['error feel.unreadable', 'feel ⟦swing 1 to 2⟧', 'feel swing 2 to 1'],
  ['error tempo.unreadable', 'tempo ⟦10⟧', 'tempo 20'],
  ['error level.unreadable', 'level ⟦11⟧', 'level 10 end of term'],
  ['error language.unreadable', 'language ⟦pt_BR⟧', 'language PT-br', 'language pt-BR'],
  ['hint page.value', 'page ⟦two⟧', 'page'],
  ['error key.unreadable', 'key ⟦e minor⟧', 'key E minor', 'key E minor'],
  // The German names of notes, common practice, no source.
  ['error key.unreadable', 'key ⟦H major⟧', 'key B major', 'key B major'],
  ['error key.unreadable', 'key ⟦Hm⟧', 'key B minor', 'key Bm'],
  ['error tempo.unreadable', 'tempo ⟦60-76⟧', 'tempo 60 to 76', 'tempo 60 to 76'],
  ['error tempo.unreadable', 'tempo ⟦60 – 76 by 4⟧', 'tempo 60 to 76 by 4', 'tempo 60 to 76 by 4'],
  ['error key.no-such-scale', 'key E ⟦minr⟧', 'key E min', 'key E minor'],
  ['error key.too-many-signs', 'key ⟦G# major⟧', 'key C# major', 'key Ab major'],
  ['error hand.unreadable', 'hand ⟦huge⟧', 'hand 205 mm'],
  ['error instrument.unknown', 'for ⟦tenor ukelele⟧, low G', 'for tenor ukulele', 'for tenor ukulele, low G'],
  [
    'error instrument.unknown-tuning',
    'for tenor ukulele, ⟦lowe G⟧',
    'for tenor ukulele, low G',
    'for tenor ukulele, low G',
  ],
  ['error instrument.string-count', 'for ⟦tuned G4 C4 E4⟧ frets 12', 'for tuned G4 C4 E4 A4 frets 12'],
  ['error instrument.length', 'for tenor ukulele ⟦scale 9 mm⟧', 'for tenor ukulele scale 430 mm'],
  ['error instrument.number', 'for tenor ukulele ⟦capo 40⟧', 'for tenor ukulele capo 4'],
  ['error instrument.without-strings', 'for ⟦scale 430 mm⟧', 'for tuned G4 C4 E4 A4 scale 430 mm'],
  ['error instrument.capo-beyond-neck', 'for ⟦tenor ukulele frets 12 capo 13⟧', 'for tenor ukulele frets 12 capo 5'],
  ['error pitch.no-such-octave', 'for tuned G4 ⟦C44⟧ E4 A4', 'for tuned G4 C4 E4 A4'],
  ['error pitch.without-octave', 'for tuned G4 ⟦C⟧ E4 A4', 'for tuned G4 C4 E4 A4'],
  ['error note.unreadable', 'for tuned G4 ⟦H4⟧ E4 A4', 'for tuned G4 B4 E4 A4'],
  ['error line.orphan', '  ⟦strum D⟧', 'pattern r\n  strum D D D D'],
  ['error line.too-deep', 'key C\n  ⟦strum D⟧', 'key C\npattern r\n  strum D D D D'],
  ['hint prose.place', 'key C\n⟦  > Softly.⟧', 'key C\n> Softly.'],
  ['error keyword.place', '⟦strum⟧ D', 'pattern r\n  strum D D D D'],
  ['error keyword.place', 'pattern r\n  strum D D D D\n  ⟦key⟧ C', 'pattern r\n  strum D D D D\nkey C'],
  ['error keyword.unknown', '⟦patern⟧ r\n  strum D D D D', 'pattern r\n  strum D D D D', 'pattern r\n  strum D D D D'],
  ['error keyword.place', 'melody m\n  ⟦over⟧ verse', 'melody m\n  tune 1:0 . . .'],
  ['error keyword.half-typed', '⟦les⟧', 'lesson Lamps', 'lesson'],
  ['error keyword.half-typed', '⟦pat⟧', 'pattern r\n  strum D D D D', 'pattern'],
  [
    'error keyword.half-typed',
    `${BASE}exercise e\n  play v\n  ⟦wi⟧`,
    `${BASE}exercise e\n  play v\n  with r`,
    `${BASE}exercise e\n  play v\n  with`,
  ],
  ['error keyword.unknown', '⟦pat⟧ r\n  strum D D D D', 'pattern r\n  strum D D D D', 'pattern r\n  strum D D D D'],
  ['error keyword.missing', '⟦verse | C | F |⟧', 'progression verse | C | F |', 'progression  verse | C | F |'],
  ['error keyword.missing', '⟦|: C | F :|⟧', 'progression verse\n  |: C | F :|', 'progression\n  |: C | F :|'],
  ['error keyword.missing', '⟦Em 0-4-3-2⟧', 'chord Em 0-4-3-2', 'chord  Em 0-4-3-2'],
  ['error keyword.missing', '⟦tenor ukulele, low G⟧', 'for tenor ukulele, low G', 'for  tenor ukulele, low G'],
  ['error prose.sign', '⟦Welcome to the class!⟧', '> Welcome to the class!', '> Welcome to the class!'],
  [
    'error prose.sign',
    'progression v\n  | C |\n  ⟦Play it slowly.⟧',
    'progression v\n  | C |\n  > Play it slowly.',
    'progression v\n  | C |\n  > Play it slowly.',
  ],
  ['error keyword.unknown', '⟦zither⟧', '> zither', '> zither'],
  ['error capo.place', '⟦capo 2⟧\nfor guitar', 'for guitar, capo 2', 'for guitar, capo 2'],
  ['error capo.place', 'for guitar, capo 1\n⟦capo 2⟧\nkey C', 'for guitar, capo 2\nkey C', 'for guitar, capo 2\nkey C'],
  ['error capo.place', '⟦capo 2⟧', 'for  guitar, capo 2', 'for  tenor ukulele, high G, capo 2'],
  ['error capo.place', 'for guitar\n  ⟦capo 2⟧', 'for guitar, capo 2', 'for guitar, capo 2'],
  ['error also.half-typed', 'also guitar, same k⟦⟧', 'also guitar, same key'],
  ['hint keyword.case', '⟦Key⟧ C', 'key C', 'key C'],
  ['hint mention.unknown', '> Play ⟦@rol⟧ now.', '> Play @Em now, or write to ada@fenn.example.'],
  [
    'error edition.unknown',
    'also guitar, called six\nedition ⟦sixx⟧\n  capo 2',
    'also guitar, called six\nedition six\n  capo 2',
    'also guitar, called six\nedition six\n  capo 2',
  ],
  ['error edition.unknown', 'edition ⟦six⟧\n  capo 2', 'also guitar, called six\nedition six\n  capo 2'],
  [
    'error capo.beyond-neck',
    'also guitar, called six\nedition six\n  ⟦capo 40⟧',
    'also guitar, called six\nedition six\n  capo 4',
  ],
  [
    'error shape.too-many-frets',
    'also guitar, called six\nedition six\n  chord G  ⟦3-2-0-0-0-3-3⟧',
    'also guitar, called six\nedition six\n  chord G  3-2-0-0-0-3',
  ],
  [
    'warning edition.hard-to-hold',
    'hand child\nalso ⟦guitar⟧, same key\nprogression v\n  | F#m |',
    'also guitar, same key\nprogression v\n  | F#m |',
  ],
  ['hint edition.no-name', 'edition⟦⟧', 'also guitar, called six\nedition six'],
  [
    'hint capo.empty',
    'also guitar, called six\nedition six\n  capo⟦⟧',
    'also guitar, called six\nedition six\n  capo 1',
  ],
  [
    'error capo.unreadable',
    'also guitar, called six\nedition six\n  ⟦capo two⟧',
    'also guitar, called six\nedition six\n  capo 2',
  ],
  [
    'error line.too-deep',
    'also guitar, called six\nedition six\n  capo 2\n    ⟦strum D⟧',
    'also guitar, called six\nedition six\n  capo 2\n  pattern r\n    strum D D D D',
  ],
];

/** Chord names, shapes, fingers and reach. */
const CHORDS: readonly Row[] = [
  ['hint chord.no-name', '⟦chord⟧', 'chord Em 0-4-3-2'],
  ['hint chord.no-frets', 'chord ⟦Em⟧', 'chord Em 0-4-3-2'],
  ['error chord.half-typed', 'chord ⟦G/⟧', 'chord G/B 4-2-3-2'],
  ['error chord.half-typed', 'chord ⟦C(⟧', 'chord C(add9) 0-2-0-3'],
  ['error chord.half-typed', 'progression v\n  | C | ⟦Csu⟧', 'progression v\n  | C | Csus4'],
  ['hint keyword.half-typed', 'chord C 0-0-0-3 ⟦fing⟧', 'chord C 0-0-0-3', 'chord C 0-0-0-3 fingers'],
  [
    'hint keyword.half-typed',
    'also guitar, called six\nedition six\n  chord G ⟦a⟧',
    'also guitar, called six\nedition six\n  chord G 3-2-0-0-0-3',
    'also guitar, called six\nedition six\n  chord G as',
  ],
  [
    'hint as.empty',
    'also guitar, called six\nedition six\n  chord G as⟦⟧',
    'also guitar, called six\nedition six\n  chord G as D x-x-0-2-3-2',
  ],
  ['error chord.unknown-word', 'chord C 0003 ⟦twice⟧', 'chord C 0003'],
  [
    'error chord.unknown-word',
    'chord C 0003 ⟦finger⟧ 0-0-0-3',
    'chord C 0003 fingers 0-0-0-3',
    'chord C 0003 fingers 0-0-0-3',
  ],
  ['error chord.none', 'chord ⟦NC⟧ 0-0-0-3', 'chord C 0-0-0-3'],
  ['error chord.without-root', 'chord ⟦roll⟧ 0-0-0-3', 'chord C 0-0-0-3'],
  ['error bar.number', 'progression v\n  | ⟦(3)⟧ C | G |', 'progression v\n  count 4\n  | C | G |'],
  ['error chord.small-letter', 'chord ⟦em⟧ 0-4-3-2', 'chord Em 0-4-3-2', 'chord Em 0-4-3-2'],
  ['error chord.german-letter', 'chord ⟦H7⟧ 2-3-2-2', 'chord B7 2-3-2-2', 'chord B7 2-3-2-2'],
  ['error chord.two-readings', 'chord ⟦C2⟧ 0-2-3-3', 'chord Csus2 0-2-3-3', 'chord Csus2 0-2-3-3'],
  ['error chord.two-readings', 'chord ⟦C+9⟧ 0-2-0-3', 'chord C(add9) 0-2-0-3', 'chord C9#5 0-2-0-3'],
  ['error chord.four-alone', 'chord C⟦4⟧ 0-0-1-3', 'chord Csus4 0-0-1-3', 'chord Csus4 0-0-1-3'],
  ['error chord.open-bracket', 'chord C⟦(add9⟧ 0-2-0-3', 'chord C(add9) 0-2-0-3', 'chord C(add9) 0-2-0-3'],
  ['error chord.nothing-left-out', 'chord C⟦(no7)⟧ 0-0-0-3', 'chord C(no5) 5-4-0-3'],
  ['error chord.unreadable', 'chord C⟦qq⟧ 0-0-0-3', 'chord C 0-0-0-3'],
  ['error chord.bass-unreadable', 'chord G/⟦H⟧ 0-2-3-2', 'chord G/D 0-2-3-2', 'chord G/B 0-2-3-2'],
  [
    'warning chord.twice',
    'chord Em 0-4-3-2\nchord ⟦Em⟧ 4-4-3-2',
    'chord Em 0-4-3-2\nchord Em.full 4-4-3-2',
    'chord Em 0-4-3-2\nchord Em.2 4-4-3-2',
  ],
  [
    'warning chord.name',
    'chord ⟦F6⟧ 0-5-5-0\nprogression v\n  | F6 |',
    'chord F(add9) 0-5-5-0\nprogression v\n  | F(add9) |',
    'chord F(add9) 0-5-5-0\nprogression v\n  | F(add9) |',
  ],
  ['warning chord.name', 'chord ⟦F6⟧.low 0-5-5-0', 'chord F(add9).low 0-5-5-0', 'chord F(add9).low 0-5-5-0'],
  ['notice chord.added-tone', 'chord ⟦G⟧ 2-2-3-2', 'chord G 4-2-3-2', 'chord G(add9) 2-2-3-2'],
  ['hint chord.incomplete', 'chord ⟦D7⟧ 2-0-2-0', 'chord D7 2-2-2-3'],
  ['error shape.too-few-frets', 'chord Em ⟦0-4⟧', 'chord Em 0-4-3-2'],
  ['error shape.too-many-frets', 'chord G7 ⟦3-2-0-0-0-1⟧', 'for guitar\nchord G7 3-2-0-0-0-1'],
  ['error shape.too-many-frets', 'chord C 0-0-0-3-0-0-0-3-⟦0⟧', 'chord C 0-0-0-3'],
  ['error shape.fret-beyond-neck', 'chord C 0-0-0-⟦30⟧', 'chord C 0-0-0-15'],
  ['error shape.no-such-fret', 'chord C 0-0-0-⟦99⟧', 'chord C 0-0-0-3'],
  ['error shape.unreadable-fret', 'chord C 0-0-⟦z⟧-3', 'chord C x-0-0-3'],
  ['error shape.unreadable-fret', 'chord Am 2-0-0-⟦O⟧', 'chord Am 2-0-0-0', 'chord Am 2-0-0-0'],
  ['error shape.unreadable-fret', 'chord Bb 3 2 1 ⟦l⟧', 'chord Bb 3 2 1 1', 'chord Bb 3 2 1 1'],
  [
    'notice chord.bass',
    'for guitar\nchord ⟦G/B⟧ 3-2-0-0-0-3',
    'for guitar\nchord G/B x-2-0-0-0-3',
    'for guitar\nchord G/B x-2-0-0-0-3',
  ],
  ['notice chord.bass', 'chord ⟦G/F⟧ 0-2-3-2 fingers 0-1-3-2', 'chord G 0-2-3-2'],
  ['hint chord.bass', 'chord ⟦G/B⟧ 4-2-3-2 fingers 4-1-3-2', 'chord G 4-2-3-2'],
  ['error chord.apart', 'chord ⟦E min⟧ 0-4-3-2', 'chord Emin 0-4-3-2', 'chord Emin 0-4-3-2'],
  ['error chord.apart', 'chord ⟦C maj 7⟧ 0-0-0-2', 'chord Cmaj7 0-0-0-2', 'chord Cmaj7 0-0-0-2'],
  ['error chord.unreadable', 'chord ⟦Amm⟧ 2-0-0-0', 'chord Am 2-0-0-0', 'chord Am 2-0-0-0'],
  ['error shape.unreadable-fret', 'chord C ⟦0003⟧ 3', 'chord C 0003'],
  ['warning shape.silent', 'chord C ⟦x-x-x-x⟧', 'chord C x-0-0-3'],
  [
    'warning reach.stretched',
    'chord ⟦G 0-2-7-2⟧',
    'for soprano ukulele\nchord G 0-2-3-2',
    'chord G 0-2-3-2',
    'chord G 4-2-3-2',
    'chord G 4-2-3-5',
    'chord G 0-2-x-2',
  ],
  [
    'warning reach.stretched',
    'chord ⟦C#maj7b5 0-0-1-4⟧ fingers 0-0-1-2',
    'chord C#maj7b5 0-0-1-4 fingers 0-0-1-4',
    'chord C#maj7b5 0-0-1-4 fingers 0-0-1-4',
  ],
  [
    'warning reach.stretched',
    'for guitar\nhand small\nprogression v\n  | ⟦F⟧ | F |',
    'for guitar\nprogression v\n  | F | F |',
    'for guitar\nhand small\nchord  F  1-0-x-2-1-1\nprogression v\n  | F | F |',
    'for guitar\nhand small\nchord  F  1-0-x-2-1-x\nprogression v\n  | F | F |',
    'for guitar\nhand small\nchord  F  1-x-x-2-1-1\nprogression v\n  | F | F |',
  ],
  [
    'hint capo.would-ease',
    'for ⟦guitar⟧\nhand small\nchord F 1-3-3-2-1-1',
    'for guitar\nchord F 1-3-3-2-1-1',
    'for guitar, capo 1\nhand small\nchord F 1-3-3-2-1-1',
  ],
  [
    'warning reach.too-far',
    'chord ⟦Bb 3-2-13-1⟧',
    'chord Bb 3-2-1-1',
    'chord Bb 3-2-1-1',
    'chord Bb 3-5-6-5',
    'chord Bb 7-5-6-5',
    'chord Bb 3-2-x-1',
  ],
  [
    'warning reach.too-few-fingers',
    'for guitar\nchord ⟦C 5-3-1-4-2-0⟧',
    'for guitar\nchord C x-3-2-0-1-0',
    'for guitar\nchord C x-3-2-0-1-0',
    'for guitar\nchord C x-3-2-0-1-3',
    'for guitar\nchord C x-3-2-0-1-x',
  ],
  ['hint shape.hard', 'chord F5 ⟦5-5-8-8⟧ fingers 1-1-4-4', 'chord F5 5-5-8-8 fingers 1-1-3-4'],
  ['error fingers.not-a-finger', 'chord Em 0-4-3-2 fingers ⟦0-3-2-7⟧', 'chord Em 0-4-3-2 fingers 0-3-2-1'],
  [
    'error fingers.not-a-finger',
    'chord Em 0-4-3-2 fingers ⟦O-3-2-l⟧',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
  ],
  [
    'hint fingers.count',
    'chord Em 0-4-3-2 fingers ⟦3-2-1⟧',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
  ],
  [
    'error fingers.count',
    'chord Em 0-4-3-2 fingers ⟦0-3-2-1-1⟧',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
  ],
  ['hint fingers.empty', 'chord Em 0-4-3-2 fingers⟦⟧', 'chord Em 0-4-3-2 fingers 0-3-2-1'],
  [
    'error fingers.missing',
    'chord Em 0-4-3-2 fingers ⟦0-3-2-0⟧',
    'chord Em 0-4-3-2 fingers 0-4-3-2',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
  ],
  [
    'error fingers.on-open',
    'chord C 0-0-0-3 fingers ⟦1-0-0-3⟧',
    'chord C 0-0-0-3 fingers 0-0-0-4',
    'chord C 0-0-0-3 fingers 0-0-0-3',
  ],
  [
    'error fingers.two-frets',
    'chord G7 0-2-1-2 fingers ⟦0-1-1-2⟧',
    'chord G7 0-2-1-2 fingers 0-2-1-3',
    'chord G7 0-2-1-2 fingers 0-2-1-3',
  ],
  [
    'error fingers.barre',
    'chord D7 2-0-2-0 fingers ⟦1-0-1-0⟧',
    'chord D7 2-2-2-3 fingers 1-1-1-2',
    'chord D7 2-0-2-0 fingers 1-0-2-0',
  ],
  [
    'warning fingers.too-wide',
    'for guitar\nchord A6/9 2-2-2-2-2-2 fingers ⟦2-2-2-2-2-2⟧',
    'for guitar\nchord A6/9 2-2-2-2-2-2 fingers 1-1-1-1-1-1',
    'for guitar\nchord A6/9 2-2-2-2-2-2 fingers 1-1-1-1-1-1',
  ],
  [
    'warning fingers.crossed',
    'chord G7 0-2-1-2 fingers ⟦0-1-2-3⟧',
    'chord G7 0-2-1-2 fingers 0-2-1-3',
    'chord G7 0-2-1-2 fingers 0-2-1-3',
  ],
  [
    'error fingers.thumb',
    'chord Em 0-4-3-2 fingers ⟦0-T-2-1⟧',
    'chord F7 2-3-1-3 fingers T-2-1-3',
    'chord Em 0-4-3-2 fingers 0-3-2-1',
  ],
  [
    'warning fingers.out-of-reach',
    'chord G7sus4 0-0-1-5 fingers ⟦0-0-1-2⟧',
    'for soprano ukulele\nchord G7sus4 0-0-1-3 fingers 0-0-1-4',
    'chord G7sus4 0-0-1-5 fingers 0-0-1-4',
  ],
];

/** Progressions: chords in them, sums, repeats, words. */
const PROGRESSIONS: readonly Row[] = [
  ['hint progression.no-name', 'progression⟦⟧\n  | C |', 'progression v\n  | C |'],
  ['hint progression.empty', '⟦progression v⟧', 'progression v\n  | C |'],
  ['error name.twice', `${FOUR}progression ⟦v⟧\n  | C |`, `${FOUR}progression w\n  | C |`],
  ['error name.signs', 'progression ⟦v_1⟧\n  | C |', 'progression v-1\n  | C |'],
  ['error name.is-chord', 'progression ⟦A⟧\n  | C |', 'progression a-part\n  | C |'],
  [
    'hint chord.assumed',
    'progression v\n  | ⟦C⟧ | C |',
    'chord C 0-0-0-3\nprogression v\n  | C | C |',
    'chord  C  0-0-0-3\nprogression v\n  | C | C |',
  ],
  [
    'hint chord.first-label',
    'chord C.low 0-0-0-3\nprogression v\n  | ⟦C⟧ |',
    'chord C.low 0-0-0-3\nprogression v\n  | C.low |',
    'chord C.low 0-0-0-3\nprogression v\n  | C.low |',
  ],
  [
    'warning chord.no-shape',
    'for tuned C4 C4 C4 C4 frets 5\nprogression v\n  | ⟦F#m7b5⟧ |',
    'for tuned G4 C4 E4 A4\nprogression v\n  | F#m7b5 |',
  ],
  [
    'error name.unknown',
    'chord C.low 0-0-0-3\nprogression v\n  | ⟦C.lo⟧ |',
    'chord C.low 0-0-0-3\nprogression v\n  | C.low |',
    'chord C.low 0-0-0-3\nprogression v\n  | C.low |',
  ],
  ['warning bar.empty', 'progression v\n  | C |⟦ ⟧| G |', 'progression v\n  | C | NC | G |'],
  ['error bar.same', 'progression v\n  |⟦ % ⟧| C |', 'progression v\n  | C | % |'],
  ['error bar.same', 'progression v\n  | C |⟦ % G ⟧|', 'progression v\n  | C | % | G |'],
  [
    'warning bar.uneven',
    'progression v\n  | ⟦C F G⟧ |',
    'progression v\n  | C F / G |',
    'progression v\n  | C / F G |',
    'progression v\n  | C F G / |',
  ],
  [
    'error bar.too-long',
    'progression v\n  | C | C / / / ⟦/⟧ |',
    'progression v\n  | C | C / / / |',
    'progression v\n  | C | C / / / |',
  ],
  ['error bar.too-long', 'progression v\n  | C | C / / / ⟦F⟧ |', 'progression v\n  | C | C / / F |'],
  [
    'error bar.too-short',
    'progression v\n  | ⟦C /⟧ | C |',
    'progression v\n  count 3\n  | C / | C | C / |',
    'progression v\n  | C / / / | C |',
  ],
  // A repeat back to the first full bar: its last bar is full as well, or the downbeat comes a beat early. The pickup is short once,
  // at the very end. Source: notation practice for upbeats; common practice, no source.
  [
    'error bar.too-short',
    'progression v\n  count 4\n  | C |: F | ⟦C / /⟧ :| F | C / / |',
    'progression v\n  count 4\n  |: C | F | C / / :| F | C / / |',
    'progression v\n  count 4\n  | C |: F | C / / / :| F | C / / |',
  ],
  [
    'error bar.too-short',
    'progression v\n  count 4\n  | C |: F | 1st ⟦C / /⟧ :| 2nd C / / |',
    'progression v\n  count 4\n  | C |: F | 1st C :| 2nd C / / |',
    'progression v\n  count 4\n  | C |: F | 1st C / / / :| 2nd C / / |',
  ],
  [
    'error bar.too-short',
    'progression v\n  count 4\n  | C | F | C / / :| F | ⟦C / /⟧ :|',
    'progression v\n  count 4\n  | C | F | C / / :| F | C / / |',
    'progression v\n  count 4\n  | C | F | C / / :| F | C / / / :|',
  ],
  [
    'warning repeat.open',
    'progression v\n  ⟦|:⟧ C | F |',
    'progression v\n  |: C | F :|',
    'progression v\n  |: C | F :|',
  ],
  [
    'warning repeat.open',
    'progression v\n  ⟦|:⟧ C | F | G\n  |: Am | F :|',
    'progression v\n  |: C | F | G :|\n  |: Am | F :|',
    'progression v\n  |: C | F | G :|\n  |: Am | F :|',
  ],
  [
    'warning repeat.open',
    'progression v\n  ⟦|:⟧ C | F |\n  |: Am | F :|',
    'progression v\n  |: C | F :|\n  |: Am | F :|',
    'progression v\n  |: C | F :|\n  |: Am | F :|',
  ],
  [
    'warning repeat.open',
    'progression v\n  ⟦|:⟧ C | F |: Am | F :|',
    'progression v\n  |: C | F :|: Am | F :|',
    'progression v\n  |: C | F :|: Am | F :|',
  ],
  ['warning repeat.open', 'progression v\n  ⟦|:⟧ C', 'progression v\n  |: C :|', 'progression v\n  |: C :|'],
  ['error count.no-pickup', 'progression v\n  ⟦count 5⟧\n  | C | F |', 'progression v\n  count 4\n  | C | F / / |'],
  ['error count.no-pickup', 'progression v\n  ⟦count 0⟧\n  | C | F |', 'progression v\n  | C | F |'],
  ['hint count.no-pickup', 'progression v\n  ⟦count 1⟧\n  | C | F |', 'progression v\n  | C | F |'],
  [
    'hint pickup.full-end',
    'progression v\n  count 4\n  |: C | F | G | ⟦C⟧ :|',
    'progression v\n  count 4\n  |: C | F | G | C / / :|',
    'progression v\n  count 4\n  |: C | F | G | C / / :|',
  ],
  ['error bar.half-typed', 'progression v\n  | C | ⟦2⟧', 'progression v\n  | C | 2nd C'],
  ['error bar.half-typed', 'progression v\n  |: C :| ⟦x⟧', 'progression v\n  |: C :| x3'],
  [
    'error chord.apart',
    'progression v\n  | ⟦C maj7⟧ | G |',
    'progression v\n  | Cmaj7 | G |',
    'progression v\n  | Cmaj7 | G |',
  ],
  ['error chord.apart', 'progression v\n  | ⟦G 7⟧ | C |', 'progression v\n  | G7 | C |', 'progression v\n  | G7 | C |'],
  ['warning repeat.times', 'progression v\n  |:⟦ C ⟧:| x1', 'progression v\n  |: C :| x2'],
  ['error words.no-bars', 'progression v\n  ⟦words la la⟧\n  | C |', 'progression v\n  | C |\n  words la la'],
  [
    'warning words.too-many-bars',
    'progression v\n  | C |\n  ⟦words la | la⟧',
    'progression v\n  | C | F |\n  words la | la',
  ],
  ['hint count.empty', 'progression v\n  count⟦⟧\n  | C |', 'progression v\n  count 4\n  | C |'],
  ['error count.unreadable', 'progression v\n  ⟦count late⟧\n  | C |', 'progression v\n  count 4\n  | C |'],
];

/** Patterns and melodies: counts, rows and marks. */
const GRIDS: readonly Row[] = [
  ['hint grid.no-name', 'pattern⟦⟧\n  strum D D D D', 'pattern r\n  strum D D D D'],
  ['hint grid.empty', '⟦pattern r⟧', 'pattern r\n  strum D D D D'],
  ['error name.surplus', 'pattern long ⟦roll⟧\n  strum D D D D', 'pattern long-roll\n  strum D D D D'],
  ['error name.twice', `${ROLL}pattern ⟦r⟧\n  strum D D D D`, `${ROLL}melody r\n  tune 1:0 1:1 1:2 1:3`],
  ['error grid.no-count', 'pattern r\n  ⟦strum D D D D D⟧', 'pattern r\n  meter 5/4\n  strum D D D D D'],
  [
    'error count.start',
    'pattern r\n  count ⟦&⟧ 1 2 3 4\n  strum U D D D D',
    'pattern r\n  count 4 & 1 2 3 4\n  strum D U D D D D',
  ],
  ['error count.order', 'pattern r\n  count 1 ⟦3-2⟧ 4\n  strum D D D', 'pattern r\n  count 1 2-3 4\n  strum D D D'],
  ['error count.jump', 'pattern r\n  count 1 ⟦3⟧ 4\n  strum D D D', 'pattern r\n  count 1-2 3 4\n  strum D D D'],
  [
    'error count.beyond-meter',
    'pattern r\n  count 1 2 3 4 ⟦5⟧\n  strum D D D D D',
    'meter 5/4\npattern r\n  count 1 2 3 4 5\n  strum D D D D D',
  ],
  [
    'error count.bar-short',
    'pattern r\n  count 1 2 ⟦3⟧ | 1 2 3 4\n  strum D D D D D D D',
    'pattern r\n  count 1 2 3-4 | 1 2 3 4\n  strum D D D D D D D',
  ],
  [
    'error count.bar-short',
    'pattern r\n  count 1 2 3 4 | 3/4 1 ⟦2⟧ | 4/4 1 2 3 4\n  strum D D D D D D D D D D',
    'pattern r\n  count 1 2 3 4 | 2/4 1 2 | 4/4 1 2 3 4\n  strum D D D D D D D D D D',
  ],
  [
    'error count.beyond-meter',
    'pattern r\n  count 1 2 3 4 | 2/4 1 2 ⟦3⟧\n  strum D D D D D D D',
    'pattern r\n  count 1 2 3 4 | 3/4 1 2 3\n  strum D D D D D D D',
  ],
  // The repeat does not come round to the pickup, so that a beat is missing each time.
  [
    'error count.bar-short',
    'pattern r\n  count 4 |: 1 2 3 4 | 1 2 ⟦3⟧ :| 1-4\n  strum D D D D D D D D D',
    'pattern r\n  count |: 4 | 1 2 3 4 | 1 2 3 :| 1-4\n  strum D D D D D D D D D',
  ],
  [
    'error count.bar-short',
    'pattern r\n  count 4 |: 1 2 3 4 | 1 2 ⟦3⟧ :|\n  strum D D D D D D D D',
    'pattern r\n  count |: 4 | 1 2 3 4 | 1 2 3 :|\n  strum D D D D D D D D',
  ],
  [
    'error count.ending',
    'pattern r\n  count ⟦1st⟧ 1 2 3 4 :| 2nd 1-4 ||\n  strum D D D D D',
    'pattern r\n  count | 1st 1 2 3 4 :| 2nd 1-4 ||\n  strum D D D D D',
    'pattern r\n  count | 1st 1 2 3 4 :| 2nd 1-4 ||\n  strum D D D D D',
  ],
  [
    'error count.ending',
    'pattern r\n  count |: 1 2 3 4 ⟦1st⟧ 1-4 :| 2nd 1-4\n  strum D D D D D D',
    'pattern r\n  count |: 1 2 3 4 | 1st 1-4 :| 2nd 1-4\n  strum D D D D D D',
    'pattern r\n  count |: 1 2 3 4 | 1st 1-4 :| 2nd 1-4\n  strum D D D D D D',
  ],
  [
    'error count.times',
    'pattern r\n  count |: 1 2 3 4 ⟦x3⟧\n  strum D D D D',
    'pattern r\n  count |: 1 2 3 4 :| x3\n  strum D D D D',
    'pattern r\n  count |: 1 2 3 4 :| x3\n  strum D D D D',
  ],
  [
    'hint count.thirds',
    'pattern r\n  count ⟦1 & a⟧ 2 3 4\n  strum D D D D D D',
    'pattern r\n  count 1 e & a 2 3 4\n  strum D . D D D D D',
    'pattern r\n  count 1 la li 2 3 4\n  strum D D D D D D',
  ],
  ['hint row.empty', 'pattern r\n  count 1 2 3 4\n  ⟦strum⟧', 'pattern r\n  count 1 2 3 4\n  strum D D D D'],
  ['error row.too-short', 'pattern r\n  count 1 2 3 4\n  ⟦strum D D⟧', 'pattern r\n  count 1-2 3-4\n  strum D D'],
  [
    'error row.too-long',
    'pattern r\n  count 1 2 3 4\n  strum D D D D ⟦U U⟧',
    'pattern r\n  count 1 2 3 & 4 &\n  strum D D D D U U',
  ],
  ['error pick.mark', 'pattern r\n  pick ⟦9⟧ 3 2 1', 'pattern r\n  pick 4 3 2 1'],
  ['error pick.mark', 'pattern r\n  pick ⟦1/5⟧ 3 2 1', 'pattern r\n  pick 1:5 3 2 1', 'pattern r\n  pick 1:5 3 2 1'],
  ['error pick.mark', 'pattern r\n  pick 4 ⟦12⟧ 3 2', 'pattern r\n  pick 4 1+2 3 2', 'pattern r\n  pick 4 1+2 3 2'],
  [
    'error pick.mark',
    'pattern r\n  pick p ⟦4+ima⟧ p 2',
    'pattern r\n  pick p i+m+a p 2',
    'pattern r\n  pick p 4+i+m+a p 2',
  ],
  ['error pick.mark', 'pattern r\n  pick ⟦P I M A⟧', 'pattern r\n  pick p i m a', 'pattern r\n  pick p i m a'],
  ['error pick.mark', 'pattern r\n  pick D ⟦U D U⟧', 'pattern r\n  strum D U D U', 'pattern r\n  strum D U D U'],
  ['error pick.mark', 'pattern r\n  pick 4 3 2 ⟦1:⟧', 'pattern r\n  pick 4 3 2 1:2'],
  ['error pick.mark', 'pattern r\n  pick ⟦9⟧ 9 9 1', 'pattern r\n  pick 4 4 4 1'],
  ['error tune.mark', 'melody m\n  tune ⟦D⟧ 1:0 1:0 1:0', 'melody m\n  tune . 1:0 1:0 1:0'],
  [
    'error tune.mark',
    'melody m\n  tune 1:2 ⟦1:O⟧ 1:0 1:0',
    'melody m\n  tune 1:2 1:0 1:0 1:0',
    'melody m\n  tune 1:2 1:0 1:0 1:0',
  ],
  [
    'error strum.mark',
    'pattern r\n  strum ⟦down down down up⟧',
    'pattern r\n  strum D D D U',
    'pattern r\n  strum D D D U',
  ],
  ['error strum.mark', 'pattern r\n  strum ⟦↓ . ↓ ↑⟧', 'pattern r\n  strum D . D U', 'pattern r\n  strum D . D U'],
  ['error strum.mark', 'pattern r\n  strum D ⟦X⟧ D D', 'pattern r\n  strum D Dx D D'],
  ['error hit.mark', 'pattern r\n  hit ⟦fist⟧ . . .', 'pattern r\n  hit palm . . .'],
  [
    'error fingers.mark',
    'pattern r\n  pick 4 3 2 1\n  fingers 1 2 3 ⟦7⟧',
    'pattern r\n  pick 4 3 2 1\n  fingers 1 2 3 T',
  ],
  [
    'error chord.mark',
    'pattern r\n  strum D D D D\n  chord . . . ⟦zz⟧',
    'pattern r\n  strum D D D D\n  chord . . . NC',
  ],
  [
    'error strum.run-together',
    'pattern r\n  strum ⟦D-DU-UDU⟧',
    'pattern r\n  strum D . D U . U D U',
    'pattern r\n  strum D . D U . U D U',
  ],
  [
    'error strum.run-together',
    'pattern r\n  strum ⟦D DU UDU⟧',
    'pattern r\n  strum D . D U . U D U',
    'pattern r\n  strum D . D U . U D U',
  ],
  ['error fingers.no-row', 'pattern r\n  ⟦fingers 1 2 3 4⟧', 'pattern r\n  pick 4 3 2 1\n  fingers 1 2 3 4'],
  [
    'error mark.keeps-nothing',
    'pattern r\n  strum D ⟦=⟧ D D',
    `pattern q\n  strum D D D D\npattern r\n  like q\n  strum D = U D`,
  ],
  ['error mark.no-string', 'pattern r\n  pick ⟦5p⟧ 3 2 1', 'for guitar\npattern r\n  pick 5p 3 2 1'],
  ['error mark.no-string', 'pattern r\n  strum ⟦D65⟧ D D D', 'for guitar\npattern r\n  strum D65 D D D'],
  ['error mark.no-string', 'pattern r\n  pick 4 3 2 ⟦stop6⟧', 'pattern r\n  pick 4 3 2 stop4'],
  ['error mark.no-string', 'pattern r\n  hit ⟦thumb5⟧ . . .', 'pattern r\n  hit thumb4 . . .'],
  ['error mark.fret-beyond-neck', 'melody m\n  tune ⟦1:40⟧ 1:0 1:0 1:0', 'melody m\n  tune 1:12 1:0 1:0 1:0'],
  ['error technique.nothing-before', 'melody m\n  tune ⟦h7⟧ 1:0 1:0 1:0', 'melody m\n  tune 1:5 h7 1:0 1:0'],
  ['warning technique.slide-from-open', 'melody m\n  tune ⟦1:0s3⟧ 1:0 1:0 1:0', 'melody m\n  tune 1:1s3 1:0 1:0 1:0'],
  ['error technique.nothing-before', 'melody m\n  tune 1:5 stop ⟦h7⟧ .', 'melody m\n  tune 1:5 stop 1:5 h7'],
  [
    'error technique.direction',
    'melody m\n  tune ⟦1:5s5⟧ 1:0 1:0 1:0',
    'melody m\n  tune 1:5s4 1:0 1:0 1:0',
    'melody m\n  tune 1:5 1:0 1:0 1:0',
  ],
  [
    'error technique.direction',
    'melody m\n  tune 1:7 ⟦h5⟧ 1:0 1:0',
    'melody m\n  tune 1:7 p5 1:0 1:0',
    'melody m\n  tune 1:7 p5 1:0 1:0',
  ],
  [
    'error technique.direction',
    'melody m\n  tune 1:7p5 ⟦h5⟧ 1:0 1:0',
    'melody m\n  tune 1:7p5 . 1:0 1:0',
    'melody m\n  tune 1:7p5 . 1:0 1:0',
  ],
  [
    'error technique.direction',
    'pattern r\n  pick ⟦3ph2p4⟧ 3p:1h2 4p 3p',
    'pattern r\n  pick 3ph4p2 3p:1h2 4p 3p',
    'pattern r\n  pick 3ph2h4 3p:1h2 4p 3p',
  ],
  ['error technique.direction', 'melody m\n  tune ⟦1:5t5⟧ 1:0 1:0 1:0', 'melody m\n  tune 1:5t7 h6 p5 1:0'],
  [
    'error technique.direction',
    `${SHAPES}pattern r\n  pick 3 h2 3 1\nexercise e\n  over C, G7\n  each ⟦r⟧`,
    `${SHAPES}pattern r\n  pick 3 h3 3 1\nexercise e\n  over C, G7\n  each r`,
  ],
  ['warning technique.open-string', 'melody m\n  tune ⟦2:0b⟧ 1:0 1:0 1:0', 'melody m\n  tune 2:1b 1:2v 1:0 1:0'],
  [
    'error hit.with-strum',
    'pattern r\n  strum D D D D\n  hit . ⟦palm⟧ . .',
    'pattern r\n  strum D D43 D D\n  hit body palm nails .',
  ],
  [
    'error hit.with-strum',
    'pattern r\n  strum D chunk D D\n  hit . ⟦thumb4⟧ . .',
    'pattern r\n  strum D chunk D D\n  hit . nails . .',
  ],
  [
    'error hit.with-pick',
    'pattern r\n  pick 4p 3i 2m 1a\n  hit ⟦thumb⟧ . . .',
    'pattern r\n  pick 4p 3i 2m .\n  hit body nails . palm',
  ],
  [
    'warning hit.with-pick',
    'melody m\n  tune 1:0 1:2 1:3 .\n  hit . ⟦thumb4⟧ . .',
    'melody m\n  tune 1:0 1:2 1:3 .\n  hit . . . thumb4',
  ],
  [
    'error strum.with-pick',
    'pattern r\n  pick . 1a . .\n  strum D ⟦D⟧ D D',
    'pattern r\n  pick . 1a . .\n  strum D D43 D D',
  ],
  [
    'error strum.with-pick',
    'pattern r\n  pick . 1a . .\n  strum D ⟦D21⟧ D D',
    'pattern r\n  pick . 1a . .\n  strum D D432 D D',
  ],
  [
    'error mark.two-at-once',
    'pattern r\n  plant p4 i3 m2 a1\n  pick ⟦i+3m⟧ 4 2 1',
    'pattern r\n  plant p4 i3 m2 a1\n  pick i+2m 4 2 1',
  ],
  [
    'error mark.two-at-once',
    'pattern r\n  count 1 2 3 4\n  pick 1m 2i 1m 2i\n  pick 2 4p . ⟦1p⟧ .',
    'pattern r\n  count 1 2 3 4\n  pick 1m 2i 1m 2i\n  pick 2 4p . 3p .',
  ],
  [
    'error mark.two-at-once',
    'melody m\n  count 1 2 3 4\n  tune 1:5 . 1:3 .\n  pick . . ⟦1a:2⟧ .',
    'melody m\n  count 1 2 3 4\n  tune 1:5 . 1:3 .\n  pick 1a . 1a:3 .',
  ],
  [
    'error mark.two-at-once',
    `${SHAPES}pattern r\n  pick Rp+3i 2m 1a 2m\nexercise e\n  over C\n  each ⟦r⟧`,
    `${SHAPES}pattern r\n  pick Rp+2i 2m 1a 2m\nexercise e\n  over C\n  each r`,
  ],
  ['error pick.finger-twice', 'pattern r\n  pick ⟦3i+2i⟧ 3 2 1', 'pattern r\n  pick 4p+3p 3i+2m 2 1'],
  ['error pick.finger-twice', 'pattern r\n  pick ⟦4p+2p⟧ 3 2 1', 'pattern r\n  pick 4p+2m 3 2 1'],
  [
    'error pick.finger-twice',
    'pattern r\n  count 1 2 3 4\n  pick 1m 2i 1m 2i\n  pick 2 4p . ⟦3m⟧ .',
    'pattern r\n  count 1 2 3 4\n  pick 1m 2i 1m 2i\n  pick 2 4p . 3i .',
  ],
  [
    'error fingers.missing',
    'melody m\n  tune 1:5 1:0 1:0 1:0\n  fingers ⟦0⟧ 0 0 0',
    'melody m\n  tune 1:5 1:0 1:0 1:0\n  fingers 3 0 0 0',
  ],
  [
    'error fingers.on-open',
    'melody m\n  tune 1:5 1:0 1:0 1:0\n  fingers 3 ⟦3⟧ 0 0',
    'melody m\n  tune 1:5 1:0 1:0 1:0\n  fingers 3 0 0 0',
    'melody m\n  tune 1:5 1:0 1:0 1:0\n  fingers 3 0 0 0',
  ],
  [
    'error fingers.two-frets',
    'melody m\n  count 1 2 3 4\n  tune 1:3 . 1:5 .\n  fingers 2 . 4 .\n  tune 2 2:3 . 2:3 .\n  fingers 2 . ⟦4⟧ .',
    'melody m\n  count 1 2 3 4\n  tune 1:3 . 1:5 .\n  fingers 2 . 4 .\n  tune 2 2:3 . 2:3 .\n  fingers 2 . 2 .',
  ],
  [
    'warning fingers.crossed',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:5 2:5 . .\n  fingers 4 ⟦1⟧ . .',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:5 2:5 . .\n  fingers 4 4 . .',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:5 2:5 . .\n  fingers 4 4 . .',
  ],
  [
    'hint fingers.lifts',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:5 1:0 . .\n  fingers ⟦3⟧ 0 . .',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:5 1:0 . .\n  fingers 4 0 . .',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:5 1:0 . .\n  fingers 4 0 . .',
  ],
  [
    'warning fingers.lifts',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  ring 3\n  Em 1:5 1:0 . .\n  fingers ⟦3⟧ 0 . .',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  ring 3\n  Em 1:5 1:0 . .\n  fingers 4 0 . .',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  ring 3\n  Em 1:5 1:0 . .\n  fingers 4 0 . .',
  ],
  [
    'warning tune.out-of-hand',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em ⟦1:9⟧ 1:5 1:0 2:0',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:6 1:5 1:0 2:0',
  ],
  [
    'warning tune.out-of-hand',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:2 ⟦2:9⟧ 1:2 1:5',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:2 2:5 1:2 1:5',
    'chord Em 0-4-3-2 fingers 0-3-2-1\nmelody m\n  Em 1:2 1:4 1:2 1:5',
  ],
  [
    'warning tune.out-of-hand',
    `chord Em 0-4-3-2\n${ROLL}melody t\n  tune 1:2 1:9 1:2 1:5\nexercise e\n  over Em\n  each r + ⟦t⟧`,
    `chord Em 0-4-3-2\n${ROLL}melody t\n  tune 1:2 1:9 1:2 1:5\nexercise e\n  over Em\n  each t`,
  ],
  [
    'hint tune.other-fingers',
    'chord D(add9) 7-6-0-0 fingers 2-1-0-0\nmelody m\n  D(add9) ⟦1:5⟧ 1:7 1:9 1:0',
    'chord D(add9) 7-6-0-0 fingers 3-2-0-0\nmelody m\n  D(add9) 1:5 1:7 1:9 1:0',
  ],
  ['warning ring.stopped', 'pattern r\n  ring 1\n  pick 1a 3i 2m ⟦1a:5⟧', 'pattern r\n  ring 1\n  pick 1a 3i 2m 3i:5'],
  [
    'warning ring.stopped',
    `${SHAPES}${ROLL}melody t\n  tune 1:5 1:0 1:5 1:0\nexercise e\n  over F\n  each r, ⟦t⟧\n  ring 1`,
    `${SHAPES}${ROLL}melody t\n  tune 2:5 1:0 2:5 1:0\nexercise e\n  over F\n  each r, t\n  ring 1`,
  ],
  [
    'warning tune.octave',
    'also tenor ukulele, low G, same shapes, called low\nmelody m\n  tune 1:0 ⟦4:0⟧ 1:0 1:2',
    'also tenor ukulele, low G, same shapes, called low\nmelody m\n  tune 1:0 2:3 1:0 1:0',
    'also tenor ukulele, low G, same shapes, called low\nmelody m\n  tune 1:0 2:3 1:0 1:2',
  ],
  [
    'hint words.held',
    'melody m\n  tune 1:0 . 1:2 .\n  words see ⟦the⟧ moon .',
    'melody m\n  tune 1:0 . 1:2 .\n  words see . moon .',
  ],
  ['error plant.unreadable', 'pattern r\n  plant ⟦p9⟧ i3\n  pick 4 3 2 1', 'pattern r\n  plant p4 i3\n  pick 4 3 2 1'],
  ['error ring.unreadable', 'pattern r\n  ⟦ring some⟧\n  pick 4 3 2 1', 'pattern r\n  ring 1 2\n  pick 4 3 2 1'],
  ['error meter.unreadable', 'pattern r\n  meter ⟦three⟧\n  pick 4 3 2', 'pattern r\n  meter 3/4\n  pick 4 3 2'],
  ['hint like.no-name', `${ROLL}pattern q\n  like⟦⟧\n  strum D D D D`, `${ROLL}pattern q\n  like r`],
  ['error like.itself', 'pattern r\n  like ⟦r⟧\n  strum D D D D', `${ROLL}pattern q\n  like r`],
  [
    'error name.unknown',
    `pattern roll\n  strum D D D D\npattern q\n  like ⟦rol⟧`,
    `pattern roll\n  strum D D D D\npattern q\n  like roll`,
    `pattern roll\n  strum D D D D\npattern q\n  like roll`,
  ],
  ['hint inside.no-name', `${FOUR}melody m\n  inside⟦⟧\n  rise`, `${FOUR}melody m\n  inside v\n  rise`],
  [
    'error name.unknown',
    `${FOUR}melody m\n  inside ⟦w⟧\n  rise`,
    `${FOUR}melody m\n  inside v\n  rise`,
    `${FOUR}melody m\n  inside v\n  rise`,
  ],
  [
    'hint melody.open',
    `${FOUR}melody ⟦m⟧\n  inside v\n  rise`,
    'progression v\n  | NC | NC |\nmelody m\n  inside v\n  rise',
  ],
  ['hint melody.inside', `${FOUR}melody m\n  ⟦rise⟧`, `${FOUR}melody m\n  rise\n  inside v`],
];

/** Exercises, families and lists. */
const EXERCISES: readonly Row[] = [
  ['hint exercise.no-title', `${BASE}exercise⟦⟧\n  play v`, `${BASE}exercise e\n  play v`],
  [
    'error exercise.open-question',
    `${BASE}melody m\n  inside v\n  rise\nexercise e\n  play v\n  with ⟦m⟧`,
    `${BASE}melody m\n  count 1 2 3 4\n  tune 1:0 . . .\nexercise e\n  play v\n  with m`,
  ],
  [
    'error exercise.open-question',
    `${BASE}family f\n  from v\nexercise e\n  play ⟦f⟧`,
    `${BASE}progression f\n  | C | F |\nexercise e\n  play f`,
  ],
  ['hint exercise.nothing', 'exercise ⟦One⟧', `${BASE}exercise One\n  play v`],
  [
    'error exercise.word',
    `${BASE}exercise e\n  play v\n  ⟦each⟧ r`,
    `${BASE}exercise e\n  play v\n  with r`,
    `${BASE}exercise e\n  play v\n  with r`,
  ],
  [
    'error exercise.word',
    `${BASE}exercise e\n  over C\n  ⟦with⟧ r`,
    `${BASE}exercise e\n  over C\n  each r`,
    `${BASE}exercise e\n  over C\n  each r`,
  ],
  [
    'warning exercise.twice',
    `${BASE}exercise e\n  play v\n  ⟦play v⟧`,
    `${BASE}exercise e\n  play v, v\n  with r\n  with r`,
  ],
  [
    'error name.unknown',
    `${BASE}exercise e\n  play v\n  with ⟦q⟧`,
    `${BASE}exercise e\n  play v\n  with r`,
    `${BASE}exercise e\n  play v\n  with r`,
  ],
  ['error name.unknown', `${BASE}exercise e\n  play ⟦verse⟧`, `${BASE}exercise e\n  play v`],
  ['error list.times', `${BASE}exercise e\n  play v ⟦x⟧`, `${BASE}exercise e\n  play v x2`],
  [
    'error name.strokes',
    `${BASE}exercise e\n  play v\n  with ⟦D DU UDU⟧`,
    `${BASE}exercise e\n  play v\n  with r`,
    `${BASE}pattern  strokes\n  strum  D . D U . U D U\n\nexercise e\n  play v\n  with strokes`,
  ],
  ['error name.unknown', `${BASE}exercise e\n  over ⟦zzzz⟧`, `${BASE}exercise e\n  over v`],
  ['error name.kind', `${BASE}exercise e\n  play ⟦r⟧`, `${BASE}exercise e\n  play v`],
  ['error name.kind', `${BASE}exercise e\n  play ⟦C⟧`, `${BASE}exercise e\n  over C`],
  ['error name.kind', `${BASE}exercise e\n  play v\n  with ⟦v⟧`, `${BASE}exercise e\n  play v\n  with r`],
  ['hint list.empty', `${BASE}exercise e\n  play v\n  with⟦⟧`, `${BASE}exercise e\n  play v`],
  ['error list.bar-sign', `${BASE}exercise e\n  play v\n  with r ⟦|⟧ r`, `${BASE}exercise e\n  play v\n  with r, r`],
  ['error list.plus', `${BASE}exercise e\n  play v\n  with ⟦+⟧ r`, `${BASE}exercise e\n  play v\n  with r + r`],
  ['hint list.plus', `${BASE}exercise e\n  play v\n  with ⟦r +⟧`, `${BASE}exercise e\n  play v\n  with r+r`],
  [
    'error at.no-bar',
    `${BASE}exercise e\n  play v\n  with r\n  ⟦at bar 5 r⟧`,
    `${BASE}exercise e\n  play v\n  with r\n  at bar 4 r`,
  ],
  [
    'error at.no-ending',
    `${BASE}exercise e\n  play v\n  with r\n  ⟦at 2nd r⟧`,
    `${SHAPES}${ROLL}progression v\n  |: C | 1st F :| 2nd G7 ||\nexercise e\n  play v\n  with r\n  at 2nd r`,
  ],
  [
    'hint at.empty',
    `${BASE}exercise e\n  play v\n  with r\n  at bar 4⟦⟧`,
    `${BASE}exercise e\n  play v\n  with r\n  at bar 4 r`,
  ],
  [
    'error at.unreadable',
    `${BASE}exercise e\n  play v\n  with r\n  ⟦at r⟧`,
    `${BASE}exercise e\n  play v\n  with r\n  at bar 1 2 r`,
  ],
  ['hint restart.empty', `${BASE}exercise e\n  play v\n  restart⟦⟧`, `${BASE}exercise e\n  play v\n  restart bar`],
  [
    'error restart.unreadable',
    `${BASE}exercise e\n  play v\n  restart ⟦often⟧`,
    `${BASE}exercise e\n  play v\n  restart chord`,
  ],
  ['hint repeat.empty', `${BASE}exercise e\n  play v\n  repeat⟦⟧`, `${BASE}exercise e\n  play v\n  repeat 2`],
  ['error repeat.unreadable', `${BASE}exercise e\n  play v\n  repeat ⟦0⟧`, `${BASE}exercise e\n  play v\n  repeat 1`],
  ['hint minutes.empty', `${BASE}exercise e\n  play v\n  minutes⟦⟧`, `${BASE}exercise e\n  play v\n  minutes 2.5`],
  [
    'error minutes.unreadable',
    `${BASE}exercise e\n  play v\n  minutes ⟦five⟧`,
    `${BASE}exercise e\n  play v\n  minutes 5`,
    `${BASE}exercise e\n  play v\n  minutes 5`,
  ],
  [
    'error minutes.unreadable',
    `${BASE}exercise e\n  play v\n  minutes ⟦5 min⟧`,
    `${BASE}exercise e\n  play v\n  minutes 5`,
    `${BASE}exercise e\n  play v\n  minutes 5`,
  ],
  [
    'error minutes.unreadable',
    `${BASE}exercise e\n  play v\n  minutes ⟦long⟧`,
    `${BASE}exercise e\n  play v\n  minutes 5`,
  ],
  ['hint video.empty', `${BASE}exercise e\n  play v\n  video⟦⟧`, `${BASE}exercise e\n  play v\n  video 3:25`],
  [
    'error video.unreadable',
    `${BASE}exercise e\n  play v\n  video ⟦3:75⟧`,
    `${BASE}exercise e\n  play v\n  video 1:03:25`,
  ],
  ['hint ring.empty', `${BASE}exercise e\n  play v\n  ring⟦⟧`, `${BASE}exercise e\n  play v\n  ring all`],
  ['error ring.unreadable', `${BASE}exercise e\n  play v\n  ring ⟦9⟧`, `${BASE}exercise e\n  play v\n  ring 4`],
  [
    'error tempo.unreadable',
    `${BASE}exercise e\n  play v\n  tempo ⟦fast⟧`,
    `${BASE}exercise e\n  play v\n  tempo 60 to 80`,
  ],
  ['error meter.unreadable', `${BASE}exercise e\n  play v\n  meter ⟦4⟧`, `${BASE}exercise e\n  play v\n  meter 4/4`],
  [
    'warning change.too-quick',
    `${JUMP}exercise e\n  play v\n  with r\n  tempo ⟦60 to 92⟧`,
    `${JUMP}exercise e\n  play v\n  with r\n  tempo 40`,
    `${JUMP}exercise e\n  play v\n  with r\n  tempo 60 to 66`,
  ],
  [
    'hint level.differs',
    `level ⟦9⟧ for all\n${BASE}exercise e\n  play v\n  with r\n  tempo 60`,
    `level 4 for all\n${BASE}exercise e\n  play v\n  with r\n  tempo 60`,
    `level 3 for all\n${BASE}exercise e\n  play v\n  with r\n  tempo 60`,
  ],
  [
    'warning pattern.muted-string',
    `${ROLL}chord C x-0-0-3\nexercise e\n  over C\n  each ⟦r⟧`,
    `${ROLL}chord C 0-0-0-3\nexercise e\n  over C\n  each r`,
  ],
  [
    'warning pattern.muted-string',
    `chord D x-2-2-0\nchord C 0-0-0-3\npattern r\n  strum D4 D U D\nexercise e\n  over D, C\n  each ⟦r⟧`,
    `chord D x-2-2-0\nchord C 0-0-0-3\npattern r\n  strum D43 D U D\nexercise e\n  over D, C\n  each r`,
  ],
  [
    'notice chord.late',
    `${SHAPES}progression v\n  | C F | G7 C |\npattern i\n  strum D . D U . U D U\nexercise e\n  play v\n  with ⟦i⟧`,
    `${SHAPES}progression v\n  | C F | G7 C |\npattern i\n  strum D . D U D . D U\nexercise e\n  play v\n  with i`,
    `${SHAPES}progression v\n  | C F | G7 C |\npattern i\n  strum D . D U . U D U\nexercise e\n  play v\n  with i\n  restart  chord`,
  ],
  [
    'hint pattern.runs-on',
    `${SHAPES}${FOUR}pattern i\n  count 1 2 3\n  strum D U U\nexercise e\n  play v\n  with ⟦i⟧`,
    `${SHAPES}${FOUR}pattern i\n  count 1 2-4\n  strum D U\nexercise e\n  play v\n  with i`,
    `${SHAPES}${FOUR}pattern i\n  count 1 2 3\n  strum D U U\nexercise e\n  play v\n  with i\n  restart  bar`,
  ],
  [
    'hint pattern.cut-short',
    `${BASE}pattern i\n  count 1 2-4 | 1-4\n  strum D U D\nexercise e\n  play v\n  with r x3, ⟦i⟧`,
    `${BASE}pattern i\n  count 1 2-4 | 1-4\n  strum D U D\nexercise e\n  play v\n  with r x2, i`,
  ],
  [
    'hint pattern.rests',
    `${BASE}pattern i\n  count 1 2 3\n  strum D U U\nexercise e\n  over C\n  each ⟦i⟧`,
    `${BASE}pattern i\n  count 1 2 3-4\n  strum D U U\nexercise e\n  over C\n  each i`,
  ],
  // Its repeat is that of the bars, so that the tune is two bars long, or four where it is played out.
  [
    'hint pattern.rests',
    `${SHAPES}progression w\n  | C | F | C | F |\n${TWO_BARS}exercise e\n  play w\n  with ⟦s⟧ + m`,
    `${SHAPES}progression w\n  |: C | F :|\n${TWO_BARS}exercise e\n  play w\n  with s + m`,
  ],
  // Two beats have no room in a pickup of one: the tune's first full bar would begin on the second count.
  [
    'warning pattern.longer-pickup',
    `${SHAPES}progression up\n  count 4\n  | C | C | F |\nmelody m\n  count 3 4 | 1-4 | 1-2\n  tune 1:3 1:0 1:3 1:0\nexercise e\n  play up\n  with ⟦m⟧`,
    `${SHAPES}progression up\n  count 3\n  | C | C | F / |\nmelody m\n  count 3 4 | 1-4 | 1-2\n  tune 1:3 1:0 1:3 1:0\nexercise e\n  play up\n  with m`,
  ],
  [
    'hint melody.no-row',
    `${SHAPES}melody m\n  C 1:3 1:0 1:3 1:0\nexercise e\n  over C, F\n  each ⟦m⟧`,
    `${SHAPES}melody m\n  C 1:3 1:0 1:3 1:0\n  F 1:0 1:1 1:3 1:0\nexercise e\n  over C, F\n  each m`,
  ],
  [
    'error name.unknown',
    `${SHAPES}show ⟦rol⟧\npattern roll\n  strum D D D D`,
    `${SHAPES}show C roll\npattern roll\n  strum D D D D`,
    `${SHAPES}show roll\npattern roll\n  strum D D D D`,
  ],
  ['hint family.no-name', `${BASE}family⟦⟧\n  from v`, `${BASE}family f\n  from v`],
  ['hint family.open', `${BASE}family ⟦f⟧\n  from v\n  ring 1`, `${BASE}// family f\n//   from v\n//   ring 1`],
  ['hint from.no-name', `${BASE}family f\n  from⟦⟧`, `${BASE}family f\n  from v`],
  ['error name.unknown', `${BASE}family f\n  from ⟦w⟧`, `${BASE}family f\n  from v`, `${BASE}family f\n  from v`],
  ['error ring.no-string', `${BASE}family f\n  from v\n  ⟦ring 5⟧`, `${BASE}family f\n  from v\n  ring 4`],
  ['error ring.no-string', `${ROLL}  ⟦ring 5⟧`, `${ROLL}  ring 4`],
  [
    'error ring.no-string',
    `${BASE}exercise e\n  play v\n  with r\n  ring ⟦6⟧`,
    `${BASE}exercise e\n  play v\n  with r\n  ring 4`,
  ],
  ['error mark.no-string', 'pattern r\n  ⟦plant p6 i3⟧\n  pick p i p i', 'pattern r\n  plant p4 i3\n  pick p i p i'],
  ['hint family.not-yet', `${BASE}⟦family⟧ f\n  ring 1`, `${BASE}// family f\n//   ring 1`],
  ['hint family.not-yet', `${BASE}family f\n  from v\n  allow add9 ⟦loud⟧`, `${BASE}// family f`],
  ['hint melody.not-yet', `${BASE}melody m\n  inside v\n  ⟦ring all⟧`, `${BASE}// melody m`],
  [
    'warning within.beyond-neck',
    `for soprano ukulele\n${BASE}family f\n  from v\n  ⟦within 3 to 13⟧`,
    `for soprano ukulele\n${BASE}family f\n  from v\n  within 3 to 12`,
    `for soprano ukulele\n${BASE}family f\n  from v\n  within 3 to 12`,
  ],
  [
    'error within.beyond-neck',
    `${BASE}family f\n  from v\n  ⟦within 20 to 24⟧`,
    `${BASE}family f\n  from v\n  within 12 to 14`,
  ],
  [
    'error shape.fret-beyond-neck',
    `${BASE}family f\n  from v\n  ⟦keep C 0-0-0-23⟧`,
    `${BASE}family f\n  from v\n  keep C 0-0-0-3`,
  ],
  [
    'warning keep.breaks',
    `${BASE}family f\n  from v\n  ring 1\n  ⟦keep C 0-0-0-3⟧`,
    `${BASE}family f\n  from v\n  ring 4\n  keep C 0-0-0-3`,
  ],
  [
    'warning keep.breaks',
    `${BASE}family f\n  from v\n  within 0 to 5\n  ⟦keep C 5-4-3-7⟧`,
    `${BASE}family f\n  from v\n  within 0 to 7\n  keep C 5-4-3-7`,
  ],
  // 0-2-3-2 on G4 C4 E4 A4 sounds G D G B, which is G: neither C nor E is there. Source: the definition of the major triad.
  [
    'warning keep.other-chord',
    `${BASE}family f\n  from v\n  ⟦keep C 0-2-3-2⟧`,
    `${BASE}family f\n  from v\n  keep C 0-0-0-0`,
  ],
  [
    'warning keep.other-chord',
    `${BASE}family f\n  from v\n  allow add9\n  ⟦keep C 0-0-1-3⟧`,
    `${BASE}family f\n  from v\n  allow sus4\n  keep C 0-0-1-3`,
  ],
  [
    'warning keep.not-played',
    `${BASE}family f\n  from v\n  keep ⟦Bb⟧ 3-2-1-1`,
    `${BASE}family f\n  from v\n  keep C 0-0-0-3`,
  ],
  [
    'warning keep.twice',
    `${BASE}family f\n  from v\n  keep C 0-0-0-3\n  ⟦keep C 5-4-3-3⟧`,
    `${BASE}family f\n  from v\n  keep C 0-0-0-3\n  keep F 2-0-1-0`,
  ],
  ['error ring.unreadable', `${BASE}family f\n  from v\n  ⟦ring often⟧`, `${BASE}family f\n  from v\n  ring none`],
  ['hint within.empty', `${BASE}family f\n  within⟦⟧`, `${BASE}family f\n  within 0 to 10`],
  ['error within.unreadable', `${BASE}family f\n  ⟦within 9 to 2⟧`, `${BASE}family f\n  within 2 to 9`],
  ['hint keep.no-chord', `${BASE}family f\n  keep⟦⟧`, `${BASE}family f\n  keep C 0-0-0-3`],
  ['error shape.too-few-frets', `${BASE}family f\n  ⟦keep C 0-0⟧`, `${BASE}family f\n  keep C 0-0-0-3`],
  ['error shape.too-many-frets', `${BASE}family f\n  ⟦keep C 0-0-0-3-3⟧`, `${BASE}family f\n  keep C 0-0-0-3`],
];

type EditionRow = readonly [edition: string, ...Row];

const SIX = 'also guitar, same key, called six\n';
const FOUR_OF_SIX = 'for guitar\nalso tenor ukulele, same key, called four\nprogression v\n  | C | F | G7 | C |\n';
const BARI = 'also baritone ukulele, same shapes, called bari\n';
const LOW_TUNE =
  'for tenor ukulele, low G\nalso tenor ukulele, high G, same key, called high\nkey C\nchord C 0-0-0-3\n';

/** What is in order on the lesson's own instrument and not on a further one. */
const EDITIONS: readonly EditionRow[] = [
  [
    'six',
    'error edition.other-strings',
    'also ⟦guitar⟧, same shapes, called six\nchord C 0-0-0-3',
    'also guitar, same key, called six\nchord C 0-0-0-3',
    'also guitar, same key, called six\nchord C 0-0-0-3',
  ],
  [
    'little',
    'error shape.fret-beyond-neck',
    'also soprano ukulele, same shapes, called little\nchord C 12-12-12-⟦15⟧',
    'also concert ukulele, same shapes, called little\nchord C 12-12-12-15',
  ],
  [
    'little',
    'error mark.fret-beyond-neck',
    'also soprano ukulele, same shapes, called little\nmelody m\n  tune ⟦1:14⟧ 1:12 1:10 1:12',
    'also concert ukulele, same shapes, called little\nmelody m\n  tune 1:14 1:12 1:10 1:12',
  ],
  [
    'six',
    'error mark.fret-beyond-neck',
    `${SIX}melody m\n  tune 1:0 1:0 1:0 1:0\nedition six\n  melody m\n    tune ⟦1:30⟧ 1:0 1:0 1:0`,
    `${SIX}melody m\n  tune 1:0 1:0 1:0 1:0\nedition six\n  melody m\n    tune 1:5 1:0 1:0 1:0`,
  ],
  // A ukulele has four strings, a soprano twelve frets, a tenor more. Source: the instruments' own table, and any maker's page.
  [
    'four',
    'error ring.no-string',
    `${FOUR_OF_SIX}family f\n  from v\n  ⟦ring 5⟧`,
    `${FOUR_OF_SIX}family f\n  from v\n  ring 2`,
  ],
  [
    'four',
    'error ring.no-string',
    `${FOUR_OF_SIX}melody m\n  inside v\n  ⟦ring 5⟧`,
    `${FOUR_OF_SIX}melody m\n  inside v\n  ring 1`,
  ],
  [
    'little',
    'warning within.beyond-neck',
    `for tenor ukulele\nalso soprano ukulele, same shapes, called little\n${BASE}family f\n  from v\n  ⟦within 0 to 14⟧`,
    `for tenor ukulele\nalso soprano ukulele, same shapes, called little\n${BASE}family f\n  from v\n  within 0 to 12`,
  ],
  [
    'little',
    'error shape.fret-beyond-neck',
    `for tenor ukulele\nalso soprano ukulele, same shapes, called little\n${BASE}family f\n  from v\n  ⟦keep C 12-12-12-15⟧`,
    `for tenor ukulele\nalso soprano ukulele, same shapes, called little\n${BASE}family f\n  from v\n  keep C 5-4-3-3`,
  ],
  // Whatever shape of C a baritone takes, its open fourth string sounds D, which is no tone of C. Source: D3 G3 B3 E4.
  [
    'bari',
    'warning keep.breaks',
    `also baritone ukulele, same key, called bari\n${BASE}progression w\n  | G | C |\nfamily f\n  from w\n  ring 4\n  ⟦keep C 0-0-0-3⟧`,
    `also baritone ukulele, same key, called bari\n${BASE}progression w\n  | G | C |\nfamily f\n  from w\n  keep C 0-0-0-3`,
  ],
  [
    'other',
    'warning tune.octave',
    'also tenor ukulele, low G, same shapes, called other\nmelody m\n  tune ⟦4:0⟧ 1:0 1:2 .',
    'also tenor ukulele, low G, same key, called other\nmelody m\n  tune 4:0 1:0 1:2 .',
    'also tenor ukulele, low G, same shapes, called other\nmelody m\n  tune 2:3 1:0 1:2 .',
  ],
  [
    'high',
    'warning tune.note-apart',
    `${LOW_TUNE}melody m\n  count 1 & 2 & 3 & 4 &\n  tune ⟦4:0⟧ 3:0 2:0 2:3 1:0 1:3 1:2 1:0`,
    `${LOW_TUNE}melody m\n  tune 3:4 3:0 3:2 2:0`,
  ],
  [
    'high',
    'notice tune.octave-moved',
    `${LOW_TUNE}melody m\n  tune ⟦4:0⟧ 4:2 4:4 3:0`,
    `${LOW_TUNE}melody m\n  tune 2:3 1:0 1:2 1:3`,
  ],
  [
    'bari',
    'hint tune.run-broken',
    'also baritone ukulele, same key, called bari\npattern r\n  count 1 & 2 & 3 & 4 &\n  pick 3:2 2:0 4:0 1:0 4:4 ⟦1:3⟧ . .',
    'also baritone ukulele, same key, called bari\npattern r\n  count 1 & 2 & 3 & 4 &\n  pick 3:2 2:0 2:3 1:0 1:2 1:3 . .',
  ],
  [
    'high',
    'warning technique.lost',
    'for baritone ukulele\nalso tenor ukulele, high G, same key, called high\nmelody m\n  tune ⟦4:12*⟧ . 1:0 .',
    'for baritone ukulele\nalso tenor ukulele, high G, same key, called high\nmelody m\n  tune 4:12 . 1:0 .',
  ],
  // The fourth string lies above the third and the second. Source: the strings G4 C4 E4 A4.
  [
    'high',
    'hint pattern.no-bass',
    'for tenor ukulele, low G\nalso tenor ukulele, high G, same shapes, called high\npattern ⟦r⟧\n  pick 4p 3i 2m 1a',
    'for tenor ukulele, low G\nalso tenor ukulele, high G, same shapes, called high\npattern r\n  pick 3p 2i 3p 1a',
  ],
  [
    'high',
    'hint chord.bass',
    'for tenor ukulele, low G\nalso tenor ukulele, high G, same shapes, called high\nchord ⟦C/G⟧ 0-0-0-3',
    'for tenor ukulele, low G\nalso baritone ukulele, same shapes, called high\nchord C/G 0-0-0-3',
  ],
  ['six', 'hint pattern.strings-moved', `${SIX}pattern ⟦r⟧\n  pick 4p 3i 2m 1a`, `${SIX}pattern r\n  strum D D D D`],
  [
    'uke',
    'warning capo.apart',
    'for guitar, capo 2\nalso ⟦tenor ukulele⟧, same key, called uke\nkey G\nchord G 3-2-0-0-0-3',
    'for guitar, capo 2\nalso tenor ukulele, same key, called uke\nkey G\nchord G 3-2-0-0-0-3\nedition uke\n  capo 2',
    'for guitar, capo 2\nalso tenor ukulele, capo 2, same key, called uke\nkey G\nchord G 3-2-0-0-0-3',
  ],
  [
    'uke',
    'warning capo.apart',
    'for guitar\nalso ⟦tenor ukulele, capo 3⟧, same key, called uke\nkey G\nchord G 3-2-0-0-0-3',
    'for guitar\nalso tenor ukulele, same key, called uke\nkey G\nchord G 3-2-0-0-0-3',
    'for guitar\nalso tenor ukulele, same key, called uke\nkey G\nchord G 3-2-0-0-0-3',
  ],
  // So high a capo is not put on another neck; that the two sound apart is told all the same.
  [
    'uke',
    'warning capo.apart',
    'for guitar, capo 7\nalso ⟦tenor ukulele⟧, same key, called uke\nkey G\nchord G 3-2-0-0-0-3',
    'for guitar, capo 7\nalso tenor ukulele, same key, called uke\nkey G\nchord G 3-2-0-0-0-3\nedition uke\n  capo 7',
  ],
  // On G3 C4 E4 A4 no D below the fifth fret but 2-2-2-0 and its like, with A lowest. Source: the strings, reckoned by hand.
  [
    'low',
    'hint edition.bass-elsewhere',
    'for guitar\nalso ⟦tenor ukulele, low G⟧, same key, called low\nprogression v\n  | D | Bm / / D/F# | G |',
    'for guitar\nalso tenor ukulele, high G, same key, called low\nprogression v\n  | D | Bm / / D/F# | G |',
  ],
  [
    'bari',
    'hint capo.keeps-key',
    `also ⟦baritone ukulele⟧, same key, called bari\nkey C\n${SHAPES}${FOUR}`,
    `also tenor ukulele, low G, same key, called bari\nkey C\n${SHAPES}${FOUR}`,
    `also baritone ukulele, capo 5, same shapes, called bari\nkey C\n${SHAPES}${FOUR}`,
  ],
  [
    'bari',
    'warning reach.stretched',
    `for soprano ukulele\n${BARI}chord ⟦C 5-4-3-7⟧`,
    `for soprano ukulele\n${BARI}chord C 5-4-3-3`,
    ...['0-0-0-3', '0-4-0-3', '0-4-3-3', '5-4-3-x'].map((frets) => `for soprano ukulele\n${BARI}chord C ${frets}`),
  ],
];

const ROWS: readonly Row[] = [...HEADER, ...CHORDS, ...PROGRESSIONS, ...GRIDS, ...EXERCISES];

export const SLIPS: readonly Slip[] = [...ROWS.map((row) => ['', ...row] as const), ...EDITIONS].map(
  ([edition, said, lesson, clean, ...fixed]) => {
    const [severity, code] = said.split(' ') as [Slip['severity'], string];
    return { code, severity, lesson, fixed, clean, ...(edition === '' ? {} : { edition }) };
  },
);
