/** Text of the lesson as Markdown shows it letter by letter: nothing in it becomes a link, a picture or emphasis. */
export function plain(text: string): string {
  return text.replace(/[\\`*_{}[\]()#+\-.!|<>~&@:/]/g, '\\$&');
}

/** Text as code, whatever signs it holds. */
export function code(text: string): string {
  const longest = Math.max(0, ...[...text.matchAll(/`+/g)].map((run) => run[0].length));
  const fence = '`'.repeat(longest + 1);
  const pad = text.startsWith('`') || text.endsWith('`') ? ' ' : '';
  return `${fence}${pad}${text}${pad}${fence}`;
}
