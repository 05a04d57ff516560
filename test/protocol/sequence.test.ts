import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Operation, operationsBetween, rearrange } from '../../server/protocol/sequence.ts';

interface Piece {
  readonly id: string;
  readonly kind: string;
}

const pieces = (ids: string): readonly Piece[] =>
  [...ids].map((id) => ({ id, kind: id === id.toUpperCase() ? 'heading' : 'prose' }));

/** What a page would show that had the first sequence and read the operations. */
function patched(
  before: readonly Piece[],
  operations: readonly Operation<Piece>[],
): readonly (string | undefined)[] | undefined {
  return rearrange(before, operations)?.places.map(({ slot, block }) => (block ?? slot)?.id);
}

describe('from one sequence of blocks to the next', () => {
  test.each<[string, string, string, readonly string[]]>([
    ['nothing changed', 'abc', 'abc', ['keep 3']],
    ['one block edited keeps its slot', 'abc', 'axc', ['keep 1', 'replace x', 'keep 1']],
    ['a block typed in between', 'ab', 'axb', ['keep 1', 'insert x', 'keep 1']],
    ['a block deleted', 'abc', 'ac', ['keep 1', 'remove 1', 'keep 1']],
    ['a block carried down', 'abcd', 'bcda', ['keep 3', 'move 0']],
    ['a block carried up', 'abcd', 'dabc', ['move 3', 'keep 3']],
    ['the first of twins edited', 'aab', 'xab', ['replace x', 'keep 2']],
    ['another kind takes no slot over', 'aBc', 'axc', ['keep 1', 'remove 1', 'insert x', 'keep 1']],
    ['from nothing', '', 'ab', ['insert a', 'insert b']],
    ['to nothing', 'ab', '', ['remove 2']],
  ])('%s', (_name, before, after, expected) => {
    const operations = operationsBetween(pieces(before), pieces(after));
    expect(operations.map(told)).toEqual(expected);
    expect(patched(pieces(before), operations)).toEqual([...after]);
  });

  test('patching the old sequence equals the new one, and no slot is used twice', () => {
    const sequence = fc.array(fc.constantFrom(...'aabbcdefgHIJ'), { maxLength: 14 }).map((ids) => pieces(ids.join('')));
    fc.assert(
      fc.property(sequence, sequence, (before, after) => {
        const next = rearrange(before, operationsBetween(before, after));
        expect(next?.places.map(({ slot, block }) => (block ?? slot)?.id)).toEqual(after.map(({ id }) => id));
        const slots = [...(next?.places ?? []).flatMap(({ slot }) => slot ?? []), ...(next?.gone ?? [])];
        expect(new Set(slots).size).toBe(slots.length);
        expect(slots.length).toBe(before.length);
      }),
      { seed: 20, numRuns: 2000 },
    );
  });

  test.each<[string, string, readonly Operation<Piece>[]]>([
    ['too few slots', 'a', [{ kind: 'keep', count: 2 }]],
    ['slots left over', 'abc', [{ kind: 'keep', count: 2 }]],
    [
      'a slot moved twice',
      'ab',
      [
        { kind: 'move', from: 0 },
        { kind: 'move', from: 0 },
        { kind: 'keep', count: 1 },
      ],
    ],
    [
      'a slot moved that is not there',
      'ab',
      [
        { kind: 'move', from: 7 },
        { kind: 'keep', count: 2 },
      ],
    ],
  ])('operations that do not fit are refused: %s', (_name, before, operations) => {
    expect(rearrange(pieces(before), operations)).toBeUndefined();
  });
});

function told(operation: Operation<Piece>): string {
  switch (operation.kind) {
    case 'keep':
    case 'remove':
      return `${operation.kind} ${operation.count}`;
    case 'move':
      return `move ${operation.from}`;
    default:
      return `${operation.kind} ${operation.block.id}`;
  }
}
