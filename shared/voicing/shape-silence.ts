/** What silent strings cost a shape. Unit: points, as of effort. Common practice, no source. */
const SILENCE = {
  /** On an instrument of four strings, where a full sound is what a shape is for. */
  ofFour: 600,
  /** Where there are more: before the first string that sounds, which is usual for one or two. */
  before: 40,
  /** The second of these costs so much more than the first, the third again. */
  beforeMore: 20,
  /** Behind the last that sounds. */
  behind: 80,
  /** Between strings that sound, where a finger must damp it. */
  between: 180,
};

/** What it costs to leave one more string silent behind so many that sound and so many that do not. Counted in chart order. */
export function costOfMuting(stringCount: number, sounding: number, silentSince: number): number {
  if (stringCount <= 4) return SILENCE.ofFour;
  return sounding > 0 ? SILENCE.behind : SILENCE.before + silentSince * SILENCE.beforeMore;
}

/** What it costs beyond that when a string sounds behind silent ones: they turn out to stand between. */
export function costOfSounding(stringCount: number, sounding: number, silentSince: number): number {
  if (stringCount <= 4 || sounding === 0) return 0;
  return silentSince * (SILENCE.between - SILENCE.behind);
}
