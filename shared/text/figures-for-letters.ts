/** Letters that are typed for figures they look like. Common practice, no source. */
const FIGURES: Readonly<Record<string, string>> = { O: '0', o: '0', l: '1', I: '1' };

/** The text with the letter O read as 0, and l and I as 1, where they stand among figures, signs or alone: `2-0-0-O`, `3 2 1 l`. */
export function figuresFor(text: string): string {
  return text.replace(/(?<!\p{L})[OolI]+(?!\p{L})/gu, (letters) =>
    [...letters].map((letter) => FIGURES[letter] ?? letter).join(''),
  );
}
