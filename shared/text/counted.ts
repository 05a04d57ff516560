/** A number with the word for what is counted: `1 mark`, `2 marks`, `0 bars`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** `part`, `part and page`, `part, page and pattern`; with another word before the last one, `part, page or pattern`. */
export function listed(words: readonly string[], last: 'and' | 'or' = 'and'): string {
  const end = words.at(-1) ?? '';
  return words.length < 2 ? end : `${words.slice(0, -1).join(', ')} ${last} ${end}`;
}
