/** A stroke as it is drawn or said elsewhere. Common practice, no source. */
const STROKES: Readonly<Record<string, string>> = {
  '↓': 'D',
  '⇓': 'D',
  '🡓': 'D',
  '↑': 'U',
  '⇑': 'U',
  '🡑': 'U',
  down: 'D',
  dn: 'D',
  up: 'U',
};

/** `down` and `↓` as `D`, whatever else the word holds. */
export function plainStroke(word: string): string {
  return word.replace(/[↓⇓🡓↑⇑🡑]|\b(?:down|dn|up)\b/giu, (sign) => STROKES[sign.toLowerCase()] ?? sign);
}

/** True for a word that holds several plain strokes, as `DU` and `D-DU-UDU` do. */
export function isRunTogether(word: string): boolean {
  const plain = plainStroke(word);
  return /^[DU.-]+$/i.test(plain) && plain.replace(/[.-]/g, '').length > 1;
}

/** Whether the words are plain strokes and nothing else: what stands for a rhythm where a name is wanted. */
export function areStrokes(words: readonly string[]): boolean {
  return words.length > 0 && words.every((word) => /^[DU.-]+$/i.test(plainStroke(word)));
}

/**
 * `D DU UDU` and `D-DU-UDU` spread over eighths: down strokes on the beats, up strokes between, as the arm swings. Where hyphens or dots
 * already hold the columns that this needs, they stay. Undefined where the words hold anything but plain strokes, or none run together.
 * Common practice, no source.
 */
export function spreadStrokes(words: readonly string[]): string | undefined {
  if (!areStrokes(words) || !words.some(isRunTogether)) return undefined;
  const signs = words.flatMap((word) => [...plainStroke(word).toUpperCase()]);
  const written = signs.map((sign) => (sign === '-' ? '.' : sign));
  if (written.includes('.') && written.every((sign, at) => sign === '.' || (sign === 'D') === (at % 2 === 0))) {
    return [...written, ...(written.length % 2 === 1 ? ['.'] : [])].join(' ');
  }
  const columns: string[] = [];
  for (const stroke of signs.filter((sign) => sign === 'D' || sign === 'U')) {
    const wanted = stroke === 'D' ? 0 : 1;
    while (columns.length % 2 !== wanted) columns.push('.');
    columns.push(stroke);
  }
  if (columns.length % 2 === 1) columns.push('.');
  return columns.join(' ');
}
