import type { BlockKind, SheetView } from '../../shared/engrave/block.ts';
import type { Operation } from './sequence.ts';

/**
 * What the editor's side and the server say about a sheet beside a lesson. A *subscription* is one panel: one lesson, looked
 * at in one way. The server remembers what it last sent to each and sends what has changed since.
 *
 * No table of source spans goes over the wire. A new line at the top shifts every span of the lesson, so such a table would
 * grow with the file on every key. The page reports slot, place and revision instead, and the server, which knows the spans
 * of exactly that picture, answers where it comes from; likewise for the block under the cursor.
 */
export const PREVIEW_METHOD = {
  /** Notification to the server: `Subscribe`. */
  subscribe: 'handspan/preview/subscribe',
  /** Notification to the server: `Unsubscribe`. */
  unsubscribe: 'handspan/preview/unsubscribe',
  /** Notification from the server: `Update`. */
  update: 'handspan/preview/update',
  /** Request to the server: `SourceQuestion` to `SourceAnswer`. */
  source: 'handspan/preview/source',
  /** Request to the server: `LocateQuestion` to `LocateAnswer`. */
  locate: 'handspan/preview/locate',
  /** Request to the server: `WriteQuestion` to `WriteAnswer`. */
  write: 'handspan/preview/write',
} as const;

/** Asks for a sheet, also again: for another view, or with no `holds` when the page is new or has lost step. */
export interface Subscribe {
  /** Chosen by the asking side, one for each panel. */
  readonly id: string;
  readonly uri: string;
  readonly view: SheetView;
  /** The revision that the page shows now. A full picture is sent when it is absent or not the newest. */
  readonly holds?: number;
}

export interface Unsubscribe {
  readonly id: string;
}

export interface WireBlock {
  readonly kind: BlockKind;
  /** A well-formed XML fragment with one root element. */
  readonly markup: string;
  /** Present when this is the last good drawing of a text that is broken now: what is wrong, in a sentence. */
  readonly stale?: string;
}

/** A form of the lesson that the reader may choose; the lesson's own comes first. */
export interface EditionChoice {
  /** What the view calls it. */
  readonly name: string;
  readonly label: string;
}

/** `revision` counts what was sent on this subscription; `version` is the version of the lesson's text. */
export type SheetUpdate =
  | {
      readonly kind: 'full';
      readonly revision: number;
      readonly version: number;
      readonly blocks: readonly WireBlock[];
      readonly editions: readonly EditionChoice[];
    }
  | {
      readonly kind: 'patch';
      readonly from: number;
      readonly revision: number;
      readonly version: number;
      readonly operations: readonly Operation<WireBlock>[];
      /** Present when the editions have changed. */
      readonly editions?: readonly EditionChoice[];
    };

export interface Update {
  readonly id: string;
  readonly update: SheetUpdate;
}

/** Where does this come from? Asked when the reader clicks on the sheet. */
export interface SourceQuestion {
  readonly id: string;
  readonly revision: number;
  readonly slot: number;
  /** The number of the marked element within the block; absent for the block as a whole. */
  readonly place?: number;
}

export interface TextPosition {
  readonly line: number;
  readonly character: number;
}

/** `outdated`: the picture asked about is no longer the newest, which is not the same as `unknown`. */
export type SourceAnswer =
  | { readonly kind: 'found'; readonly uri: string; readonly start: TextPosition; readonly end: TextPosition }
  | { readonly kind: 'outdated' }
  | { readonly kind: 'unknown' };

/** Which block does the cursor stand in? */
export interface LocateQuestion {
  readonly id: string;
  readonly position: TextPosition;
}

export type LocateAnswer =
  | {
      readonly kind: 'block';
      readonly revision: number;
      readonly slot: number;
      /** The marked element within the block, where the block is a whole page. */
      readonly place?: number;
    }
  /** The cursor stands where no block comes from. */
  | { readonly kind: 'outside'; readonly revision: number }
  /** No such subscription, or nothing was sent to it yet. */
  | { readonly kind: 'unknown' };

/** What writes this candidate into the lesson? Asked when the reader presses its control. */
export interface WriteQuestion {
  readonly id: string;
  readonly revision: number;
  readonly slot: number;
  /** The number of the candidate, as its control has it. */
  readonly choice: number;
}

export interface WireEdit {
  readonly range: { readonly start: TextPosition; readonly end: TextPosition };
  readonly newText: string;
}

/** The edits are for this version of the text, and are to be made together. `outdated`: what was shown is not found any more. */
export type WriteAnswer =
  | { readonly kind: 'edits'; readonly uri: string; readonly version: number; readonly edits: readonly WireEdit[] }
  | { readonly kind: 'outdated' }
  | { readonly kind: 'unknown' };
