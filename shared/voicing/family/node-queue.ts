import type { Way } from './relaxed-way.ts';

/** Part of all ways through a progression, and the best through it while chords may change from place to place. */
export interface Node {
  /** The choices that are left, by chord. */
  readonly domains: readonly Int32Array[];
  readonly way: Way;
  /** Of equals the older one comes first, so that the same question always gets the same answer. */
  readonly age: number;
}

function isWorse(one: Node, other: Node): boolean {
  return one.way.cost > other.way.cost || (one.way.cost === other.way.cost && one.age > other.age);
}

/** Puts one more into a heap: none is worse than the two at twice its place. */
export function push(heap: Node[], item: Node): void {
  let at = heap.push(item) - 1;
  while (at > 0) {
    const up = (at - 1) >> 1;
    const above = heap[up];
    if (above === undefined || !isWorse(above, item)) break;
    heap[at] = above;
    at = up;
  }
  heap[at] = item;
}

/** Takes the best one out of a heap; nothing where it is empty. */
export function pop(heap: Node[]): Node | undefined {
  const best = heap[0];
  const last = heap.pop();
  if (best === undefined || last === undefined || heap.length === 0) return best;
  let at = 0;
  for (;;) {
    let down = 2 * at + 1;
    const left = heap[down];
    if (left === undefined) break;
    const right = heap[down + 1];
    if (right !== undefined && isWorse(left, right)) down += 1;
    const below = heap[down];
    if (below === undefined || !isWorse(last, below)) break;
    heap[at] = below;
    at = down;
  }
  heap[at] = last;
  return best;
}
