import type { SheetUpdate } from '../../server/protocol/preview.ts';
import { readCount, readFields, readText, readView } from '../../server/protocol/read.ts';
import type { SheetView } from '../../shared/engrave/block.ts';

/** What the panel tells its page. */
export type ToPage =
  | { readonly kind: 'sheet'; readonly update: SheetUpdate }
  /** The block that the cursor stands in, if any; `reveal` when the reader has moved the cursor by a gesture. */
  | {
      readonly kind: 'cursor';
      readonly revision: number;
      readonly slot?: number;
      /** The marked element within the block, where the block is a whole page. */
      readonly place?: number;
      readonly reveal: boolean;
    }
  /** The panel shows another lesson from here on. */
  | { readonly kind: 'lesson'; readonly uri: string }
  /** Questions and what was found stand on the flowing sheet of the lesson's own instrument: the page turns to it. */
  | { readonly kind: 'own-sheet' }
  /** The setting for readers who have not chosen on the page. */
  | { readonly kind: 'left-handed-setting'; readonly leftHanded: boolean }
  /** A sentence about the panel itself, shown above the sheet until the next sheet. */
  | { readonly kind: 'notice'; readonly sentence: string };

/** What the page tells its panel. */
export type FromPage =
  /** How it wants to see the sheet, on its start and on every change. No `holds`: it shows nothing, or has lost step. */
  | { readonly kind: 'look'; readonly view: SheetView; readonly holds?: number }
  /** The reader has picked a place, to be shown in the lesson. */
  | { readonly kind: 'follow'; readonly revision: number; readonly slot: number; readonly place?: number }
  /** The reader has chosen something that was found, to be written into the lesson. */
  | { readonly kind: 'write'; readonly revision: number; readonly slot: number; readonly choice: number }
  /** The reader has touched the sheet: from here on the keyboard may be meant for it. */
  | { readonly kind: 'touched' }
  /** Whether the panel stays with its lesson when another one is opened. Told on the page's start and on every change. */
  | { readonly kind: 'pin'; readonly pinned: boolean };

/** Messages enter here; undefined for anything that is not one of ours. */
export function readFromPage(value: unknown): FromPage | undefined {
  const fields = readFields(value);
  switch (fields?.kind) {
    case 'look': {
      const view = readView(fields.view);
      const holds = readCount(fields.holds);
      return view === undefined ? undefined : { kind: 'look', view, ...(holds === undefined ? {} : { holds }) };
    }
    case 'follow': {
      const revision = readCount(fields.revision);
      const slot = readCount(fields.slot);
      const place = readCount(fields.place);
      if (revision === undefined || slot === undefined) return undefined;
      return { kind: 'follow', revision, slot, ...(place === undefined ? {} : { place }) };
    }
    case 'write': {
      const revision = readCount(fields.revision);
      const slot = readCount(fields.slot);
      const choice = readCount(fields.choice);
      if (revision === undefined || slot === undefined || choice === undefined) return undefined;
      return { kind: 'write', revision, slot, choice };
    }
    case 'touched':
      return { kind: 'touched' };
    case 'pin':
      return { kind: 'pin', pinned: fields.pinned === true };
    default:
      return undefined;
  }
}

/** Messages enter the page here. The sheet itself is checked where its operations are read against the slots. */
export function readToPage(value: unknown): ToPage | undefined {
  const fields = readFields(value);
  switch (fields?.kind) {
    case 'sheet': {
      const update = readUpdate(fields.update);
      return update === undefined ? undefined : { kind: 'sheet', update };
    }
    case 'cursor': {
      const revision = readCount(fields.revision);
      const slot = readCount(fields.slot);
      const place = readCount(fields.place);
      if (revision === undefined) return undefined;
      return {
        kind: 'cursor',
        revision,
        reveal: fields.reveal === true,
        ...(slot === undefined ? {} : { slot }),
        ...(place === undefined ? {} : { place }),
      };
    }
    case 'lesson': {
      const uri = readText(fields.uri);
      return uri === undefined ? undefined : { kind: 'lesson', uri };
    }
    case 'own-sheet':
      return { kind: 'own-sheet' };
    case 'left-handed-setting':
      return { kind: 'left-handed-setting', leftHanded: fields.leftHanded === true };
    case 'notice': {
      const sentence = readText(fields.sentence);
      return sentence === undefined ? undefined : { kind: 'notice', sentence };
    }
    default:
      return undefined;
  }
}

/** An update of a sheet; undefined when it lacks what it must have. Written by the server's own types, so not read deeper. */
export function readUpdate(value: unknown): SheetUpdate | undefined {
  const fields = readFields(value);
  if (readCount(fields?.revision) === undefined || typeof fields?.version !== 'number') return undefined;
  const isFull = fields.kind === 'full' && Array.isArray(fields.blocks);
  const isPatch = fields.kind === 'patch' && readCount(fields.from) !== undefined && Array.isArray(fields.operations);
  return isFull || isPatch ? (value as SheetUpdate) : undefined;
}
