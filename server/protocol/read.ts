import type { PaperChoice, SheetView } from '../../shared/engrave/block.ts';
import type { LocateQuestion, SourceQuestion, Subscribe, TextPosition, Unsubscribe, WriteQuestion } from './preview.ts';

/** Narrowest and widest sheet that is laid out. Unit: mm. A4 without its margins is 190; less than 50 holds no bar. */
export const SHEET_WIDTH_MM = { least: 50, most: 190 } as const;

const PAPER_NAMES: readonly PaperChoice['paper'][] = ['a4', 'letter'];
const PRINT_SIZES: readonly PaperChoice['print'][] = ['normal', 'large', 'one-page'];

export type Fields = Readonly<Record<string, unknown>>;

/** The value as named fields; undefined when it is anything else. */
export function readFields(value: unknown): Fields | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : undefined;
}

/** A whole number from 0 on; undefined when it is anything else. */
export function readCount(value: unknown): number | undefined {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 0 ? value : undefined;
}

export function readText(value: unknown): string | undefined {
  return typeof value === 'string' ? value : undefined;
}

/** A view of a sheet, its width brought into the range that can be laid out; undefined when it is malformed. */
export function readView(value: unknown): SheetView | undefined {
  const fields = readFields(value);
  if (fields === undefined || typeof fields.leftHanded !== 'boolean') return undefined;
  const width = fields.widthMm;
  if (typeof width !== 'number' || !Number.isFinite(width)) return undefined;
  const widthMm = Math.min(SHEET_WIDTH_MM.most, Math.max(SHEET_WIDTH_MM.least, width));
  const edition = readText(fields.edition);
  const page = readPaper(fields.page);
  return {
    widthMm,
    leftHanded: fields.leftHanded,
    ...(edition === undefined ? {} : { edition }),
    ...(page === undefined ? {} : { page }),
    ...(fields.dots === 'roles' ? { dots: 'roles' as const } : {}),
  };
}

/** A paper and a size of print; undefined when it is anything else. */
export function readPaper(value: unknown): PaperChoice | undefined {
  const fields = readFields(value);
  const paper = PAPER_NAMES.find((name) => name === fields?.paper);
  const print = PRINT_SIZES.find((name) => name === fields?.print);
  return paper === undefined || print === undefined ? undefined : { paper, print };
}

export function readSubscribe(value: unknown): Subscribe | undefined {
  const fields = readFields(value);
  const id = readText(fields?.id);
  const uri = readText(fields?.uri);
  const view = readView(fields?.view);
  if (id === undefined || uri === undefined || view === undefined) return undefined;
  const holds = readCount(fields?.holds);
  return { id, uri, view, ...(holds === undefined ? {} : { holds }) };
}

export function readUnsubscribe(value: unknown): Unsubscribe | undefined {
  const id = readText(readFields(value)?.id);
  return id === undefined ? undefined : { id };
}

export function readSourceQuestion(value: unknown): SourceQuestion | undefined {
  const fields = readFields(value);
  const id = readText(fields?.id);
  const revision = readCount(fields?.revision);
  const slot = readCount(fields?.slot);
  if (id === undefined || revision === undefined || slot === undefined) return undefined;
  const place = readCount(fields?.place);
  return { id, revision, slot, ...(place === undefined ? {} : { place }) };
}

export function readWriteQuestion(value: unknown): WriteQuestion | undefined {
  const fields = readFields(value);
  const id = readText(fields?.id);
  const revision = readCount(fields?.revision);
  const slot = readCount(fields?.slot);
  const choice = readCount(fields?.choice);
  if (id === undefined || revision === undefined || slot === undefined || choice === undefined) return undefined;
  return { id, revision, slot, choice };
}

export function readLocateQuestion(value: unknown): LocateQuestion | undefined {
  const fields = readFields(value);
  const id = readText(fields?.id);
  const position = readPosition(fields?.position);
  return id === undefined || position === undefined ? undefined : { id, position };
}

function readPosition(value: unknown): TextPosition | undefined {
  const fields = readFields(value);
  const line = readCount(fields?.line);
  const character = readCount(fields?.character);
  return line === undefined || character === undefined ? undefined : { line, character };
}
