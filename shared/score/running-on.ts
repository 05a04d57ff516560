import { type ChordChange, chordAt } from '../lesson/model/chord-track.ts';
import { appliesTo, type Placement, sounds } from '../lesson/model/placements.ts';
import { compare, earlier, minus, plus, type Rational } from '../theory/rational.ts';
import { layerOf } from './held-sounds.ts';
import type { PlacedEvent } from './placed-events.ts';
import type { Layer, ScoreEvent } from './timeline.ts';

/** While patterns play on, from when until when. */
interface Stretch {
  readonly from: Rational;
  readonly end: Rational;
}

/**
 * The events, in order, with the length that they have where patterns follow each other: `.` at the head of the next pattern is no
 * new sound, so the last one goes on. Where no chord is played strokes and picking end, and at `breaks` every sound does.
 */
export function runOn(
  placed: readonly PlacedEvent[],
  placements: readonly Placement[],
  changes: readonly ChordChange[],
  breaks: readonly Rational[],
): readonly ScoreEvent[] {
  const silences = changes.filter(({ chord }) => chord === undefined).map(({ at }) => at);
  const playing: Readonly<Record<Layer, readonly Stretch[]>> = {
    tune: stretches(placements, 'tune'),
    accompaniment: stretches(placements, 'accompaniment'),
  };
  // The next mark of each voice, found from the end of the music on.
  const nextOf = new Map<string, Rational>();
  const lengthened: ScoreEvent[] = [];
  for (let index = placed.length - 1; index >= 0; index -= 1) {
    const one = placed[index];
    if (one === undefined) continue;
    const { event } = one;
    const layer = layerOf(event);
    const voice = voiceOf(event);
    if (one.unheard === true) {
      nextOf.set(voice, event.at);
      continue;
    }
    const written = plus(event.at, event.length);
    let end = written;
    const following = nextAfter(placed, index, voice, end, nextOf.get(voice));
    const isBroken = breaks.some((at) => compare(at, end) === 0);
    if (one.runsOn && sustains(event) && !isBroken) {
      const until = playingUntil(playing[layer], end);
      const next = [following, breaks.find((at) => compare(at, end) > 0)].filter((at) => at !== undefined);
      const most = until === undefined ? undefined : next.reduce(earlier, until);
      if (most !== undefined) end = withoutRow(placements, changes, layer, end, most) ?? most;
    }
    if (layer === 'accompaniment' && sustains(event)) {
      const silence = silences.find((at) => compare(at, event.at) > 0 && compare(at, end) < 0);
      if (silence !== undefined) end = silence;
    }
    lengthened.push(compare(end, written) === 0 ? event : { ...event, length: minus(end, event.at) });
    nextOf.set(voice, event.at);
  }
  return lengthened.reverse();
}

/** The first mark of the voice that is not before a time; `nearest` is the voice's first mark after this one. */
function nextAfter(
  placed: readonly PlacedEvent[],
  index: number,
  voice: string,
  time: Rational,
  nearest: Rational | undefined,
): Rational | undefined {
  if (nearest === undefined || compare(nearest, time) >= 0) return nearest;
  for (let later = index + 1; later < placed.length; later += 1) {
    const event = placed[later]?.event;
    if (event !== undefined && compare(event.at, time) >= 0 && voiceOf(event) === voice) return event.at;
  }
  return undefined;
}

function voiceOf(event: ScoreEvent): string {
  return 'layer' in event ? `${event.layer} ${event.voice ?? 1}` : 'accompaniment 1';
}

function sustains(event: ScoreEvent): boolean {
  return event.kind === 'notes' || (event.kind === 'strum' && !event.damped) || event.kind === 'roll';
}

/** Where patterns with a row for the layer follow each other without a gap. */
function stretches(placements: readonly Placement[], layer: Layer): readonly Stretch[] {
  const played = placements
    .filter(({ grid }) => grid.rows.some(({ kind }) => isOf(kind, layer)))
    .map(({ grid, start, from, end }): Stretch => ({ from, end: earlier(end, plus(start, grid.length)) }))
    .sort((a, b) => compare(a.from, b.from));
  const joined: { from: Rational; end: Rational }[] = [];
  for (const stretch of played) {
    const last = joined.at(-1);
    if (last === undefined || compare(stretch.from, last.end) > 0) joined.push({ ...stretch });
    else if (compare(stretch.end, last.end) > 0) last.end = stretch.end;
  }
  return joined;
}

function isOf(kind: Placement['grid']['rows'][number]['kind'], layer: Layer): boolean {
  return layer === 'tune' ? kind === 'tune' : kind === 'pick' || kind === 'strum' || kind === 'hit';
}

/** Until when patterns go on without a gap from a time. Undefined where none does. */
function playingUntil(stretches: readonly Stretch[], time: Rational): Rational | undefined {
  return stretches.find(({ from, end }) => compare(from, time) <= 0 && compare(end, time) > 0)?.end;
}

/** The first moment from `start` on, before `end`, at which no row is there for the chord: rows may be written for one chord only. */
function withoutRow(
  placements: readonly Placement[],
  changes: readonly ChordChange[],
  layer: Layer,
  start: Rational,
  end: Rational,
): Rational | undefined {
  const inside = changes.filter(({ at }) => compare(at, start) > 0 && compare(at, end) < 0).map(({ at }) => at);
  return [start, ...inside].find((at) => !playsAt(placements, changes, layer, at));
}

/** True where a pattern has a row of the layer for the chord that is held at a time. */
export function playsAt(
  placements: readonly Placement[],
  changes: readonly ChordChange[],
  layer: Layer,
  at: Rational,
): boolean {
  const chord = chordAt(changes, at);
  return placements.some(
    (placement) =>
      sounds(placement, at) &&
      placement.grid.rows.some((row) => isOf(row.kind, layer) && appliesTo(row, chord, placement.grid)),
  );
}
