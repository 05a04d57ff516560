import { HAND_OUT_KINDS, type HandOutKind } from '../../shared/export/hand-out/hand-out-choice.ts';

/** The kinds that have a writer: the page has none yet. */
export const WRITABLE_KINDS: readonly HandOutKind[] = HAND_OUT_KINDS.filter((kind) => kind !== 'page');
