const VOWEL = /[aeiouyäöüáéíóúàèìòùâêîôûæœøå]/i;

/**
 * Where in a word the syllable begins that a chord over this place is meant for; 0 for the whole word. Chords are seldom set to the
 * letter: the nearest syllable that has begun is taken. A hyphen in the word parts it for sure, else a vowel and what it is begun
 * with makes a syllable. Common practice, no source.
 */
export function syllableAt(word: string, place: number): number {
  const starts = word.includes('-') ? hyphenStarts(word) : vowelStarts(word);
  // A chord that stands one letter early is set over the next syllable.
  return starts.findLast((start) => start <= place + 1) ?? 0;
}

function hyphenStarts(word: string): readonly number[] {
  return [0, ...[...word.matchAll(/-(?=.)/g)].map(({ index }) => index + 1)];
}

/** Between two groups of vowels the last consonant begins the new syllable; a silent e at the end makes none. */
function vowelStarts(word: string): readonly number[] {
  const groups = [...word.matchAll(new RegExp(`${VOWEL.source}+`, 'gi'))];
  const starts = [0];
  for (const [at, group] of groups.entries()) {
    const before = groups[at - 1];
    if (before === undefined) continue;
    const isSilent = at === groups.length - 1 && /^e[sd]?\W*$/i.test(word.slice(group.index));
    const gap = group.index - (before.index + before[0].length);
    if (isSilent || gap === 0) continue;
    starts.push(
      group.index - (gap > 1 && /^(?:ch|sh|th|ph|wh|[bcdfgkpt][lr])/i.test(word.slice(group.index - 2)) ? 2 : 1),
    );
  }
  return starts;
}
