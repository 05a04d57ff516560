/** Says in which line of a text an offset stands, counted from 1. Lines end with `\n`, `\r\n` or `\r`. */
export function lineFinder(text: string): (offset: number) => number {
  const starts = [0];
  for (const { 0: end, index } of text.matchAll(/\r\n?|\n/g)) starts.push(index + end.length);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return low + 1;
  };
}
