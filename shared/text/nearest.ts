import { begunNames } from './begun.ts';

/** A beginning of fewer letters says too little of what is meant. Common practice, no source. */
const SHORTEST_BEGINNING = 2;

/**
 * The name nearest to a slip of the pen: the only one that the word begins (`pat` is pattern, though part is one letter away), else the
 * one with fewest letters added, left out, changed or swapped, at most a third of the word. Undefined when nothing is near enough to be
 * meant. Distance: Damerau–Levenshtein, optimal string alignment.
 */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const wanted = word.toLowerCase();
  const names = [...new Set(known)];
  if (!names.some((name) => name.toLowerCase() === wanted) && word.length >= SHORTEST_BEGINNING) {
    const [only, ...others] = begunNames(word, names);
    if (only !== undefined && others.length === 0) return only;
  }
  let best: string | undefined;
  let bestDistance = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const name of names) {
    if (Math.abs(name.length - word.length) >= bestDistance) continue;
    const distance = editDistance(wanted, name.toLowerCase());
    if (distance < bestDistance) {
      best = name;
      bestDistance = distance;
    }
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(at(last, column) + 1, at(current, column - 1) + 1, at(last, column - 1) + (same ? 0 : 1));
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, at(beforeLast, column - 2) + 1);
      }
      current.push(cost);
    }
    beforeLast = last;
    last = current;
  }
  return at(last, b.length);
}

function at(row: readonly number[], column: number): number {
  return row[column] ?? Number.POSITIVE_INFINITY;
}
