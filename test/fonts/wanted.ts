// Which signs of music the engraver sets, and the file of the face that has them.

export const MUSIC_FACE = '@fontsource/bravura/files/bravura-latin-400-normal.woff2';

/** SMuFL names and code points. Source: SMuFL 1.4, glyphnames.json of the specification. */
export const MUSIC_SIGNS: readonly (readonly [name: string, code: number])[] = [
  ...Array.from({ length: 10 }, (_, digit) => [`timeSig${digit}`, 0xe080 + digit] as const),
  ['restWhole', 0xe4e3],
  ['restHalf', 0xe4e4],
  ['restQuarter', 0xe4e5],
  ['rest8th', 0xe4e6],
  ['rest16th', 0xe4e7],
  ['rest32nd', 0xe4e8],
  ['rest64th', 0xe4e9],
  ['flag8thUp', 0xe240],
  ['flag8thDown', 0xe241],
  ['flag16thUp', 0xe242],
  ['flag16thDown', 0xe243],
  ['flag32ndUp', 0xe244],
  ['flag32ndDown', 0xe245],
  ['flag64thUp', 0xe246],
  ['flag64thDown', 0xe247],
  ...Array.from({ length: 10 }, (_, digit) => [`tuplet${digit}`, 0xe880 + digit] as const),
  ['tupletColon', 0xe88a],
  ['metNoteHalfUp', 0xeca3],
  ['metNoteQuarterUp', 0xeca5],
  ['metNote8thUp', 0xeca7],
  ['metNote16thUp', 0xeca9],
  ['metAugmentationDot', 0xecb7],
  ['repeat1Bar', 0xe500],
  ['accidentalFlat', 0xe260],
  ['accidentalSharp', 0xe262],
  ['accidentalDoubleSharp', 0xe263],
  ['accidentalDoubleFlat', 0xe264],
  ['csymDiminished', 0xe870],
  ['csymHalfDiminished', 0xe871],
  ['csymMajorSeventh', 0xe873],
];
