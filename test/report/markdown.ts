/** A Markdown table; cells hold no line breaks. */
export function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const line = (cells: readonly (string | number)[]) =>
    `| ${cells.map((cell) => String(cell).replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

/** `1066 of 1078, 98.9 %`; rounded down, so that nothing is called whole that is not. */
export function share(part: number, whole: number): string {
  return `${part} of ${whole}, ${(Math.floor((part / whole) * 1000) / 10).toFixed(1)} %`;
}
