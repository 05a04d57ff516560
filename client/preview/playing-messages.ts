import { type PerformanceAnswer, readPerformanceAnswer, readPieceKind } from '../../server/protocol/playing.ts';
import { readCount, readFields } from '../../server/protocol/read.ts';

/** What the panel tells its page about playing. */
export type PlayingToPage =
  /** What is to be played. `ask` has the number of the page's own question; absent where the editor's cursor asks. */
  | { readonly kind: 'performance'; readonly ask?: number; readonly answer: PerformanceAnswer }
  /** Silence, by a command. */
  | { readonly kind: 'stop-playing' };

/** What the page tells its panel about playing. */
export type PlayingFromPage =
  /** The title of an exercise, or a candidate for what the lesson asks, whose sound is asked for. */
  | {
      readonly kind: 'perform';
      readonly ask: number;
      readonly of: 'title' | 'candidate';
      readonly revision: number;
      readonly slot: number;
      readonly place: number;
    }
  /** The browser makes no sound before the reader has done something on the page: it is to have the keyboard. */
  | { readonly kind: 'held-back' };

/** Undefined for anything that is no message about playing. */
export function readPlayingFromPage(value: unknown): PlayingFromPage | undefined {
  const fields = readFields(value);
  if (fields?.kind === 'held-back') return { kind: 'held-back' };
  const ask = readCount(fields?.ask);
  const revision = readCount(fields?.revision);
  const slot = readCount(fields?.slot);
  const place = readCount(fields?.place);
  const of = readPieceKind(fields?.of);
  if (fields?.kind !== 'perform' || ask === undefined || of === undefined || revision === undefined) return undefined;
  return slot === undefined || place === undefined ? undefined : { kind: 'perform', ask, of, revision, slot, place };
}

/** Undefined for anything that is no message about playing. */
export function readPlayingToPage(value: unknown): PlayingToPage | undefined {
  const fields = readFields(value);
  if (fields?.kind === 'stop-playing') return { kind: 'stop-playing' };
  const answer = fields?.kind === 'performance' ? readPerformanceAnswer(fields.answer) : undefined;
  if (answer === undefined) return undefined;
  const ask = readCount(fields?.ask);
  return { kind: 'performance', answer, ...(ask === undefined ? {} : { ask }) };
}
