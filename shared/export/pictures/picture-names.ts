import { fileWords } from '../hand-out/file-words.ts';

/** Where a picture stands in its lesson, counted from 1, and what it is called. */
export interface PicturePlace {
  readonly section: number;
  readonly picture: number;
  readonly words: string;
}

/** Names of files without their endings: two numbers that sort them, then words. */
export function pictureNames(places: readonly PicturePlace[]): readonly string[] {
  // All numbers of a lesson have as many figures, at least two: names are sorted letter by letter.
  const figuresOf = (numbers: readonly number[]): number =>
    Math.max(2, ...numbers.map((number) => String(number).length));
  const sections = figuresOf(places.map(({ section }) => section));
  const pictures = figuresOf(places.map(({ picture }) => picture));
  return places.map(({ section, picture, words }) => {
    const numbers = `${String(section).padStart(sections, '0')}-${String(picture).padStart(pictures, '0')}`;
    const kept = fileWords(words);
    return kept === '' ? numbers : `${numbers} ${kept}`;
  });
}
