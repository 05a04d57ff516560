/** The most of a title that goes into the name of a file, so that names stay below what any system takes. Unit: bytes of UTF-8. */
const LONGEST = 120;

/** Where a picture stands in its lesson, counted from 1, and what it is called. */
export interface PicturePlace {
  readonly section: number;
  readonly picture: number;
  readonly words: string;
}

/**
 * Names of files without their endings: two numbers that sort them, then words. Only letters, figures, blanks, hyphens and `_` are
 * left, so that every system takes them and nothing in them leads to another folder; signs of music are spelled out.
 */
export function pictureNames(places: readonly PicturePlace[]): readonly string[] {
  // All numbers of a lesson have as many figures, at least two: names are sorted letter by letter.
  const figuresOf = (numbers: readonly number[]): number =>
    Math.max(2, ...numbers.map((number) => String(number).length));
  const sections = figuresOf(places.map(({ section }) => section));
  const pictures = figuresOf(places.map(({ picture }) => picture));
  return places.map(({ section, picture, words }) => {
    const numbers = `${String(section).padStart(sections, '0')}-${String(picture).padStart(pictures, '0')}`;
    const kept = shortened(fileWords(words));
    return kept === '' ? numbers : `${numbers} ${kept}`;
  });
}

function fileWords(words: string): string {
  return words
    .normalize('NFC')
    .replace(/(?<=[A-G])♭/gu, ' flat')
    .replace(/(?<=[A-G])[♯#]/gu, ' sharp')
    .replace(/[^\p{L}\p{M}\p{N} _-]+/gu, ' ')
    .replace(/ +/g, ' ')
    .trim();
}

function shortened(text: string): string {
  let bytes = 0;
  let kept = '';
  for (const letter of text) {
    bytes += bytesOf(letter.codePointAt(0) ?? 0);
    if (bytes > LONGEST) return kept.trim();
    kept += letter;
  }
  return kept;
}

/** Source: RFC 3629, section 3. */
function bytesOf(code: number): number {
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}
