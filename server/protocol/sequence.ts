/**
 * How one sequence of blocks becomes the next, told so that the page can keep its elements: focus, selection, the cursor's
 * mark and the last good drawing belong to a *slot*, and a slot stays when only its content changes.
 *
 * Operations are read from left to right while a walker steps through the old slots. Slots that some `move` names are
 * passed over by the walker, since they turn up where the `move` stands.
 */
export type Operation<B> =
  /** The next `count` slots stay as they are. */
  | { readonly kind: 'keep'; readonly count: number }
  /** The next slot stays and shows this block from now on. */
  | { readonly kind: 'replace'; readonly block: B }
  /** A new slot comes here. */
  | { readonly kind: 'insert'; readonly block: B }
  /** The next `count` slots go. */
  | { readonly kind: 'remove'; readonly count: number }
  /** The slot that had the index `from` comes here with its content. */
  | { readonly kind: 'move'; readonly from: number };

/** What the comparison looks at: equal ids mean equal drawings; slots are only handed on between blocks of one kind. */
export interface Comparable {
  readonly id: string;
  readonly kind: string;
}

/** The operations that turn `before` into `after`. Work grows with the blocks between the common head and tail, n log n. */
export function operationsBetween<B extends Comparable>(
  before: readonly Comparable[],
  after: readonly B[],
): readonly Operation<B>[] {
  let head = 0;
  while (head < before.length && head < after.length && before[head]?.id === after[head]?.id) head += 1;
  let tail = 0;
  const shorter = Math.min(before.length, after.length) - head;
  while (tail < shorter && before[before.length - 1 - tail]?.id === after[after.length - 1 - tail]?.id) tail += 1;

  const middle = between(before, after, head, tail);
  return joined([{ kind: 'keep', count: head }, ...middle, { kind: 'keep', count: tail }]);
}

function between<B extends Comparable>(
  before: readonly Comparable[],
  after: readonly B[],
  head: number,
  tail: number,
): readonly Operation<B>[] {
  const beforeEnd = before.length - tail;
  const arriving = after.slice(head, after.length - tail);
  const partners = partnersOf(before, arriving, head, beforeEnd);
  const staying = new Set(longestRising(partners));
  const moved = new Set(partners.filter((from): from is number => from !== undefined && !staying.has(from)));

  const operations: Operation<B>[] = [];
  let walker = head;
  // The old slots before `until` that nobody takes over must give room or take new content; new blocks wait in `waiting`.
  const fillGap = (until: number, waiting: readonly B[]): void => {
    let next = 0;
    for (; walker < until; walker += 1) {
      if (moved.has(walker)) continue;
      const block = waiting[next];
      if (block !== undefined && block.kind === before[walker]?.kind) {
        operations.push({ kind: 'replace', block });
        next += 1;
      } else {
        operations.push({ kind: 'remove', count: 1 });
      }
    }
    for (const block of waiting.slice(next)) operations.push({ kind: 'insert', block });
  };

  let waiting: B[] = [];
  arriving.forEach((block, index) => {
    const from = partners[index];
    if (from === undefined) {
      waiting.push(block);
    } else if (staying.has(from)) {
      fillGap(from, waiting);
      waiting = [];
      operations.push({ kind: 'keep', count: 1 });
      walker = from + 1;
    } else {
      // What waits comes before the moved slot, but no old slot is given up for it yet: more may follow.
      for (const earlier of waiting) operations.push({ kind: 'insert', block: earlier });
      waiting = [];
      operations.push({ kind: 'move', from });
    }
  });
  fillGap(beforeEnd, waiting);
  return operations;
}

/** For every arriving block the old index of its like, twins taken in order; undefined where there was none. */
function partnersOf(
  before: readonly Comparable[],
  arriving: readonly Comparable[],
  start: number,
  end: number,
): readonly (number | undefined)[] {
  const indexesOf = new Map<string, number[]>();
  for (let index = end - 1; index >= start; index -= 1) {
    const id = before[index]?.id;
    if (id === undefined) continue;
    const indexes = indexesOf.get(id);
    if (indexes === undefined) indexesOf.set(id, [index]);
    else indexes.push(index);
  }
  return arriving.map((block) => indexesOf.get(block.id)?.pop());
}

/** The longest rising run within the numbers given, gaps passed over: these slots can stay where they are. */
function longestRising(numbers: readonly (number | undefined)[]): readonly number[] {
  // ends[k] is the smallest number that a rising run of k + 1 members can end with; before.get(n) is the member below n.
  const ends: number[] = [];
  const below = new Map<number, number | undefined>();
  for (const number of numbers) {
    if (number === undefined) continue;
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const half = (low + high) >> 1;
      if ((ends[half] ?? 0) < number) low = half + 1;
      else high = half;
    }
    below.set(number, ends[low - 1]);
    ends[low] = number;
  }
  const run: number[] = [];
  for (let member = ends.at(-1); member !== undefined; member = below.get(member)) run.push(member);
  return run.reverse();
}

function joined<B>(operations: readonly Operation<B>[]): readonly Operation<B>[] {
  const result: Operation<B>[] = [];
  for (const operation of operations) {
    const last = result.at(-1);
    if (operation.kind === 'keep' && operation.count === 0) continue;
    if (operation.kind === 'keep' && last?.kind === 'keep') {
      result[result.length - 1] = { kind: 'keep', count: last.count + operation.count };
    } else if (operation.kind === 'remove' && last?.kind === 'remove') {
      result[result.length - 1] = { kind: 'remove', count: last.count + operation.count };
    } else {
      result.push(operation);
    }
  }
  return result;
}

/** What became of a sequence of slots: which slot takes which block, and which slots are no longer needed. */
export interface Rearranged<S, B> {
  /** The slots in their new order; a place without `slot` needs a new one, a place with `block` shows new content. */
  readonly places: readonly { readonly slot?: S; readonly block?: B }[];
  readonly gone: readonly S[];
  /** Slots whose order among the others has changed; all others can stand where they stand. */
  readonly moved: readonly S[];
}

/** Reads operations against the slots held; undefined when they do not fit these slots, so that a full picture is needed. */
export function rearrange<S, B>(
  slots: readonly S[],
  operations: readonly Operation<B>[],
): Rearranged<S, B> | undefined {
  const moved = new Set<number>();
  for (const operation of operations) {
    if (operation.kind !== 'move') continue;
    if (moved.has(operation.from) || slots[operation.from] === undefined) return undefined;
    moved.add(operation.from);
  }
  const places: { slot?: S; block?: B }[] = [];
  const gone: S[] = [];
  const movedSlots: S[] = [];
  let walker = 0;
  const next = (): S | undefined => {
    while (moved.has(walker)) walker += 1;
    const slot = slots[walker];
    walker += 1;
    return slot;
  };
  for (const operation of operations) {
    if (operation.kind === 'insert') {
      places.push({ block: operation.block });
    } else if (operation.kind === 'move') {
      const slot = slots[operation.from];
      if (slot === undefined) return undefined;
      places.push({ slot });
      movedSlots.push(slot);
    } else {
      const count = operation.kind === 'replace' ? 1 : operation.count;
      for (let taken = 0; taken < count; taken += 1) {
        const slot = next();
        if (slot === undefined) return undefined;
        if (operation.kind === 'remove') gone.push(slot);
        else places.push(operation.kind === 'replace' ? { slot, block: operation.block } : { slot });
      }
    }
  }
  return next() === undefined ? { places, gone, moved: movedSlots } : undefined;
}
