import type { Note } from './note.ts';
import { LETTERS, pitchClass } from './note.ts';

/** Interval numbers as they are said, from the unison to the fourteenth. Source: common practice, no source. */
const NUMBERS: readonly string[] = [
  'unison',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'octave',
  'ninth',
  'tenth',
  'eleventh',
  'twelfth',
  'thirteenth',
  'fourteenth',
];

/** Steps of the letters whose interval is perfect and not major: unison, fourth, fifth. Source: definition of the major scale. */
const PERFECT_STEPS: readonly number[] = [0, 3, 4];

/** Semitones of the major scale's seven intervals. Source: definition of the major scale. */
const MAJOR_SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** How often an interval is bent beyond minor, major or perfect: once, twice and so on. */
const TIMES: readonly string[] = ['', 'doubly ', 'triply ', 'quadruply ', 'quintuply '];

/** Whole octaves in words, for what lies two octaves apart and more. */
const OCTAVES: readonly string[] = ['no', 'one', 'two', 'three', 'four', 'five', 'six'];

/**
 * What the step between two notes is called, by their spelling: C to E♭ is a `minor third`, C to D♯ an `augmented second`.
 * Without `semitones` it is the smallest one upwards, so that two notes of one name are a `unison`; with the semitones that
 * really sound between them it may be an `octave`, a `minor tenth` or, two octaves up, a `major third and two octaves`.
 */
export function intervalName(lower: Note, upper: Note, semitones?: number): string {
  const steps = (LETTERS.indexOf(upper.letter) - LETTERS.indexOf(lower.letter) + 7) % 7;
  const natural = (pitchClass({ ...upper, accidental: 0 }) - pitchClass({ ...lower, accidental: 0 }) + 12) % 12;
  const written = natural + upper.accidental - lower.accidental;
  const bend = written - (MAJOR_SEMITONES[steps] ?? 0);
  // C up to C flat is no step down but a diminished octave: "lower" is taken at its word.
  const octaves = semitones === undefined ? (written < 0 ? 1 : 0) : Math.round((semitones - written) / 12);
  const quality = qualityOf(bend, PERFECT_STEPS.includes(steps));
  if (steps === 0 && bend === 0 && octaves !== 2) {
    if (octaves <= 0) return 'unison';
    return octaves === 1 ? 'octave' : `${OCTAVES[octaves] ?? octaves} octaves`;
  }
  if (octaves < 2) return `${quality} ${NUMBERS[steps + 7 * Math.max(octaves, 0)] ?? ''}`;
  if (steps === 0) return bend === 0 ? 'double octave' : `${quality} octave and ${octavesInWords(octaves - 1)}`;
  return `${quality} ${NUMBERS[steps] ?? ''} and ${octavesInWords(octaves)}`;
}

function octavesInWords(octaves: number): string {
  return octaves === 1 ? 'an octave' : `${OCTAVES[octaves] ?? octaves} octaves`;
}

/** `bend` counts semitones from the perfect or the major interval. */
function qualityOf(bend: number, perfect: boolean): string {
  if (bend === 0) return perfect ? 'perfect' : 'major';
  if (bend === -1 && !perfect) return 'minor';
  const times = bend > 0 || perfect ? Math.abs(bend) : Math.abs(bend) - 1;
  return `${TIMES[times - 1] ?? `${times} times `}${bend > 0 ? 'augmented' : 'diminished'}`;
}
