import { compare, plus } from '../theory/rational.ts';
import type { PlacedEvent } from './placed-events.ts';
import type { ScoreEvent } from './timeline.ts';

/**
 * A tune note has its string to itself until the next mark of its row: picking that takes its fret from the shape leaves the string
 * out, and a strum meets it at the fret of the tune. A note that is written with its own fret stands. Events in order of time.
 */
export function yieldToTune(placed: readonly PlacedEvent[]): readonly PlacedEvent[] {
  const tune = placed.filter(({ event }) => event.kind === 'notes' && event.layer === 'tune');
  if (tune.length === 0 || tune.length === placed.length) return placed;
  const kept: PlacedEvent[] = [];
  let sounding: PlacedEvent[] = [];
  let following = 0;
  for (const one of placed) {
    const { event } = one;
    for (let next = tune[following]; next !== undefined && compare(next.event.at, event.at) <= 0; ) {
      sounding.push(next);
      following += 1;
      next = tune[following];
    }
    sounding = sounding.filter((note) => compare(plus(note.event.at, note.event.length), event.at) > 0);
    const owned = ownedBy(sounding);
    if (event.kind === 'strum') kept.push({ ...one, event: { ...event, notes: overTune(event.notes, owned) } });
    else if (event.kind === 'notes' && event.layer === 'accompaniment' && one.fromShape) {
      const notes = event.notes.filter(({ string }) => !owned.has(string));
      if (notes.length > 0)
        kept.push(notes.length === event.notes.length ? one : { ...one, event: { ...event, notes } });
      else lengthenLast(kept, one);
    } else kept.push(one);
  }
  return kept;
}

/** The strings that tune notes have, with their frets. */
function ownedBy(sounding: readonly PlacedEvent[]): ReadonlyMap<number, number> {
  return new Map(
    sounding.flatMap(({ event }) =>
      event.kind === 'notes' ? event.notes.map(({ string, fret }): [number, number] => [string, fret]) : [],
    ),
  );
}

function overTune(
  notes: readonly { readonly string: number; readonly fret: number }[],
  owned: ReadonlyMap<number, number>,
): Extract<ScoreEvent, { kind: 'strum' }>['notes'] {
  return notes.map((note) => ({ ...note, fret: owned.get(note.string) ?? note.fret }));
}

/** What sounded before a mark that is left out goes on in its place. */
function lengthenLast(kept: PlacedEvent[], { event: left, runsOn }: PlacedEvent): void {
  if (left.kind !== 'notes') return;
  const place = kept.findLastIndex(
    ({ event }) => event.kind === 'notes' && event.layer === left.layer && event.voice === left.voice,
  );
  const last = kept[place];
  if (last === undefined || compare(plus(last.event.at, last.event.length), left.at) !== 0) return;
  kept[place] = { ...last, runsOn, event: { ...last.event, length: plus(last.event.length, left.length) } };
}
