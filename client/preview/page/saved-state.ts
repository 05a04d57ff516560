import { readCount, readFields, readText } from '../../../server/protocol/read.ts';

/** What the page keeps over a reload of the window. The panel reads `uri` from it to know which lesson it belongs to. */
export interface SavedState {
  readonly uri: string;
  /** How large a millimetre is drawn; 1 is life-size by the measure of CSS. */
  readonly zoom: number;
  readonly edition?: string;
  /** Absent while the reader goes by the setting. */
  readonly leftHanded?: boolean;
  /** The block at the top of the window and how far its top lies above the window's. Unit: CSS pixels. */
  readonly anchor?: { readonly slot: number; readonly abovePx: number };
}

/** The state as saved for this lesson; what is missing or malformed is left out. */
export function readSavedState(value: unknown, uri: string): SavedState {
  const fields = readFields(value);
  const edition = readText(fields?.edition);
  const anchor = readFields(fields?.anchor);
  const slot = readCount(anchor?.slot);
  const abovePx = anchor?.abovePx;
  const zoom = fields?.zoom;
  return {
    uri,
    zoom: typeof zoom === 'number' && zoom >= 0.5 && zoom <= 3 ? zoom : 1,
    ...(edition === undefined ? {} : { edition }),
    ...(typeof fields?.leftHanded === 'boolean' ? { leftHanded: fields.leftHanded } : {}),
    ...(slot !== undefined && typeof abovePx === 'number' ? { anchor: { slot, abovePx } } : {}),
  };
}
