/** What silent strings cost a shape. Unit: points, as of effort. */
export interface SilenceCost {
  /** Before the first string that sounds. */
  readonly before: number;
  /** The second of these costs so much more than the first, the third again. */
  readonly beforeMore: number;
  /** Behind the last that sounds. */
  readonly behind: number;
  /** Between strings that sound, where a finger must damp it. */
  readonly between: number;
}

/** On an instrument of four strings, where a full sound is what a shape is for. Common practice, no source. */
const OF_FOUR: SilenceCost = { before: 600, beforeMore: 0, behind: 600, between: 600 };

/** Where there are more: one or two before the first that sounds are usual. Common practice, no source. */
const OF_MORE: SilenceCost = { before: 30, beforeMore: 20, behind: 80, between: 220 };

/** The same for a chord of two tones, which players keep to few low strings and cut off above. Common practice, no source. */
const OF_TWO_TONES: SilenceCost = { before: 20, beforeMore: 20, behind: 5, between: 180 };

export function silenceCost(stringCount: number, toneCount: number): SilenceCost {
  if (stringCount <= 4) return OF_FOUR;
  return toneCount <= 2 ? OF_TWO_TONES : OF_MORE;
}

/** What it costs to leave one more string silent behind so many that sound and so many that do not. Counted in chart order. */
export function costOfMuting(
  { before, beforeMore, behind }: SilenceCost,
  sounding: number,
  silentSince: number,
): number {
  return sounding > 0 ? behind : before + silentSince * beforeMore;
}

/** What it costs beyond that when a string sounds behind silent ones: they turn out to stand between. */
export function costOfSounding({ behind, between }: SilenceCost, sounding: number, silentSince: number): number {
  return sounding === 0 ? 0 : silentSince * (between - behind);
}
