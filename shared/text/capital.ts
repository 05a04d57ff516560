/** Words as a sentence begins with them. */
export function capitalised(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
