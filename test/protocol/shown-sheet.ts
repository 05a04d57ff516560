import type { SheetUpdate, WireBlock } from '../../server/protocol/preview.ts';
import { rearrange } from '../../server/protocol/sequence.ts';

/** A sheet as a page shows it: what it has been sent, put together. */
export interface ShownSheet {
  readonly revision: number;
  readonly version: number;
  readonly blocks: readonly WireBlock[];
}

/** What the page shows after an update; undefined where the update does not fit and it would ask for a full sheet. */
export function shownAfter(before: ShownSheet | undefined, update: SheetUpdate): ShownSheet | undefined {
  const { revision, version } = update;
  if (update.kind === 'full') return { revision, version, blocks: update.blocks };
  if (before?.revision !== update.from) return undefined;
  const next = rearrange(before.blocks, update.operations);
  if (next === undefined) return undefined;
  return { revision, version, blocks: next.places.flatMap(({ slot, block }) => block ?? slot ?? []) };
}

/** The sheet after all these updates in order. */
export function shownAfterAll(updates: readonly SheetUpdate[]): ShownSheet | undefined {
  return updates.reduce<ShownSheet | undefined>(shownAfter, undefined);
}
