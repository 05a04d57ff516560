/** Words in lines of at most so many columns; a longer word has a line of its own. Lines after the first begin with `indent`. */
export function wrapped(text: string, columns: number, indent = ''): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line === '') line = word;
    else if (line.length + 1 + word.length <= columns) line += ` ${word}`;
    else {
      lines.push(line);
      line = indent + word;
    }
  }
  return [...lines, line];
}
