/** The known name that differs from the written one by the fewest letters, if those are few for its length. */
export function nearestName(written: string, known: readonly string[]): string | undefined {
  const small = written.toLowerCase();
  const allowed = Math.max(1, Math.floor(small.length / 3));
  let best: { readonly name: string; readonly slips: number } | undefined;
  for (const name of known) {
    const slips = slipsBetween(small, name.toLowerCase());
    if (slips <= allowed && (best === undefined || slips < best.slips)) best = { name, slips };
  }
  return best?.name;
}

/** Letters to add, drop, change or swap with their neighbour: the restricted edit distance (Damerau 1964). */
function slipsBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const next = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const changed = (last[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      const swapped =
        a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1] ? (before[column - 2] ?? 0) + 1 : changed;
      next.push(Math.min(changed, swapped, (last[column] ?? 0) + 1, (next[column - 1] ?? 0) + 1));
    }
    before = last;
    last = next;
  }
  return last[b.length] ?? 0;
}
