/**
 * The text with the rest of one of the endings, where that makes it whole: `60 to` goes on to `60 to 92` by the ending ` to 92`, and so
 * do `60` and `60 t`. Undefined where none does: then it is no beginning but a mistake. The ending of which most is typed counts.
 */
export function completed(
  text: string,
  endings: readonly string[],
  isWhole: (text: string) => boolean,
): string | undefined {
  let best: { readonly typed: number; readonly whole: string } | undefined;
  for (const ending of endings) {
    for (let typed = ending.length - 1; typed > (best?.typed ?? -1); typed -= 1) {
      if (!text.toLowerCase().endsWith(ending.slice(0, typed).toLowerCase())) continue;
      const whole = text + ending.slice(typed);
      if (!isWhole(whole)) continue;
      best = { typed, whole };
      break;
    }
  }
  return best?.whole;
}

/** The names that go on from the word, in their order; a name itself is none of them. Small and capital letters are the same. */
export function begunNames(word: string, names: Iterable<string>): readonly string[] {
  const typed = word.toLowerCase();
  return [...new Set(names)].filter((name) => name.length > word.length && name.toLowerCase().startsWith(typed));
}
