import { readCount, readFields, readPaper, readText } from '../../../server/protocol/read.ts';
import type { PaperChoice } from '../../../shared/engrave/block.ts';

/** What the page keeps over a reload of the window. The panel reads `uri` from it to know which lesson it belongs to. */
export interface SavedState {
  readonly uri: string;
  /** How large a millimetre is drawn; 1 is life-size by the measure of CSS. */
  readonly zoom: number;
  readonly edition?: string;
  /** Absent while the reader goes by the setting. */
  readonly leftHanded?: boolean;
  /** Absent while the sheet flows. */
  readonly page?: PaperChoice;
  /** True where the dots of diagrams say tones in place of fingers. */
  readonly tones: boolean;
  /** True where the panel stays with its lesson when another one is opened. */
  readonly pinned: boolean;
  /** The block at the top of the window and how far its top lies above the window's. Unit: CSS pixels. */
  readonly anchor?: { readonly slot: number; readonly abovePx: number };
}

/**
 * The state as saved; what is missing or malformed is left out. The panel may have gone on to another lesson since the page was
 * written, so the lesson in the state counts before the page's own.
 */
export function readSavedState(value: unknown, uri: string): SavedState {
  const fields = readFields(value);
  const edition = readText(fields?.edition);
  const anchor = readFields(fields?.anchor);
  const slot = readCount(anchor?.slot);
  const abovePx = anchor?.abovePx;
  const zoom = fields?.zoom;
  const page = readPaper(fields?.page);
  return {
    uri: readText(fields?.uri) ?? uri,
    zoom: typeof zoom === 'number' && zoom >= 0.5 && zoom <= 3 ? zoom : 1,
    tones: fields?.tones === true,
    pinned: fields?.pinned === true,
    ...(edition === undefined ? {} : { edition }),
    ...(page === undefined ? {} : { page }),
    ...(typeof fields?.leftHanded === 'boolean' ? { leftHanded: fields.leftHanded } : {}),
    ...(slot !== undefined && typeof abovePx === 'number' ? { anchor: { slot, abovePx } } : {}),
  };
}
