import type { PatternStart, ScoreBar } from '../score/timeline.ts';

// What a line of music tells where a reader meets it, and not again.

/** For each bar, the chords that no bar before it has. */
export function firstMeetings(bars: readonly ScoreBar[]): readonly ReadonlySet<string>[] {
  const seen = new Set<string>();
  return bars.map((bar) => {
    const texts = bar.chords.flatMap(({ chord }) => (chord === undefined || seen.has(chord.text) ? [] : [chord.text]));
    for (const text of texts) seen.add(text);
    return texts.length === 0 ? NONE : new Set(texts);
  });
}

const NONE: ReadonlySet<string> = new Set();

/**
 * For each bar, the patterns whose name is to be told: where another one was played before, and where one begins inside the bar, since
 * nobody would look for it there. A single pattern that begins with its bars needs no word.
 */
export function toldStarts(bars: readonly ScoreBar[]): readonly (readonly PatternStart[])[] {
  const names = new Set(bars.flatMap(({ patternStarts = [] }) => patternStarts.map(({ name }) => name)));
  let playing = names.size > 1 ? undefined : [...names][0];
  return bars.map(({ patternStarts = [] }) =>
    patternStarts.filter(({ at, name }) => {
      const told = name !== playing || at.numerator !== 0;
      playing = name;
      return told;
    }),
  );
}
