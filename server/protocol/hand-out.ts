import type { HandOutChoice, HandOutKind, PictureFormat } from '../../shared/export/hand-out/hand-out-choice.ts';
import type { HandOutJob, Listed } from '../hand-out/desk.ts';

// Requests to the server. They carry the lesson's text, so that lessons that are not open are handed out too; the editor's side writes
// the files, since it alone reaches folders that are on no disk.

/** `{ text }` to `HandOutOffer`: what a lesson can be handed out as. */
export const HAND_OUT_OFFER_METHOD = 'handspan/handOutOffer';

/** `HandOutJob` to `ListedInFolder`: the files that it yields. */
export const HAND_OUT_LIST_METHOD = 'handspan/handOutList';

/** `HandOutFileQuestion` to `HandOutFileAnswer | null`: one of them; nothing where there is none of this name. */
export const HAND_OUT_FILE_METHOD = 'handspan/handOutFile';

export interface HandOutOffer {
  /** In a few words each. */
  readonly kinds: readonly { readonly kind: HandOutKind; readonly label: string }[];
  /** The lesson's own edition first. */
  readonly editions: readonly string[];
}

export interface ListedInFolder extends Listed {
  /** What the folder of the lesson's files is called. */
  readonly folder: string;
}

export interface HandOutFileQuestion {
  readonly job: HandOutJob;
  readonly name: string;
}

export interface HandOutFileAnswer {
  /** The bytes as base64: a message is text. */
  readonly base64: string;
  readonly remarks: readonly string[];
}

export type { HandOutChoice, HandOutJob, HandOutKind, PictureFormat };
