/** A Markdown table with its columns aligned, as the formatter of this repository wants it; cells hold no line breaks. */
export function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const cells = [head, ...rows].map((row) => row.map((cell) => String(cell).replaceAll('|', '\\|')));
  const widths = head.map((_, column) => Math.max(3, ...cells.map((row) => row[column]?.length ?? 0)));
  const line = (row: readonly string[]) =>
    `| ${widths.map((width, column) => (row[column] ?? '').padEnd(width)).join(' | ')} |`;
  const [first = [], ...others] = cells;
  return [line(first), line(widths.map((width) => '-'.repeat(width))), ...others.map(line)].join('\n');
}

/** `1066 of 1078, 98.8 %`; rounded down, so that nothing is called whole that is not. */
export function share(part: number, whole: number): string {
  return `${part} of ${whole}, ${(Math.floor((part / whole) * 1000) / 10).toFixed(1)} %`;
}
