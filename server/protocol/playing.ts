import type { Performance } from '../../shared/score/performance.ts';
import type { TextPosition } from './preview.ts';
import { readCount, readFields, readText } from './read.ts';

/** Request to the server: `PerformanceQuestion` to `PerformanceAnswer`. */
export const PERFORMANCE_METHOD = 'handspan/preview/performance';

/**
 * What is to be played: an exercise by its title on the sheet, one of the candidates for what the lesson asks, or what stands where the
 * cursor is, or is selected, in the lesson.
 */
export type PerformanceQuestion =
  | {
      readonly kind: 'title';
      /** The subscription whose page asks, so that its edition is played. */
      readonly id: string;
      readonly revision: number;
      readonly slot: number;
      readonly place: number;
    }
  /** `place` is the number of the candidate, from 0, and `slot` its block. */
  | {
      readonly kind: 'candidate';
      readonly id: string;
      readonly revision: number;
      readonly slot: number;
      readonly place: number;
    }
  | { readonly kind: 'selection'; readonly id: string; readonly start: TextPosition; readonly end: TextPosition };

/** `outdated`: the picture asked about is no longer the newest. `nothing`: there is nothing to be heard, and why. */
export type PerformanceAnswer =
  | {
      readonly kind: 'found';
      readonly performance: Performance;
      /** The title of the exercise on the newest sheet, or the candidate. */
      readonly revision: number;
      readonly slot: number;
      readonly place: number;
      /** The bars performed where the cursor is or that are selected, up to and not with the last. */
      readonly from: number;
      readonly to: number;
      /** True where several bars were selected, to be looped. */
      readonly selected: boolean;
    }
  | { readonly kind: 'nothing'; readonly sentence: string }
  | { readonly kind: 'outdated' }
  | { readonly kind: 'unknown' };

/** The question as it came in; undefined when it is malformed. */
export function readPerformanceQuestion(value: unknown): PerformanceQuestion | undefined {
  const fields = readFields(value);
  const id = readText(fields?.id);
  if (id === undefined) return undefined;
  if (fields?.kind === 'selection') {
    const start = readTextPosition(fields.start);
    const end = readTextPosition(fields.end);
    return start === undefined || end === undefined ? undefined : { kind: 'selection', id, start, end };
  }
  const revision = readCount(fields?.revision);
  const slot = readCount(fields?.slot);
  const place = readCount(fields?.place);
  const kind = readPieceKind(fields?.kind);
  if (kind === undefined || revision === undefined || slot === undefined || place === undefined) return undefined;
  return { kind, id, revision, slot, place };
}

/** What can be played by a press on the sheet. */
export function readPieceKind(value: unknown): 'title' | 'candidate' | undefined {
  return value === 'title' || value === 'candidate' ? value : undefined;
}

function readTextPosition(value: unknown): TextPosition | undefined {
  const fields = readFields(value);
  const line = readCount(fields?.line);
  const character = readCount(fields?.character);
  return line === undefined || character === undefined ? undefined : { line, character };
}

/** An answer as it reaches the page; undefined when it lacks what it must have. The performance is written by our own server. */
export function readPerformanceAnswer(value: unknown): PerformanceAnswer | undefined {
  const fields = readFields(value);
  switch (fields?.kind) {
    case 'found': {
      const counts = [fields.revision, fields.slot, fields.place, fields.from, fields.to].map(readCount);
      const isWhole = counts.every((count) => count !== undefined) && readFields(fields.performance) !== undefined;
      return isWhole ? (value as PerformanceAnswer) : undefined;
    }
    case 'nothing': {
      const sentence = readText(fields.sentence);
      return sentence === undefined ? undefined : { kind: 'nothing', sentence };
    }
    case 'outdated':
    case 'unknown':
      return { kind: fields.kind };
    default:
      return undefined;
  }
}
