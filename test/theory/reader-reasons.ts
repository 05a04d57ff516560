export type ReaderName = 'tonal' | 'chord-symbol';

/**
 * Where an outside reader hears other tones in a spelling than we do, and why. A spelling on C stands for every root.
 * Source: both readers as measured, tonal 6.4.3 and chord-symbol 4.0.0; what speaks for our reading stands in the reason.
 */
export const REASONS: readonly (readonly [reader: ReaderName, reason: string, spellings: readonly string[]])[] = [
  [
    'tonal',
    'It leaves the third out of an eleventh; MusicXML 4.0 (dominant-11th) keeps it, and a shape may still omit it.',
    ['C11', 'C11b9'],
  ],
  [
    'tonal',
    'It leaves the eleventh out of a thirteenth; MusicXML 4.0 (dominant-13th and its sisters) keeps it, and a shape may still omit it.',
    ['C13', 'Cmaj13', 'CMaj13', 'C^13', 'Cm13', 'C-13', 'C13b9', 'C13#9', 'C13b5', 'C13no5'],
  ],
  [
    'tonal',
    'It gives up the fifth for a flat thirteenth; here the fifth belongs to the chord until the name says otherwise.',
    ['C7b13', 'C9b13', 'CM7b6', 'C^7b6', 'Cmb6M7', 'Cmb6b9'],
  ],
  [
    'tonal',
    'It keeps the perfect fifth beside the flat one, which makes the flat fifth a sharp eleventh; here a bent fifth stands for the fifth.',
    ['C7b5b9', 'C7b9b5', 'C7b5#9', 'C7#9b5', 'CM6b5', 'C6b5', 'C7b5b13', 'C9b5b13', 'C7b5b9b13'],
  ],
  [
    'tonal',
    'It names one choice of the altered tones; "altered" leaves the player the choice, so all of them belong here.',
    ['C7alt', 'C7 alt', 'Caltered', 'Calt7'],
  ],
  [
    'tonal',
    'It takes the name for one of the two chords that it is written for; here the teacher is asked.',
    ['C2', 'C^'],
  ],
  [
    'tonal',
    'It has a triad for ^ with a bent fifth; behind the stand-in for the triangle the seventh is understood here.',
    ['C^#5'],
  ],
  ['tonal', 'It understands a seventh behind maj#4; here maj without a 7 is the triad.', ['Cmaj#4']],
  ['tonal', 'It adds the ninth to M7add13, which does not name it.', ['CM7add13']],
  [
    'tonal',
    'It calls a pile of fourths so; charts write 4 for sus4, and that is what is offered here.',
    ['C4', 'Cquartal'],
  ],
  ['tonal', 'These are words of its own that charts do not use.', ['Cm11A', 'Cphryg']],
  [
    'chord-symbol',
    'It leaves the third out of an eleventh; MusicXML 4.0 (dominant-11th, major-11th) keeps it, and a shape may still omit it.',
    ['C11', 'C9(11)', 'C7(9,11)', 'Cmaj11', 'CM11', 'Cmaj9(11)', 'CMA11', 'C11b9', 'C11(b9)'],
  ],
  [
    'chord-symbol',
    'It leaves the eleventh out of a thirteenth, or the third where the eleventh is told; MusicXML 4.0 keeps both.',
    [
      ...['C13', 'C9(13)', 'C9add13', 'C7(9,13)', 'C7(9,11,13)', 'C9add6', 'Cmaj13', 'CM13', 'Cmaj9(13)', 'Cmaj9add13'],
      ...['CMA13', 'C7M(9,13)', 'C13b9', 'C13(b9)', 'C13♭9', 'C13#9', 'C13(#9)', 'C13b5', 'C13(b5)', 'C13-5'],
      ...['CMaj13', 'C^13', 'C13no5'],
    ],
  ],
  [
    'chord-symbol',
    'It gives up the fifth for a flat thirteenth; here the fifth belongs to the chord until the name says otherwise.',
    [
      ...['C7b13', 'C7(b13)', 'C7♭13', 'C7addb13', 'C9b13', 'C9(b13)', 'C7b13(9)', 'C7(9,b13)', 'Cm(addb13)'],
      ...['C7b9b13', 'C7(b9,b13)', 'C7b13b9', 'C7(b9)(b13)', 'C7(b9 b13)', 'C7#9b13', 'C7(#9,b13)', 'C7b13#9'],
      ...[
        'C7#11b13',
        'C7#9#11b13',
        'C9#11b13',
        'C7sus4b9b13',
        'C7b9b13sus4',
        'C7b9b13#11',
        'C7#9(b13)',
        'C7b9#11b13',
        'C7(b9,#11,b13)',
        'C7b13b9#11',
        'C7(b9)(#11)(b13)',
      ],
    ],
  ],
  [
    'chord-symbol',
    'It hears + and - beside 4, 9, 11 and 13 as an augmented or minor triad; behind a seventh they bend that number in common practice.',
    [
      ...[
        'C7sus-9',
        'C7-9',
        'C7(9-)',
        'C7+9',
        'C7(+9)',
        'C7(9+)',
        'C7aug9',
        'C9+11',
        'C9(+11)',
        'C11-9',
        'C7+11',
        'C7(+11)',
      ],
      ...['C7(11+)', 'C7M(11+)', 'Cmaj9+11', 'C13-9', 'C13+9', 'C13+11', 'C7-13', 'C7(13-)', 'C7-9+11', 'C7+9-13'],
      ...['C7-5-9', 'C7(-5,-9)', 'C7-5+9', 'C7+5-9', 'C7+5+9', 'E7+9/B', 'C9+4', 'CM13+4', 'C13+4'],
    ],
  ],
  [
    'chord-symbol',
    'It takes a bare number in brackets for the height of the whole chord, seventh included; here brackets hold what is added.',
    [
      ...[
        'Csus4(9)',
        'C7sus4(13)',
        'G6(9)',
        'Gm6(9)',
        'C6(9)/E',
        'D(9)',
        'Dm(9)',
        'C(11)',
        'C7(13)',
        'C7(11)',
        'Cm7(11)',
      ],
      ...['C-7(11)', 'C7M(13)'],
    ],
  ],
  [
    'chord-symbol',
    'It takes a 5 beside a sign or word for a power chord; here aug5, dim5, 5+ and 5- bend the fifth.',
    ['Eaug5', 'E5+', 'C5-', 'F#m7dim5', 'C7aug5', 'C7(5+)', 'C7(5-)', 'C7dim5'],
  ],
  [
    'chord-symbol',
    'It hears the plus of m+7 as a raised fifth; behind a minor third it raises the seventh in common practice.',
    ['Am+7', 'Am(+7)'],
  ],
  ['chord-symbol', 'It drops what is added to a power chord.', ['C5add9', 'C5(add9)']],
  [
    'chord-symbol',
    'It gives a diminished ninth a minor seventh; here it stands on the diminished seventh.',
    ['Cdim9', 'C°9', 'Co9'],
  ],
  [
    'chord-symbol',
    'It passes over the h of hdim7, the shorthand of Harte et al. 2005 for half-diminished.',
    ['F#hdim7'],
  ],
  [
    'chord-symbol',
    'It takes the name for one of the two chords that it is written for; here the teacher is asked.',
    ['C2', 'C^', 'CMm7', 'C9/6', 'C96', 'C7-', 'C+9', 'Cmsus4', 'Cm7sus4', 'Cmsus2', 'Cm7sus2'],
  ],
  ['chord-symbol', 'It takes a bare 4 for sus4, as we do, but we ask for the word.', ['C4']],
];
