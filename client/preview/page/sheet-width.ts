import { SHEET_WIDTH_MM } from '../../../server/protocol/read.ts';
import { PX_PER_MM } from './fragment.ts';

/** Widths are asked for in steps, so that dragging the pane's edge does not lay the sheet out anew for every pixel. Unit: mm. */
const STEP_MM = 10;

/** The width to lay lines out for in a pane that has this much room for them. */
export function sheetWidthMm(roomPx: number, zoom: number): number {
  const steps = Math.floor(roomPx / (PX_PER_MM * zoom) / STEP_MM);
  return Math.min(SHEET_WIDTH_MM.most, Math.max(SHEET_WIDTH_MM.least, steps * STEP_MM));
}
