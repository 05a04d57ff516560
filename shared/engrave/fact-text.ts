/** The point between two facts. It stays with the first of them, and no line begins with it. */
export const BETWEEN_FACTS = '\u00a0· ';

/** A fact as it is set: a number stays with what it counts. */
export function factText(text: string): string {
  return text.replace(/(?<=\d) (?=\p{L})|(?<=\p{L}) (?=\d)/gu, '\u00a0');
}
