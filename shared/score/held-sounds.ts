import { type Rational, ZERO } from '../theory/rational.ts';
import type { Layer, ScoreEvent } from './timeline.ts';

/** A sound of the bar before that goes on over the bar line. */
export type HeldEvent = Extract<ScoreEvent, { kind: 'held' }>;

/** True for what rings after it is struck. */
export function lasts(event: ScoreEvent): boolean {
  return (
    event.kind === 'notes' ||
    (event.kind === 'strum' && !event.damped) ||
    event.kind === 'roll' ||
    event.kind === 'shape-slide'
  );
}

/** The sound in a bar that it goes on in. */
export function heldOf(event: ScoreEvent, length: Rational, goesOn: { readonly goesOn?: true }): HeldEvent {
  const voice = (event.kind === 'notes' || event.kind === 'held') && event.voice !== undefined;
  return {
    kind: 'held',
    layer: layerOf(event),
    ...(voice ? { voice: event.voice } : {}),
    at: ZERO,
    length,
    ...goesOn,
    source: event.source,
  };
}

export function layerOf(event: ScoreEvent): Layer {
  return 'layer' in event ? event.layer : 'accompaniment';
}

/** True where another sound is of the row of rhythm in which one is held. */
export function isOfLine(other: ScoreEvent, held: HeldEvent): boolean {
  if (layerOf(other) !== held.layer) return false;
  return held.voice === undefined || !('voice' in other) || other.voice === held.voice;
}
